package solver

import (
	"fmt"
	"maps"
	"math"
	"math/bits"
	"math/rand"
	"slices"
	"testing"

	"seamwright/compiler/plane"
)

// TestFewestForms: of all plans with the fewest sections, which the oracle lists, none
// has fewer sections that differ, in blocks that look the same when they are turned.
func TestFewestForms(t *testing.T) {
	mattered := 0
	for _, g := range []group{{1, true}, {2, false}, {2, true}, {4, false}, {4, true}} {
		r := rand.New(rand.NewSource(7))
		fewer, forms := 0, map[int]int{}
		for n := 0; n < 50**long; {
			b, ok := g.random(r, 1+r.Intn(3), 12)
			if !ok {
				continue
			}
			o := newOracle(b.faces)
			if o.solve() < 2 {
				continue
			}
			n++
			p := Tile(b.outline, b.faces, 0)
			kinds := make([]int, len(b.faces))
			bare, plan := p.Plan(Wishes{}), p.Plan(Wishes{Alike: kinds})
			c := checker{t: t, name: fmt.Sprintf("%+v, block %d", g, n), block: b, p: p, o: o}
			c.sewn(plan)
			if len(plan.Sections) != o.least[1<<len(b.faces)-1] {
				c.failf("%d sections", len(plan.Sections))
			}
			l := lister{oracle: o, known: map[uint]map[string][]uint{}}
			got := l.forms(sets(plan))
			forms[got]++
			if got < l.forms(sets(bare)) {
				fewer++
			}
			for _, x := range l.plans(1<<len(b.faces) - 1) {
				if l.forms(x) < got {
					c.failf("%d forms, %d in %b", got, l.forms(x), x)
				}
			}
		}
		t.Logf("%+v: forms %v, fewer than without the wish in %d blocks", g, forms, fewer)
		mattered += fewer
	}
	if mattered == 0 {
		t.Error("the wish never mattered")
	}
}

// TestAlikeWishes: patches of other fabrics make other sections, and what is wished
// besides is kept to.
func TestAlikeWishes(t *testing.T) {
	at := func(x, y float64) plane.Point { return plane.Point{X: x, Y: y} }
	p := Build(box(8, 8), []plane.Line{{A: at(2, 0), B: at(0, 6)}, {A: at(2, 8), B: at(0, 2)},
		{A: at(6, 0), B: at(8, 6)}, {A: at(6, 8), B: at(8, 2)}}, 0)
	spots := p.Locate([]plane.Point{at(1, 1), at(7, 1), at(7, 7), at(1, 7), at(0.2, 4), at(7.8, 4)})
	forms := func(w Wishes) int {
		plan := p.Plan(w)
		if len(plan.Sections) != 3 || len(plan.Refused) > 0 {
			t.Errorf("%+v", plan)
		}
		s := newForms(p, w.Alike)
		seen := map[int32]bool{}
		for _, x := range plan.Sections {
			seen[s.of(faces(x.Patches))] = true
		}
		return len(seen)
	}
	w := Wishes{Alike: make([]int, 7)}
	if n := forms(w); n != 2 {
		t.Errorf("one fabric: %d forms", n)
	}
	w.Together = [][]int{{spots[0].Patch, spots[4].Patch}, {spots[1].Patch, spots[5].Patch}}
	if n := forms(w); n != 3 { // on either side below: the right is the left reversed
		t.Errorf("both below: %d forms", n)
	}
	w.Together[1][0] = spots[2].Patch
	if n := forms(w); n != 2 {
		t.Errorf("below and above: %d forms", n)
	}
	w.Together, w.Alike[spots[4].Patch] = nil, 1
	if n := forms(w); n != 3 {
		t.Errorf("two fabrics: %d forms", n)
	}
}

// TestFormsOfRepeats: pieces that are divided alike are divided alike again, and in
// fewer forms.
func TestFormsOfRepeats(t *testing.T) {
	var lines []plane.Line
	for _, x := range []float64{0, 8, 16} {
		at := func(u, v float64) plane.Point { return plane.Point{X: x + u, Y: v} }
		lines = append(lines, plane.Line{A: at(2, 0), B: at(0, 6)}, plane.Line{A: at(2, 8), B: at(0, 2)},
			plane.Line{A: at(6, 0), B: at(8, 6)}, plane.Line{A: at(6, 8), B: at(8, 2)}, plane.Line{A: at(8, 0), B: at(8, 8)})
	}
	p := Build(box(24, 8), lines, 0)
	seen := map[int32]int{}
	s := newForms(p, make([]int, len(p.Patches)))
	plan := p.Plan(Wishes{Alike: s.kinds})
	for _, x := range plan.Sections {
		seen[s.of(faces(x.Patches))]++
	}
	if len(p.Patches) != 21 || len(plan.Sections) != 9 || len(seen) != 2 {
		t.Errorf("%d patches, %d sections, forms %v", len(p.Patches), len(plan.Sections), seen)
	}
}

// A group is the motions that take a block to itself: so many turns about its middle,
// and with mirror each of them after a reflection.
type group struct {
	turns  int
	mirror bool
}

// random cuts a square by lines and all their images, and unites neighbours and all
// their images until few are left; false if that leaves too many or points too near.
func (g group) random(r *rand.Rand, lines, most int) (block, bool) {
	b := block{outline: box(8, 8), faces: []plane.Polygon{box(8, 8)}}
	for range lines {
		p := plane.Point{X: 8 * r.Float64(), Y: 8 * r.Float64()}
		if r.Intn(2) == 0 {
			p = plane.Point{X: float64(r.Intn(9)), Y: float64(r.Intn(9))}
		}
		sin, cos := math.Sincos(math.Pi / 8 * float64(r.Intn(8)))
		for _, q := range g.images(p, p.Add(plane.Point{X: cos, Y: sin})) {
			d := q[1].Sub(q[0])
			var out []plane.Polygon
			for _, f := range b.faces {
				if l, k := clip(f, q[0], d, 1), clip(f, q[0], d, -1); len(l) > 2 && len(k) > 2 {
					out = append(out, l, k)
				} else {
					out = append(out, f)
				}
			}
			b.faces = out
		}
	}
	if len(b.faces) > 60 || !wellSpaced(b.faces) {
		return b, false
	}
	want := 4 + r.Intn(most-3)
	for tries := 0; tries < 10 || tries < 600 && len(b.faces) > want; tries++ {
		g.unite(&b, r.Intn(len(b.faces)), r.Intn(len(b.faces)))
	}
	return b, len(b.faces) > 2 && len(b.faces) <= most
}

// images returns where the motions take a list of points.
func (g group) images(list ...plane.Point) (out [][]plane.Point) {
	c := plane.Point{X: testSide / 2, Y: testSide / 2}
	for k := range g.turns {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(g.turns))
		for _, y := range [2]float64{1, -1} {
			if y < 0 && !g.mirror {
				continue
			}
			var moved []plane.Point
			for _, p := range list {
				d := p.Sub(c)
				d.Y *= y
				moved = append(moved, c.Add(plane.Point{X: cos*d.X - sin*d.Y, Y: sin*d.X + cos*d.Y}))
			}
			out = append(out, moved)
		}
	}
	return out
}

// unite makes one face of two and of all their images, if that makes convex faces.
func (g group) unite(b *block, i, j int) {
	if i == j {
		return
	}
	find := func(p plane.Point) int {
		return slices.IndexFunc(b.faces, func(f plane.Polygon) bool { return f.Locate(p) > 0 })
	}
	with := map[int]int{}
	var made []plane.Polygon
	for _, q := range g.images(middle(b.faces[i]), middle(b.faces[j])) {
		x, y := find(q[0]), find(q[1])
		u, hasU := with[x]
		v, hasV := with[y]
		switch {
		case hasU != hasV || hasU && (u != y || v != x):
			return
		case !hasU:
			with[x], with[y] = y, x
			h := hull(append(slices.Clone(b.faces[x]), b.faces[y]...))
			if math.Abs(h.Area()-b.faces[x].Area()-b.faces[y].Area()) > 1e-6 {
				return
			}
			made = append(made, h)
		}
	}
	for k, f := range b.faces {
		if _, gone := with[k]; !gone {
			made = append(made, f)
		}
	}
	b.faces = made
}

// A lister lists all plans with the fewest sections.
type lister struct {
	*oracle
	known map[uint]map[string][]uint
}

func (l *lister) plans(set uint) map[string][]uint {
	if m, ok := l.known[set]; ok {
		return m
	}
	m := map[string][]uint{}
	l.known[set] = m
	if l.section[set] {
		m[fmt.Sprint(set)] = []uint{set}
		return m
	}
	for a := (set - 1) & set; a != 0; a = (a - 1) & set {
		b := set &^ a
		if a&(set&-set) == 0 || l.least[a] == 0 || l.least[b] == 0 || l.least[a]+l.least[b] != l.least[set] {
			continue
		}
		if _, ok := l.join(a, b); !ok {
			continue
		}
		for _, x := range l.plans(a) {
			for _, y := range l.plans(b) {
				z := slices.Sorted(slices.Values(append(slices.Clone(x), y...)))
				m[fmt.Sprint(z)] = z
			}
		}
	}
	return m
}

func sets(plan Plan) (out []uint) {
	for _, s := range plan.Sections {
		out = append(out, setOf(s.Patches))
	}
	return out
}

// forms counts sections that no turn and no shift takes to each other.
func (l *lister) forms(sections []uint) int {
	seen := map[string]bool{}
	for _, s := range sections {
		seen[l.form(s)] = true
	}
	return len(seen)
}

// form lists the corners and middles of a section's faces, as seen from its middle
// towards that corner for which the list comes first.
func (l *lister) form(set uint) string {
	corners, middles := map[[2]int]plane.Point{}, []plane.Point{}
	for s := set; s != 0; s &= s - 1 {
		f := l.faces[bits.TrailingZeros(s)]
		middles = append(middles, middle(f))
		for _, p := range f {
			corners[[2]int{int(math.Round(1e3 * p.X)), int(math.Round(1e3 * p.Y))}] = p
		}
	}
	points := slices.Collect(maps.Values(corners))
	c := plane.Point{}
	for _, p := range points {
		c = c.Add(p.Mul(1 / float64(len(points))))
	}
	best := ""
	for _, p := range points {
		d := p.Sub(c)
		if d.Len() < testMin/2 {
			continue
		}
		d = d.Mul(1 / d.Len())
		var list []string
		for k, q := range append(slices.Clone(points), middles...) {
			q = q.Sub(c)
			list = append(list, fmt.Sprintf("%v %.0f %.0f", k < len(points), 100*d.Dot(q)+1e-3, 100*d.Cross(q)+1e-3))
		}
		slices.Sort(list)
		if name := fmt.Sprint(list); best == "" || name < best {
			best = name
		}
	}
	return best
}
