package solver

import (
	"slices"

	"seamwright/compiler/plane"
)

// Plan divides the patches into sections, as few as the wishes allow, and says
// in which order everything is sewn. It returns a plan without sections if the
// partition has faults or can't be sewn.
func (p *Partition) Plan(w Wishes) Plan {
	if !p.solvable() {
		return Plan{}
	}
	if w.Budget == 0 {
		w.Budget = DefaultBudget
	}
	m := p.mesh
	var least solved
	var d *divided
	out := Plan{Parts: 1}
	if all := m.all(); newWork(m).peel(all, -1) {
		least = solved{sections: []part{all}, bound: 1, clique: all[:1]}
	} else {
		d = divide(m, w.Budget)
		least, out.Parts = d.fewest()
	}
	out.Least, out.Bound, out.Proved = len(least.sections), least.bound, least.bound == len(least.sections)
	out.Certificate = ints(least.clique)
	granted := p.grant(least, d, w)
	out.Refused = granted.refused
	sections := p.alike(granted, d, granted.sections)
	for _, s := range sections {
		slices.Sort(s)
	}
	slices.SortFunc(sections, func(a, b part) int { return int(a[0] - b[0]) })
	wk, t := newWork(m), newTracer(p)
	if len(w.Alike) == m.faces() {
		wk.kinds = w.Alike
	}
	for i, s := range sections {
		out.Sections = append(out.Sections, p.ordered(wk, t, s, granted.first(s)))
		if granted.over(s) {
			out.Over = append(out.Over, i)
		}
	}
	out.Joins, out.Depth = plantTree(m.contract(sections))
	return out
}

// solvable reports whether there is a plan at all.
func (p *Partition) solvable() bool {
	if p.mesh == nil || len(p.Faults) > 0 {
		return false
	}
	return percolate(p.mesh).uncut == 0
}

// Joins returns how polygons that tile the outline are sewn together, none of
// them cut: the joins in sewing order, with indices of polygons. Where there are
// faults or witnesses, there are no joins.
func Joins(outline plane.Polygon, polygons []plane.Polygon, near float64) (joins []Join, p *Partition, w []Witness) {
	p = Tile(outline, polygons, near)
	if len(p.Faults) > 0 {
		return nil, p, nil
	}
	if w = p.Unsewable(); len(w) > 0 {
		return nil, p, w
	}
	joins, _ = plantTree(p.mesh)
	return joins, p, nil
}
