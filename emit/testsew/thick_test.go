package testsew

import "testing"

// fourPatch is four plain squares of 2 in, joined in two rows and those to each
// other: copies 0 and 1 are the upper row, 2 and 3 the lower one. Rows are
// pressed as told, the long join as the third word says (left of it is above).
func fourPatch(upper, lower, long string) *table {
	square := func(x, y float64) poly { return poly{{x, y}, {x + 2, y}, {x + 2, y + 2}, {x, y + 2}} }
	in := &intent{allowance: 0.25, outline: poly{{0, 0}, {4, 0}, {4, 4}, {0, 4}}, joins: []joint{
		{number: 1, a: pt{2, 2}, b: pt{2, 4}, left: []int{0}, right: []int{1}, press: upper},
		{number: 2, a: pt{2, 0}, b: pt{2, 2}, left: []int{2}, right: []int{3}, press: lower},
		{number: 3, a: pt{0, 2}, b: pt{4, 2}, left: []int{0, 1}, right: []int{2, 3}, points: []pt{{2, 2}}, press: long},
	}}
	t := &table{in: in}
	for _, at := range []pt{{0, 2}, {2, 2}, {0, 0}, {2, 0}} {
		sh := &shape{outline: square(at.x, at.y)}
		t.placed = append(t.placed, plain(sh, func(p pt) pt { return p }, "calm", in.allowance))
	}
	t.join()
	return t
}

// Layers beside the center and beside a seam are counted by hand, with four
// squares of paper. Four squares and their allowances are there whichever way
// they are pressed: the four quarters at the center sum to 16 layers.
func TestLayersFollowThePressing(t *testing.T) {
	for _, c := range []struct {
		name               string
		upper, lower, long string
		center             [4]int // upper left, upper right, lower left, lower right
		beside             [2]int // left and right of the upper row's seam, away from the center
	}{
		// Each square: itself, and each fold doubles it.
		{"open", "open", "open", "open", [4]int{4, 4, 4, 4}, [2]int{2, 2}},
		// Not told is open.
		{"untold", "", "", "", [4]int{4, 4, 4, 4}, [2]int{2, 2}},
		// The row above lies 3 and 1 thick, the one below 1 and 3. The long
		// seam upward doubles the row above, and the one below lies under it.
		{"nested", "left", "right", "left", [4]int{3 + 3 + 1, 1 + 1 + 3, 1, 3}, [2]int{3, 1}},
		{"same way", "left", "left", "left", [4]int{3 + 3 + 3, 1 + 1 + 1, 3, 1}, [2]int{3, 1}},
		// The usual remedy: nested rows, the long seam open.
		{"nested, then open", "left", "right", "open", [4]int{6, 2, 2, 6}, [2]int{3, 1}},
		{"downward", "right", "left", "right", [4]int{1, 3, 3 + 3 + 1, 1 + 1 + 3}, [2]int{1, 3}},
	} {
		table := fourPatch(c.upper, c.lower, c.long)
		if len(table.faults) > 0 {
			t.Fatal(c.name, table.faults)
		}
		count := func(at pt) (n int) {
			for i := range table.placed {
				for _, y := range table.fold(i) {
					if y.area.holds(at) {
						n++
					}
				}
			}
			return n
		}
		sum := 0
		for i, at := range []pt{{1.9, 2.1}, {2.1, 2.1}, {1.9, 1.9}, {2.1, 1.9}} {
			n := count(at)
			if sum += n; n != c.center[i] {
				t.Errorf("%s: %d layers at %v, want %d", c.name, n, at, c.center[i])
			}
		}
		if sum != 16 {
			t.Errorf("%s: %d layers round the center, want 16", c.name, sum)
		}
		for i, at := range []pt{{1.9, 3.1}, {2.1, 3.1}} {
			if n := count(at); n != c.beside[i] {
				t.Errorf("%s: %d layers at %v, want %d", c.name, n, at, c.beside[i])
			}
		}
		most := 0
		for _, n := range c.center {
			most = max(most, n)
		}
		if _, thickest := table.layers(); len(thickest) == 0 || thickest[0].Layers != most {
			t.Errorf("%s: thickest %v, want %d layers", c.name, thickest, most)
		}
	}
}
