package compiler

import (
	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/piecing"
	"seamwright/compiler/pressing"
	"seamwright/lang/problem"
)

// sew pieces and presses a pattern: what is sewn first is settled then.
func sew(r *eval.Result) (*piecing.Made, []problem.Problem) {
	made, problems := piecing.Make(r)
	if !problem.Failed(problems) {
		pressing.Press(&r.Pattern)
		if again, more := begunOtherwise(r, made); again != nil {
			return again, more
		}
	}
	return made, problems
}

// begunOtherwise begins sections that were found with another piece, where pressing says
// that seams nest then. Nobody wrote in which order they are sewn. It is tried once, for
// all of them; where it is not better the pattern stays as it was, and nil is returned.
// Joins between the blocks of a quilt are pressed later, and are not looked at.
func begunOtherwise(r *eval.Result, made *piecing.Made) (*piecing.Made, []problem.Problem) {
	was := make([][]pattern.Sized, len(r.Pattern.Blocks))
	for b := range was {
		was[b] = r.Pattern.Blocks[b].Sizes
	}
	again, problems := made.Begin()
	if again == nil {
		return nil, nil
	}
	if !problem.Failed(problems) {
		pressing.Press(&r.Pattern)
		if better(was, r.Pattern.Blocks) {
			return again, problems
		}
	}
	for b := range was {
		r.Pattern.Blocks[b].Sizes = was[b]
	}
	return nil, nil
}

// better reports whether fewer joins are pressed open than before, without more in any
// block at any size, and without more to print: what was alike still is.
func better(was [][]pattern.Sized, now []pattern.Block) bool {
	fewer := false
	before, after := map[string]bool{}, map[string]bool{} // names of what is printed, to be counted
	for b := range was {
		if len(was[b]) != len(now[b].Sizes) {
			return false
		}
		for i := range was[b] {
			s, t := &was[b][i], &now[b].Sizes[i]
			n, m := opened(s), opened(t)
			if m > n || len(t.Drawings) > len(s.Drawings) || len(t.Copies) != len(s.Copies) {
				return false
			}
			fewer = fewer || m < n
			named(before, s)
			named(after, t)
		}
	}
	return fewer && len(after) <= len(before)
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

func named(names map[string]bool, s *pattern.Sized) {
	for i := range s.Drawings {
		names[s.Drawings[i].Name] = true
	}
}
