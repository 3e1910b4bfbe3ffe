package cutting

import (
	"testing"

	"seamwright/compiler/pattern"
)

// Squares from a fat quarter of 18 x 22 in: 56 of 2 1/2, 30 of 3 1/2, 12 of 5, 6 of
// 6 1/2 (Math charts, quilterscache.com, 2002; Fat quarter squares,
// piecefulliving.blogspot.com, 2011). 81 of 2 1/2 take two (I need math help,
// gnomeangel.com). Four of 7 in, as printed elsewhere (quiltingboard.com t73923), is
// a slip: two by three are 6.
func TestPublishedFatQuarters(t *testing.T) {
	quarter := pattern.Size{W: 18, H: 22}
	for _, c := range []struct {
		side pattern.Length
		n    int
	}{{2.5, 56}, {3.5, 30}, {5, 12}, {6.5, 6}, {7, 6}} {
		if n, ok := Pieces([]Need{square(c.side, c.n)}, quarter); !ok || n != 1 {
			t.Errorf("%d of %v take %d", c.n, c.side, n)
		}
		if n, ok := Pieces([]Need{square(c.side, c.n+1)}, quarter); !ok || n != 2 {
			t.Errorf("%d of %v take %d", c.n+1, c.side, n)
		}
	}
	if n, _ := Pieces([]Need{square(2.5, 81)}, quarter); n != 2 {
		t.Errorf("81 take %d", n)
	}
	// Pre-cut strips of 2 1/2 in serve squares of 2 1/2 in, 16 from 40 in.
	if n, _ := Pieces([]Need{square(2.5, 80)}, pattern.Size{W: 40, H: 2.5}); n != 5 {
		t.Errorf("80 take %d strips", n)
	}
	if _, ok := Pieces([]Need{square(18.5, 1)}, quarter); ok {
		t.Error("18 1/2 in from a fat quarter")
	}
}
