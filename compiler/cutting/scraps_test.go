package cutting

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
)

// Computed: 5 x 7 in gives two patches of 5 x 3 1/2, in either order of its sides,
// and a scrap of 5 x 3 1/2 one more; not a fourth.
func TestScrapsServe(t *testing.T) {
	patch := pattern.Size{W: 3.5, H: 5}
	scraps := []Scrap{{pattern.Size{W: 7, H: 5}, 0}, {pattern.Size{W: 3.5, H: 5}, 0}}
	for n, want := range map[int]bool{1: true, 2: true, 3: true, 4: false} {
		if got, sure := Serve([][]Need{{{patch, n}}}, scraps, 0.125); got != want || !sure {
			t.Errorf("%d patches: %v, %v", n, got, sure)
		}
	}
	if !Fits(patch, pattern.Size{W: 5, H: 3.5}) || Fits(patch, pattern.Size{W: 5, H: 3.25}) {
		t.Error("which way round a patch lies does not matter, its size does")
	}
	if serve, _ := Serve([][]Need{{{patch, 1}}}, nil, 0.125); serve {
		t.Error("no scraps serve nothing")
	}
}

// Scraps that are just the patches of several fabrics, laid in strips without waste,
// serve them, and not one patch more: there is no cloth for it. The quick way of cutting
// does not find all of these.
func TestScrapsServeExactly(t *testing.T) {
	slow := 0
	rapid.Check(t, func(t *rapid.T) {
		needs := make([][]Need, rapid.IntRange(1, 2).Draw(t, "fabrics"))
		var scraps []Scrap
		for i := range needs {
			for range rapid.IntRange(1, 2).Draw(t, "scraps") {
				scrap := Scrap{pattern.Size{W: pattern.Length(rapid.IntRange(4, 9).Draw(t, "width"))}, i}
				for range rapid.IntRange(1, 3).Draw(t, "strips") {
					high := pattern.Length(rapid.IntRange(2, 4).Draw(t, "high"))
					scrap.H += high
					for left := scrap.W; left > 0; {
						w := min(left, pattern.Length(rapid.IntRange(2, 5).Draw(t, "wide")))
						needs[i], left = append(needs[i], Need{pattern.Size{W: w, H: high}, 1}), left-w
					}
				}
				if rapid.Bool().Draw(t, "turned") {
					scrap.W, scrap.H = scrap.H, scrap.W
				}
				if rapid.Bool().Draw(t, "nameless") {
					scrap.Of = Any
				}
				scraps = append(scraps, scrap)
			}
		}
		for i := range needs {
			needs[i] = gathered(needs[i])
		}
		if !quickly(needs, scraps, 0.125) {
			slow++
		}
		if serve, sure := Serve(needs, scraps, 0.125); sure && !serve {
			t.Fatalf("%v do not serve %v", scraps, needs)
		}
		needs[0][0].Count++
		if serve, _ := Serve(needs, scraps, 0.125); serve {
			t.Fatalf("%v serve more than there is of %v", scraps, needs)
		}
	})
	t.Logf("%d times the quick way did not do", slow)
}

// gathered counts equal sizes together, one way round or the other.
func gathered(needs []Need) (out []Need) {
	for _, n := range needs {
		n.Size.W, n.Size.H = max(n.Size.W, n.Size.H), min(n.Size.W, n.Size.H)
		if k := slices.IndexFunc(out, func(m Need) bool { return m.Size == n.Size }); k >= 0 {
			out[k].Count++
		} else {
			out = append(out, n)
		}
	}
	return out
}

// One scrap of any fabric goes to the fabric that it is needed for, and is of one
// fabric alone.
func TestScrapOfAny(t *testing.T) {
	three, one := pattern.Size{W: 3, H: 3}, pattern.Size{W: 1, H: 1}
	needs := [][]Need{{{three, 1}}, {{three, 1}, {one, 1}}}
	for _, c := range []struct {
		scraps []Scrap
		want   bool
	}{
		{[]Scrap{{three, 0}, {pattern.Size{W: 3, H: 4}, Any}}, true},
		{[]Scrap{{three, 1}, {pattern.Size{W: 3, H: 4}, Any}}, false},
		{[]Scrap{{three, Any}, {three, Any}, {one, Any}}, true},
		{[]Scrap{{pattern.Size{W: 6, H: 4}, Any}}, false},
	} {
		if got, sure := Serve(needs, c.scraps, 0.125); got != c.want || !sure {
			t.Errorf("%v: %v, %v, want %v", c.scraps, got, sure, c.want)
		}
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
