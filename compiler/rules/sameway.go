package rules

import (
	"fmt"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// sameWay is from how many such joins on another sewing order is worth looking
// for: one or two are in most blocks of sections, and pins see to them.
const sameWay = 4

// SameWay: seams that cross at a join lie opposite ways, so that they nest.
func (catalogue) SameWay() Rule {
	from := count("same_way", sameWay)
	return Rule{
		Limits: []Limit{from},
		Info: problem.Info{
			Code:   "R113",
			Title:  "seams that cross are pressed the same way at many joins",
			Rule:   "Where the seams of two sections meet across a join, the one lies to the left and the other to the right, so that they nest and can be felt to match. Seams sewn on paper always lie toward the newer piece: where both lie the same way the join is pressed open, and pins do what nesting would have done. From four such joins on another order of sewing is worth looking for.",
			Source: "common practice, no source",
			Example: `fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block ketch 10 x 10 finished 5in {
  for i in 0..4 {
    section {
      1 sail at (1, 2 * i + 1)
      2 hull along (5, 2 * i) -- (5, 2 * i + 2)
    }
  }
  for i in 1..4 { join (0, 2 * i) -- (10, 2 * i) }
}
`,
			Cured: `fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block ketch 10 x 10 finished 5in {
  for i in 0..4 {
    section {
      1 sail at (if odd(i) then 9 else 1, 2 * i + 1)
      2 hull along (5, 2 * i) -- (5, 2 * i + 2)
    }
  }
  for i in 1..4 { join (0, 2 * i) -- (10, 2 * i) }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			var points []pattern.Pos
			joins, first := 0, 0
			for i := range v.Sized.Joins {
				j := &v.Sized.Joins[i]
				if j.Why != pattern.SameWay {
					continue
				}
				if joins++; joins == 1 {
					first = j.Number
				}
				points = append(points, j.Points...)
			}
			if joins == 0 || joins < int(v.Limits.number(from)) {
				return
			}
			report(Finding{
				Severity: problem.Note,
				At:       v.Block.Source,
				Points:   points,
				Message:  fmt.Sprintf("seams that meet at %d of the %d joins, the first of them join %d, are pressed the same way and do not nest", joins, len(v.Sized.Joins), first),
				Help:     "pin each point and press these joins open" + begunOtherwise(v.Sized),
			})
		},
	}
}

// begunOtherwise says which sections nest if they are begun with which pieces.
func begunOtherwise(s *pattern.Sized) string {
	const few = 8 // names in a sentence
	var names []string
	for i, f := range s.Firsts {
		if i == few {
			names = append(names, fmt.Sprintf("%d more", len(s.Firsts)-few))
			break
		}
		d := &s.Drawings[f.Drawing]
		names = append(names, fmt.Sprintf("%s with %s%d", d.Name, d.Name, d.Pieces[f.Piece].Number))
	}
	switch len(names) {
	case 0:
		return "; as long as sections that are alike stay alike, no other first pieces let more joins nest"
	case 1:
		return "; or begin section " + names[0] + ": the picture stays the same, and fewer joins are pressed open"
	}
	last := len(names) - 1
	return "; or begin sections " + strings.Join(names[:last], ", ") + " and " + names[last] + ": the picture stays the same, and fewer joins are pressed open"
}
