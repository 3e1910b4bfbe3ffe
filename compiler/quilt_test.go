package compiler_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler"
	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// sewn compiles a quilt of blocks of some finished sizes in inches.
func sewn(t interface {
	Helper()
	Fatalf(string, ...any)
}, finished, quilt string) (*pattern.Pattern, *pattern.Quilt) {
	t.Helper()
	text := `fabric sky "sky" light #dfeaf0
fabric sea "sea" dark #25525e
block cloud 4 x 4 finished ` + finished + ` {
  section A { 1 sky at (3, 1)  2 sea along sw -- ne }
}
block plain 4 x 4 finished ` + finished + ` { section B { 1 sea at c } }
quilt "Overcast" {
` + quilt + "\n}\n"
	p, ps := compiler.Compile(&problem.Source{Name: "overcast.seam", Text: text}, nil)
	if p == nil {
		t.Fatalf("%v\n%s", ps, text)
	}
	return p, &p.Quilts[0]
}

func laid(t *testing.T, finished, quilt string) *pattern.Layout {
	t.Helper()
	_, q := sewn(t, finished, quilt)
	if q.Layout == nil {
		t.Fatalf("%s: %s", quilt, q.Why)
	}
	return q.Layout
}

func counted(l *pattern.Layout, what string) (n int, size pattern.Size) {
	for _, c := range l.Cuts {
		if c.For == what {
			n += c.Count
			size = c.Size
		}
	}
	return n, size
}

func run(t *testing.T, l *pattern.Layout, what string) pattern.Run {
	t.Helper()
	for _, r := range l.Runs {
		if r.For == what {
			return r
		}
	}
	t.Fatalf("no %s in %+v", what, l.Runs)
	return pattern.Run{}
}

// 4 x 5 blocks with sashing all round have 49 sashes and 30 cornerstones
// (Cornerstones and sashes, susanintexas.blogspot.com, 2009). A sash is as long as
// the unfinished block: 12 in with sashing of 3 in is cut 3 1/2 x 12 1/2 (Sashing,
// quilting.about.com).
func TestPublishedSashing(t *testing.T) {
	l := laid(t, "12in", "blocks cloud, 4 x 5\n sashing 3in of sky, around\n cornerstones sea")
	if n, size := counted(l, "sashes"); n != 49 || size != (pattern.Size{W: 12.5, H: 3.5}) {
		t.Errorf("%d sashes of %v", n, size)
	}
	if n, size := counted(l, "cornerstones"); n != 30 || size != (pattern.Size{W: 3.5, H: 3.5}) {
		t.Errorf("%d cornerstones of %v", n, size)
	}
}

// On point, 4 x 5 blocks have 3 x 4 between them: 32; straight, 5 x 7 are 35
// (Squares on point, apqs.com). Setting triangles: M. Hohn, 2002; with sqrt 2
// instead of 1.414 the side for 16 in is 24, not 23 7/8. Corners are the only
// squares cut once (All triangles, alefthandedquilter.blogspot.com, 2019).
func TestPublishedOnPoint(t *testing.T) {
	if n := len(laid(t, "6in", "blocks cloud, 5 x 7").Placed); n != 35 {
		t.Errorf("straight: %d", n)
	}
	for _, c := range []struct{ b, side, corner pattern.Length }{
		{4, 7, 3.75}, {6, 9.75, 5.125}, {8, 12.625, 6.625}, {10, 15.5, 8}, {12, 18.25, 9.375}, {16, 24, 12.25},
	} {
		l := laid(t, c.b.Exact()[:strings.Index(c.b.Exact(), " ")]+"in", "blocks cloud, 4 x 5\n on_point sky")
		if len(l.Placed) != 32 {
			t.Errorf("%d blocks", len(l.Placed))
		}
		if n, size := counted(l, "setting triangles"); n != 14 || size.W != c.side {
			t.Errorf("%v: %d setting triangles of %v", c.b, n, size)
		}
		if n, size := counted(l, "corner triangles"); n != 4 || size.W != c.corner {
			t.Errorf("%v: %d corner triangles of %v", c.b, n, size)
		}
	}
}

// A border cut 6 1/2 in wide makes 70 x 86 into 82 x 98, perimeter 360
// (Amount of yardage, slideserve.com, which prints 312, the perimeter without it).
// Sides first, as long as the middle, then top and bottom (Determining border
// lengths, anniesattic.com). Mitred, 50 x 60 with 7 in takes 65 and 75 (mitred
// borders, quiltingboard.com t168402).
func TestPublishedBorders(t *testing.T) {
	l := laid(t, "2in", "blocks cloud, 35 x 43\n border 6in of sky")
	if l.Size != (pattern.Size{W: 82, H: 98}) {
		t.Errorf("size %v", l.Size)
	}
	if r := run(t, l, "border"); r.Height != 6.5 || fmt.Sprint(r.Lengths) != "[86.5 86.5 82.5 82.5]" {
		t.Errorf("%+v", r)
	}
	l = laid(t, "10in", "blocks cloud, 5 x 6\n border 7in of sky, mitred")
	if r := run(t, l, "border"); fmt.Sprint(r.Lengths) != "[65 65 75 75]" {
		t.Errorf("%+v", r)
	}
	l = laid(t, "10in", "blocks cloud, 5 x 6\n border 7in of sky, sea")
	if n, size := counted(l, "corners of the border"); n != 4 || size.W != 7.5 {
		t.Errorf("%d corners of %v", n, size)
	}
}

// Backing 4 in and batting 3 in more on every side: 60 x 80 takes 68 x 88 and 66 x 86
// (loghousequilting.com/preparation). 72 x 90 is backed with two lengths of 94 in
// (Quilt backings, bellaonline.com), at 2 in more; of cloth 40 in wide two widths
// make 79 1/2 in. 40 x 45 needs one width (Quilt backing, stcroixquilters.com):
// of cloth that is 42 to 45 wide, hence 42 and 1 in here.
func TestPublishedBacking(t *testing.T) {
	l := laid(t, "10in", "blocks cloud, 6 x 8\n backing 4in of sky\n batting 3in")
	if l.Backing != (pattern.Size{W: 68, H: 88}) || l.Batting != (pattern.Size{W: 66, H: 86}) {
		t.Errorf("backing %v, batting %v", l.Backing, l.Batting)
	}
	l = laid(t, "6in", "blocks cloud, 12 x 15\n backing 2in of sky")
	if r := run(t, l, "backing"); r.Height != 94 || len(r.Lengths) != 2 {
		t.Errorf("%+v", r)
	}
	l = laid(t, "5in", "blocks cloud, 7 x 9\n backing 2in of sky") // 35 x 45
	if r := run(t, l, "backing"); len(r.Lengths) != 1 || r.Height != 49 {
		t.Errorf("%+v", r)
	}
}

// Strips of binding across 40 in: Binding yardage (blog.missouriquiltco.com);
// alwaysinstitchesohio.blogspot.com, 2009; sylviasquiltdepot.com;
// onceuponaquilt.blogspot.com. Their additions for corners run from 0 to 20 in, and
// all of them come to the same strips as ours.
func TestPublishedBinding(t *testing.T) {
	for _, c := range []struct{ w, h, strips int }{{66, 58, 7}, {40, 50, 5}, {46, 46, 5}, {78, 56, 7}, {50, 60, 6}} {
		p, q := sewn(t, "2in", fmt.Sprintf("blocks cloud, %d x %d\n binding 2 1/2in of sky", c.w/2, c.h/2))
		bought := cutting.Buy(nil, q.Layout.Runs, &p.Settings)
		if bought.Strips[0].Times != c.strips || bought.Inches != 2.5*pattern.Length(c.strips) {
			t.Errorf("%d x %d: %+v", c.w, c.h, bought)
		}
	}
}

// elsewhere is another file.
type elsewhere string

func (e elsewhere) Load(*problem.Source, string) (*problem.Source, string) {
	return &problem.Source{Name: "other.seam", Text: string(e)}, ""
}

// Only blocks of the file itself are made, and can be set.
func TestQuiltOfABlockFromElsewhere(t *testing.T) {
	other := elsewhere(`fabric sky "sky" light #dfeaf0
block cloud 4 x 4 finished 4in { section A { 1 sky at c } }
`)
	p, ps := compiler.Compile(&problem.Source{Name: "q.seam", Text: `use cloud from "other"
fabric sea "sea" light #dfeaf0
block plain 4 x 4 finished 4in { section B { 1 sea at c } }
quilt { row plain, cloud }
`}, other)
	if p == nil || p.Quilts[0].Layout != nil || !strings.Contains(p.Quilts[0].Why, "`cloud`") {
		t.Errorf("%v, %+v", ps, p)
	}
}

// Whatever is laid out covers the quilt: areas and blocks together have its area,
// and none lies outside it.
func TestLayoutsCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m := rapid.IntRange(1, 5).Draw(t, "across"), rapid.IntRange(1, 5).Draw(t, "down")
		text := fmt.Sprintf("blocks %s, %d x %d\n", rapid.SampledFrom([]string{"cloud", "cloud, plain", "cloud, sky, plain"}).Draw(t, "blocks"), n, m)
		text += rapid.SampledFrom([]string{"", "on_point sky\n", "on_point sea\n sashing 1in of sky\n", "on_point sea\n sashing 3/4in of sky, around\n",
			"on_point sea\n sashing 1in of sky\n cornerstones sea\n", "on_point sea\n sashing 2in of sky, around\n cornerstones sky\n", "sashing 1in of sky\n", "sashing 3/4in of sky, around\n", "sashing 1in of sky\n cornerstones sea\n", "sashing 2in of sky, around\n cornerstones sea\n"}).Draw(t, "setting")
		for range rapid.IntRange(0, 3).Draw(t, "borders") {
			text += rapid.SampledFrom([]string{"border 3in of sea\n", "border 1 1/2in of sky, sea\n", "border 2in of sea, mitred\n"}).Draw(t, "border")
		}
		p, q := sewn(t, "3in", text)
		l := q.Layout
		if l == nil {
			t.Fatalf("%s: %s", text, q.Why)
		}
		sum, edges := 0.0, 0.0
		add := func(polygon []pattern.Pos) {
			for i, a := range polygon {
				b := polygon[(i+1)%len(polygon)]
				sum += float64(a.X*b.Y-a.Y*b.X) / 2
				edges += math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))
				if min(a.X, a.Y) < -1e-9 || a.X > l.Size.W+1e-9 || a.Y > l.Size.H+1e-9 {
					t.Fatalf("%s: %v lies outside %v", text, a, l.Size)
				}
			}
		}
		for _, a := range l.Areas {
			add(a.Polygon)
		}
		for i := range l.Placed {
			move := l.Placed[i].Motion()
			var polygon []pattern.Pos
			for _, q := range p.Blocks[l.Placed[i].Block].Sizes[l.Placed[i].Size].Outline {
				polygon = append(polygon, move(q))
			}
			add(polygon)
		}
		if want := float64(l.Size.W * l.Size.H); math.Abs(sum-want) > 1e-6 {
			t.Fatalf("%s: %v of %v sq in", text, sum, want)
		}
		// Every edge of a part is the quilt's own or sewn to another, once.
		sewn := 2 * float64(l.Size.W+l.Size.H)
		for i := range l.Joins {
			j := &l.Joins[i]
			sewn += 2 * float64(j.Length())
			if len(j.Left) == 0 || len(j.Right) == 0 {
				t.Fatalf("%s: join %d has nothing on one side", text, i)
			}
		}
		if math.Abs(sewn-edges) > 1e-6 {
			t.Fatalf("%s: joins and edge are %v in long, the edges of all parts %v", text, sewn, edges)
		}
	})
}

// Sashing leaves the setting triangles of on-point quilts as they are: their short
// sides are as long as a block (the chart is M. Hohn's again).
func TestSashingOnPoint(t *testing.T) {
	for _, c := range []struct{ b, side, corner pattern.Length }{{4, 7, 3.75}, {6, 9.75, 5.125}, {12, 18.25, 9.375}} {
		for _, around := range []string{"", ", around"} {
			l := laid(t, fmt.Sprintf("%gin", float64(c.b)), "blocks cloud, 4 x 5\n on_point sky\n sashing 1in of sea"+around+"\n cornerstones sky")
			if n, size := counted(l, "setting triangles"); n != 14 || size.W != c.side {
				t.Errorf("%v: %d setting triangles of %v", c.b, n, size)
			}
			if n, size := counted(l, "corner triangles"); n != 4 || size.W != c.corner {
				t.Errorf("%v: %d corner triangles of %v", c.b, n, size)
			}
		}
	}
	// Round 2 x 2 blocks on point, five in all: a sash on every side of each, two of
	// the sides between two blocks four times; each of the 12 corners of sashes has a
	// cornerstone, of which 8 lie at the edge. A block with its sashing is 7 in wide:
	// two of them on point finish at 2 x 7 x 1.414 = 19.8 in.
	l := laid(t, "6in", "blocks cloud, 2 x 2\n on_point sky\n sashing 1in of sea, around\n cornerstones sky")
	if n, size := counted(l, "sashes"); n != 16 || size != (pattern.Size{W: 6.5, H: 1.5}) {
		t.Errorf("%d sashes of %v", n, size)
	}
	if n, _ := counted(l, "cornerstones"); n != 4 {
		t.Errorf("%d cornerstones", n)
	}
	// A half has a long side of 1.414 in: a square of 1.414 + 1 1/4, cut twice.
	if n, size := counted(l, "half cornerstones"); n != 8 || size.W != 2.75 {
		t.Errorf("%d half cornerstones of %v", n, size)
	}
	if want := 14 * math.Sqrt2; math.Abs(float64(l.Size.W)-want) > 1e-9 || math.Abs(float64(l.Size.H)-want) > 1e-9 {
		t.Errorf("size %v", l.Size)
	}
	// Without sashing round them: 13 on point between, (7 + 6) x 1.414 = 18.4 in. Sashes
	// that end at the edge are cut longer by 0.354 in, for half a right angle.
	l = laid(t, "6in", "blocks cloud, 2 x 2\n on_point sky\n sashing 1in of sea\n cornerstones sky")
	if n, size := counted(l, "sashes that end at the edge"); n != 4 || size != (pattern.Size{W: 6.875, H: 1.5}) {
		t.Errorf("%d sashes of %v end at the edge", n, size)
	}
	if n, _ := counted(l, "sashes"); n != 4 {
		t.Errorf("%d sashes", n)
	}
	if want := 13 * math.Sqrt2; math.Abs(float64(l.Size.W)-want) > 1e-9 {
		t.Errorf("size %v", l.Size)
	}
}

// A block that is turned, or turned over, stays in its place.
func TestTurnedInPlace(t *testing.T) {
	l := laid(t, "3in", "row cloud, cloud turn 90deg, cloud turn 180deg, cloud turn 270deg\n row cloud reversed, cloud turn 90deg reversed, sky, plain")
	for i := range l.Placed {
		move := l.Placed[i].Motion()
		a, b := move(pattern.Pos{}), move(pattern.Pos{X: 3, Y: 3})
		at := pattern.Pos{X: pattern.Length(i%4) * 3, Y: 3 - pattern.Length(i/4)*3}
		if i == 6 { // behind the plain square
			at.X += 3
		}
		if min(a.X, b.X) != at.X || min(a.Y, b.Y) != at.Y || max(a.X, b.X) != at.X+3 {
			t.Errorf("block %d lies from %v to %v, not at %v", i, a, b, at)
		}
	}
}

func TestQuiltsThatCannotBeLaid(t *testing.T) {
	for text, why := range map[string]string{
		"blocks cloud, 2 x 2, 5in":                                "not finished in that size",
		"blocks sky, 2 x 2":                                       "no block",
		"row cloud, cloud\n row cloud":                            "same number",
		"row cloud, cloud\n row cloud\n on_point sky":             "as long as the first",
		"blocks cloud, 2 x 2\n on_point sky\n sashing 3in of sea": "as wide as its blocks",
		"blocks cloud, 2 x 2\n cornerstones sea":                  "no sashing",
		"blocks cloud, 2 x 2\n border 3in":                        "no fabric",
		"border 3in of sky":                                       "how many blocks",
	} {
		if _, q := sewn(t, "3in", text); q.Layout != nil || !strings.Contains(q.Why, why) {
			t.Errorf("%s: %q", text, q.Why)
		}
	}
}
