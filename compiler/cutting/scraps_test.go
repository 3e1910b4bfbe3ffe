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
