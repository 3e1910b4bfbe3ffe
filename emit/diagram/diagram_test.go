package diagram

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
	"seamwright/emit/internal/sample"
	"seamwright/emit/svg"
)

func pictureOf(t *testing.T, p *pattern.Pattern, name string) *drawing.Page {
	t.Helper()
	for _, pic := range Pictures(p, &p.Blocks[0]) {
		if pic.Name == name {
			return pic.Make(nil)
		}
	}
	t.Fatalf("no picture %s", name)
	return nil
}

// flat lists paths and texts, and the group each stands in.
func flat(items []drawing.Item, group string, see func(group string, path *drawing.Path, text *drawing.Text)) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Group:
			flat(item.Items, item.ID, see)
		case *drawing.Path:
			see(group, item, nil)
		case *drawing.Text:
			see(group, nil, item)
		}
	}
}

// ink is the rectangle a text paints.
func ink(t *drawing.Text) box {
	e := t.Extent().Ink
	return box{pos{X: t.At.X + length(e.X0), Y: t.At.Y + length(e.Y0)}, pos{X: t.At.X + length(e.X1), Y: t.At.Y + length(e.Y1)}}
}

// crosses reports whether a stroke comes into a rectangle, by clipping it to
// each side in turn.
func crosses(b box, p, q pos) bool {
	low, high := 0.0, 1.0
	for _, c := range [4][2]length{{p.X - q.X, p.X - b.min.X}, {q.X - p.X, b.max.X - p.X}, {p.Y - q.Y, p.Y - b.min.Y}, {q.Y - p.Y, b.max.Y - p.Y}} {
		switch d, room := float64(c[0]), float64(c[1]); {
		case d == 0 && room < 0:
			return false
		case d > 0:
			high = min(high, room/d)
		case d < 0:
			low = max(low, room/d)
		}
	}
	return low < high
}

// clash finds a text that touches a line or another text, or leaves the page.
func clash(page *drawing.Page) string {
	var texts []*drawing.Text
	var paths []*drawing.Path
	flat(page.Items, "", func(group string, path *drawing.Path, text *drawing.Text) {
		switch {
		case text != nil:
			texts = append(texts, text)
		case group != "leaders": // a leader ends at its label
			paths = append(paths, path)
		}
	})
	for i, t := range texts {
		b := ink(t)
		if b.min.X < 0 || b.min.Y < 0 || b.max.X > page.Size.W || b.max.Y > page.Size.H {
			return fmt.Sprintf("%q leaves the page", t.Text)
		}
		for _, u := range texts[i+1:] {
			if b.touches(ink(u)) {
				return fmt.Sprintf("%q touches %q", t.Text, u.Text)
			}
		}
		for _, path := range paths {
			n := len(path.Points)
			if path.Circle > 0 {
				c, r := path.Points[0], path.Circle
				if b.touches(box{pos{X: c.X - r, Y: c.Y - r}, pos{X: c.X + r, Y: c.Y + r}}) {
					return fmt.Sprintf("%q touches a ring", t.Text)
				}
				continue
			}
			for k := range path.Points {
				if (k+1 < n || path.Closed) && crosses(b, path.Points[k], path.Points[(k+1)%n]) {
					return fmt.Sprintf("%q touches a line", t.Text)
				}
			}
		}
	}
	return ""
}

// sliced is a block of one section that is cut by lines at random: slivers and
// all.
func sliced(t *rapid.T) *pattern.Pattern {
	var seams []sample.Seam
	for range rapid.IntRange(0, 9).Draw(t, "seams") {
		sin, cos := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle"))
		at := pos{X: 8 * length(rapid.Float64Range(0.1, 0.9).Draw(t, "x")), Y: 8 * length(rapid.Float64Range(0.1, 0.9).Draw(t, "y"))}
		seams = append(seams, sample.Seam{A: at, B: pos{X: at.X + length(cos), Y: at.Y + length(sin)}, Fabric: len(seams) % 3})
	}
	p := sample.Boat()
	s := &p.Blocks[0].Sizes[0]
	d := sample.Section("A", s.Outline, 0, []int{0, 1, 2, 3}, seams...)
	for i := range d.Pieces {
		if len(d.Pieces[i].Polygon) < 3 {
			t.Skip("a seam missed")
		}
	}
	s.Drawings, s.Copies, s.Joins = []pattern.Drawing{d}, []pattern.Copy{{}}, nil
	cutting.Cut(p)
	return p
}

func TestNothingTouchesALabel(t *testing.T) {
	for _, p := range []*pattern.Pattern{sample.Boat(), sample.Star()} {
		for _, pic := range Pictures(p, &p.Blocks[0]) {
			if told := clash(pic.Make(nil)); told != "" {
				t.Errorf("%s: %s", pic.Name, told)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		p := sliced(t)
		page := sections(nil, words.OnPictures(words.Default), p, &p.Blocks[0], every(&p.Blocks[0]))
		if told := clash(page); told != "" {
			t.Fatal(told)
		}
		if _, err := svg.Render(page); err != nil {
			t.Fatal(err)
		}
	})
}

// Every space of the samples is numbered, once for each copy, inside the space
// or with a leader that begins there.
func TestEverySpaceIsNumbered(t *testing.T) {
	for _, p := range []*pattern.Pattern{sample.Boat(), sample.Star()} {
		s := &p.Blocks[0].Sizes[0]
		want, got := map[string]int{}, map[string]int{}
		for _, c := range s.Copies {
			for i := range s.Drawings[c.Drawing].Pieces {
				want[s.Drawings[c.Drawing].Label(i)]++
			}
		}
		flat(pictureOf(t, p, "sections").Items, "", func(group string, _ *drawing.Path, text *drawing.Text) {
			if text != nil && group != "" {
				got[text.Text]++
			}
		})
		for label, n := range want {
			if got[label] != n {
				t.Errorf("%s: %d of %d", label, got[label], n)
			}
		}
	}
}

// Moved apart, no two sections touch.
func TestSectionsAreApart(t *testing.T) {
	for _, p := range []*pattern.Pattern{sample.Boat(), sample.Star()} {
		var outlines [][]pos
		flat(pictureOf(t, p, "sections").Items, "", func(_ string, path *drawing.Path, _ *drawing.Text) {
			if path != nil && path.Style == drawing.OutlineLine {
				outlines = append(outlines, path.Points)
			}
		})
		for i, a := range outlines {
			for _, b := range outlines[i+1:] {
				if !parted(a, b) && !parted(b, a) {
					t.Errorf("%v touches %v", a, b)
				}
			}
		}
	}
}

// parted reports whether a side of convex a has all of b beyond it.
func parted(a, b []pos) bool {
	c := centroid(a)
	for i, p := range a {
		q := a[(i+1)%len(a)]
		side := func(r pos) length { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
		all := true
		for _, r := range b {
			all = all && side(r)*side(c) < -1e-9
		}
		if all {
			return true
		}
	}
	return false
}

// The front shows each fabric over the area that its pieces have, upright.
func TestFrontShowsTheBlock(t *testing.T) {
	p := sample.Boat()
	s := &p.Blocks[0].Sizes[0]
	want, got := map[drawing.Colour]float64{}, map[drawing.Colour]float64{}
	eachPiece(s, &drawing.Pen{}, func(piece *pattern.Piece, polygon []pos) {
		want[drawing.Colour(p.Fabrics[piece.Fabric].Colour)] += float64(areaOf(polygon))
	})
	flat(pictureOf(t, p, "front").Items, "", func(group string, path *drawing.Path, _ *drawing.Text) {
		if group == "block" {
			got[path.Fill] += -float64(areaOf(path.Points)) // y runs down
		}
	})
	scale := math.Pow(float64(inner)/8, 2)
	for colour, area := range want {
		if math.Abs(got[colour]/scale-area) > 1e-9 {
			t.Errorf("%06x: %v square inches of the block, want %v", colour, got[colour]/scale, area)
		}
	}
}

func areaOf(polygon []pos) (sum length) {
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		sum += p.X*q.Y - p.Y*q.X
	}
	return sum / 2
}

// Hatching keeps to its area and fills it: the lengths of its lines times their
// distance are the area.
func TestHatching(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 7).Draw(t, "corners")
		var polygon []pos
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := length(rapid.Float64Range(1, 3).Draw(t, "r")) // may turn inwards
			polygon = append(polygon, pos{X: r * length(cos), Y: r * length(sin)})
		}
		var h hatcher
		total := length(0)
		for _, item := range h.hatch(nil, polygon, mediumStep, 1) {
			for ends := range slices.Chunk(item.(*drawing.Path).Points, 2) {
				a, b := ends[0], ends[1]
				total += length(math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)))
				if fits(polygon, pos{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}, 1, 1, 0) == 0 && a != b {
					t.Fatalf("%v to %v lies outside", a, b)
				}
			}
		}
		if area := areaOf(polygon); math.Abs(float64(total*mediumStep/area)-1) > 0.05 {
			t.Fatalf("hatched %v of %v", total*mediumStep, area)
		}
	})
}

// A label as large as place says does fit: its corners and sides lie inside.
func TestPlaceFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sliced(t)
		for _, piece := range p.Blocks[0].Sizes[0].Drawings[0].Pieces {
			at, size := place(piece.Polygon, 1.6, 1, 0, 3)
			for i := range 40 {
				for _, q := range []pos{{X: length(i%20)/19 - 0.5, Y: length(i/20) - 0.5}, {X: length(i/20) - 0.5, Y: length(i%20)/19 - 0.5}} {
					q = pos{X: at.X + q.X*1.6*size*0.999, Y: at.Y + q.Y*size*0.999}
					if size > 1e-6 && fits(piece.Polygon, q, 1, 1, 0) == 0 {
						t.Fatalf("size %v at %v: %v lies outside", size, at, q)
					}
				}
			}
		}
	})
}

// A long strip that is sewn on by its slanting end is laid at a slant, and is
// drawn so; the picture names it and holds the whole patch.
func TestSlant(t *testing.T) {
	p := sample.Boat()
	s := &p.Blocks[0].Sizes[0]
	strip := []pos{{}, {X: 8}, {X: 8, Y: 0.75}, {Y: 0.75}}
	s.Drawings[0] = sample.Section("A", strip, 0, nil, sample.Seam{A: pos{X: 2, Y: 0.75}, B: pos{X: 1.25, Y: 0}, Fabric: 1})
	cutting.Cut(p)
	page := pictureOf(t, p, "slant")
	named := false
	flat(page.Items, "", func(_ string, path *drawing.Path, text *drawing.Text) {
		named = named || text != nil && text.Text == "A2, "+s.Drawings[0].Pieces[1].Patch.Size.In(8)
		if path != nil {
			for _, q := range path.Points {
				if q.X < 0 || q.X > page.Size.W || q.Y < 0 || q.Y > page.Size.H {
					t.Errorf("%v lies off the page", q)
				}
			}
		}
	})
	if !named {
		t.Error("A2 is not named")
	}
	if told := clash(page); told != "" {
		t.Error(told)
	}
	if _, err := svg.Render(page); err != nil {
		t.Fatal(err)
	}
	for _, pic := range Pictures(sample.Star(), &sample.Star().Blocks[0]) {
		if pic.Name == "slant" {
			t.Error("the star has nothing at a slant")
		}
	}
}

// A plain triangle that is not reversed comes from the picture's rectangle by a turn
// alone, one of the other hand does not: so the picture is cut right side up.
func TestDiagonalShowsTheHand(t *testing.T) {
	half := Diagonal(pattern.HalfRectangle, pattern.Size{W: 4, H: 2}).True(pos{})
	cut := half[1].(*drawing.Path).Points // on the page, where y goes down
	if len(half) != 2 || cut[0] != (pos{Y: 0}) || cut[1] != (pos{X: 4, Y: 2}) {
		t.Fatalf("the rectangle is cut along %v", cut)
	}
	// Below that cut lies a triangle whose right angle is at the lower left: from it,
	// anticlockwise, the long leg comes first.
	for _, c := range []struct {
		corners  []pos // as seen from the front, y up
		reversed bool
	}{
		{[]pos{{}, {X: 4}, {Y: 2}}, false},
		{[]pos{{X: 4, Y: 2}, {Y: 2}, {X: 4}}, false}, // the other half
		{[]pos{{}, {X: 2}, {Y: 4}}, true},
		{[]pos{{X: 4}, {X: 4, Y: 2}, {}}, true},
	} {
		p := &pattern.Pattern{Fabrics: []pattern.Fabric{{Words: "sky"}}, Settings: pattern.Settings{Allowance: 0.25}}
		s := pattern.Sized{Drawings: []pattern.Drawing{{Name: "A", Make: 1, Plain: true, Reversed: -1, Outline: c.corners,
			Edges: make([]pattern.Edge, 3), Pieces: []pattern.Piece{{Number: 1, Polygon: c.corners}}}}}
		p.Blocks = []pattern.Block{{Sizes: []pattern.Sized{s}}}
		cutting.Cut(p)
		if got := p.Blocks[0].Sizes[0].Drawings[0].Pieces[0].Patch; got.Shape != pattern.HalfRectangle || got.Reversed != c.reversed {
			t.Errorf("%v is cut as shape %d, reversed %v", c.corners, got.Shape, got.Reversed)
		}
	}
}
