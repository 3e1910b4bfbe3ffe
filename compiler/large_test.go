package compiler_test

import (
	"fmt"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"seamwright/compiler/parallel"
)

// wall writes a block of so many rows and columns of sections of four logs each,
// not all of them alike.
func wall(columns, rows int) string {
	var s strings.Builder
	s.WriteString("fabric lit \"lit\" light #f0dca0\nfabric dim \"dim\" dark #1f3440\n")
	fmt.Fprintf(&s, "block wall %d x %d finished %din {\n", 3*columns, 3*rows, 3*columns)
	for i := 1; i < columns; i++ {
		fmt.Fprintf(&s, "  join (%d, 0) -- (%d, %d)\n", 3*i, 3*i, 3*rows)
	}
	for i := 1; i < rows; i++ {
		fmt.Fprintf(&s, "  join (0, %d) -- (%d, %d)\n", 3*i, 3*columns, 3*i)
	}
	for i := range columns * rows {
		x, y, lean := float64(i%columns*3), float64(i/columns*3), float64(i%7)/50
		fmt.Fprintf(&s, "  section {\n    1 lit at (%.2f, %.2f)\n", x+1, y+1)
		fmt.Fprintf(&s, "    2 dim along (%.2f, %.2f) -- (%.2f, %.2f)\n", x+2, y, x+2+lean, y+3)
		fmt.Fprintf(&s, "    3 lit along (%.2f, %.2f) -- (%.2f, %.2f)\n", x, y+2, x+3, y+2)
		fmt.Fprintf(&s, "    4 dim along (%.2f, %.2f) -- (%.2f, %.2f)\n  }\n", x+0.5, y, x+0.5, y+3)
	}
	s.WriteString("}\n")
	return s.String()
}

// What is worked out on all processors is what one works out.
func TestProcessorsMakeNoDifference(t *testing.T) {
	text := wall(14, parallel.Worth/4/14+3)
	several, problems := compile(text)
	if several == nil {
		t.Fatal(show(problems))
	}
	if n := several.Blocks[0].Sizes[0].Figures.Pieces; n < parallel.Worth {
		t.Fatalf("only %d pieces", n)
	}
	before := runtime.GOMAXPROCS(1)
	one, others := compile(text)
	runtime.GOMAXPROCS(before)
	if !reflect.DeepEqual(several, one) || show(problems) != show(others) {
		t.Error("one processor makes another pattern of it")
	}
}
