package pressing_test

import (
	"testing"

	"seamwright/compiler/pattern"
)

// grid is n x n patches in rows, joined row to row.
func grid(n int) *patchwork {
	w := &patchwork{}
	rows := make([][]int, n)
	for y := range rows {
		for x := range n {
			rows[y] = append(rows[y], w.patch(length(x), length(y), length(x+1), length(y+1))...)
			if x > 0 {
				w.Joins = append(w.Joins, pattern.Join{A: pattern.Pos{X: length(x), Y: length(y)}, B: pattern.Pos{X: length(x), Y: length(y + 1)},
					Left: rows[y][x-1 : x], Right: rows[y][x : x+1]})
			}
		}
	}
	for y := 1; y < n; y++ {
		j := pattern.Join{A: pattern.Pos{Y: length(y)}, B: pattern.Pos{X: length(n), Y: length(y)}, Left: rows[y], Right: rows[y-1]}
		for x := 1; x < n; x++ {
			j.Points = append(j.Points, pattern.Pos{X: length(x), Y: length(y)})
		}
		w.Joins = append(w.Joins, j)
	}
	return w
}

// Rows of a grid are pressed alternately, all seams of a row the same way or not:
// every crossing nests.
func TestGridNests(t *testing.T) {
	for i, j := range grid(6).pressed().Blocks[0].Sizes[0].Joins {
		if j.Press == pattern.PressOpen {
			t.Errorf("join %d is open: %s", i+1, j.Why.Code())
		}
	}
}

func BenchmarkGrid(b *testing.B) {
	for _, n := range []int{10, 100} {
		w := grid(n)
		b.Run(map[int]string{10: "100", 100: "10000"}[n], func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				w.pressed()
			}
		})
	}
}
