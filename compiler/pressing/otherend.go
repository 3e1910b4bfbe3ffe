package pressing

import (
	"math"

	"seamwright/compiler/pattern"
)

// otherEnd finds sections that are better sewn from their other end: last piece
// first. All their seams then lie the other way. Only sections are turned whose
// picture stays the same, and only if fewer joins are pressed open thereby.
func otherEnd(s *pattern.Sized, now *graph) []int {
	if !anySameWay(now) {
		return nil
	}
	r := reorder{sized: s, group: groups(s)}
	r.turned, r.pairs = make([]bool, len(s.Drawings)), make([][]pair, len(s.Drawings))
	r.collect(now)
	r.descend()
	flip := make([]bool, len(s.Drawings))
	var told []int
	for d := range flip {
		if flip[d] = r.turned[r.group[d]]; flip[d] {
			told = append(told, d)
		}
	}
	if told == nil {
		return nil
	}
	then := graphOf(s, flip)
	then.solve()
	if then.opened() >= now.opened() {
		return nil
	}
	return told
}

func anySameWay(g *graph) bool {
	for i := range g.nodes {
		if g.nodes[i].sameWay && g.nodes[i].meet < crowd {
			return true
		}
	}
	return false
}

// opened counts the joins that are pressed open.
func (g *graph) opened() (n int) {
	for i := range g.nodes {
		if g.nodes[i].open() || g.nodes[i].clash {
			n++
		}
	}
	return n
}

// groups gives each drawing the one that stands for it: a section and its
// reversed twin are written once, and turned together.
func groups(s *pattern.Sized) []int {
	group := make([]int, len(s.Drawings))
	for d := range group {
		group[d] = d
		if twin := s.Drawings[d].Reversed; twin >= 0 {
			group[d] = min(d, twin)
		}
	}
	return group
}

// A pair is two seams of sections that meet across a join.
type pair struct {
	other int  // the group of the other one
	same  bool // as they are written, they lie the same way
}

// A reorder looks for what to turn. Turned and pairs are by group.
type reorder struct {
	sized  *pattern.Sized
	group  []int
	turned []bool
	pairs  [][]pair
}

// collect finds all pairs at joins that too many seams don't open anyway.
func (r *reorder) collect(g *graph) {
	for i := range r.sized.Joins {
		j := &r.sized.Joins[i]
		if g.nodes[i].meet >= crowd {
			continue
		}
		for _, p := range j.Points {
			left, right := meeting(j, p, g.met[i])
			for _, a := range left {
				for _, b := range right {
					if a.join < 0 && b.join < 0 {
						r.add(r.group[a.drawing], r.group[b.drawing], a.lies == b.lies)
					}
				}
			}
		}
	}
}

// add keeps a pair at both groups; within one, turning changes nothing.
func (r *reorder) add(a, b int, same bool) {
	if a != b {
		r.pairs[a] = append(r.pairs[a], pair{b, same})
		r.pairs[b] = append(r.pairs[b], pair{a, same})
	}
}

// sweeps is how often all sections are gone through; measured on rows of strips,
// two are enough, and each turn lessens what lies the same way.
const sweeps = 8

// descend turns sections one by one while more pairs nest than before.
func (r *reorder) descend() {
	for range sweeps {
		better := false
		for d := range r.pairs {
			bad := 0
			for _, p := range r.pairs[d] {
				if p.same != (r.turned[d] != r.turned[p.other]) {
					bad++
				}
			}
			if 2*bad > len(r.pairs[d]) && r.mayTurn(d) {
				r.turned[d], better = !r.turned[d], true
			}
		}
		if !better {
			return
		}
	}
}

// mayTurn reports whether a group's sections can be sewn last piece first.
func (r *reorder) mayTurn(group int) bool {
	for d, g := range r.group {
		if g == group && !chain(&r.sized.Drawings[d]) {
			return false
		}
	}
	return true
}

// chain reports whether every seam of a section parts just one piece from the
// next, from side to side: then the order of sewing may be turned round.
func chain(d *pattern.Drawing) bool {
	for k := 1; k < len(d.Pieces); k++ {
		a, b := d.Pieces[k].Seam[0], d.Pieces[k].Seam[1]
		before := d.Pieces[k-1].Polygon
		if !on(d.Outline, a) || !on(d.Outline, b) || !on(before, a) || !on(before, b) {
			return false
		}
	}
	return len(d.Pieces) > 1
}

// on reports whether a point lies on the outline of a polygon.
func on(polygon []pattern.Pos, p pattern.Pos) bool {
	for i := range polygon {
		l := line(polygon[i], polygon[(i+1)%len(polygon)]).Ray()
		at := l.Along(point(p))
		if math.Abs(l.Offset(point(p))) <= near && at >= -near && at <= l.Len+near {
			return true
		}
	}
	return false
}
