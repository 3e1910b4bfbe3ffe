package main

import (
	"fmt"
	"math/rand"
	"strings"
)

// cell is the side of one section in grid squares, side in inches when finished:
// large enough for every rule, small enough for several on a sheet.
const (
	cell = 4
	side = 2.25
)

// grid writes a pattern of so many pieces, a multiple of four: sections of four
// pieces in rows, no two alike. Every section is a square with three corners
// cut off; the seams end at points of the square's sides that its neighbor's
// seams share, so that the pattern is a good one and raises no problem.
func grid(pieces int) string {
	cols, rows := shape(pieces / 4)
	random := rand.New(rand.NewSource(int64(pieces))) // the same pattern in every run
	along := func() float64 { return 1.5 + float64(random.Intn(100))/100 }
	across := make([][]float64, rows+1) // where seams meet the lower side of a cell
	up := make([][]float64, rows)       // and its left side
	for y := range across {
		across[y] = numbers(cols, along)
	}
	for y := range up {
		up[y] = numbers(cols+1, along)
	}
	var s strings.Builder
	fmt.Fprintf(&s, "pattern \"Grid of %d\" {\n  edition 1\n}\n\n", pieces)
	s.WriteString("fabric lamp \"lamp\" light #f0dca0\nfabric tide \"tide\" medium #5a8a9a\nfabric deep \"deep water\" dark #1f3440\nfabric foam \"foam\" light #eef2f0\n\n")
	fmt.Fprintf(&s, "block grid%d %d x %d finished %gin {\n", pieces, cols*cell, rows*cell, float64(cols)*side)
	for x := 1; x < cols; x++ {
		fmt.Fprintf(&s, "  join (%d, 0) -- (%d, %d)\n", x*cell, x*cell, rows*cell)
	}
	for y := 1; y < rows; y++ {
		fmt.Fprintf(&s, "  join (0, %d) -- (%d, %d)\n", y*cell, cols*cell, y*cell)
	}
	for y := range rows {
		for x := range cols {
			section(&s, float64(x*cell), float64(y*cell), across[y][x], across[y+1][x], up[y][x], up[y][x+1])
		}
	}
	s.WriteString("}\n")
	return s.String()
}

// section writes one cell at (x, y) with seams that end at the given distances
// along its lower, upper, left and right side.
func section(s *strings.Builder, x, y, low, high, left, right float64) {
	fmt.Fprintf(s, "  section {\n    1 lamp at (%g, %g)\n", x+2, y+2)
	fmt.Fprintf(s, "    2 tide along (%g, %g) -- (%g, %g)\n", round(x+low), y, x, round(y+left))
	fmt.Fprintf(s, "    3 deep along (%g, %g) -- (%g, %g)\n", x, round(y+left), round(x+high), y+cell)
	fmt.Fprintf(s, "    4 foam along (%g, %g) -- (%g, %g)\n  }\n", round(x+high), y+cell, x+cell, round(y+right))
}

func round(v float64) float64 { return float64(int(v*100+0.5)) / 100 }

func numbers(n int, next func() float64) []float64 {
	all := make([]float64, n)
	for i := range all {
		all[i] = next()
	}
	return all
}

// shape lays cells out as squarely as their number allows.
func shape(cells int) (cols, rows int) {
	rows = 1
	for n := 2; n*n <= cells; n++ {
		if cells%n == 0 {
			rows = n
		}
	}
	return cells / rows, rows
}
