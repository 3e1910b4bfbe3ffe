package pressing_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
	"seamwright/compiler/pressing"
)

type length = pattern.Length

// A patchwork is a rectangle cut again and again from side to side: every patch
// is a section of one piece, every seam a join.
type patchwork struct {
	pattern.Sized
}

func (w *patchwork) patch(x, y, x2, y2 length) []int {
	w.Drawings = append(w.Drawings, pattern.Drawing{Plain: true, Make: 1, Reversed: -1, Pieces: make([]pattern.Piece, 1),
		Outline: []pattern.Pos{{X: x, Y: y}, {X: x2, Y: y}, {X: x2, Y: y2}, {X: x, Y: y2}}})
	w.Copies = append(w.Copies, pattern.Copy{Drawing: len(w.Drawings) - 1})
	return []int{len(w.Copies) - 1}
}

// sides are the copies along the sides of a part: left, right, bottom, top, each
// from below or from the left.
type sides struct{ l, r, b, t []int }

// divide cuts a rectangle on a grid of whole inches.
func (w *patchwork) divide(t *rapid.T, x, y, x2, y2 length, depth int) sides {
	upright := rapid.Bool().Draw(t, "upright")
	long := y2 - y
	if upright {
		long = x2 - x
	}
	if depth == 0 || long < 2 || rapid.IntRange(0, 5).Draw(t, "whole") == 0 {
		c := w.patch(x, y, x2, y2)
		return sides{c, c, c, c}
	}
	at := length(rapid.IntRange(1, int(long)-1).Draw(t, "at"))
	if upright {
		p, q := w.divide(t, x, y, x+at, y2, depth-1), w.divide(t, x+at, y, x2, y2, depth-1)
		w.join(pattern.Pos{X: x + at, Y: y}, pattern.Pos{X: x + at, Y: y2}, p.r, q.l)
		return sides{p.l, q.r, with(p.b, q.b), with(p.t, q.t)}
	}
	p, q := w.divide(t, x, y, x2, y+at, depth-1), w.divide(t, x, y+at, x2, y2, depth-1)
	w.join(pattern.Pos{X: x, Y: y + at}, pattern.Pos{X: x2, Y: y + at}, q.b, p.t)
	return sides{with(p.l, q.l), with(p.r, q.r), p.b, q.t}
}

func with(a, b []int) []int { return append(a[:len(a):len(a)], b...) }

// join adds a join, with the points where seams of both sides end.
func (w *patchwork) join(a, b pattern.Pos, left, right []int) {
	j := pattern.Join{Number: len(w.Joins) + 1, A: a, B: b, Left: left, Right: right}
	count := map[pattern.Pos]int{}
	for _, k := range w.Joins {
		for _, p := range [2]pattern.Pos{k.A, k.B} {
			inside := p.X == a.X && a.X == b.X && p.Y > a.Y && p.Y < b.Y || p.Y == a.Y && a.Y == b.Y && p.X > a.X && p.X < b.X
			if inside {
				if count[p]++; count[p] == 2 {
					j.Points = append(j.Points, p)
				}
			}
		}
	}
	w.Joins = append(w.Joins, j)
}

func (w *patchwork) pressed() *pattern.Pattern {
	p := &pattern.Pattern{Blocks: []pattern.Block{{Sizes: []pattern.Sized{w.Sized}}}}
	pressing.Press(p)
	return p
}

// Where every seam is a join and two meet at most, all of them nest: each has
// one partner at each end, and what that makes, chains, never closes oddly.
func TestSimpleCrossingsAllNest(t *testing.T) {
	met := 0
	rapid.Check(t, func(t *rapid.T) {
		w := &patchwork{}
		w.divide(t, 0, 0, 8, 8, 7)
		joins := w.pressed().Blocks[0].Sizes[0].Joins
		for i := range joins {
			if joins[i].Press != pattern.PressLeft && joins[i].Press != pattern.PressRight {
				t.Fatalf("join %d: %v, %s", i+1, joins[i].Press, joins[i].Why.Code())
			}
			for _, p := range joins[i].Points {
				met++
				var ways []pattern.Length
				for k := range i {
					if joins[k].A == p || joins[k].B == p {
						ways = append(ways, lies(&joins[k], &joins[i]))
					}
				}
				if len(ways) != 2 || ways[0]*ways[1] >= 0 {
					t.Fatalf("at %v seams lie %v along join %d", p, ways, i+1)
				}
			}
		}
	})
	if met == 0 {
		t.Error("no seam met another")
	}
}

// lies is how far along a join the allowances of another lie, if pressed so.
func lies(j, along *pattern.Join) pattern.Length {
	dx, dy := -(j.B.Y - j.A.Y), j.B.X-j.A.X
	if j.Press == pattern.PressRight {
		dx, dy = -dx, -dy
	}
	return dx*(along.B.X-along.A.X) + dy*(along.B.Y-along.A.Y)
}

// pair is two sections of two pieces above each other, both seams upright at the
// same place; the newer pieces lie left or right.
func pair(lowerLeft, upperLeft bool) *patchwork {
	w := &patchwork{}
	for k, left := range [2]bool{lowerLeft, upperLeft} {
		y := length(k) * 4
		w.patch(0, y, 8, y+4)
		seam := [2]pattern.Pos{{X: 4, Y: y + 4}, {X: 4, Y: y}} // the right-hand piece is newer
		if left {
			seam[0], seam[1] = seam[1], seam[0]
		}
		w.Drawings[k].Pieces = []pattern.Piece{{Number: 1}, {Number: 2, Seam: seam}}
	}
	w.join(pattern.Pos{X: 0, Y: 4}, pattern.Pos{X: 8, Y: 4}, []int{1}, []int{0})
	w.Joins[0].Points = []pattern.Pos{{X: 4, Y: 4}}
	return w
}

// Seams of sections are pressed toward the newer piece. Where they lie opposite
// ways they nest; where not, the join over them is pressed open.
func TestSeamsOfSectionsAreNoChoice(t *testing.T) {
	for _, c := range []struct {
		lower, upper bool
		want         pattern.Press
		why          pattern.PressReason
	}{
		{true, false, pattern.PressLeft, pattern.EitherSide},
		{true, true, pattern.PressOpen, pattern.SameWay},
		{false, false, pattern.PressOpen, pattern.SameWay},
	} {
		j := pair(c.lower, c.upper).pressed().Blocks[0].Sizes[0].Joins[0]
		if j.Press != c.want || j.Why != c.why || j.Meet != 4 {
			t.Errorf("%+v: pressed %v, %s, %d meet", c, j.Press, j.Why.Code(), j.Meet)
		}
	}
}

// Six seams and more at a point are pressed open: a windmill's center of 8 is
// the teacher's own case (Pressing, ajpadilla.com).
func TestManySeamsArePressedOpen(t *testing.T) {
	w := pair(true, false)
	for k := range 2 {
		for _, x := range []length{0, 8} {
			y := length(k) * 8
			seam := [2]pattern.Pos{{X: 4, Y: 4}, {X: x, Y: y}}
			w.Drawings[k].Pieces = append(w.Drawings[k].Pieces, pattern.Piece{Number: len(w.Drawings[k].Pieces) + 1, Seam: seam})
		}
	}
	j := w.pressed().Blocks[0].Sizes[0].Joins[0]
	if got := fmt.Sprint(j.Press == pattern.PressOpen, j.Meet) + " " + j.PressWords(); got != "true 8 8 seams meet at one point" {
		t.Error(got)
	}
}

// The side with fewer seams has the allowances, where nothing else decides.
func TestTowardFewerSeams(t *testing.T) {
	w := pair(true, false)
	w.Drawings[0].Pieces = w.Drawings[0].Pieces[:1]
	w.Joins[0].Points = nil
	j := w.pressed().Blocks[0].Sizes[0].Joins[0]
	if j.Press != pattern.PressRight || j.Why != pattern.FewerSeams {
		t.Errorf("pressed %v, %s", j.Press, j.Why.Code())
	}
}
