package examples_test

import (
	"fmt"
	"math"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// What makes a pattern good to sew, measured here on the finished model with
// nothing taken from the program's own rules. Common practice, no source.
const (
	nearMiss   = 0.5  // seam ends across a join meet, or lie farther apart than this; inches
	nearCorner = 0.25 // seams end in a section's corner, or at least this far from it
	narrowest  = 0.25 // least width of a piece
	crowded    = 20   // pieces a section
	margin     = 0.5  // of the paper, kept free
	allowance  = 0.25 // round every section
	strip      = 0.5  // more, where two parts are glued together
	same       = 1e-6 // inches: rounding, far below a thread
	letterW    = 8.5  // inches
	letterH    = 11.0 //
)

func TestGoodToSew(t *testing.T) {
	patterns, _ := files(t)
	for _, name := range patterns {
		t.Run(name, func(t *testing.T) {
			p := compile(t, name)
			for i := range p.Blocks {
				for k := range p.Blocks[i].Sizes {
					s := &p.Blocks[i].Sizes[k]
					t.Run(fmt.Sprintf("%s_%g", p.Blocks[i].Name, s.Finished.W), func(t *testing.T) { goodToSew(t, s, p.Settings.Tile) })
				}
			}
		})
	}
}

// A seamEnd is where a seam of one section ends on the section's border.
type seamEnd struct {
	at      plane.Point
	section int
	label   string
}

func goodToSew(t *testing.T, s *pattern.Sized, tile bool) {
	var outlines []plane.Polygon
	var ends []seamEnd
	for c, copy := range s.Copies {
		d := &s.Drawings[copy.Drawing]
		outline := placed(d.Outline, copy)
		outlines = append(outlines, outline)
		if len(d.Pieces) > crowded {
			t.Errorf("section %s has %d pieces", d.Name, len(d.Pieces))
		}
		fits(t, d, outline, tile)
		for _, piece := range d.Pieces {
			label := fmt.Sprintf("%s%d", d.Name, piece.Number)
			if w := width(placed(piece.Polygon, copy)); w < narrowest-same {
				t.Errorf("%s is %.3f in wide", label, w)
			}
			if piece.Number == 1 {
				continue
			}
			for _, p := range placed(piece.Seam[:], copy) {
				if !onBorder(outline, p) {
					continue // it ends at another seam
				}
				ends = append(ends, seamEnd{p, c, label})
				if gap := toCorner(outline, p); gap > same && gap < nearCorner-same {
					t.Errorf("the seam of %s ends %.3f in from a corner of its section", label, gap)
				}
			}
		}
	}
	for i := range ends {
		for k := range ends {
			if misses(outlines, ends, i, k) {
				t.Errorf("the seams of %s and %s almost meet, %.3f in apart", ends[i].label, ends[k].label, apart(ends[i].at, ends[k].at))
			}
		}
	}
}

// misses reports whether end i, which no seam of the other section meets, lies
// close to end k on the border that both sections share.
func misses(outlines []plane.Polygon, ends []seamEnd, i, k int) bool {
	a, b := ends[i], ends[k]
	if a.section == b.section || apart(a.at, b.at) <= same || apart(a.at, b.at) > nearMiss+same {
		return false
	}
	if !onBorder(outlines[b.section], a.at) || !onBorder(outlines[a.section], b.at) || !onOneSide(outlines[a.section], a.at, b.at) {
		return false
	}
	if toCorner(outlines[b.section], a.at) <= same {
		return false // it meets a join
	}
	for _, e := range ends {
		if e.section == b.section && apart(e.at, a.at) <= same {
			return false
		}
	}
	return true
}

// fits reports a section that does not lie on the paper, upright or on its side; in
// a pattern whose sections may be printed in parts, one that takes more than two.
func fits(t *testing.T, d *pattern.Drawing, outline plane.Polygon, tile bool) {
	t.Helper()
	low, high := outline[0], outline[0]
	for _, p := range outline {
		low.X, low.Y = min(low.X, p.X), min(low.Y, p.Y)
		high.X, high.Y = max(high.X, p.X), max(high.Y, p.Y)
	}
	w, h := high.X-low.X+2*allowance, high.Y-low.Y+2*allowance
	room := func(w, h float64) bool { return w <= letterW-2*margin+same && h <= letterH-2*margin+same }
	if tile {
		half := max(w, h)/2 + strip
		w, h = min(w, h), min(half, max(w, h))
	}
	if !room(w, h) && !room(h, w) {
		t.Errorf("section %s with its allowance is %.2f x %.2f in, too large for letter paper", d.Name, w, h)
	}
}

// placed moves positions of a drawing to where a copy lies in the block.
func placed(list []pattern.Pos, c pattern.Copy) plane.Polygon {
	sin, cos := math.Sincos(c.Turn * math.Pi / 180)
	out := make(plane.Polygon, len(list))
	for i, p := range list {
		out[i] = plane.Point{
			X: float64(p.X)*cos - float64(p.Y)*sin + float64(c.Shift.X),
			Y: float64(p.X)*sin + float64(p.Y)*cos + float64(c.Shift.Y),
		}
	}
	return out
}

func apart(p, q plane.Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// offset is how far p lies from the line through a and b.
func offset(a, b, p plane.Point) float64 {
	return math.Abs((b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X)) / apart(a, b)
}

// onSegment reports whether p lies between a and b.
func onSegment(a, b, p plane.Point) bool { return apart(a, p)+apart(p, b)-apart(a, b) < same }

func onBorder(outline plane.Polygon, p plane.Point) bool { return onOneSide(outline, p, p) }

// onOneSide reports whether both points lie on the same side of an outline.
func onOneSide(outline plane.Polygon, p, q plane.Point) bool {
	for i := range outline {
		a, b := outline[i], outline[(i+1)%len(outline)]
		if onSegment(a, b, p) && onSegment(a, b, q) {
			return true
		}
	}
	return false
}

// toCorner is how far p lies from the nearest true corner of an outline.
func toCorner(outline plane.Polygon, p plane.Point) float64 {
	nearest := math.Inf(1)
	n := len(outline)
	for i, c := range outline {
		if offset(outline[(i+n-1)%n], outline[(i+1)%n], c) > same {
			nearest = min(nearest, apart(c, p))
		}
	}
	return nearest
}

// width is the least distance between two parallel lines that hold a convex piece.
func width(piece plane.Polygon) float64 {
	least := math.Inf(1)
	for i := range piece {
		a, b := piece[i], piece[(i+1)%len(piece)]
		if apart(a, b) < same {
			continue
		}
		far := 0.0
		for _, p := range piece {
			far = max(far, offset(a, b, p))
		}
		least = min(least, far)
	}
	return least
}
