package compiler_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
)

// rows is a block of rows of patches, written from the left, but those in turned
// from the right. Rows are of different heights, or alike.
func rows(many, patches int, alike bool, turned []int) string {
	var inside, joins strings.Builder
	low := 0
	for i := range many {
		high := low + 1
		if !alike {
			high = low + 1 + i
		}
		if i > 0 {
			fmt.Fprintf(&joins, "  join (0, %d) -- (%d, %d)\n", low, patches, low)
		}
		inside.WriteString("  section {\n")
		for k := range patches {
			at, seam := k, k
			if slices.Contains(turned, i) {
				at, seam = patches-1-k, patches-k
			}
			cloth := []string{"sail", "hull"}[at%2]
			if k == 0 {
				fmt.Fprintf(&inside, "    1 %s at (%d + 1/2, %d + 1/2)\n", cloth, at, low)
			} else {
				fmt.Fprintf(&inside, "    %d %s along (%d, %d) -- (%d, %d)\n", k+1, cloth, seam, low, seam, high)
			}
		}
		inside.WriteString("  }\n")
		low = high
	}
	return fmt.Sprintf("fabric sail \"sail\" light #f3ecdd\nfabric hull \"hull\" dark #33312e\nblock ketch %d x %d finished %din {\n%s%s}\n",
		patches, low, patches, inside.String(), joins.String())
}

// Rows that are all sewn from the left lie the same way at every join. What is
// told to be sewn from the other end is written so here, and joins nest: every
// one where all rows differ, for then rows can lie in alternate directions
// (common practice, no source). Rows that are alike stay so, and fewer nest.
func TestFirsts(t *testing.T) {
	for _, c := range []struct {
		many, patches int
		alike         bool
	}{{2, 2, false}, {3, 3, false}, {5, 2, false}, {6, 6, false}, {5, 2, true}, {6, 4, true}} {
		before := sizedOf(t, rows(c.many, c.patches, c.alike, nil))
		if n := sameWay(before); n != c.many-1 {
			t.Fatalf("%v: %d joins lie the same way, want all %d", c, n, c.many-1)
		}
		turned := turnedRows(before)
		if len(turned) == 0 || len(turned) > (c.many+1)/2 {
			t.Errorf("%v: rows %v are to be turned, want half of them at most", c, turned)
		}
		after := sizedOf(t, rows(c.many, c.patches, c.alike, turned))
		if n := sameWay(after); !c.alike && n != 0 || n >= c.many-1 {
			t.Errorf("%v: with rows %v turned, %d joins lie the same way still", c, turned, n)
		}
		if len(after.Firsts) > 0 && !c.alike {
			t.Errorf("%v: what nests is to be turned again: %v", c, after.Firsts)
		}
	}
}

// Rows sewn from their middle piece outward lie the same way at both seams. Begun at
// their opposite ends they nest; one of them alone could not.
func TestFromTheMiddle(t *testing.T) {
	rows := func(lower, upper string) string {
		return `fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block ketch 3 x 3 finished 3in {
  section { ` + lower + ` }
  section { ` + upper + ` }
  join (0, 1) -- (3, 1)
}
`
	}
	s := sizedOf(t, rows("1 sail at (1.5, 0.5)  2 hull along (1, 0) -- (1, 1)  3 hull along (2, 0) -- (2, 1)",
		"1 sail at (1.5, 2)  2 hull along (1, 1) -- (1, 3)  3 hull along (2, 1) -- (2, 3)"))
	if want := []pattern.First{{Drawing: 0, Piece: 1}, {Drawing: 1, Piece: 2}}; sameWay(s) != 1 || !slices.Equal(s.Firsts, want) {
		t.Errorf("%d joins lie the same way, and %v are to be begun, want one and %v", sameWay(s), s.Firsts, want)
	}
	s = sizedOf(t, rows("1 hull at (0.5, 0.5)  2 sail along (1, 0) -- (1, 1)  3 hull along (2, 0) -- (2, 1)",
		"1 hull at (2.5, 2)  2 sail along (2, 1) -- (2, 3)  3 hull along (1, 1) -- (1, 3)"))
	if sameWay(s) != 0 {
		t.Errorf("begun so, %d joins lie the same way", sameWay(s))
	}
}

// A piece beside two others that meet on its seam is sewn on after both of them, with
// whatever one begins.
func TestNoOtherFirst(t *testing.T) {
	s := sizedOf(t, `fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block ketch 3 x 6 finished 3in {
  section { 1 sail at (0.5, 0.5)  2 hull along (0, 1) -- (1, 1)  3 hull along (1, 0) -- (1, 3) }
  section { 1 sail at (0.5, 5.5)  2 hull along (0, 4) -- (1, 4)  3 hull along (1, 3) -- (1, 6) }
  join (0, 3) -- (3, 3)
}
`)
	if sameWay(s) != 1 {
		t.Fatalf("%d joins lie the same way, want the one", sameWay(s))
	}
	if len(s.Firsts) > 0 {
		t.Errorf("%v are to be begun otherwise", s.Firsts)
	}
}

// turnedRows returns which rows, from the lowest, are to be turned.
func turnedRows(s *pattern.Sized) (turned []int) {
	low := make([]pattern.Length, len(s.Copies))
	for i := range s.Copies {
		move := s.Copies[i].Motion()
		low[i] = s.Finished.H
		for _, q := range s.Drawings[s.Copies[i].Drawing].Outline {
			low[i] = min(low[i], move(q).Y)
		}
	}
	for i := range s.Copies {
		is := func(f pattern.First) bool { return f.Drawing == s.Copies[i].Drawing }
		if !slices.ContainsFunc(s.Firsts, is) {
			continue
		}
		row := 0
		for _, y := range low {
			if y < low[i]-0.01 {
				row++
			}
		}
		turned = append(turned, row)
	}
	return turned
}

func sizedOf(t *testing.T, text string) *pattern.Sized {
	t.Helper()
	p, ps := compile(text)
	if p == nil || len(p.Blocks) != 1 || len(p.Blocks[0].Sizes) != 1 {
		t.Fatalf("%s\n%s", show(ps), text)
	}
	return &p.Blocks[0].Sizes[0]
}

func sameWay(s *pattern.Sized) (n int) {
	for i := range s.Joins {
		if s.Joins[i].Why == pattern.SameWay {
			n++
		}
	}
	return n
}
