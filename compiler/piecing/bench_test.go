package piecing

import (
	"fmt"
	"testing"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

func box(w, h float64) plane.Polygon {
	return plane.Polygon{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}
}

func line(ax, ay, bx, by float64) plane.Line {
	return plane.Line{A: plane.Point{X: ax, Y: ay}, B: plane.Point{X: bx, Y: by}}
}

// result wraps a body as a file of one block.
func result(b *eval.Body, sizes ...pattern.Length) *eval.Result {
	low, high := b.Outline.Box()
	block := &eval.Block{Body: b}
	for _, w := range sizes {
		block.Finished = append(block.Finished, pattern.Size{W: w, H: w * pattern.Length((high.Y-low.Y)/(high.X-low.X))})
	}
	return &eval.Result{
		Pattern: pattern.Pattern{Blocks: make([]pattern.Block, 1), Fabrics: make([]pattern.Fabric, 4)},
		Blocks:  []*eval.Block{block},
	}
}

// logCabin is one section of 1 + 4 x rounds logs.
func logCabin(rounds int) *eval.Body {
	n := float64(rounds)
	w := 2*n + 2
	s := eval.Section{Pieces: []eval.Piece{{Points: []plane.Point{{X: w / 2, Y: w/2 + 0.1}}}}}
	for d := n; d >= 1; d-- {
		for i, l := range []plane.Line{line(0, d, w, d), line(w-d, 0, w-d, w), line(0, w-d, w, w-d), line(d, 0, d, w)} {
			s.Pieces = append(s.Pieces, eval.Piece{Fabric: i % 3, Line: l})
		}
	}
	return &eval.Body{Name: "cabin", Outline: box(w, w), Box: true, Sections: []eval.Section{s}}
}

// patches is n x n sections of two pieces, all different where tilt is set.
func patches(n int, tilt bool) *eval.Body {
	b := &eval.Body{Name: "patches", Outline: box(float64(n), float64(n)), Box: true}
	m := float64(n)
	for i := 1; i < n; i++ {
		b.Joins = append(b.Joins, eval.Join{Line: line(float64(i), 0, float64(i), m)})
	}
	for i := 1; i < n; i++ {
		b.Joins = append(b.Joins, eval.Join{Line: line(0, float64(i), m, float64(i))})
	}
	for i := range n * n {
		x, y := float64(i%n), float64(i/n)
		at := 0.5
		if tilt {
			at = 0.3 + 0.4*float64(i)/float64(n*n)
		}
		b.Sections = append(b.Sections, eval.Section{Pieces: []eval.Piece{
			{Points: []plane.Point{{X: x + 0.1, Y: y + 0.9}}},
			{Fabric: 1, Line: line(x+at, y, x+1, y+at)},
		}})
	}
	return b
}

// strips is n sections side by side.
func strips(n int) *eval.Body {
	b := &eval.Body{Name: "strips", Outline: box(float64(n), 100), Box: true}
	for i := range n {
		if i > 0 {
			b.Joins = append(b.Joins, eval.Join{Line: line(float64(i), 0, float64(i), 100)})
		}
		b.Sections = append(b.Sections, eval.Section{Pieces: []eval.Piece{{Points: []plane.Point{{X: float64(i) + 0.5, Y: 50}}}}})
	}
	return b
}

// placed is n x n copies of one unit of three pieces, with joins or without.
func placed(n int, joins bool) *eval.Body {
	unit := &eval.Body{Name: "goose", Outline: box(2, 1), Box: true, Sections: []eval.Section{{Pieces: []eval.Piece{
		{Points: []plane.Point{{X: 1, Y: 0.2}}},
		{Fabric: 1, Line: line(0, 0, 1, 1)},
		{Fabric: 1, Line: line(1, 1, 2, 0)},
	}}}}
	m := float64(n)
	b := &eval.Body{Name: "flock", Outline: box(2*m, m), Box: true}
	for i := range n * n {
		shift := plane.Point{X: 2 * float64(i%n), Y: float64(i / n)}
		b.Places = append(b.Places, eval.Place{Body: unit, Motion: plane.Motion{Shift: shift}})
	}
	if joins {
		for i := 1; i < n; i++ {
			b.Joins = append(b.Joins, eval.Join{Line: line(2*float64(i), 0, 2*float64(i), m)})
		}
		for i := 1; i < n; i++ {
			b.Joins = append(b.Joins, eval.Join{Line: line(0, float64(i), 2*m, float64(i))})
		}
	}
	return b
}

// BenchmarkPiece shows that the cost is linear in the pieces, for one section
// as for many, for units placed or written out, in one size.
func BenchmarkPiece(b *testing.B) {
	for _, c := range []struct {
		name string
		make func(pieces int) *eval.Body
	}{
		{"cabin", func(n int) *eval.Body { return logCabin(n / 4) }},
		{"alike", func(n int) *eval.Body { return patches(root(n/2), false) }},
		{"different", func(n int) *eval.Body { return patches(root(n/2), true) }},
		{"strips", strips},
		{"placed", func(n int) *eval.Body { return placed(root(n/3), true) }},
		{"found", func(n int) *eval.Body { return placed(root(n/3), false) }},
	} {
		for _, n := range []int{100, 1000, 10_000} {
			b.Run(fmt.Sprintf("%s/%d", c.name, n), func(b *testing.B) {
				body := c.make(n)
				_, high := body.Outline.Box()
				width := pattern.Length(high.X) // an inch a square
				b.ReportAllocs()
				for b.Loop() {
					r := result(body, width)
					if ps := Piece(r); len(r.Pattern.Blocks[0].Sizes) != 1 {
						b.Fatal(ps)
					}
				}
				b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(n), "µs/piece")
			})
		}
	}
}

func root(n int) int {
	r := 1
	for (r+1)*(r+1) <= n {
		r++
	}
	return r
}
