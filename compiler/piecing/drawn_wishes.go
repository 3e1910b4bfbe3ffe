package piecing

import (
	"math"
	"slices"

	"seamwright/compiler/eval"
	"seamwright/compiler/plane"
	"seamwright/compiler/solver"
	"seamwright/lang/problem"
)

// What an author asks of the sections of a drawn unit.

// A wish is where something was asked, and of which patches.
type wish struct {
	at      problem.Place
	patches []int
}

// asked adds what the text asks to the wishes; false where that is about nothing.
func (k *sketch) asked(w *solver.Wishes) bool {
	ok := true
	for i := range k.body.Keeps {
		keep := &k.body.Keeps[i]
		if len(keep.Lines) > 0 {
			ok = k.uncut(w, keep) && ok
			continue
		}
		patches, found := k.held(keep)
		if ok = ok && found; !found {
			continue
		}
		if len(patches) < 2 && keep.Name == "" {
			k.tellIdleWish(keep.At, "this asks for one patch to share a section with itself",
				"give a point in each of the patches that are to share a section, with commas between them")
			ok = false
		}
		k.named = append(k.named, patches[0])
		if keep.Name != "" {
			w.Distinct = append(w.Distinct, len(w.Together))
		}
		if w.Together = append(w.Together, patches); len(patches) > 0 {
			k.together = append(k.together, wish{keep.At, patches})
		}
	}
	for patch, i := range k.fabric {
		if d := &k.body.Drawn[i-1]; d.First {
			w.First = append(w.First, patch)
			k.first = append(k.first, wish{pointAt(d.PointAt, max(0, k.point[patch]), d.At), []int{patch}})
		}
	}
	return ok
}

// held finds the patches at the points of a wish.
func (k *sketch) held(keep *eval.Keep) (patches []int, ok bool) {
	ok = true
	for j, q := range keep.Points {
		patch := k.grid.at(q)
		if patch < 0 {
			k.tellNoPatch(q, pointAt(keep.PointAt, j, keep.At))
			ok = false
		} else if !slices.Contains(patches, patch) {
			patches = append(patches, patch)
		}
	}
	return patches, ok && len(patches) > 0
}

// uncut asks that no join follows the seams that lie on the lines of a wish.
func (k *sketch) uncut(w *solver.Wishes, keep *eval.Keep) bool {
	ok := true
	for i, l := range keep.Lines {
		found := false
		for e := range k.part.Edges {
			edge := &k.part.Edges[e]
			a, b := k.part.Points[edge.From].Point, k.part.Points[edge.To].Point
			if edge.Right < 0 || !overlap(l, plane.Line{A: a, B: b}) {
				continue
			}
			found = true
			w.NoJoin = append(w.NoJoin, e)
			k.uncuts = append(k.uncuts, wish{keep.LineAt[i], []int{edge.Left, edge.Right}})
		}
		if !found {
			k.tellIdleWish(keep.LineAt[i], "no seam lies on this line",
				"write the ends of a seam, or of the part of it that no join may follow")
			ok = false
		}
	}
	return ok
}

// overlap reports whether two lines lie on each other for some way.
func overlap(l, m plane.Line) bool {
	if max(math.Abs(l.Offset(m.A)), math.Abs(l.Offset(m.B))) > plane.Tol {
		return false
	}
	from, to := l.Along(m.A), l.Along(m.B)
	return min(max(from, to), l.Len())-max(min(from, to), 0) > plane.Tol
}

func (k *sketch) tellIdleWish(at problem.Place, message, help string) {
	k.tell(problem.Problem{Code: WishIdle, At: at, Message: message, Help: help, Drawn: drawn(k.body.Name, nil, nil)})
}

// refused tells of what can't be had, and reports whether there is anything.
func (k *sketch) refused(w *solver.Wishes, plan *solver.Plan) bool {
	told := map[problem.Place]bool{} // for look-up only
	for i := range plan.Refused {
		r := &plan.Refused[i]
		list, what := k.together, "these patches can't share a section"
		switch r.Kind {
		case solver.WishNoJoin:
			list, what = k.uncuts, "a join has to follow this seam"
		case solver.WishFirst:
			list, what = k.first, "this piece can't be the first of its section"
		case solver.WishDistinct:
			what = "this can't be a section of its own, apart from the others that have names"
		}
		if told[list[r.Index].at] {
			continue
		}
		told[list[r.Index].at] = true
		p := problem.Problem{Code: WishRefused, At: list[r.Index].at, Message: what, Drawn: drawn(k.body.Name, nil, nil)}
		k.why(&p, r)
		if len(w.Together)+len(w.NoJoin)+len(w.First) > 1 && r.Kind == solver.WishFirst {
			p.Help += ", or do without one of the other wishes for its section"
		}
		k.tell(p)
	}
	return len(plan.Refused) > 0
}

// why adds the reason: the smallest part that joins can free from the rest is no
// section.
func (k *sketch) why(p *problem.Problem, r *solver.Refusal) {
	for _, patch := range r.Part {
		p.Drawn.Lines = append(p.Drawn.Lines, drawn("", nil, around(k.part.Polygon(patch))).Lines...)
	}
	if r.Kind == solver.WishDistinct {
		p.Message += ": what shares it with them can't be parted by a join"
		p.Help = "name only one of them, or leave out the points that hold them together"
		return
	}
	inside := func(patch int) bool { return slices.Contains(r.Part, patch) }
	var firsts []plane.Point
	for i := range k.first {
		if patch := k.first[i].patches[0]; inside(patch) {
			firsts = append(firsts, k.part.Polygon(patch).Interior())
		}
	}
	if len(firsts) > 1 {
		p.Message += ": " + point(firsts[0]) + " and " + point(firsts[1]) + " would be in one section, and both first"
		p.Help = "begin only one of them with 1"
		return
	}
	if v := k.crossing(inside); v >= 0 {
		at := k.part.Points[v].Point
		p.Drawn.Points = append(p.Drawn.Points, [2]float64{at.X, at.Y})
		p.Message += ": seams cross at " + point(at) + ", and whichever is sewn last there joins what is sewn already"
		p.Help = "leave out the patches on one side of " + point(at)
		return
	}
	if r.Kind == solver.WishFirst {
		p.Message += ": the " + many(len(r.Part), "patch") + " that no join can part can't be sewn on to it one by one"
		p.Help = "begin another patch of them with 1"
		return
	}
	p.Message += ": with what no join can part from them, they are " + many(len(r.Part), "patch") + " that can't be sewn one by one"
	p.Help = "leave some of them out"
}

// crossing finds a point inside a part where seams meet from both sides, or -1.
func (k *sketch) crossing(inside func(patch int) bool) int {
	bad := make([]bool, len(k.part.Points))
	for _, e := range k.part.Edges {
		if e.Right < 0 || !inside(e.Left) || !inside(e.Right) {
			bad[e.From], bad[e.To] = true, true
		}
	}
	for v := range k.part.Points {
		if !bad[v] && k.part.Points[v].Role == solver.Match {
			return v
		}
	}
	return -1
}

// sectionNames gives the sections found the names that the text gives them; false
// where one would have two.
func (k *sketch) sectionNames(b *eval.Body, plan *solver.Plan) bool {
	n, ok := 0, true
	for i := range k.body.Keeps {
		keep := &k.body.Keeps[i]
		if len(keep.Lines) > 0 {
			continue
		}
		patch := k.named[n]
		n++
		if keep.Name == "" {
			continue
		}
		for s := range plan.Sections {
			if !slices.Contains(plan.Sections[s].Patches, patch) {
				continue
			}
			if was := b.Sections[s].Name; was != "" {
				k.tell(problem.Problem{Code: WishRefused, At: keep.At,
					Message: "section " + keep.Name + " is sewn in one with section " + was + ": fewer sections are found than are named",
					Help:    "leave one of the names out", Drawn: drawn(k.body.Name, nil, around(plan.Sections[s].Outline))})
				ok = false
			}
			b.Sections[s].Name, b.Sections[s].At = keep.Name, keep.At
		}
	}
	return ok
}
