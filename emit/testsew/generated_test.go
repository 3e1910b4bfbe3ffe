package testsew

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler"
	"seamwright/emit"
	"seamwright/lang/problem"
)

// A generator writes a block by cutting it up: joins part it into sections, and
// seams part those into spaces, each cut from side to side.
type generator struct {
	t        *rapid.T
	sections strings.Builder
	joins    strings.Builder
	n        int
}

// chord cuts a convex polygon in two from one side to another, where both parts
// are broad enough to sew.
func (g *generator) chord(p poly) (l line, at [2]pt, ok bool) {
	for range 8 {
		i := rapid.IntRange(0, len(p)-1).Draw(g.t, "side")
		j := rapid.IntRange(0, len(p)-1).Draw(g.t, "other side")
		if i == j {
			continue
		}
		for k, side := range [2]int{i, j} {
			a, b := p.side(side)
			at[k] = a.add(b.sub(a).mul(rapid.SampledFrom([]float64{0, .25, .5, .6, .75}).Draw(g.t, "at")))
		}
		if at[0].to(at[1]) < 0.5 {
			continue
		}
		l = through(at[0], at[1])
		left, right := p.clip(l), p.clip(l.flipped())
		if left != nil && right != nil && left.width() > 0.35 && right.width() > 0.35 && left.blunt() && right.blunt() {
			return l, at, true
		}
	}
	return line{}, at, false
}

// sharpest is the sharpest corner that is generated, in degrees: sharper ones have
// to be accepted by the author.
const sharpest = 12

// blunt reports whether no corner of a polygon is sharper than the sharpest.
func (p poly) blunt() bool {
	p = p.corners()
	for i := range p {
		a, b := p.side(i)
		c := p[(i+2)%len(p)]
		if b.sub(a).unit().dot(c.sub(b).unit()) < -math.Cos(sharpest*math.Pi/180) {
			return false
		}
	}
	return true
}

func xy(p pt) string { return fmt.Sprintf("(%.9f, %.9f)", p.x, p.y) }

// block divides an area into sections.
func (g *generator) block(p poly, depth int) {
	if depth > 0 {
		if l, at, ok := g.chord(p); ok {
			g.block(p.clip(l), depth-1)
			g.block(p.clip(l.flipped()), depth-1)
			fmt.Fprintf(&g.joins, "  join %s -- %s\n", xy(at[0]), xy(at[1]))
			return
		}
	}
	g.section(p)
}

// section divides an area into spaces, from the last to the first.
func (g *generator) section(p poly) {
	var lines []string
	rest := p
	fabric := func() string { return rapid.SampledFrom([]string{"sky", "sea", "sand"}).Draw(g.t, "fabric") }
	for range rapid.IntRange(1, 6).Draw(g.t, "pieces") {
		l, at, ok := g.chord(rest)
		if !ok {
			break
		}
		piece := rest.clip(l)
		lines = append(lines, fmt.Sprintf("%s along %s -- %s at %s", fabric(), xy(at[0]), xy(at[1]), xy(piece.middle())))
		rest = rest.clip(l.flipped())
	}
	fmt.Fprintf(&g.sections, "  section %c {\n    1 %s at %s\n", 'A'+g.n, fabric(), xy(rest.middle()))
	for i := range lines {
		fmt.Fprintf(&g.sections, "    %d %s\n", i+2, lines[len(lines)-1-i])
	}
	g.sections.WriteString("  }\n")
	g.n++
}

// generate returns the files of a block at random, or nil where the compiler
// finds something to say against it: points too near, patches too small to label.
func generate(t *rapid.T, paper string) ([]File, string) {
	g := &generator{t: t}
	g.block(poly{{0, 0}, {8, 0}, {8, 8}, {0, 8}}, rapid.IntRange(0, 3).Draw(t, "depth"))
	extra := rapid.SampledFrom([]string{"", "  extra 1/4in\n"}).Draw(t, "extra") + rapid.SampledFrom([]string{"", "  grain sky, sea\n"}).Draw(t, "grain")
	text := "pattern \"Drift\" {\n  edition 1\n" + paper + extra + "}\nfabric sky \"sky\" light #bcd4df\nfabric sea \"sea\" medium #3c7d8c\nfabric sand \"sand\" dark #6b4a2f\n" +
		"block drift 8 x 8 finished 8in {\n" + g.sections.String() + g.joins.String() + "}\n"
	return built(text)
}

// built returns the files of a pattern, or nil where there is something to say
// against it; and its text.
func built(text string) ([]File, string) {
	p, ps := compiler.Compile(&problem.Source{Name: "drift.seam", Text: text}, beside{})
	if problem.Failed(ps) || p == nil {
		return nil, fmt.Sprint(ps) + text
	}
	outputs, ps := emit.Build(p, emit.Options{Only: []string{"sheets", "tables", "json"}})
	if problem.Failed(ps) {
		return nil, fmt.Sprint(ps) + text
	}
	var files []File
	for _, o := range outputs {
		files = append(files, File{o.Path, o.Data})
	}
	return files, text
}

// Where a seam goes on past a point of 14 degrees, what lies behind it can only be the
// point's own cloth: with tips cut off at the reach of a right angle's corner, 0.17 in
// were left.
func TestBehindSharpPoint(t *testing.T) {
	files, text := built(`pattern "Sharp" { edition 1  sheet tabloid }
fabric sky "sky" light #dfeaf0
fabric sea "sea" dark #3c7d8c
block sharp 8 x 8 finished 8in {
  section A {
    1 sky at (2, 6)
    2 sea along (6, 7.5) -- (0, 4.5) at (2.8, 4.3)
    3 sky along (0, 6) -- (8, 8) at (2.6, 7.3)
  }
  section B { 1 sea at (6, 2) }
  join (0, 0) -- (8, 8)
}
`)
	if files == nil {
		t.Fatal(text)
	}
	if r, err := Sew(files); err != nil || r.Failed() || r.Blocks[0].LeastAllowance < 0.249 {
		t.Errorf("%v: %v, least %v", err, findings(r), r.Blocks[0].LeastAllowance)
	}
}

// A part may hold nothing but what is extra beyond the cutting line at the block's edge.
func TestPartOfExtraAlone(t *testing.T) {
	files, text := built(`pattern "Drift" { edition 1  sheet 6in x 7 1/2in  tile yes  extra 1/4in }
fabric sky "sky" light #bcd4df
fabric sea "sea" medium #3c7d8c
block drift 8 x 8 finished 8in {
  section { 1 sky at (7.3, 6.925) }
  section { 1 sea at (5.667, 6.7375)  2 sky along (3, 5.9375) -- (8, 8) }
  section { 1 sky at (1, 5.6)  2 sea along (2, 5.825) -- (2, 4.65) }
  section { 1 sea at (1, 1) }
  join (6, 6.275) -- (8, 8)
  join (8, 6.5) -- (0, 5.6)
  join (8, 6) -- (0, 3.2)
}
`)
	if files == nil {
		t.Fatal(text)
	}
	if r, err := Sew(files); err != nil || r.Failed() {
		t.Errorf("%v: %v", err, findings(r))
	}
}

// Whatever the compiler lets pass can be sewn from its sheets.
func TestGenerated(t *testing.T) { sewGenerated(t, "  sheet a3\n") }

// Sections in parts come together again, on paper that hardly one fits whole.
func TestGeneratedInParts(t *testing.T) { sewGenerated(t, "  sheet 6in x 7 1/2in\n  tile yes\n") }

func sewGenerated(t *testing.T, paper string) {
	sewn, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		all++
		files, text := generate(t, paper)
		if files == nil {
			t.Skip(text)
		}
		r, err := Sew(files)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if r.Failed() {
			t.Fatalf("%v\n%s", findings(r), text)
		}
		sewn++
	})
	t.Logf("%d of %d generated blocks were sewn", sewn, all)
}
