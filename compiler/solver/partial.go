package solver

import (
	"fmt"
	"slices"

	"seamwright/compiler/plane"
)

// An Opening is a seam that is sewn in two goes so that what lies about it can be
// sewn at all: see THEORY.md 12.
type Opening struct {
	Line    int         // a line of the input that the seam lies on
	Seam    plane.Line  // from the border of its part to its tip, which lies inside
	Stop    plane.Point // where its first part, sewn from the tip, stops
	Patches []int       // the part
}

// Limits of the search for openings: patches looked at, each as often as a part with
// it is drawn and planned (some tens of microseconds), and openings of one part for
// which a whole plan is made. When they run out the best plan so far is taken.
const (
	openingBudget = 6_000
	mostOpenings  = 8
)

// PlanPartial is [Partition.Plan] for a drawing that straight joins alone can't sew:
// seams that lie on lines which may be opened are sewn part of the way first, where
// that is needed. Its plan has few sections, but there is no proof that they are the
// fewest. There are no openings if there is no plan.
func (p *Partition) PlanPartial(w Wishes, may func(line int) bool) (Plan, []Opening) {
	if p.mesh == nil || len(p.Faults) > 0 || p.tiled {
		return Plan{}, nil
	}
	o := &opener{p: p, wishes: w, may: may, most: mostOpenings}
	out, ok := o.whole()
	if !ok {
		o.most = 1
		if out, ok = o.whole(); !ok {
			return Plan{}, nil
		}
	}
	plan := Plan{Sections: out.sections, Joins: out.joins, Over: out.over, Least: len(out.sections), Bound: 1}
	for _, j := range out.joins {
		plan.Depth = max(plan.Depth, j.Level)
	}
	o.refuse(&plan)
	return plan, out.openings
}

// Openings finds seams that have to be sewn in two goes: the first that help.
func (p *Partition) Openings(may func(line int) bool) []Opening {
	if p.mesh == nil || len(p.Faults) > 0 || p.tiled {
		return nil
	}
	o := &opener{p: p, may: may, most: 1}
	out, _ := o.whole()
	return out.openings
}

func (o *opener) whole() (opened, bool) {
	o.budget, o.memo = max(openingBudget, 4*len(o.p.Patches)), map[string]*opened{}
	all := make([]int, len(o.p.Patches))
	for i := range all {
		all[i] = i
	}
	out, ok := o.solve(all, nil)
	return out, ok && len(out.openings) > 0
}

// An opener looks for openings.
type opener struct {
	p      *Partition
	wishes Wishes
	may    func(line int) bool
	most   int // openings of one part that are compared
	budget int
	memo   map[string]*opened // by patches and slits; nil where there is no plan
}

// An opened is the plan of a set of patches; patches have the numbers of the whole.
type opened struct {
	sections []Section
	joins    []Join
	over     []int
	openings []Opening
}

// add puts another plan behind this one.
func (o *opened) add(q opened) {
	n := len(o.sections)
	o.sections = append(o.sections, q.sections...)
	for _, i := range q.over {
		o.over = append(o.over, i+n)
	}
	for _, j := range q.joins {
		j.Left, j.Right = shifted(j.Left, n), shifted(j.Right, n)
		o.joins = append(o.joins, j)
	}
	o.openings = append(o.openings, q.openings...)
}

func shifted(list []int, by int) []int {
	out := make([]int, len(list))
	for i, k := range list {
		out[i] = k + by
	}
	return out
}

// A piece of the drawing, drawn alone.
type excerpt struct {
	*Partition
	patch []int // of the whole, for each of its own; -1 for a part that is one patch here
	line  []int // of the input, for each of its own
	leaf  []int // index into the parts that are one patch here, plus 1; else 0
}

// excerpt draws a set of patches alone, some parts of it without what is in them.
func (o *opener) excerpt(patches []int, leaves [][]int) (excerpt, bool) {
	o.budget -= len(patches)
	if o.budget < 0 {
		return excerpt{}, false
	}
	home := map[int]int{} // for look-up only
	for _, f := range patches {
		home[f] = 0
	}
	for i, leaf := range leaves {
		for _, f := range leaf {
			home[f] = i + 1
		}
	}
	var x excerpt
	var lines []plane.Line
	done := map[int]bool{} // for look-up only
	for _, f := range patches {
		for _, e := range o.p.Patches[f].Edges {
			edge := &o.p.Edges[e]
			if done[e] || edge.Seam < 0 {
				continue
			}
			done[e] = true
			l, inL := home[edge.Left]
			r, inR := home[edge.Right]
			if inL && inR && (l == 0 || l != r) {
				lines = append(lines, plane.Line{A: o.p.Points[edge.From].Point, B: o.p.Points[edge.To].Point})
				x.line = append(x.line, edge.Line)
			}
		}
	}
	x.Partition = Build(newTracer(o.p).polygon(patches), lines, 0)
	if x.mesh == nil || len(x.Faults) > 0 {
		return x, false
	}
	x.patch, x.leaf = make([]int, len(x.Patches)), make([]int, len(x.Patches))
	inside := make([]plane.Point, len(x.Patches))
	for i := range inside {
		inside[i] = x.Polygon(i).Interior()
	}
	for i, s := range o.p.Locate(inside) {
		x.patch[i] = s.Patch
		if x.leaf[i] = home[s.Patch]; x.leaf[i] > 0 {
			x.patch[i] = -1
		}
	}
	return x, true
}

// solve plans a set of patches that hangs together; on slits no section may lie on
// both sides.
func (o *opener) solve(patches []int, slits []plane.Line) (opened, bool) {
	slices.Sort(patches)
	key := fmt.Sprint(patches, slits)
	known, ok := o.memo[key]
	if !ok {
		if made, ok := o.search(patches, slits); ok {
			known = &made
		}
		o.memo[key] = known
	}
	if known == nil {
		return opened{}, false
	}
	var out opened // what others make of it must not change it
	out.add(*known)
	return out, true
}

func (o *opener) search(patches []int, slits []plane.Line) (opened, bool) {
	x, ok := o.excerpt(patches, nil)
	if !ok {
		return opened{}, false
	}
	stuck := x.unsewable(false)
	if len(stuck) == 0 {
		return o.sewn(x, slits, nil), true
	}
	if len(stuck) == 1 && len(stuck[0].Patches) == len(x.Patches) {
		return o.open(x, patches, slits)
	}
	leaves, inner := make([][]int, len(stuck)), make([]opened, len(stuck))
	for i := range stuck {
		for _, f := range stuck[i].Patches {
			leaves[i] = append(leaves[i], x.patch[f])
		}
		if inner[i], ok = o.solve(leaves[i], slits); !ok {
			return opened{}, false
		}
	}
	if x, ok = o.excerpt(patches, leaves); !ok || len(x.unsewable(false)) > 0 {
		return opened{}, false
	}
	return o.sewn(x, slits, inner), true
}

// sewn plans an excerpt that straight joins can sew. Parts that are one patch in it
// are joined to the rest when they are finished.
func (o *opener) sewn(x excerpt, slits []plane.Line, inner []opened) opened {
	w := Wishes{MaxPieces: o.wishes.MaxPieces, Fits: o.wishes.Fits}
	asked := map[[2]int]bool{} // pairs of patches between which a join is asked for; for look-up only
	for _, e := range o.wishes.Join {
		l, r := o.p.Edges[e].Left, o.p.Edges[e].Right
		asked[[2]int{min(l, r), max(l, r)}] = true
	}
	for e := range x.Edges {
		edge := &x.Edges[e]
		l := plane.Line{A: x.Points[edge.From].Point, B: x.Points[edge.To].Point}
		slit := slices.ContainsFunc(slits, func(s plane.Line) bool { return s.Nearest(l.A).Same(l.A) && s.Nearest(l.B).Same(l.B) })
		if edge.Right < 0 {
			continue
		}
		a, b := x.patch[edge.Left], x.patch[edge.Right]
		if slit || a < 0 || b < 0 || asked[[2]int{min(a, b), max(a, b)}] {
			w.Join = append(w.Join, e)
		}
	}
	own := make(map[int]int, len(x.patch)) // for look-up only
	for i, f := range x.patch {
		own[f] = i
	}
	for _, set := range o.wishes.Together {
		w.Together = append(w.Together, known(own, set))
	}
	for _, e := range o.wishes.NoJoin {
		edge := &o.p.Edges[e]
		w.Together = append(w.Together, known(own, []int{edge.Left, edge.Right}))
	}
	w.First, w.Distinct = known(own, o.wishes.First), o.wishes.Distinct
	if o.wishes.Plain != nil {
		w.Plain = make([]bool, len(x.patch))
		for i, f := range x.patch {
			w.Plain[i] = f >= 0 && o.wishes.Plain[f]
		}
	}
	if o.wishes.Alike != nil {
		w.Alike = make([]int, len(x.patch))
		for i, f := range x.patch {
			if w.Alike[i] = -1 - i; f >= 0 { // a part that is one patch here is like nothing else
				w.Alike[i] = o.wishes.Alike[f]
			}
		}
	}
	plan := x.Plan(w)
	var out opened
	for _, q := range inner {
		out.add(q)
	}
	number := make([][]int, len(plan.Sections)) // of a section of the plan, those of the result
	for i := range plan.Sections {
		s := plan.Sections[i]
		if k := x.leaf[s.Patches[0]]; k > 0 {
			from := 0
			for _, q := range inner[:k-1] {
				from += len(q.sections)
			}
			for n := range inner[k-1].sections {
				number[i] = append(number[i], from+n)
			}
			continue
		}
		if slices.Contains(plan.Over, i) {
			out.over = append(out.over, len(out.sections))
		}
		number[i] = []int{len(out.sections)}
		patches := make([]int, len(s.Patches))
		for k, f := range s.Patches {
			patches[k] = x.patch[f]
		}
		s.Patches = patches
		out.sections = append(out.sections, s)
	}
	level := 0
	for _, j := range out.joins {
		level = max(level, j.Level)
	}
	for _, j := range plan.Joins {
		j.Left, j.Right, j.Level = mapped(number, j.Left), mapped(number, j.Right), j.Level+level
		out.joins = append(out.joins, j)
	}
	return out
}

// known maps those of a list that are in an excerpt, if all are.
func known(own map[int]int, list []int) []int {
	out := make([]int, 0, len(list))
	for _, f := range list {
		if i, ok := own[f]; ok {
			out = append(out, i)
		}
	}
	return out
}

func mapped(number [][]int, list []int) (out []int) {
	for _, i := range list {
		out = append(out, number[i]...)
	}
	return out
}

// open tries the openings of a part that has no chord, and takes the one that makes
// the fewest sections; of these the one of which most stays open where others end.
func (o *opener) open(x excerpt, patches []int, slits []plane.Line) (opened, bool) {
	var best opened
	widest, tried := 0.0, 0
	for s := range x.Seams {
		points := x.Seams[s].Points
		for _, turned := range [2]bool{false, true} {
			if turned {
				points = slices.Clone(points)
				slices.Reverse(points)
			}
			rim, tip := points[0], points[len(points)-1]
			line := o.openable(x, s)
			if line < 0 || x.Points[rim].Role != OnOutline || x.Points[tip].Role == OnOutline {
				continue
			}
			for i := len(points) - 2; i > 0; i-- {
				for g := range x.Seams {
					if tried >= o.most {
						return best, true
					}
					out, ok := o.openAt(x, patches, slits, opening{s, points, i, g, line})
					if !ok {
						continue
					}
					tried++
					open := x.Points[tip].Dist(x.Points[points[i]].Point)
					if n := len(out.sections); len(best.sections) == 0 || n < len(best.sections) || n == len(best.sections) && open > widest+plane.Tol {
						best, widest = out, open
					}
				}
			}
		}
	}
	return best, len(best.sections) > 0
}

// openable returns a line of the input on which a seam lies and that may be opened,
// or -1.
func (o *opener) openable(x excerpt, seam int) int {
	s := &x.Seams[seam]
	for e := s.First; e < s.First+len(s.Points)-1; e++ {
		if l := x.line[x.Edges[e].Line]; o.may(l) {
			return l
		}
	}
	return -1
}

// An opening under trial: a seam from rim to tip, and another seam that ends on it
// at its i-th point.
type opening struct {
	seam   int
	points []int
	i      int
	on     int
	line   int
}

// openAt plans a part with a seam opened: the other seam, which ends on it, parts
// from the rest what lies between it, the open seam and the border.
func (o *opener) openAt(x excerpt, patches []int, slits []plane.Line, a opening) (opened, bool) {
	on, at := x.Seams[a.on].Points, a.points[a.i]
	rim := on[0]
	switch {
	case a.on == a.seam:
		return opened{}, false
	case on[len(on)-1] == at:
	case rim == at:
		rim = on[len(on)-1]
	default:
		return opened{}, false
	}
	if x.Points[rim].Role != OnOutline {
		return opened{}, false
	}
	near, far, ok := x.parted(a, at)
	if !ok {
		return opened{}, false
	}
	pos := func(v int) plane.Point { return x.Points[v].Point }
	tip := pos(a.points[len(a.points)-1])
	slit := plane.Line{A: pos(a.points[0]), B: tip}
	stop := pos(at).Mid(pos(a.points[a.i+1])) // beyond whatever is begun on the way there
	out, ok := o.solve(ofInput(x, near), append(slices.Clip(slits), slit))
	if !ok || !begins(out.joins, plane.Line{A: pos(at), B: tip}, stop) {
		return opened{}, false
	}
	rest, ok := o.solve(ofInput(x, far), slits)
	if !ok {
		return opened{}, false
	}
	level := 0
	n := len(out.sections)
	out.add(rest)
	for _, j := range out.joins {
		level = max(level, j.Level)
	}
	left, right := upTo(0, n), upTo(n, len(out.sections))
	out.joins = append(out.joins,
		Join{A: pos(rim), B: pos(at), Left: left, Right: right, Level: level + 1, opened: true},
		Join{A: slit.A, B: tip, Left: left, Right: right, Level: level + 2, opened: true})
	out.openings = append(out.openings, Opening{a.line, slit, stop, patches})
	return out, true
}

func upTo(from, to int) (list []int) {
	for i := from; i < to; i++ {
		list = append(list, i)
	}
	return list
}

func ofInput(x excerpt, list []int) []int {
	out := make([]int, len(list))
	for i, f := range list {
		out[i] = x.patch[f]
	}
	return out
}

// begins makes the one join that lies on a seam which stays open from a point on,
// l.A, a partial one; false where there is not one that runs from there to the tip.
func begins(joins []Join, l plane.Line, stop plane.Point) bool {
	found := -1
	for i := range joins {
		j := &joins[i]
		if l.Side(j.A) != 0 || l.Side(j.B) != 0 || min(max(l.Along(j.A), l.Along(j.B)), l.Len())-max(min(l.Along(j.A), l.Along(j.B)), 0) <= plane.Tol {
			continue
		}
		if found >= 0 || j.opened || !(j.A.Same(l.A) && j.B.Same(l.B) || j.A.Same(l.B) && j.B.Same(l.A)) {
			return false
		}
		found = i
	}
	if found < 0 {
		return false
	}
	j := &joins[found]
	if j.A.Same(l.A) { // left and right are as seen from A to B
		j.Left, j.Right = j.Right, j.Left
	}
	j.A, j.B, j.Partial = l.B, stop, true
	return true
}

// parted cuts a part along one seam up to where it ends on another, and from there
// along that to the border. Near is what lies at the other's tip, far the rest;
// false where that does not make two parts.
func (x excerpt) parted(a opening, at int) (near, far []int, ok bool) {
	cut := make([]bool, len(x.Edges))
	s, g := &x.Seams[a.seam], &x.Seams[a.on]
	for e := g.First; e < g.First+len(g.Points)-1; e++ {
		cut[e] = true
	}
	first := s.Points[0] == a.points[0]
	for i := range len(s.Points) - 1 {
		if k := len(s.Points) - 2 - i; first && i < a.i || !first && k < a.i {
			cut[s.First+i] = true
		}
	}
	last := &x.Edges[s.First]
	if first {
		last = &x.Edges[s.First+len(s.Points)-2]
	}
	seen := make([]bool, len(x.Patches))
	near = x.reached(last.Left, cut, seen)
	if !seen[last.Right] {
		return nil, nil, false
	}
	for f := range x.Patches {
		if !seen[f] {
			far = x.reached(f, cut, seen)
			break
		}
	}
	return near, far, len(far) > 0 && len(near)+len(far) == len(x.Patches)
}

// reached lists the patches that can be reached from one without crossing a cut.
func (x excerpt) reached(from int, cut, seen []bool) []int {
	seen[from] = true
	list := []int{from}
	for i := 0; i < len(list); i++ {
		for _, e := range x.Patches[list[i]].Edges {
			if f := x.across(e, list[i]); f >= 0 && !cut[e] && !seen[f] {
				seen[f] = true
				list = append(list, f)
			}
		}
	}
	slices.Sort(list)
	return list
}

// refuse lists the wishes that the plan does not fulfil: with a seam sewn in part
// not all ways to divide are tried.
func (o *opener) refuse(plan *Plan) {
	home := map[int]int{} // of a patch, its section; for look-up only
	for i := range plan.Sections {
		for _, f := range plan.Sections[i].Patches {
			home[f] = i
		}
	}
	for i, set := range o.wishes.Together {
		for _, f := range set {
			if home[f] != home[set[0]] {
				plan.Refused = append(plan.Refused, Refusal{WishTogether, i, set})
				break
			}
		}
	}
	for k, i := range o.wishes.Distinct {
		for _, other := range o.wishes.Distinct[:k] {
			if home[o.wishes.Together[i][0]] == home[o.wishes.Together[other][0]] {
				plan.Refused = append(plan.Refused, Refusal{WishDistinct, i, o.wishes.Together[i]})
			}
		}
	}
	for i, e := range o.wishes.NoJoin {
		if edge := &o.p.Edges[e]; home[edge.Left] != home[edge.Right] {
			plan.Refused = append(plan.Refused, Refusal{WishNoJoin, i, []int{edge.Left, edge.Right}})
		}
	}
	for i, f := range o.wishes.First {
		if s := &plan.Sections[home[f]]; s.Patches[0] != f {
			plan.Refused = append(plan.Refused, Refusal{WishFirst, i, s.Patches})
		}
	}
}
