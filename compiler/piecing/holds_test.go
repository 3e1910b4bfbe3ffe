package piecing

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// holds checks what every size of every block must have, whatever it was made
// from.
func holds(t *testing.T, s *pattern.Sized) {
	t.Helper()
	names := map[string]bool{}
	made := make([]int, len(s.Drawings))
	for i := range s.Copies {
		made[s.Copies[i].Drawing]++
	}
	for i := range s.Drawings {
		d := &s.Drawings[i]
		if names[d.Name] {
			t.Errorf("two drawings are called %s", d.Name)
		}
		names[d.Name] = true
		if d.Make != made[i] || s.Copies[d.First].Drawing != i || s.Copies[d.First].Turn != 0 || s.Copies[d.First].Shift != (pattern.Pos{}) {
			t.Errorf("drawing %s: make %d of %d, first copy %+v", d.Name, d.Make, made[i], s.Copies[d.First])
		}
		holdsDrawing(t, d)
	}
	holdsMarks(t, s)
	holdsPartners(t, s)
	holdsJoins(t, s)
}

func polygon(p []pattern.Pos) plane.Polygon { return unsized(p, plane.Point{}, 1) }

func holdsDrawing(t *testing.T, d *pattern.Drawing) {
	t.Helper()
	if len(d.Outline) != len(d.Edges) {
		t.Fatalf("%s has %d corners and %d edges", d.Name, len(d.Outline), len(d.Edges))
	}
	outline, sum := polygon(d.Outline), 0.0
	for k := range d.Pieces {
		p := polygon(d.Pieces[k].Polygon)
		sum += p.Area()
		if d.Pieces[k].Number != k+1 {
			t.Errorf("%s: piece %d has number %d", d.Name, k+1, d.Pieces[k].Number)
		}
		if len(d.Pieces) > 1 && outline.Convex() && !p.Convex() {
			t.Errorf("%s is not convex", d.Label(k))
		}
		if k == 0 {
			continue
		}
		seam := plane.Line{A: polygon(d.Pieces[k].Seam[:])[0], B: polygon(d.Pieces[k].Seam[:])[1]}
		if seam.Side(p.Interior()) <= 0 {
			t.Errorf("%s does not lie to the left of its seam", d.Label(k))
		}
		for j := range k { // all that is there when the seam is sewn lies to its right
			if q := polygon(d.Pieces[j].Polygon).Interior(); seam.Side(q) >= 0 {
				t.Errorf("%s is not on the right of the seam of %s", d.Label(j), d.Label(k))
			}
		}
	}
	if math.Abs(sum-outline.Area()) > 1e-6 {
		t.Errorf("the pieces of %s have %v square inches, its outline %v", d.Name, sum, outline.Area())
	}
	for i := range d.Edges {
		e := &d.Edges[i]
		if (e.Kind == pattern.Border) != (len(e.Partners) == 0) || (e.Kind == pattern.Border) != (len(e.Marks) == 0) {
			t.Errorf("edge %d of %s: %+v", i, d.Name, e)
		}
		letters := map[string]bool{}
		for k, m := range e.Marks {
			if m.Letter != "" && letters[m.Letter] {
				t.Errorf("edge %d of %s has two marks %s", i, d.Name, m.Letter)
			}
			letters[m.Letter] = true
			end := k == 0 || k == len(e.Marks)-1
			if end != (m.Kind == pattern.JoinEnd) {
				t.Errorf("edge %d of %s: mark %d is of kind %d", i, d.Name, k, m.Kind)
			}
			if k > 0 {
				if gap := dist(m.At, e.Marks[k-1].At); gap > float64(markEvery)+1e-6 || gap < 1e-6 {
					t.Errorf("edge %d of %s: %v in between marks", i, d.Name, gap)
				}
			}
		}
		if n := len(e.Marks); n > 0 {
			if dist(e.Marks[0].At, d.Outline[i]) > 1e-6 || dist(e.Marks[n-1].At, d.Outline[(i+1)%len(d.Outline)]) > 1e-6 {
				t.Errorf("edge %d of %s: its end marks are not at its ends", i, d.Name)
			}
		}
	}
}

func dist(a, b pattern.Pos) float64 { return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) }

// holdsMarks checks that marks of joined edges fall on each other.
func holdsMarks(t *testing.T, s *pattern.Sized) {
	t.Helper()
	type found struct {
		at   pattern.Pos
		copy int
		edge *pattern.Edge
		mark pattern.Mark
		line plane.Line
	}
	var all []found
	for c := range s.Copies {
		move := s.Copies[c].Motion()
		d := &s.Drawings[s.Copies[c].Drawing]
		for i := range d.Edges {
			ends := polygon([]pattern.Pos{move(d.Outline[i]), move(d.Outline[(i+1)%len(d.Outline)])})
			for _, m := range d.Edges[i].Marks {
				all = append(all, found{move(m.At), c, &d.Edges[i], m, plane.Line{A: ends[0], B: ends[1]}})
			}
		}
	}
	for i := range all {
		met := false
		for j := range all {
			f, g := &all[i], &all[j]
			if f.copy == g.copy || dist(f.at, g.at) > 1e-6 || !opposite(f.line, g.line) {
				continue
			}
			met = true
			if f.mark.Letter != g.mark.Letter {
				t.Errorf("copies %d and %d call the mark at %v %q and %q", f.copy, g.copy, f.at, f.mark.Letter, g.mark.Letter)
			}
			inner := f.mark.Kind != pattern.JoinEnd && g.mark.Kind != pattern.JoinEnd
			if inner && f.mark.Match != g.mark.Match {
				t.Errorf("copies %d and %d differ about matching at %v", f.copy, g.copy, f.at)
			}
		}
		if !met {
			t.Errorf("copy %d: no mark across the join at %v", all[i].copy, all[i].at)
		}
	}
}

// holdsPartners checks that what is printed on an edge, "joins B" or "a joins b",
// is true of every copy.
func holdsPartners(t *testing.T, s *pattern.Sized) {
	t.Helper()
	type placed struct {
		copy int
		edge int
		line plane.Line
	}
	var all []placed
	for c := range s.Copies {
		move := s.Copies[c].Motion()
		d := &s.Drawings[s.Copies[c].Drawing]
		for i := range d.Edges {
			ends := polygon([]pattern.Pos{move(d.Outline[i]), move(d.Outline[(i+1)%len(d.Outline)])})
			all = append(all, placed{c, i, plane.Line{A: ends[0], B: ends[1]}})
		}
	}
	edge := func(p placed) *pattern.Edge { return &s.Drawings[s.Copies[p.copy].Drawing].Edges[p.edge] }
	for _, p := range all {
		var found []placed
		for _, q := range all {
			if q.copy != p.copy && opposite(p.line, q.line) {
				found = append(found, q)
			}
		}
		slices.SortFunc(found, func(x, y placed) int { return cmp.Compare(p.line.Along(x.line.B), p.line.Along(y.line.B)) })
		want := edge(p).Partners
		if len(found) != len(want) {
			t.Errorf("edge %d of copy %d meets %d others, not %d", p.edge, p.copy, len(found), len(want))
			continue
		}
		for i, q := range found {
			named := s.Copies[q.copy].Drawing == want[i].Drawing && edge(p).Letter == ""
			lettered := edge(p).Letter != "" && want[i].Letter != "" && edge(q).Letter == want[i].Letter
			if !named && !lettered {
				t.Errorf("edge %d %q of copy %d, of %s, meets edge %d %q of %s; printed is %q of %s", p.edge, edge(p).Letter, p.copy,
					s.Drawings[s.Copies[p.copy].Drawing].Name, q.edge, edge(q).Letter, s.Drawings[s.Copies[q.copy].Drawing].Name,
					want[i].Letter, s.Drawings[want[i].Drawing].Name)
			}
		}
	}
}

// opposite reports whether two edges lie along each other, one from each side.
func opposite(a, b plane.Line) bool {
	from, to := a.Along(b.B), a.Along(b.A)
	return a.Side(b.A) == 0 && a.Side(b.B) == 0 && min(to, a.Len())-max(from, 0) > 1e-6
}

// holdsJoins sews the block: every join brings two finished parts together, and
// in a convex block every part is convex at any time.
func holdsJoins(t *testing.T, s *pattern.Sized) {
	t.Helper()
	part := newSets(int32(len(s.Copies)))
	corners := make([]plane.Polygon, len(s.Copies))
	areas := make([]float64, len(s.Copies))
	for c := range s.Copies {
		move := s.Copies[c].Motion()
		for _, q := range s.Drawings[s.Copies[c].Drawing].Outline {
			corners[c] = append(corners[c], polygon([]pattern.Pos{move(q)})[0])
		}
		areas[c] = corners[c].Area()
	}
	convex := polygon(s.Outline).Convex()
	for i := range s.Joins {
		j := &s.Joins[i]
		if len(j.Left) == 0 || len(j.Right) == 0 || j.Number != i+1 {
			t.Fatalf("join %d: %+v", i+1, j)
		}
		l, r := part.find(int32(j.Left[0])), part.find(int32(j.Right[0]))
		for _, c := range j.Left {
			if part.find(int32(c)) != l {
				t.Errorf("join %d: its left is not finished", i+1)
			}
		}
		for _, c := range j.Right {
			if part.find(int32(c)) != r {
				t.Errorf("join %d: its right is not finished", i+1)
			}
		}
		if l == r {
			t.Errorf("join %d joins a part to itself", i+1)
			continue
		}
		part.union(l, r)
		to := part.find(l)
		sum, all := areas[l]+areas[r], append(append(plane.Polygon(nil), corners[l]...), corners[r]...)
		areas[to], corners[to] = sum, all
		if convex && math.Abs(all.Hull().Area()-sum) > 1e-6 {
			t.Errorf("join %d makes a part that is not convex", i+1)
		}
	}
	for c := range s.Copies {
		if part.find(int32(c)) != part.find(0) {
			t.Errorf("copy %d is never joined", c)
		}
	}
}
