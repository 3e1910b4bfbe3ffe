package piecing

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/eval"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// enough is how many faults of one kind are told of one unit; the rest are most
// likely the same mistake.
const enough = 8

// tellMisfit says how placed units fail to fill their regions: first where they
// overlap, then where they reach beyond the parent, then where regions and
// units differ, or are left empty if no joins were written. Placed are their
// outlines in the parent.
func (w *work) tellMisfit(s *shape, placed []plane.Polygon, taken []int32) {
	bad := w.tellOverlaps(s, placed, taken)
	for i, p := range placed {
		if bad >= enough {
			return
		}
		if out := p.Area() - plane.Overlap(p, s.outline); out > areaSlack(p.Length()) {
			w.tellPlace(s, placed, taken, i, ReachesOut, "the "+s.body.Places[i].Body.Name+" of line "+
				lineOf(s.body.Places[i].At)+" reaches "+squares(out)+" beyond the edge of "+s.body.Name, nil)
			bad++
		}
	}
	if bad > 0 {
		return
	}
	if len(s.joins) == 0 && len(placed) > 1 {
		w.tellGap(s, s.outline, placed)
		return
	}
	for i, p := range placed {
		if bad >= enough {
			return
		}
		bad += w.tellOneMisfit(s, placed, taken, i, p)
	}
}

// tellOneMisfit compares a unit with the region it lies in.
func (w *work) tellOneMisfit(s *shape, placed []plane.Polygon, taken []int32, i int, p plane.Polygon) int {
	place := &s.body.Places[i]
	leaf := s.cut.locate(p.Interior()).leaf
	who := "the " + place.Body.Name + " of line " + lineOf(place.At)
	if leaf >= 0 && taken[leaf] > 0 {
		c := &s.cells[taken[leaf]-1]
		if c.place == place {
			return 0
		}
		if c.place == nil {
			src := &s.body.Sections[c.index]
			w.tellPlace(s, placed, taken, i, TwoInOne, who+" and the section of line "+lineOf(src.At)+
				" lie in the same region", []problem.Label{{At: src.At, Text: "the section"}})
			return 1
		}
	}
	if leaf < 0 {
		w.tellPlace(s, placed, taken, i, CrossesJoin, "a join runs through "+who, nil)
		return 1
	}
	region := s.face(leaf).Corners
	over := p.Area() - plane.Overlap(p, region)
	under := region.Area() - plane.Overlap(p, region)
	switch {
	case over > areaSlack(p.Length()):
		w.tellPlace(s, placed, taken, i, CrossesJoin,
			"a join runs through "+who+": "+squares(over)+" of it lie beyond", nil)
	case under > areaSlack(region.Length()):
		w.tellGap(s, region, placed)
	default:
		w.tellPlace(s, placed, taken, i, CrossesJoin, who+" and its region are not quite the same shape", nil)
	}
	return 1
}

// tellOverlaps tells of pairs of placed units that share area.
func (w *work) tellOverlaps(s *shape, placed []plane.Polygon, taken []int32) int {
	order := make([]int, len(placed))
	low, high := make([]plane.Point, len(placed)), make([]plane.Point, len(placed))
	for i, p := range placed {
		order[i] = i
		low[i], high[i] = p.Box()
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(low[a].X, low[b].X) })
	type pair struct {
		a, b int
		area float64
	}
	var pairs []pair
	for k, a := range order {
		for _, b := range order[k+1:] {
			if low[b].X >= high[a].X-plane.Tol || len(pairs) >= enough || !w.effort.spend(1) {
				break
			}
			if low[b].Y >= high[a].Y || low[a].Y >= high[b].Y {
				continue
			}
			if area := plane.Overlap(placed[a], placed[b]); area > areaSlack(placed[a].Length()) {
				pairs = append(pairs, pair{min(a, b), max(a, b), area})
			}
		}
	}
	slices.SortFunc(pairs, func(x, y pair) int { return cmp.Or(cmp.Compare(x.b, y.b), cmp.Compare(x.a, y.a)) })
	for _, p := range pairs {
		a, b := &s.body.Places[p.a], &s.body.Places[p.b]
		w.tellPlace(s, placed, taken, p.b, Overlap, "this "+b.Body.Name+" overlaps the "+a.Body.Name+" of line "+
			lineOf(a.At)+" by "+squares(p.area), []problem.Label{{At: a.At, Text: "the other one"}})
	}
	return len(pairs)
}

func (w *work) tellGap(s *shape, region plane.Polygon, placed []plane.Polygon) {
	gap := region.Area()
	for _, p := range placed {
		gap -= plane.Overlap(p, region)
	}
	if gap <= areaSlack(region.Length()) {
		return
	}
	w.tell(problem.Problem{
		Code: Gap, At: s.body.Source,
		Message: "the units placed in " + s.body.Name + " leave a gap of " + squares(gap) +
			" in the region about " + point(region.Interior()),
		Help:  "placed units fill their parent exactly; place another, or correct their places or sizes",
		Drawn: drawn(s.body.Name, nil, around(region)),
	})
}

func (w *work) tellPlace(s *shape, placed []plane.Polygon, taken []int32, i int, code problem.Code, message string, labels []problem.Label) {
	place := &s.body.Places[i]
	w.tell(problem.Problem{
		Code: code, At: place.At, Message: message, Labels: labels,
		Help:  w.helpTurn(s, placed[i], taken, place),
		Drawn: drawn(s.body.Name, nil, around(placed[i])),
	})
}

// helpTurn works out `by c at ...` where a unit was turned or reversed out of
// the cell it was meant for: the free region that it would fill and whose lower
// left corner is nearest to where the unit's origin was put or, where there is
// none, the cell that has its corner there.
func (w *work) helpTurn(s *shape, placed plane.Polygon, taken []int32, place *eval.Place) string {
	help := "placed units fill their parent exactly, without gap or overlap"
	if place.HasBy || !place.Body.Box || plane.Turn(place.Motion.Turn) == 0 && !place.Motion.Reversed {
		return help
	}
	move := func(low plane.Point) (plane.Polygon, plane.Point) {
		corner, _ := placed.Box()
		shift := low.Sub(corner)
		moved := make(plane.Polygon, len(placed))
		for i, p := range placed {
			moved[i] = p.Add(shift)
		}
		low, high := placed.Box()
		return moved, low.Mid(high).Add(shift)
	}
	offer := func(c plane.Point) string {
		return "turning and reversing are about the unit's own origin, which took it out of its cell; " +
			"to turn it in its cell write `by c at " + point(c) + "` in place of `at ...`"
	}
	landed := place.Motion.Apply(plane.Point{})
	best, least := plane.Point{}, math.Inf(1)
	for leaf := range s.cut.leaves {
		if taken[leaf] > 0 {
			continue
		}
		region := s.face(int32(leaf)).Corners
		low, _ := region.Box()
		if moved, c := move(low); low.Dist(landed) < least && fit(region, moved, false) != nil {
			best, least = c, low.Dist(landed)
		}
	}
	if !math.IsInf(least, 1) {
		return offer(best)
	}
	moved, c := move(landed)
	if out := moved.Area() - plane.Overlap(moved, s.outline); out <= areaSlack(moved.Length()) {
		return offer(c)
	}
	return help
}
