package pressing

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// The pieces that a section may be begun with are those for which all others can be
// taken away, one by one, each from beyond one of its sides: what an oracle that
// knows neither seams nor an order finds in the polygons alone.
func TestWhatMayBeFirst(t *testing.T) {
	several := 0
	rapid.Check(t, func(t *rapid.T) {
		d := cutUp(t)
		r := newReorder()
		r.take(&pattern.Sized{Drawings: []pattern.Drawing{*d}})
		tree := r.tree(0)
		for k := range d.Pieces {
			may := k == 0 || tree[k] >= 0
			if want := canBeFirst(d.Pieces, k); may != want {
				t.Fatalf("piece %d may be first: %v, want %v, of\n%+v", k+1, may, want, d.Pieces)
			}
			if k > 0 && may {
				several++
			}
		}
	})
	if several == 0 {
		t.Error("no section could be begun otherwise: nothing is tested")
	}
}

// cutUp cuts a square up from piece to piece, the last first.
func cutUp(t *rapid.T) *pattern.Drawing {
	square := plane.Polygon{{X: 0, Y: 0}, {X: 8, Y: 0}, {X: 8, Y: 8}, {X: 0, Y: 8}}
	rest := plane.Face{Corners: square, Labels: make([]int32, 4), Convex: true}
	var pieces []pattern.Piece
	for range rapid.IntRange(1, 9).Draw(t, "cuts") {
		at := func() plane.Point {
			s := rest.Corners.Side(rapid.IntRange(0, len(rest.Corners)-1).Draw(t, "side"))
			k := float64(rapid.IntRange(0, 4).Draw(t, "along")) / 4
			return s.A.Mul(1 - k).Add(s.B.Mul(k))
		}
		chords := rest.Chords(plane.Line{A: at(), B: at()}, nil)
		if len(chords) != 1 {
			continue
		}
		a, b := rest.Split(chords[0], 0, 0)
		if min(a.Corners.Width(), b.Corners.Width()) < 0.1 {
			continue
		}
		pieces = append(pieces, pieceOf(a.Corners, chords[0].From.At, chords[0].To.At))
		rest = b
	}
	pieces = append(pieces, pieceOf(rest.Corners, plane.Point{}, plane.Point{}))
	slices.Reverse(pieces)
	return &pattern.Drawing{Reversed: -1, Pieces: pieces}
}

func pieceOf(corners plane.Polygon, a, b plane.Point) pattern.Piece {
	at := func(p plane.Point) pattern.Pos { return pattern.Pos{X: pattern.Length(p.X), Y: pattern.Length(p.Y)} }
	p := pattern.Piece{Seam: [2]pattern.Pos{at(a), at(b)}}
	for _, q := range corners {
		p.Polygon = append(p.Polygon, at(q))
	}
	return p
}

// canBeFirst takes pieces away until only one is left, or none can be.
func canBeFirst(pieces []pattern.Piece, first int) bool {
	gone := make([]bool, len(pieces))
	left := len(pieces)
	for again := true; again; {
		again = false
		for k := range pieces {
			if k != first && !gone[k] && comesOff(pieces, gone, k) {
				gone[k], again = true, true
				left--
			}
		}
	}
	return left == 1
}

// comesOff reports whether all that is left besides a piece lies beyond one of its sides.
func comesOff(pieces []pattern.Piece, gone []bool, k int) bool {
	for i, a := range pieces[k].Polygon {
		side, beyond := line(a, pieces[k].Polygon[(i+1)%len(pieces[k].Polygon)]).Ray(), true
		for n := range pieces {
			for _, q := range pieces[n].Polygon {
				beyond = beyond && (n == k || gone[n] || side.Offset(point(q)) <= near)
			}
		}
		if beyond {
			return true
		}
	}
	return false
}
