package cutting

import (
	"testing"

	"seamwright/compiler/pattern"
)

// Computed: 5 x 7 in gives two patches of 5 x 3 1/2, in either order of its sides,
// and a scrap of 5 x 3 1/2 one more; not a fourth.
func TestScrapsServe(t *testing.T) {
	patch := pattern.Size{W: 3.5, H: 5}
	scraps := []pattern.Size{{W: 7, H: 5}, {W: 3.5, H: 5}}
	for n, want := range map[int]bool{1: true, 2: true, 3: true, 4: false} {
		if got := Serve([]Need{{patch, n}}, scraps, 0.125); got != want {
			t.Errorf("%d patches: %v", n, got)
		}
	}
	if !Fits(patch, pattern.Size{W: 5, H: 3.5}) || Fits(patch, pattern.Size{W: 5, H: 3.25}) {
		t.Error("which way round a patch lies does not matter, its size does")
	}
	if Serve([]Need{{patch, 1}}, nil, 0.125) {
		t.Error("no scraps serve nothing")
	}
}

// Computed: 5 x 7 in gives two of 3 1/2 x 5; 10 x 10 in four squares of 4 in; no more
// are told than are asked for.
func TestScrapsGive(t *testing.T) {
	for _, c := range []struct {
		patch, scrap pattern.Size
		most, want   int
	}{
		{pattern.Size{W: 5, H: 3.5}, pattern.Size{W: 5, H: 7}, 9, 2},
		{pattern.Size{W: 4, H: 4}, pattern.Size{W: 10, H: 10}, 9, 4},
		{pattern.Size{W: 4, H: 4}, pattern.Size{W: 10, H: 10}, 3, 3},
		{pattern.Size{W: 4, H: 4}, pattern.Size{W: 3, H: 18}, 9, 0},
		// A strip of 3 in high has three of 2 x 3, and what is left, 6 x 2, two of 3 x 2.
		{pattern.Size{W: 2, H: 3}, pattern.Size{W: 6, H: 5}, 9, 5},
	} {
		if got := Gives(c.patch, c.scrap, c.most); got != c.want {
			t.Errorf("%v from %v: %d, want %d", c.patch, c.scrap, got, c.want)
		}
	}
}
