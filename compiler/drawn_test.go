package compiler_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"seamwright/compiler"
	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/piecing"
	"seamwright/compiler/plane"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A drawnUnit is a unit made by cutting a square, so that its patches and their
// fabrics are known, and it can be sewn.
type drawnUnit struct {
	lines   []plane.Line
	patches []plane.Polygon
	fabrics []int
}

var drawnFabrics = [...]string{"sky", "sea", "hull"}

const unitSide = 8

func drawUnit(t *rapid.T) *drawnUnit {
	u := &drawnUnit{}
	square := plane.Polygon{{X: 0, Y: 0}, {X: unitSide, Y: 0}, {X: unitSide, Y: unitSide}, {X: 0, Y: unitSide}}
	u.cut(t, plane.Face{Corners: square, Labels: make([]int32, 4), Convex: true}, rapid.IntRange(1, 12).Draw(t, "cuts"))
	return u
}

func (u *drawnUnit) cut(t *rapid.T, f plane.Face, cuts int) {
	at := func() plane.Point {
		s := f.Corners.Side(rapid.IntRange(0, len(f.Corners)-1).Draw(t, "side"))
		k := float64(rapid.IntRange(0, 4).Draw(t, "along")) / 4
		return s.A.Mul(1 - k).Add(s.B.Mul(k))
	}
	for try := 0; cuts > 0 && try < 6; try++ {
		l := plane.Line{A: at(), B: at()}
		if l.Len() < 0.2 {
			continue
		}
		chords := f.Chords(l, nil)
		if len(chords) != 1 || u.crowded(chords[0].From.At) || u.crowded(chords[0].To.At) {
			continue
		}
		a, b := f.Split(chords[0], 0, 0)
		if min(a.Corners.Width(), b.Corners.Width()) < 0.1 {
			continue
		}
		u.lines = append(u.lines, plane.Line{A: chords[0].From.At, B: chords[0].To.At})
		n := rapid.IntRange(0, cuts-1).Draw(t, "left")
		u.cut(t, a, n)
		u.cut(t, b, cuts-1-n)
		return
	}
	u.patches = append(u.patches, f.Corners)
	u.fabrics = append(u.fabrics, rapid.IntRange(0, len(drawnFabrics)-1).Draw(t, "fabric"))
}

// crowded reports whether a point is almost another.
func (u *drawnUnit) crowded(p plane.Point) bool {
	for _, l := range u.lines {
		for _, q := range [2]plane.Point{l.A, l.B} {
			if !p.Same(q) && p.Dist(q) < 0.1 {
				return true
			}
		}
	}
	return false
}

func pt(p plane.Point) string {
	f := func(x float64) string { return strconv.FormatFloat(x, 'f', 10, 64) }
	return "(" + f(p.X) + ", " + f(p.Y) + ")"
}

// text writes a file: the unit as a block and, placed three times, in another.
func (u *drawnUnit) text(corners bool) string {
	var body strings.Builder
	for _, l := range u.lines {
		fmt.Fprintf(&body, "  line %s -- %s  // a seam\n", pt(l.A), pt(l.B))
	}
	for i, p := range u.patches {
		if corners && i%2 == 0 {
			list := make([]string, len(p))
			for k := range p {
				if list[k] = pt(p[k]); i%4 == 0 { // in either direction
					list[k] = pt(p[len(p)-1-k])
				}
			}
			fmt.Fprintf(&body, "  piece %s %s\n", drawnFabrics[u.fabrics[i]], strings.Join(list, ", "))
			continue
		}
		fmt.Fprintf(&body, "  piece %s at %s\n", drawnFabrics[u.fabrics[i]], pt(p.Interior()))
	}
	return "fabric sky light #dfeaf0\nfabric sea dark #25525e\nfabric hull dark #3a2a20\n" +
		"block one 8 x 8 finished 6in, 40cm {\n" + body.String() + "}\n" +
		"unit part 8 x 8 {\n" + body.String() + "}\n" +
		"block three 24 x 8 finished 18in {\n  place part at sw\n  place part by c at (12, 4) turn 90deg\n" +
		"  place part by c at (20, 4) turn 180deg reversed\n  join (8, 0) -- (8, 8), (16, 0) -- (16, 8)\n}\n"
}

// pieced compiles without the rules of the trade: what is cut at random has
// points too sharp to sew.
func pieced(text string) (*pattern.Pattern, []problem.Problem) {
	file, ps := lang.Parse(&problem.Source{Name: "t.seam", Text: text})
	r := eval.Evaluate(file, nil)
	ps = append(append(ps, r.Problems...), compiler.Sew(r)...)
	if problem.Failed(ps) {
		return nil, ps
	}
	return &r.Pattern, ps
}

// almostOne reports whether points of units placed side by side came to lie too
// near each other, which chance may do and is rightly refused.
func almostOne(ps []problem.Problem) bool {
	return slices.ContainsFunc(ps, func(p problem.Problem) bool { return p.Code == piecing.NearPoints })
}

// The patches of a drawn unit are its pieces, each with its fabric, at every
// size, placed, turned and reversed; and they cover the block.
func TestDrawnUnits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := drawUnit(t)
		text := u.text(rapid.Bool().Draw(t, "corners"))
		p, ps := pieced(text)
		if almostOne(ps) {
			return
		}
		if p == nil {
			t.Fatalf("%s\n%s", text, show(ps))
		}
		for i := range p.Blocks[0].Sizes {
			u.isMade(t, p, &p.Blocks[0].Sizes[i])
		}
		s := &p.Blocks[1].Sizes[0]
		if s.Figures.Pieces != 3*len(u.patches) || float64(s.Figures.AreaError) > 1e-6 {
			t.Errorf("%d pieces, three times %d were drawn; area error %v", s.Figures.Pieces, len(u.patches), s.Figures.AreaError)
		}
		for i := range s.Drawings {
			if n := len(s.Drawings[i].Pieces); n > 20 {
				t.Errorf("section %s has %d pieces", s.Drawings[i].Name, n)
			}
		}
	})
}

// isMade holds the pieces of a size to the patches as they were cut.
func (u *drawnUnit) isMade(t *rapid.T, p *pattern.Pattern, s *pattern.Sized) {
	scale := float64(s.Finished.W) / unitSide
	made := make([]bool, len(u.patches))
	for c := range s.Copies {
		move, d := s.Copies[c].Motion(), &s.Drawings[s.Copies[c].Drawing]
		for k := range d.Pieces {
			polygon := make(plane.Polygon, len(d.Pieces[k].Polygon))
			for i, q := range d.Pieces[k].Polygon {
				q = move(q)
				polygon[i] = plane.Point{X: float64(q.X) / scale, Y: float64(q.Y) / scale}
			}
			at := polygon.Interior()
			i := slices.IndexFunc(u.patches, func(q plane.Polygon) bool { return q.Locate(at) > 0 })
			switch {
			case i < 0 || made[i]:
				t.Fatalf("a piece about %v is no patch, or made twice", at)
			case math.Abs(polygon.Area()-u.patches[i].Area()) > 1e-4:
				t.Errorf("the piece about %v has %v squares, its patch %v", at, polygon.Area(), u.patches[i].Area())
			case p.Fabrics[d.Pieces[k].Fabric].Name != drawnFabrics[u.fabrics[i]]:
				t.Errorf("the piece about %v has the wrong fabric", at)
			}
			made[i] = true
		}
	}
	if i := slices.Index(made, false); i >= 0 {
		t.Errorf("the patch about %v is not made", u.patches[i].Interior())
	}
}

func alike() cmp.Options {
	return cmp.Options{
		cmpopts.IgnoreTypes(pattern.Source{}),
		cmpopts.IgnoreFields(pattern.Figures{}, "AreaError", "SamePoints"), // rounding itself
		cmpopts.IgnoreFields(pattern.Drawing{}, "Found"),
		cmp.Comparer(func(a, b pattern.Length) bool { return math.Abs(float64(a-b)) < 1e-6 }),
		cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }),
	}
}

// Numbering changes nothing but the text: the pattern is the same, all its
// sections, names, joins, marks and patches; and comments stay.
func TestNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := drawUnit(t)
		text := u.text(rapid.Bool().Draw(t, "corners"))
		before, ps := pieced(text)
		if almostOne(ps) {
			return
		}
		made, problems := compiler.Number(&problem.Source{Name: "t.seam", Text: text}, nil)
		if before == nil || problem.Failed(problems) {
			t.Fatalf("%s\n%s", text, show(ps))
		}
		if strings.Contains(made.Text, "line (") || strings.Count(made.Text, "// a seam") != strings.Count(text, "// a seam") {
			t.Fatalf("not all is rewritten, or comments are lost:\n%s", made.Text)
		}
		after, ps := pieced(made.Text)
		if after == nil {
			t.Fatalf("%s\n%s", made.Text, show(ps))
		}
		if d := cmp.Diff(before, after, alike()); d != "" {
			t.Fatalf("%s\nbecomes\n%s\n%s", text, made.Text, d)
		}
	})
}

// A unit with parameters is numbered for the values it is used with: the pattern is
// the same, whatever kinds they have.
func TestNumberParameters(t *testing.T) {
	const text = `fabric sky light #dfeaf0
fabric sea dark #25525e
fabric hull dark #3a2a20
unit all(most: number, long: length, a: angle, p: point, k: line, word: text, y: bool, one: fabric, two: fabric = sea) 4 x 4 {
  let far = most + 1
  check long > 0in and word != "" "must be"
  // the seams
  line (0, most) -- (4, far), rotate(w, a, p) -- meet(k, n -- s), meet(k, n -- s) -- rotate(e, a, p)
  if y { line (0, most / 2) -- (4, most / 2) }
  for f in one { piece f at (1, 3.9) }
  if y { piece two at (3, 1 / 8), (1, 1 / 8) }
  piece if y then one else two at (3, most - 1 / 8), (1, most - 1 / 8)
  piece hull at (3, 3.9)
}
block b 12 x 4 finished 6in {
  place all(2, 1/4in, 90deg, (2, 2), w -- e, "a \\"word\\"", true, sky) at sw
  place all(2, 1/4in, 90deg, (2, 2), w -- e, "a \\"word\\"", true, hull, sky) at (4, 0)
  place all(sqrt(2), 10cm, 450deg, (2, 2), w -- e, "b", false, sky) at (8, 0)
}
`
	before, ps := pieced(strings.ReplaceAll(text, `\\`, `\`))
	made, problems := compiler.Number(&problem.Source{Name: "t.seam", Text: strings.ReplaceAll(text, `\\`, `\`)}, nil)
	if before == nil || problem.Failed(problems) || len(made.Kept) > 0 {
		t.Fatalf("%s %v", show(append(ps, problems...)), made.Kept)
	}
	after, ps := pieced(made.Text)
	if after == nil || !strings.Contains(made.Text, "// the seams") || strings.Contains(made.Text, "line (") {
		t.Fatalf("%s\n%s", made.Text, show(ps))
	}
	if d := cmp.Diff(before, after, alike()); d != "" {
		t.Fatalf("becomes\n%s\n%s", made.Text, d)
	}
}

// What can't be said once for all uses stays as it is drawn.
func TestNumberKeeps(t *testing.T) {
	const head = "fabric sky light #dfeaf0\nfabric sea dark #25525e\n"
	for _, c := range []struct{ text, why string }{
		{"unit u(f: fabric) 2 x 2 {\n  piece f at c\n}\n", "nothing uses it"},
		{"unit u(f: fabric) 2 x 2 {\n  piece if f == sky then sea else sky at c\n}\nblock b 4 x 2 finished 4in {\n" +
			"  place u(sky) at sw\n  place u(sea) at s\n}\n", "chosen by conditions"},
	} {
		made, ps := compiler.Number(&problem.Source{Name: "t.seam", Text: head + c.text}, nil)
		if made.Text != head+c.text || len(made.Kept) != 1 || !strings.Contains(made.Kept[0].Why, c.why) {
			t.Errorf("%s becomes\n%s\n%v, %s", c.text, made.Text, made.Kept, show(ps))
		}
	}
}

// A part of this block is too large for the sheet, and dividing it changes where
// the parts beside it can be cut.
func TestDrawnLargerThanTheSheet(t *testing.T) {
	p, ps := pieced(`fabric sky light #dfeaf0
block gale 8 x 8 finished 40cm {
  line (8, 4) -- (6, 8), sw -- e, (6, 8) -- (4, 2), (5.5, 6.5) -- e, (5.5, 6.5) -- w
  line (1.5, 8) -- (0, 5), (0, 7.25) -- (1.5, 8), (0, 7.8125) -- (1.125, 8), (1.21875, 8) -- (0.375, 7.4375)
  line (8, 6) -- (6, 8), (7.5, 6.5) -- (8, 7)
  piece sky at (6.5, 6.2), (5.8, 4.2), (2.4, 3.1), (2.6, 6.3), (0.4, 7.95), (1.03, 7.8), (0.54, 7.7), (0.5, 6.8)
  piece sky at (5.3, 1.3), (7.3, 6), (7.4, 7.4), (7.8, 6.5)
}`)
	if p == nil {
		t.Fatal(show(ps))
	}
	if f := p.Blocks[0].Sizes[0].Figures; f.Pieces != 12 || f.Sections < 3 {
		t.Errorf("%d pieces in %d sections", f.Pieces, f.Sections)
	}
}

// What keeps a drawing from being sewn is shown with all of the drawing, and what
// would mend it beside.
func TestFaultsDrawn(t *testing.T) {
	for _, c := range []struct {
		lines              string
		drawn, cure, marks int
	}{
		{"line (2, 0) -- (2, 6), (0, 6) -- (6, 6), (6, 8) -- (6, 2), (8, 2) -- (2, 2)", 4, 1, 5},
		{"line n -- c, sw -- c, se -- c", 3, 1, 1},
		{"line w -- (5, 4)", 1, 0, 2},
	} {
		_, ps := pieced("fabric sky light #dfeaf0\nblock b 8 x 8 finished 8in {\n  " + c.lines + "\n  piece sky at (1, 5)\n}\n")
		if len(ps) == 0 || ps[0].Drawn == nil || ps[0].Drawn.Ground == nil {
			t.Errorf("%s: %s", c.lines, show(ps))
			continue
		}
		d := ps[0].Drawn
		if len(d.Ground.Outline) != 4 || len(d.Ground.Lines) != c.drawn || len(d.Cure) != c.cure || len(d.Points) != c.marks {
			t.Errorf("%s: %+v", c.lines, d)
		}
	}
}

// Strips longer than the sheet, such as the outer logs of a large cabin, are sections
// of their own, which are cut without paper; what is sewn on paper lies on the sheet.
func TestLongStrips(t *testing.T) {
	text := "fabric warm light #eeeeee\nfabric cool dark #223355\nblock cabin 14 x 14 finished 14in {\n"
	low, high := plane.Point{}, plane.Point{X: 14, Y: 14}
	log := func(fabric string, ax, ay, bx, by, x, y float64) {
		text += fmt.Sprintf("  line (%g, %g) -- (%g, %g)\n  piece %s at (%g, %g)\n", ax, ay, bx, by, fabric, x, y)
	}
	for high.X-low.X > 2 {
		log("warm", high.X-1, low.Y, high.X-1, high.Y, high.X-0.5, 7)
		log("warm", low.X, high.Y-1, high.X-1, high.Y-1, 7, high.Y-0.5)
		high = high.Sub(plane.Point{X: 1, Y: 1})
		log("cool", low.X+1, low.Y, low.X+1, high.Y, low.X+0.5, 7)
		log("cool", low.X+1, low.Y+1, high.X, low.Y+1, 7, low.Y+0.5)
		low = low.Add(plane.Point{X: 1, Y: 1})
	}
	text += "  piece warm at (7, 7)\n}\n"
	p, ps := pieced(text)
	if p == nil {
		t.Fatalf("%s\n%s", text, show(ps))
	}
	papers := 0
	for _, d := range p.Blocks[0].Sizes[0].Drawings {
		if d.Plain {
			continue
		}
		papers++
		for _, q := range d.Outline {
			if q.X-d.Outline[0].X > 8.25*pattern.Inch || q.Y-d.Outline[0].Y > 8.25*pattern.Inch {
				t.Errorf("%s reaches to %v", d.Name, q)
			}
		}
	}
	if n := len(p.Blocks[0].Sizes[0].Drawings); papers != 1 || n != 14 {
		t.Errorf("%d sections, %d of them on paper", n, papers)
	}
}

// A line that cures a drawing is offered with names for both parts of the patches that
// it divides: with the edits made, the pattern can be sewn.
func TestCuresCompile(t *testing.T) {
	for _, body := range []string{
		"line n -- c, sw -- c, se -- c\n  piece sky at (4, 1), (1, 5), (7, 5)",
		"line w -- c -- s\n  piece sky at (2, 2)\n  piece sea at (6, 6)",
		"line (0, 4) -- (3, 4), n -- (3, 4), (3, 4) -- (6, 0)\n  line (3, 4) -- e\n  line (4, 4) -- (5, 6) -- (8, 7)\n  piece sky at (1, 1), (1, 6), (7, 1), (4, 6), (7, 5)",
	} {
		text := "fabric sky light #dfeaf0\nfabric sea dark #25525e\nblock b 8 x 8 finished 8in {\n  " + body + "\n}\n"
		_, ps := pieced(text)
		i := slices.IndexFunc(ps, func(p problem.Problem) bool { return p.Severity == problem.Error })
		if i < 0 || len(ps[i].Edits) < 2 {
			t.Errorf("%s\n%s", text, show(ps))
			continue
		}
		edits := ps[i].Edits
		slices.SortFunc(edits, func(a, b problem.Edit) int { return int(b.At.Start - a.At.Start) })
		for _, e := range edits {
			text = text[:e.At.Start] + e.New + text[e.At.End:]
		}
		if p, ps := pieced(text); p == nil {
			t.Errorf("%s\n%s", text, show(ps))
		}
	}
}

// A stub that would be cut back to nothing is offered to run on instead.
func TestStubRunsOn(t *testing.T) {
	_, ps := pieced("fabric sky light #dfeaf0\nblock b 8 x 8 finished 8in {\n  line (0, 4) -- (0.5, 4)\n  piece sky at (4, 2), (4, 6)\n}\n")
	if len(ps) != 1 || len(ps[0].Edits) != 1 || ps[0].Edits[0].New != "(8, 4)" {
		t.Errorf("%s", show(ps))
	}
}
