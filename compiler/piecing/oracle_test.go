package piecing

import (
	"math"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// toGeom and the half-planes below hand our polygons to an independent library
// (peterstace/simplefeatures, checked against GEOS by its authors).
func toGeom(t testing.TB, p plane.Polygon) geom.Geometry {
	t.Helper()
	flat := make([]float64, 0, 2*len(p)+2)
	for _, q := range p {
		flat = append(flat, q.X, q.Y)
	}
	flat = append(flat, p[0].X, p[0].Y)
	poly := geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(flat, geom.DimXY))})
	if err := poly.Validate(); err != nil {
		t.Fatalf("not a polygon: %v: %v", err, p)
	}
	return poly.AsGeometry()
}

// halfPlane is what lies left of a line, as far as any block reaches.
func halfPlane(l plane.Line) plane.Polygon {
	const far = 100
	d := l.Dir()
	n := plane.Point{X: -d.Y, Y: d.X}
	a, b := l.A.Sub(d.Mul(far)), l.A.Add(d.Mul(far))
	return plane.Polygon{a, b, b.Add(n.Mul(far)), a.Add(n.Mul(far))}
}

func common(t testing.TB, a, b geom.Geometry) geom.Geometry {
	t.Helper()
	g, err := geom.Intersection(a, b)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// unsized undoes scale and shift: a polygon of the model in squares.
func unsized(p []pattern.Pos, low plane.Point, scale float64) plane.Polygon {
	q := make(plane.Polygon, len(p))
	for i := range p {
		q[i] = plane.Point{X: float64(p[i].X)/scale + low.X, Y: float64(p[i].Y)/scale + low.Y}
	}
	return q
}

// placedPieces returns every piece of a size in place, by its source's number.
func placedPieces(s *pattern.Sized, do func(c int, p *pattern.Piece, polygon []pattern.Pos)) {
	for i := range s.Copies {
		move := s.Copies[i].Motion()
		d := &s.Drawings[s.Copies[i].Drawing]
		for k := range d.Pieces {
			polygon := make([]pattern.Pos, len(d.Pieces[k].Polygon))
			for j, q := range d.Pieces[k].Polygon {
				polygon[j] = move(q)
			}
			do(i, &d.Pieces[k], polygon)
		}
	}
}

// patterns is how many generated blocks the tests compare, quick or in full.
func patterns(t *testing.T) uint64 {
	if testing.Short() {
		return 100
	}
	return 1000
}

// wide is the size of generated blocks: large enough that few of them have
// points too near to tell.
const wide = 40

// Every piece is the common part of the half-planes it was made of, worked out
// by the library from the outline alone; together they are the outline, and no
// two overlap.
func TestPiecesAgreeWithHalfPlanes(t *testing.T) {
	again(t, generate, func(g *generated, w *wanted) geom.Geometry {
		area := toGeom(t, g.body.Outline)
		for _, h := range w.halves {
			area = common(t, area, toGeom(t, halfPlane(h)))
		}
		return area
	})
}

// With inward corners the half-planes do not tell all; the pieces are compared
// with those that were cut when the block was made.
func TestPiecesOfAnyOutline(t *testing.T) {
	again(t, generateInward, func(_ *generated, w *wanted) geom.Geometry { return toGeom(t, w.polygon) })
}

func again(t *testing.T, make func(uint64, int) *generated, wants func(*generated, *wanted) geom.Geometry) {
	refused := uint64(0)
	for seed := range patterns(t) {
		g := make(seed, 1+int(seed%7))
		s := sizeOrNear(t, g.body)
		if s == nil {
			refused++
			continue
		}
		low, high := g.body.Outline.Box()
		scale := wide / (high.X - low.X)
		// Sections are copies in the order of the text.
		want := map[[2]int]geom.Geometry{}
		for i := range g.want {
			w := &g.want[i]
			want[[2]int{w.section, w.piece}] = wants(g, w)
		}
		sum, pieces := 0.0, 0
		var all []geom.Geometry
		placedPieces(s, func(c int, p *pattern.Piece, polygon []pattern.Pos) {
			got := toGeom(t, unsized(polygon, low, scale))
			w := want[[2]int{c, p.Number - 1}]
			both := common(t, got, w).Area()
			if math.Abs(both-w.Area()) > 1e-8 || math.Abs(both-got.Area()) > 1e-8 {
				t.Errorf("seed %d: section %d piece %d has %v squares, wanted %v, common %v",
					seed, c, p.Number, got.Area(), w.Area(), both)
			}
			sum += got.Area()
			pieces++
			all = append(all, got)
		})
		if pieces != len(g.want) {
			t.Errorf("seed %d: %d pieces, wanted %d", seed, pieces, len(g.want))
		}
		union, err := geom.UnionMany(all)
		if err != nil {
			t.Fatal(err)
		}
		outline := toGeom(t, g.body.Outline)
		rest, err := geom.SymmetricDifference(union, outline)
		if err != nil {
			t.Fatal(err)
		}
		if rest.Area() > 1e-6 || math.Abs(sum-outline.Area()) > 1e-6 {
			t.Errorf("seed %d: pieces cover all but %v squares and sum up to %v of %v", seed, rest.Area(), sum, outline.Area())
		}
		holds(t, s)
	}
	if refused > patterns(t)/20 {
		t.Errorf("%d of %d were refused for points too near", refused, patterns(t))
	}
}

// sizeOrNear compiles a generated block; nil if it has points too near to tell,
// the one fault that may happen by chance.
func sizeOrNear(t *testing.T, b *eval.Body) *pattern.Sized {
	t.Helper()
	r := result(b, wide)
	if ps := Piece(r); len(r.Pattern.Blocks[0].Sizes) != 1 {
		for _, p := range ps {
			if p.Code != NearPoints {
				t.Fatalf("%s: %v", b.Name, ps)
			}
		}
		return nil
	}
	return &r.Pattern.Blocks[0].Sizes[0]
}

// A join from some size on, right across a block: below that size nothing
// changes, above it every piece in its way is in two, and no other.
func TestJoinsFromASizeDivideEveryPiece(t *testing.T) {
	refused := uint64(0)
	for seed := range patterns(t) / 5 {
		g := generate(seed, 1+int(seed%5))
		face := plane.Face{Corners: g.body.Outline, Labels: make([]int32, len(g.body.Outline)), Convex: true}
		c, ok := g.chord(&face)
		if !ok {
			continue
		}
		line := plane.Line{A: c.From.At, B: c.To.At}
		join := eval.Join{Line: line, From: wide - 1}
		b := *g.body
		if seed%2 == 0 { // sewn first: a seam in each section
			b.Joins = append([]eval.Join{join}, b.Joins...)
		} else { // sewn last: one seam right across
			b.Joins = append(append([]eval.Join(nil), b.Joins...), join)
		}
		s := sizeOrNear(t, &b)
		if s == nil {
			refused++
			continue
		}
		holds(t, s)
		want := len(g.want)
		for i := range g.want {
			p := plane.Face{Corners: g.want[i].polygon, Labels: make([]int32, len(g.want[i].polygon)), Convex: true}
			want += len(p.Chords(line, nil))
		}
		if s.Figures.Pieces != want {
			t.Errorf("seed %d: %d pieces, want %d", seed, s.Figures.Pieces, want)
		}
		small := result(&b, wide-2)
		if Piece(small); len(small.Pattern.Blocks[0].Sizes) == 1 && small.Pattern.Blocks[0].Sizes[0].Figures.Pieces != len(g.want) {
			t.Errorf("seed %d: it acts below its size", seed)
		}
	}
	if refused > patterns(t)/20 {
		t.Errorf("%d were refused", refused)
	}
}

// A block turned by any angle has the same sections and numbers.
func TestTurnedBlocksAreTheSame(t *testing.T) {
	angles := []float64{22.5, 30, 45, 90, 180 / math.Pi}
	bodies := []*eval.Body{logCabin(5), patches(4, false), patches(3, true), placed(3, true), placed(3, false)}
	for seed := range patterns(t) / 20 {
		bodies = append(bodies, generate(seed, 5).body)
	}
	for _, body := range bodies {
		low, high := body.Outline.Box()
		scale := 12 / (high.X - low.X)
		plain := size(t, body, 12)
		holds(t, plain)
		for _, angle := range angles {
			b := turned(body, plane.Motion{Turn: angle, Shift: plane.Point{X: 3, Y: -1}})
			low, high := b.Outline.Box()
			other := size(t, b, pattern.Length(scale*(high.X-low.X)))
			compare(t, body.Name, angle, plain, other)
		}
	}
}

func size(t *testing.T, b *eval.Body, width pattern.Length) *pattern.Sized {
	t.Helper()
	r := result(b, width)
	ps := Piece(r)
	if len(r.Pattern.Blocks[0].Sizes) != 1 {
		t.Fatalf("%s: %v", b.Name, ps)
	}
	return &r.Pattern.Blocks[0].Sizes[0]
}

// compare holds everything that turning must not change.
func compare(t *testing.T, name string, angle float64, a, b *pattern.Sized) {
	t.Helper()
	const tol = 1e-9
	same := func(x, y pattern.Length) bool { return math.Abs(float64(x-y)) < tol }
	f, g := a.Figures, b.Figures
	if f.Sections != g.Sections || f.Pieces != g.Pieces || f.Seams != g.Seams || f.Drawings != g.Drawings ||
		f.PlainDrawings != g.PlainDrawings || f.Points != g.Points || f.NarrowestPiece != g.NarrowestPiece ||
		!same(f.Narrowest, g.Narrowest) || !same(f.NearestPoints, g.NearestPoints) {
		t.Errorf("%s turned by %v: %+v became %+v", name, angle, f, g)
		return
	}
	for i := range a.Drawings {
		d, e := &a.Drawings[i], &b.Drawings[i]
		if d.Name != e.Name || d.Make != e.Make || d.Reversed != e.Reversed || d.First != e.First ||
			len(d.Edges) != len(e.Edges) || len(d.Pieces) != len(e.Pieces) {
			t.Errorf("%s turned by %v: drawing %s, make %d, became %s, make %d", name, angle, d.Name, d.Make, e.Name, e.Make)
			continue
		}
		for k := range d.Pieces {
			x, y := area(d.Pieces[k].Polygon), area(e.Pieces[k].Polygon)
			if d.Pieces[k].Number != e.Pieces[k].Number || math.Abs(x-y) > tol {
				t.Errorf("%s turned by %v: %s became %s, %v square inches %v", name, angle, d.Label(k), e.Label(k), x, y)
			}
		}
		for k := range d.Edges {
			x, y := &d.Edges[k], &e.Edges[k]
			if x.Kind != y.Kind || x.Letter != y.Letter || len(x.Marks) != len(y.Marks) || len(x.Partners) != len(y.Partners) {
				t.Errorf("%s turned by %v: edge %d of %s became %+v, was %+v", name, angle, k, d.Name, y, x)
				continue
			}
			for m := range x.Marks {
				if x.Marks[m].Letter != y.Marks[m].Letter || x.Marks[m].Match != y.Marks[m].Match || x.Marks[m].Kind != y.Marks[m].Kind {
					t.Errorf("%s turned by %v: a mark of %s became %+v, was %+v", name, angle, d.Name, y.Marks[m], x.Marks[m])
				}
			}
		}
	}
	for i := range a.Joins {
		if len(a.Joins[i].Points) != len(b.Joins[i].Points) || len(a.Joins[i].Left) != len(b.Joins[i].Left) {
			t.Errorf("%s turned by %v: join %d changed", name, angle, i+1)
		}
	}
}

func area(p []pattern.Pos) float64 { return unsized(p, plane.Point{}, 1).Area() }
