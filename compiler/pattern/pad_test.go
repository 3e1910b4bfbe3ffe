package pattern

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// A pad of 10 blocks of 4 sheets, with 2 to spare, is 42 sheets (common practice,
// no source: "10 blocks, 2 spare sheets, 42 sheets").
func TestPadOfTen(t *testing.T) {
	pad := Pad{Copies: 10, Spare: 2}
	order := pad.Order([]int{1, 3})
	if len(order) != 42 || !slices.Equal(order[:8], []int{0, 1, 1, 1, 0, 1, 1, 1}) || !slices.Equal(order[40:], []int{0, 1}) {
		t.Errorf("%d sheets: %v", len(order), order)
	}
	pad.Loose = true
	if order = pad.Order([]int{1, 3}); len(order) != 42 || !slices.IsSorted(order) {
		t.Errorf("by kind: %v", order)
	}
}

// However it is laid, a pad holds every sheet for every block, and the spares.
func TestPadIsComplete(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pad := Pad{Copies: rapid.IntRange(1, 20).Draw(t, "copies"), Spare: rapid.IntRange(0, 9).Draw(t, "spare"), Loose: rapid.Bool().Draw(t, "loose")}
		times := rapid.SliceOfN(rapid.IntRange(1, 6), 1, 5).Draw(t, "times")
		got := make([]int, len(times))
		order := pad.Order(times)
		for _, i := range order {
			got[i]++
		}
		total := 0
		for i, n := range times {
			if spare := got[i] - pad.Copies*n; spare < 0 || spare > (pad.Spare+len(times)-1)/len(times) {
				t.Fatalf("sheet %d is there %d times, for %d blocks that take %d each and %d spare", i, got[i], pad.Copies, n, pad.Spare)
			}
			total += pad.Copies * n
		}
		if len(order) != total+pad.Spare {
			t.Fatalf("%d sheets, want %d + %d", len(order), total, pad.Spare)
		}
	})
}
