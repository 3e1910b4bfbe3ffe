package piecing

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/eval"
	"seamwright/compiler/plane"
	"seamwright/compiler/solver"
	"seamwright/lang/problem"
)

// shownJoins is how many found joins are spelled out in the note about them.
const shownJoins = 12

// mostOpened is how many sides placed units may have for a partial seam to be
// looked for: more joins than anybody would write.
const mostOpened = 400

// find works out the joins between placed units that nobody wrote. Any straight
// cut from border to border that runs through no unit is safe: what can be sewn
// at all can still be sewn after it, for two such cuts either do not cross or
// cut each other in two. So nothing need be taken back. Of parallel cuts the
// middle one is sewn last; of directions, that with the longest cut, or the first
// met: never that which lies level, so that a turned unit is joined alike.
func (w *work) find(s *shape, units []*shape) []eval.Join {
	f := finder{tiles: make([]tile, len(units)), effort: &w.effort}
	placed := make([]plane.Polygon, len(units))
	gap := s.outline.Area()
	for i, u := range units {
		placed[i] = u.outline.Move(s.body.Places[i].Motion)
		f.tiles[i] = tile{face: plane.Face{Corners: placed[i], Convex: placed[i].Convex()}, within: placed[i].Interior()}
		gap -= placed[i].Area()
		f.addDirections(placed[i])
	}
	all := make([]int32, len(units))
	for i := range all {
		all[i] = int32(i)
	}
	face := plane.Face{Corners: s.outline, Labels: make([]int32, len(s.outline)), Convex: s.outline.Convex()}
	tiled := gap < areaSlack(s.outline.Length()) && gap > -areaSlack(s.outline.Length())
	if !tiled || !f.part(all, face) {
		s.cut, _, _ = divide(s.outline, nil, &w.effort)
		before := len(w.problems)
		w.tellMisfit(s, placed, []int32{0})
		if len(w.problems) == before && w.effort >= 0 {
			w.tellNoCut(s, &f)
		}
		return nil
	}
	joins := make([]eval.Join, len(f.cuts))
	shown := make([]string, 0, shownJoins)
	for i, l := range f.cuts {
		joins[i] = eval.Join{Line: l, At: s.body.Source}
		if i < shownJoins {
			shown = append(shown, written(l.A)+" -- "+written(l.B))
		}
	}
	help := "to keep them as they are, write: join " + strings.Join(shown, ", ")
	if len(joins) > shownJoins {
		help += ", and so on"
	}
	many := " joins of "
	if len(joins) == 1 {
		many = " join of "
	}
	w.tell(problem.Problem{
		Code: FoundJoins, Severity: problem.Note, At: s.body.Source,
		Message: "the " + strconv.Itoa(len(joins)) + many + s.body.Name + " are not written; straight ones were found",
		Help:    help, Drawn: drawn(s.body.Name, nil, f.cuts),
	})
	return joins
}

func (w *work) tellNoCut(s *shape, f *finder) {
	var lines []plane.Line
	for _, t := range f.stuck {
		lines = append(lines, around(f.tiles[t].face.Corners)...)
	}
	p := problem.Problem{
		Code: NoStraightJoin, At: s.body.Source,
		Message: "no straight seam runs from border to border between " + strconv.Itoa(len(f.stuck)) +
			" of the units placed in " + s.body.Name + ", so they cannot be joined",
		Help:  "place them so that some line between them runs right across, or make one larger unit of them",
		Drawn: drawn(s.body.Name, nil, lines),
	}
	w.partially(&p, s, f)
	w.tell(p)
}

// partially offers the joins of placed units of which some have to be sewn in two
// goes, if that helps. It is not done unasked: it is harder to sew.
func (w *work) partially(p *problem.Problem, s *shape, f *finder) {
	var sides []plane.Line
	for _, t := range f.tiles {
		if len(sides) > mostOpened {
			return
		}
		sides = append(sides, around(t.face.Corners)...)
	}
	part := solver.Build(s.outline, sides, 0)
	wishes := solver.Wishes{}
	for e := range part.Edges {
		if part.Edges[e].Right >= 0 {
			wishes.Join = append(wishes.Join, e)
		}
	}
	plan, open := part.PlanPartial(wishes, func(int) bool { return true })
	if len(open) == 0 || len(plan.Sections) != len(f.tiles) {
		return
	}
	texts := make([]string, len(plan.Joins))
	for i, j := range plan.Joins {
		texts[i] = "join " + written(j.A) + " -- " + written(j.B)
		if j.Partial {
			texts[i] += " partial"
			p.Drawn.Points = append(p.Drawn.Points, [2]float64{j.B.X, j.B.Y})
		}
	}
	first := s.body.Places[0].At
	for i := range s.body.Places[1:] {
		if s.body.Places[i+1].At == first { // placed in a loop, where joins would be written again and again
			first = problem.Place{}
		}
	}
	p.Help = "they can be joined with " + many(len(open), "partial seam") + ", sewn part of the way first: write `" + strings.Join(texts, "; ") + "`. Or " + p.Help
	if first.Source != nil {
		p.Edits = []problem.Edit{{At: problem.Span{Start: first.Span.Start, End: first.Span.Start}, New: strings.Join(texts, "\n  ") + "\n  "}}
	}
}

// A finder looks for cuts between tiles.
type finder struct {
	tiles      []tile
	directions []plane.Point // of the tiles' sides, in the order in which they are met
	cuts       []plane.Line  // in sewing order
	stuck      []int32       // tiles that no cut parts
	effort     *effort
}

type tile struct {
	face      plane.Face
	within    plane.Point
	low, high float64 // across the direction looked at
}

func (f *finder) addDirections(p plane.Polygon) {
next:
	for i := range p {
		d := p.Side(i).Dir()
		if d.X < -plane.Tol || d.X < plane.Tol && d.Y < 0 {
			d = d.Mul(-1)
		}
		f.effort.spend(len(f.directions))
		for _, e := range f.directions {
			if x := d.Cross(e); x < plane.Tol && x > -plane.Tol {
				continue next
			}
		}
		f.directions = append(f.directions, d)
	}
}

// part cuts a part into its tiles; false where no cut is left.
func (f *finder) part(tiles []int32, face plane.Face) bool {
	if len(tiles) == 1 {
		return true
	}
	best, longest := -1, 0.0
	for i, d := range f.directions {
		gaps := f.gaps(tiles, d)
		if len(gaps) == 0 {
			continue
		}
		long := 0.0
		for _, c := range face.Chords(f.across(tiles, gaps[len(gaps)/2], d), nil) {
			long += c.From.At.Dist(c.To.At)
		}
		if long > longest+plane.Tol {
			best, longest = i, long
		}
	}
	if best >= 0 {
		d := f.directions[best]
		return f.bisect(tiles, face, f.gaps(tiles, d), d, 0)
	}
	if !face.Convex && f.lone(tiles, face) {
		return true
	}
	if f.stuck == nil {
		f.stuck = slices.Clone(tiles)
	}
	return false
}

// gaps sorts the tiles across a direction and returns the indices at which a
// line in that direction has all earlier tiles on one side, the rest on the other.
func (f *finder) gaps(tiles []int32, d plane.Point) []int {
	if !f.effort.spend(8 * len(tiles)) { // sorting included
		return nil
	}
	for _, t := range tiles {
		x := &f.tiles[t]
		x.low, x.high = d.Cross(x.face.Corners[0]), d.Cross(x.face.Corners[0])
		for _, p := range x.face.Corners[1:] {
			c := d.Cross(p)
			x.low, x.high = min(x.low, c), max(x.high, c)
		}
	}
	slices.SortStableFunc(tiles, func(a, b int32) int { return cmp.Compare(f.tiles[a].low, f.tiles[b].low) })
	var gaps []int
	reach := f.tiles[tiles[0]].high
	for i, t := range tiles {
		if f.tiles[t].low >= reach-plane.Tol && i > 0 {
			gaps = append(gaps, i)
		}
		reach = max(reach, f.tiles[t].high)
	}
	return gaps
}

// across is the line in a direction before tile i of a sorted list.
func (f *finder) across(tiles []int32, i int, d plane.Point) plane.Line {
	at := plane.Point{X: -d.Y, Y: d.X}.Mul(f.tiles[tiles[i]].low)
	return plane.Line{A: at, B: at.Add(d)}
}

// bisect cuts at all gaps of a sorted list, the middle one sewn last. Gaps count
// from the beginning of a longer list, of which the first off tiles are gone.
func (f *finder) bisect(tiles []int32, face plane.Face, gaps []int, d plane.Point, off int) bool {
	if len(gaps) == 0 {
		return f.part(tiles, face)
	}
	m := len(gaps) / 2
	i := gaps[m] - off
	line := f.across(tiles, i, d)
	chords := face.Chords(line, nil)
	if len(chords) == 0 { // not through this part of a face that is not convex
		return f.part(tiles, face)
	}
	if len(chords) > 1 {
		return f.scatter(tiles, face, chords)
	}
	right, left := tiles[:i:i], tiles[i:] // what lies across to the left comes later
	lf, rf := face.Split(chords[0], 0, 0)
	first := func() bool { return f.bisect(right, rf, gaps[:m], d, off) }
	then := func() bool { return f.bisect(left, lf, gaps[m+1:], d, gaps[m]) }
	if slices.Min(left) < slices.Min(right) { // what is placed first is sewn first
		first, then = then, first
	}
	if !first() || !then() {
		return false
	}
	f.cuts = append(f.cuts, plane.Line{A: chords[0].From.At, B: chords[0].To.At})
	return true
}

// scatter cuts along the first of several chords of a face that is not convex.
func (f *finder) scatter(tiles []int32, face plane.Face, chords []plane.Chord) bool {
	lf, rf := face.Split(chords[0], 0, 0)
	var left, right []int32
	for _, t := range tiles {
		if lf.Corners.Locate(f.tiles[t].within) > 0 {
			left = append(left, t)
		} else {
			right = append(right, t)
		}
	}
	if len(left) == 0 || len(right) == 0 || !f.part(left, lf) || !f.part(right, rf) {
		return false
	}
	f.cuts = append(f.cuts, plane.Line{A: chords[0].From.At, B: chords[0].To.At})
	return true
}

// lone looks for a cut through a face that is not convex whose whole line would
// run through tiles elsewhere.
func (f *finder) lone(tiles []int32, face plane.Face) bool {
	for _, t := range tiles {
		corners := f.tiles[t].face.Corners
		for i := range corners {
			side := corners.Side(i)
			if !f.effort.spend(len(tiles)) {
				return false
			}
			for _, c := range face.Chords(side, nil) {
				if !f.through(tiles, side, side.Along(c.From.At), side.Along(c.To.At)) {
					return f.scatter(tiles, face, []plane.Chord{c})
				}
			}
		}
	}
	return false
}

// through reports whether a stretch of a line runs through some tile's inside.
func (f *finder) through(tiles []int32, l plane.Line, from, to float64) bool {
	for _, t := range tiles {
		for _, c := range f.tiles[t].face.Chords(l, nil) {
			if min(to, l.Along(c.To.At))-max(from, l.Along(c.From.At)) > plane.Tol {
				return true
			}
		}
	}
	return false
}
