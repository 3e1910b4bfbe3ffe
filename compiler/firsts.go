package compiler

import (
	"slices"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/piecing"
	"seamwright/compiler/pressing"
	"seamwright/compiler/quilting"
	"seamwright/lang/problem"
)

// sew pieces and presses a pattern: what is sewn first is settled then.
func sew(r *eval.Result) (*piecing.Made, []problem.Problem) {
	made, problems := piecing.Make(r)
	if !problem.Failed(problems) {
		pressing.Press(&r.Pattern)
		if again, more := settle(r, made); again != nil {
			return again, more
		}
	}
	return made, problems
}

// settle begins sections that were found with other pieces, where pressing says that
// more seams nest then: nobody wrote in which order they are sewn. It lays the quilts
// out, and presses them. It returns nil where all stays as it was made.
//
// What nests within a block goes first. That a quilt has a say in it too means that a
// block's numbers may change when a quilt is added, as long as they are not written.
func settle(r *eval.Result, made *piecing.Made) (settled *piecing.Made, problems []problem.Problem) {
	if again, more := begunOtherwise(r, made); again != nil {
		made, settled, problems = again, again, more
	}
	blocks := slices.Clone(r.Pattern.Blocks) // without what the layout drops
	lay(r)
	if again, more := begunForQuilts(r, made, blocks); again != nil {
		settled, problems = again, more
	}
	return settled, problems
}

func lay(r *eval.Result) {
	quilting.Lay(&r.Pattern)
	pressing.PressQuilts(&r.Pattern)
}

// begunOtherwise begins sections with the pieces that pressing asks for. It is tried once, for
// all of them; where it is not better the pattern stays as it was, and nil is returned.
func begunOtherwise(r *eval.Result, made *piecing.Made) (*piecing.Made, []problem.Problem) {
	was := sizesOf(r.Pattern.Blocks)
	again, problems := made.Begin()
	if again == nil {
		return nil, nil
	}
	if !problem.Failed(problems) {
		pressing.Press(&r.Pattern)
		if fewer, ok := better(was, r.Pattern.Blocks); fewer && ok {
			return again, problems
		}
	}
	for b := range was {
		r.Pattern.Blocks[b].Sizes = was[b]
	}
	return nil, nil
}

// begunForQuilts does the same for the quilts that are laid out. Blocks are all there
// were before that.
func begunForQuilts(r *eval.Result, made *piecing.Made, blocks []pattern.Block) (*piecing.Made, []problem.Problem) {
	p := &r.Pattern
	if len(p.Quilts) == 0 || len(made.Drawings()) == 0 {
		return nil, nil
	}
	laid, quilts := p.Blocks, slices.Clone(p.Quilts)
	firsts := firstsOf(laid)
	if !pressing.QuiltFirsts(p) {
		return nil, nil
	}
	was := sizesOf(blocks)
	p.Blocks = slices.Clone(blocks)
	for b := range blocks {
		for i := range blocks[b].Sizes {
			if blocks[b].Reverses != "" { // its sections are those of the block that it reverses
				blocks[b].Sizes[i].Firsts = nil
			}
		}
	}
	again, problems := made.Begin()
	if again != nil && !problem.Failed(problems) {
		pressing.Press(p)
		_, ok := better(was, p.Blocks)
		if lay(r); ok && openedInQuilts(p.Quilts) < openedInQuilts(quilts) {
			return again, problems
		}
	}
	p.Blocks, p.Quilts = laid, quilts
	for b := range laid {
		for i := range laid[b].Sizes {
			laid[b].Sizes[i].Firsts = firsts[b][i]
		}
	}
	return nil, nil
}

func sizesOf(blocks []pattern.Block) [][]pattern.Sized {
	all := make([][]pattern.Sized, len(blocks))
	for b := range blocks {
		all[b] = blocks[b].Sizes
	}
	return all
}

func firstsOf(blocks []pattern.Block) [][][]pattern.First {
	all := make([][][]pattern.First, len(blocks))
	for b := range blocks {
		for i := range blocks[b].Sizes {
			all[b] = append(all[b], blocks[b].Sizes[i].Firsts)
		}
	}
	return all
}

// better reports whether fewer joins are pressed open than before; and whether there
// are not more in any block at any size, nor more to print: what was alike still is.
func better(was [][]pattern.Sized, now []pattern.Block) (fewer, ok bool) {
	before, after := map[string]bool{}, map[string]bool{} // names of what is printed, to be counted
	for b := range was {
		if len(was[b]) != len(now[b].Sizes) {
			return false, false
		}
		for i := range was[b] {
			s, t := &was[b][i], &now[b].Sizes[i]
			n, m := opened(s), opened(t)
			if m > n || len(t.Drawings) > len(s.Drawings) || len(t.Copies) != len(s.Copies) {
				return false, false
			}
			fewer = fewer || m < n
			named(before, s)
			named(after, t)
		}
	}
	return fewer, len(after) <= len(before)
}

// opened counts the joins that are pressed open.
func opened(s *pattern.Sized) (n int) {
	for i := range s.Joins {
		if s.Joins[i].Press == pattern.PressOpen {
			n++
		}
	}
	return n
}

// openedInQuilts counts the joins of quilts that are pressed open.
func openedInQuilts(quilts []pattern.Quilt) (n int) {
	for i := range quilts {
		if l := quilts[i].Layout; l != nil {
			for k := range l.Joins {
				if l.Joins[k].Press == pattern.PressOpen {
					n++
				}
			}
		}
	}
	return n
}

func named(names map[string]bool, s *pattern.Sized) {
	for i := range s.Drawings {
		names[s.Drawings[i].Name] = true
	}
}
