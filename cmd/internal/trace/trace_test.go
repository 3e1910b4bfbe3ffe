package trace_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"seamwright/cmd/internal/trace"
	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/piecing"
	"seamwright/compiler/plane"
	"seamwright/lang"
	"seamwright/lang/problem"
)

var update = flag.Bool("update", false, "write the golden files anew")

func text(t rapid.TB, svg string) (*trace.Traced, *trace.Drawing) {
	t.Helper()
	d, err := trace.Read([]byte(svg))
	if err != nil {
		t.Fatal(err)
	}
	made, err := d.Text(trace.Options{Name: "drawn", Title: "Drawn"})
	if err != nil {
		t.Fatal(err)
	}
	return made, d
}

// pieced compiles without the rules of the trade.
func pieced(t rapid.TB, text string) *pattern.Pattern {
	t.Helper()
	file, ps := lang.Parse(&problem.Source{Name: "t.seam", Text: text})
	r := eval.Evaluate(file, nil)
	ps = append(append(ps, r.Problems...), piecing.Piece(r)...)
	if problem.Failed(ps) {
		t.Fatalf("%s\n%v", text, ps)
	}
	return &r.Pattern
}

// Drawings made with Inkscape 1.2 (groups, clones made real, paths, millimeters)
// become these texts, and compile.
func TestInkscape(t *testing.T) {
	for name, left := range map[string]string{"pinwheel": "", "harbor": "moon a curve, words text"} {
		svg, err := os.ReadFile(filepath.Join("testdata", name+".svg"))
		if err != nil {
			t.Fatal(err)
		}
		made, d := text(t, string(svg))
		golden := filepath.Join("testdata", name+".seam")
		if *update {
			if err := os.WriteFile(golden, []byte(made.Text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, _ := os.ReadFile(golden)
		if diff := cmp.Diff(string(want), made.Text); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
		var all []string
		for _, l := range d.LeftOut {
			all = append(all, l.ID+" "+l.What)
		}
		if got := strings.Join(all, ", "); got != left {
			t.Errorf("%s: left out %q, want %q", name, got, left)
		}
		pieced(t, made.Text)
	}
}

// A block is a rectangle cut on a grid, with a color for each patch.
type block struct {
	w, h    float64
	patches []plane.Polygon
	colors  []uint32
}

func drawBlock(t *rapid.T) *block {
	b := &block{w: float64(rapid.IntRange(4, 12).Draw(t, "w")), h: float64(rapid.IntRange(4, 12).Draw(t, "h"))}
	b.cut(t, plane.Polygon{{}, {X: b.w}, {X: b.w, Y: b.h}, {Y: b.h}}, rapid.IntRange(1, 10).Draw(t, "cuts"))
	return b
}

// cut divides a patch from one place on its border to another, both on the grid.
func (b *block) cut(t *rapid.T, p plane.Polygon, cuts int) {
	var at []plane.Point
	for i := range p {
		s := p.Side(i)
		steps := math.Round(math.Max(math.Abs(s.B.X-s.A.X), math.Abs(s.B.Y-s.A.Y)))
		for k := 0.0; k < steps; k++ {
			q := s.A.Add(s.B.Sub(s.A).Mul(k / steps))
			if on := (plane.Point{X: math.Round(q.X), Y: math.Round(q.Y)}); on.Same(q) {
				at = append(at, on)
			}
		}
	}
	for try := 0; cuts > 0 && try < 6; try++ {
		from, to := rapid.SampledFrom(at).Draw(t, "from"), rapid.SampledFrom(at).Draw(t, "to")
		f := plane.Face{Corners: p, Labels: make([]int32, len(p)), Convex: true}
		if from.Same(to) {
			continue
		}
		chords := f.Chords(plane.Line{A: from, B: to}, nil)
		if len(chords) != 1 {
			continue
		}
		x, y := f.Split(chords[0], 0, 0)
		if min(x.Corners.Width(), y.Corners.Width()) < 0.3 {
			continue
		}
		n := rapid.IntRange(0, cuts-1).Draw(t, "left")
		b.cut(t, x.Corners, n)
		b.cut(t, y.Corners, cuts-1-n)
		return
	}
	b.patches = append(b.patches, p)
	b.colors = append(b.colors, rapid.SampledFrom([]uint32{0xdfeaf0, 0x25525e, 0xb8432f, 0xf2c14e}).Draw(t, "color"))
}

// fourfold makes a block of four like this one, each turned and reversed somehow.
func (b *block) fourfold(t *rapid.T) {
	side := max(b.w, b.h)
	b.patches, b.colors = nil, nil
	b.cut(t, plane.Polygon{{}, {X: side}, {X: side, Y: side}, {Y: side}}, 5)
	one, colors := b.patches, b.colors
	b.w, b.h, b.patches, b.colors = 2*side, 2*side, nil, nil
	for i := range 4 {
		quarters, reversed := rapid.IntRange(0, 3).Draw(t, "quarters"), rapid.Bool().Draw(t, "reversed")
		for k, p := range one {
			var moved plane.Polygon
			for _, q := range p {
				q = q.Sub(plane.Point{X: side / 2, Y: side / 2})
				if reversed {
					q.X = -q.X
				}
				for range quarters {
					q = plane.Point{X: -q.Y, Y: q.X}
				}
				moved = append(moved, q.Add(plane.Point{X: side/2 + side*float64(i%2), Y: side/2 + side*float64(i/2)}))
			}
			b.patches, b.colors = append(b.patches, moved), append(b.colors, colors[k])
		}
	}
}

// svg draws the patches, each in transforms of its own that undo what was done to
// its points, as a polygon or a path; y points down.
func (b *block) svg(t *rapid.T) string {
	var s strings.Builder
	fmt.Fprintf(&s, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g"><g transform="scale(10) translate(3,-2)">`, b.w*10, b.h*10)
	for i, p := range b.patches {
		angle := float64(rapid.IntRange(0, 359).Draw(t, "angle"))
		x, y := float64(rapid.IntRange(-9, 9).Draw(t, "x")), float64(rapid.IntRange(-9, 9).Draw(t, "y"))
		grow := rapid.SampledFrom([]float64{1, 2, -0.5}).Draw(t, "grow")
		sin, cos := math.Sincos(-angle * math.Pi / 180)
		var points []string
		for _, q := range p {
			// the place on the page, then back through translate, rotate, scale
			dx, dy := q.X-x, b.h-q.Y-y
			points = append(points, fmt.Sprintf("%.6f,%.6f", (cos*dx-sin*dy)/grow, (sin*dx+cos*dy)/grow))
		}
		shape := `<polygon points="` + strings.Join(points, " ") + `"/>`
		if rapid.Bool().Draw(t, "path") {
			shape = `<path d="M` + strings.Join(points, "L") + `z"/>`
		}
		fmt.Fprintf(&s, `<g transform="translate(%g %g) rotate(%g)" style="fill:#%06x"><g transform="scale(%g)">%s</g></g>`, x, y, angle, b.colors[i], grow, shape)
	}
	return s.String() + "</g></svg>"
}

// clear reports whether all corners that differ, and all sides that do not meet a
// corner, are three times the tolerance from it: what is nearer may become one.
func (b *block) clear() bool {
	const one = 1e-9
	apart := 3 * max(b.w, b.h) * trace.DefaultSnap
	for _, p := range b.patches {
		for _, q := range p {
			for _, other := range b.patches {
				for i := range other {
					side := other.Side(i)
					if d := side.A.Dist(q); d > one && d < apart {
						return false
					}
					if d := math.Abs(side.Offset(q)); d > one && d < apart && side.Along(q) > 0 && side.Along(q) < side.Len() {
						return false
					}
				}
			}
		}
	}
	return true
}

// What was drawn comes back: every patch, where it was, with its color.
func TestReadsBack(t *testing.T) {
	repeats := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlock(t)
		if rapid.IntRange(0, 2).Draw(t, "four") == 0 {
			b.fourfold(t)
		}
		if !b.clear() {
			t.Skip("finer than the tolerance")
		}
		made, d := text(t, b.svg(t))
		if len(d.LeftOut) > 0 {
			t.Fatal(d.LeftOut)
		}
		if made.Repeats > 0 {
			repeats++
		}
		p := pieced(t, made.Text)
		s := &p.Blocks[0].Sizes[0]
		if s.Figures.Pieces != len(b.patches) {
			t.Fatalf("%d pieces, %d were drawn\n%s", s.Figures.Pieces, len(b.patches), made.Text)
		}
		scale := float64(s.Finished.W) / b.w
		for c := range s.Copies {
			move, drawing := s.Copies[c].Motion(), &s.Drawings[s.Copies[c].Drawing]
			for k := range drawing.Pieces {
				var polygon plane.Polygon
				for _, q := range drawing.Pieces[k].Polygon {
					q = move(q)
					polygon = append(polygon, plane.Point{X: float64(q.X) / scale, Y: float64(q.Y) / scale})
				}
				at, same := polygon.Interior(), false
				for i := range b.patches {
					if b.patches[i].Locate(at) > 0 {
						color := p.Colorway[0].Dress[drawing.Pieces[k].Fabric].Colour
						same = uint32(color) == b.colors[i] && math.Abs(polygon.Area()-math.Abs(b.patches[i].Area())) < 1e-3
					}
				}
				if !same {
					t.Fatalf("the piece about %v is another than was drawn\n%s", at, made.Text)
				}
			}
		}
	})
	t.Logf("%d with repeats", repeats)
}

// Points that miss each other by less than the tolerance are one; by more, not.
func TestSnap(t *testing.T) {
	const svg = `<svg><rect width="64" height="64" fill="#eee"/><path d="M0,%g L64,64" stroke="black"/></svg>`
	for off, want := range map[float64]int{0.2: 0, 0.6: 1} {
		made, _ := text(t, fmt.Sprintf(svg, off))
		if made.Off != want {
			t.Errorf("%g beside the corner: %d points beside the grid, want %d\n%s", off, made.Off, want, made.Text)
		}
		pieced(t, made.Text)
	}
}

// Lines that something is painted over can't be seen, so they are no seams.
func TestPaintedOver(t *testing.T) {
	made, _ := text(t, `<svg><rect width="8" height="8" fill="#eee"/><path d="M0,2H8" stroke="#000"/><rect x="4" width="4" height="8" fill="#333"/></svg>`)
	if made.Patches != 3 {
		t.Errorf("%d patches, want 3\n%s", made.Patches, made.Text)
	}
	pieced(t, made.Text)
}

// Lines that make no patches are written as they are, so that the compiler can say
// what is wrong with them; and their colors are kept.
func TestLoose(t *testing.T) {
	for svg, lines := range map[string]int{
		`<svg><rect width="8" height="8" fill="#eee"/><path d="M2,2H6V6H2z" fill="#333"/></svg>`:          4,
		`<svg><rect width="8" height="8" fill="#eee"/><path d="M0,4H5" fill="none" stroke="#333"/></svg>`: 1,
	} {
		made, _ := text(t, svg)
		if made.Patches != 0 || made.Lines != lines || strings.Count(made.Text, "piece") != strings.Count(svg, `fill="#`) {
			t.Errorf("%d patches, %d lines, want 0 and %d\n%s", made.Patches, made.Lines, lines, made.Text)
		}
	}
}

// Clones are read where they are shown, and classes as style sheets say.
func TestClones(t *testing.T) {
	const page = `<svg xmlns:xlink="http://www.w3.org/1999/xlink"><rect width="8" height="8" fill="#eee"/>`
	const quarter = `<defs><style>/* two */ .a, .b { fill: #333; } .b{stroke:#000;fill:#c00}</style><g id="q"><path class="%s" d="M0 0H4L0 4z"/></g></defs>`
	four := `<use xlink:href="#q"/><use href="#q" x="8" transform="rotate(90 8 0)"/><use xlink:href="#q" transform="translate(8,8) rotate(180)"/><use xlink:href="#q" transform="translate(0 8)rotate(270)"/></svg>`
	for class, color := range map[string]string{"a": "#333333", "b": "#cc0000", "b a": "#333333"} {
		made, d := text(t, page+fmt.Sprintf(quarter, class)+four)
		if made.Patches != 5 || made.Fabrics != 2 || len(d.LeftOut) != 0 || !strings.Contains(made.Text, color) {
			t.Errorf("%s: %d patches of %d fabrics, left out %v\n%s", class, made.Patches, made.Fabrics, d.LeftOut, made.Text)
		}
		pieced(t, made.Text)
	}
	for svg, want := range map[string]string{
		`<use id="u" href="#gone"/>`:                                                  "a clone of what is not there",
		`<symbol id="s"><path d="M0 0H4"/></symbol><use id="u" href="#s"/>`:           "a clone of a symbol; unlink it",
		`<g id="g"><path d="M0,4H8" stroke="#000"/><use id="u" href="#g" y="0"/></g>`: "a clone of itself",
		`<style>rect { fill: #333 }</style>`:                                          "a rule of a style sheet",
		`<style>#x .y{fill:red}</style><circle r="1"/>`:                               "a rule of a style sheet",
	} {
		_, d := text(t, page+svg+`</svg>`)
		if !strings.Contains(fmt.Sprint(d.LeftOut), want) {
			t.Errorf("%s: left out %v, want %s", svg, d.LeftOut, want)
		}
	}
}

// Clones of clones of clones are given up, not followed for ever.
func TestTooManyClones(t *testing.T) {
	svg := `<svg><rect width="8" height="8" fill="#eee"/><g id="g0"><path d="M0,4H8" stroke="#000"/></g>`
	for i := range 15 {
		svg += fmt.Sprintf(`<g id="g%d">`, i+1) + strings.Repeat(fmt.Sprintf(`<use href="#g%d"/>`, i), 10) + `</g>`
	}
	if d, err := trace.Read([]byte(svg + `</svg>`)); err == nil {
		t.Errorf("%d shapes were read", len(d.Shapes))
	}
}

func TestPathData(t *testing.T) {
	const page = `<svg><rect width="8" height="8" fill="#fff"/><path id="p" d="%s" fill="none" stroke="#000"/></svg>`
	for d, patches := range map[string]int{
		"M0 4h8": 2, "m0,4 8,0": 2, "M4-0V8": 2, "M0 0C2 2 6 6 8 8": 2, "M0,0Q4,4 8,8": 2, "M0 4H8M4 0v8": 4,
		"M0 4L4 0 8 4 4 8z": 5, "M2.5.0v8": 2, "M0 4l8e0 0": 2,
		"M0 0C2 0 6 8 8 8": -1, "M0 0A4 4 0 0 1 8 8": -1, "M0 0L": -1, "L": -1, "0 0": -1, "M0 0z 1": -1, "M0 0 l1e999 0": -1,
	} {
		made, drawing := text(t, fmt.Sprintf(page, d))
		if left := len(drawing.LeftOut); left == 1 != (patches < 0) || patches > 0 && made.Patches != patches {
			t.Errorf("%s: %d patches, left out %v\n%s", d, made.Patches, drawing.LeftOut, made.Text)
		}
	}
}

// Whatever the bytes are, they are read or refused.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"pinwheel", "harbor"} {
		svg, err := os.ReadFile(filepath.Join("testdata", name+".svg"))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(svg)
	}
	f.Add([]byte(`<svg><g transform="matrix(1 0 0 0 1e300 1)"><path d="M1-1.5.5h1e5"/></g><polyline points="1 2 3"/></svg>`))
	f.Fuzz(func(t *testing.T, svg []byte) {
		d, err := trace.Read(svg)
		if err != nil {
			return
		}
		made, err := d.Text(trace.Options{Name: "drawn", Title: "Drawn"})
		if err != nil {
			return
		}
		if _, ps := lang.Parse(&problem.Source{Text: made.Text}); problem.Failed(ps) {
			t.Errorf("%s\n%v", made.Text, ps)
		}
	})
}

// What is taken for the block: a rectangle that other things keep clear of or run out
// over, the page where lines run up to it, else all that is drawn.
func TestFrame(t *testing.T) {
	const head = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 400 400">`
	const frame = `<rect id="edge" x="40" y="40" width="160" height="160" fill="none" stroke="black"/><path d="M 40,120 H 200" stroke="black" fill="none"/>`
	for _, c := range []struct {
		name, svg string
		what      trace.FrameKind
		w, h      float64
		over, out int
	}{
		{"swatches beside it", frame + `<rect id="red" x="300" y="40" width="20" height="20" fill="#aa0000"/>`, trace.Rectangle, 2, 2, 0, 1},
		{"lines run out over it", frame + `<path id="long" d="M 30,30 L 210,210" stroke="black" fill="none"/>`, trace.Rectangle, 2, 2, 1, 0},
		{"strips about the largest patch", frame + `<path d="M 20,40 V 200" stroke="black"/><rect x="20" y="20" width="20" height="180" fill="#aa0000"/>`, trace.AllDrawn, 0, 0, 0, 0},
		{"nothing in it", `<rect x="40" y="40" width="160" height="160" fill="none" stroke="black"/><path d="M 300,0 L 350,100 L 380,0 Z" fill="#112233"/>`, trace.AllDrawn, 0, 0, 0, 0},
		{"up to the page", `<path d="M 0,100 H 400 M 0,200 H 400" stroke="black" fill="none"/>`, trace.Page, 4, 4, 0, 0},
		{"in the middle of the page", frame, trace.AllDrawn, 0, 0, 0, 0},
	} {
		d, err := trace.Read([]byte(head + c.svg + "</svg>"))
		if err != nil {
			t.Fatal(c.name, err)
		}
		made, err := d.Text(trace.Options{Name: "b", Title: "B"})
		if err != nil {
			t.Fatal(c.name, err)
		}
		f := made.Frame
		if f.What != c.what || f.Over != c.over || len(f.Outside) != c.out || c.w > 0 && (made.W != c.w || made.H != c.h) {
			t.Errorf("%s: %+v, %g x %g", c.name, f, made.W, made.H)
		}
		if f.What == trace.Rectangle && f.ID != "edge" {
			t.Errorf("%s: the rectangle %s", c.name, f.ID)
		}
	}
}
