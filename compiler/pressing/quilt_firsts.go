package pressing

import (
	"slices"
	"strings"

	"seamwright/compiler/pattern"
)

// QuiltFirsts looks for sections that are better begun with another piece because of the
// quilts that are laid out and pressed: so that more seams of neighboring blocks nest, and
// not fewer within a block. It writes them down in Firsts and reports whether there are
// any; where there are none, Firsts stay as they were.
func QuiltFirsts(p *pattern.Pattern) bool {
	r := newReorder()
	base := map[[2]int]int{} // of the drawings of a block at a size
	sizes := sizesInQuilts(p)
	for _, at := range sizes {
		base[at] = len(r.drawings)
		r.take(sizeAt(p, at))
	}
	for _, at := range sizes {
		r.tie(p, at, base)
	}
	if !r.collectQuilts(p, base) {
		return false
	}
	for _, at := range sizes {
		s := sizeAt(p, at)
		r.collect(base[at], s, graphOf(s, nil))
	}
	r.descend()
	if !slices.ContainsFunc(r.first, func(piece int) bool { return piece > 0 }) {
		return false
	}
	for b := range p.Blocks {
		for i := range p.Blocks[b].Sizes {
			p.Blocks[b].Sizes[i].Firsts = nil
		}
	}
	for _, at := range sizes {
		sizeAt(p, at).Firsts = r.told(base[at], sizeAt(p, at))
	}
	return true
}

func sizeAt(p *pattern.Pattern, at [2]int) *pattern.Sized { return &p.Blocks[at[0]].Sizes[at[1]] }

// sizesInQuilts lists the blocks and sizes that are in quilts, each once.
func sizesInQuilts(p *pattern.Pattern) (sizes [][2]int) {
	for i := range p.Quilts {
		if l := p.Quilts[i].Layout; l != nil {
			for k := range l.Placed {
				at := [2]int{l.Placed[k].Block, l.Placed[k].Size}
				if !slices.Contains(sizes, at) {
					sizes = append(sizes, at)
				}
			}
		}
	}
	return sizes
}

// tie takes the drawings of a mirror image for those of the block that it reverses, of
// the same names but for an r: they are written once.
func (r *reorder) tie(p *pattern.Pattern, at [2]int, base map[[2]int]int) {
	b := slices.IndexFunc(p.Blocks, func(of pattern.Block) bool { return of.Name == p.Blocks[at[0]].Reverses })
	if b < 0 {
		return
	}
	reversed := sizeAt(p, at)
	for i := range p.Blocks[b].Sizes {
		s := &p.Blocks[b].Sizes[i]
		from, ok := base[[2]int{b, i}]
		if !ok || s.Finished != reversed.Finished {
			continue
		}
		for d := range reversed.Drawings {
			name := strings.TrimSuffix(reversed.Drawings[d].Name, "r")
			if of := slices.IndexFunc(s.Drawings, func(of pattern.Drawing) bool { return of.Name == name }); of >= 0 {
				r.group[base[at]+d] = r.group[from+of]
			}
		}
	}
}

// collectQuilts finds the pairs of seams of sections that meet across the joins of
// quilts, and reports whether any lie the same way.
func (r *reorder) collectQuilts(p *pattern.Pattern, base map[[2]int]int) (same bool) {
	for i := range p.Quilts {
		l := p.Quilts[i].Layout
		if l == nil {
			continue
		}
		seam := func(e *pattern.QuiltEnd) [2]int {
			placed, _ := e.Part.Placed()
			at := [2]int{l.Placed[placed].Block, l.Placed[placed].Size}
			return [2]int{base[at] + sizeAt(p, at).Copies[e.Copy].Drawing, e.Index}
		}
		q := &quilt{pattern: p, layout: l}
		for k := range l.Joins {
			q.eachPair(k, func(a, b *pattern.QuiltEnd) {
				if a.Kind == pattern.OfSection && b.Kind == pattern.OfSection {
					r.add(seam(a), seam(b), a.Lies == b.Lies, 1)
					same = same || a.Lies == b.Lies
				}
			})
		}
	}
	return same
}
