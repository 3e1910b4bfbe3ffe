package main

import (
	"fmt"
	"math/rand"
	"strings"
)

// A generated pattern is a wall of sections, no two alike: logs round a heart, as
// in a log cabin, with seams that lean a little this way and that. Every section
// is drawn in a square of cell by cell grid squares, of which each is an inch.
const (
	cell = 3
	wide = 0.3 // the width of a log; sixteen pieces leave a heart of 0.6
	most = 16  // pieces in a section; a few more would be too many on one paper
	few  = 4   // pieces in a section of the smallest pattern, so that it has joins
)

// grid writes a pattern of so many pieces. It is a good one: no rule objects.
func grid(pieces int) string {
	per := most
	if pieces < 2*most {
		per = few
	}
	cols, rows := shape((pieces + per - 1) / per)
	random := rand.New(rand.NewSource(int64(pieces))) // the same pattern in every run
	var s strings.Builder
	fmt.Fprintf(&s, "pattern \"Wall of %d\" {\n  edition 1\n}\n\n", pieces)
	s.WriteString("fabric core \"core\" medium #d9892f\nfabric lit \"lit\" light #f0dca0\nfabric dim \"dim\" dark #1f3440\n\n")
	fmt.Fprintf(&s, "block wall%d %d x %d finished %din {\n", pieces, cols*cell, rows*cell, cols*cell)
	for x := 1; x < cols; x++ {
		fmt.Fprintf(&s, "  join (%d, 0) -- (%d, %d)\n", x*cell, x*cell, rows*cell)
	}
	for y := 1; y < rows; y++ {
		fmt.Fprintf(&s, "  join (0, %d) -- (%d, %d)\n", y*cell, cols*cell, y*cell)
	}
	for i := range cols * rows {
		n := min(per, pieces-i*per)
		section(&s, random, float64(i%cols*cell), float64(i/cols*cell), n)
	}
	s.WriteString("}\n")
	return s.String()
}

// section writes one section of n pieces whose lower left corner is (x, y). Its
// last four seams do not lean, so that those of neighbors meet.
func section(s *strings.Builder, random *rand.Rand, x, y float64, n int) {
	fmt.Fprintf(s, "  section {\n    1 core at (%g, %g)\n", x+cell/2.0, y+cell/2.0)
	for i := 1; i < n; i++ {
		left := n - 1 - i // seams still to come
		d := wide * float64(left/4+1)
		lean := func() float64 {
			if left < 4 {
				return 0
			}
			return float64(random.Intn(5)-2) / 100
		}
		fabric, far := "lit", cell-d
		var line [4]float64
		switch left % 4 { // south, east, north, west, the last of all in the west
		case 3:
			line = [4]float64{0, d + lean(), cell, d + lean()}
		case 2:
			line = [4]float64{far + lean(), 0, far + lean(), cell}
		case 1:
			fabric, line = "dim", [4]float64{0, far + lean(), cell, far + lean()}
		case 0:
			fabric, line = "dim", [4]float64{d + lean(), 0, d + lean(), cell}
		}
		fmt.Fprintf(s, "    %d %s along (%s, %s) -- (%s, %s)\n", i+1, fabric,
			num(x+line[0]), num(y+line[1]), num(x+line[2]), num(y+line[3]))
	}
	s.WriteString("  }\n")
}

func num(v float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.2f", v), "0"), ".")
}

// shape lays sections out as squarely as their number allows.
func shape(sections int) (cols, rows int) {
	rows = 1
	for n := 2; n*n <= sections; n++ {
		if sections%n == 0 {
			rows = n
		}
	}
	return sections / rows, rows
}
