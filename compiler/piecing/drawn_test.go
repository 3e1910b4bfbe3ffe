package piecing

import (
	"testing"

	"seamwright/compiler/eval"
)

// Lines that cross each other millions of times are refused at once.
func TestDrawnTooOften(t *testing.T) {
	b := &eval.Body{Name: "net", Outline: box(80, 80), Box: true}
	for i := range 3000 {
		x := float64(i+1) / 40
		b.Lines = append(b.Lines, eval.Line{Line: line(x, 0, x/2, 80)}, eval.Line{Line: line(0, x, 80, x/2)})
	}
	ps := Piece(result(b, 8))
	if len(ps) != 1 || ps[0].Code != TooMany {
		t.Errorf("%d problems, want %s alone", len(ps), TooMany)
	}
}
