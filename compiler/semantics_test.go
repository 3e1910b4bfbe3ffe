package compiler

import (
	"strings"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// cloths are the first three lines of every program below.
const cloths = `fabric foam "foam" light #eef2f2
fabric kelp "kelp" medium #5b7f5a
fabric tar "tar" dark #26282a
`

// Small programs that pin down what the language means. A program that should be
// sewn names its sections and pieces, all copies counted; one that should not names
// words of the error.
var semantics = []struct {
	name             string
	text             string
	sections, pieces int
	fault            string
}{
	{name: "a mixed number is one number, a bare fraction a division", sections: 1, pieces: 2, text: `
block t 8 x 8 finished 8in {
  let low = 2 1/2
  let wide = 8
  check low == 2.5 "mixed"
  check wide/1/2 == 4 "left to right"
  check wide/2 1/2 == 3.2 "a mixed number binds tighter than a division"
  check -2 1/2 == 0 - 2.5 "minus takes the whole"
  section A {
    1 foam at c
    2 kelp along (0, 2 1/2) -- (8, 2 1/2) at (4, 1)
  }
}`},
	{name: "two dashes are one sign", fault: "`--` joins two points", text: `
block t 8 x 8 finished 8in {
  let low = 3--1
  section A { 1 foam at (low, 1) }
}`},
	{name: "y runs up, and a seam is the whole chord", sections: 1, pieces: 3, text: `
block t 4 x 4 finished 4in {
  section A {
    1 foam at (2, 0.5)
    2 kelp along (1, 1) -- (1.1, 1) at n + (0.5, -0.1)
    3 tar along (3, 0) -- (3, 0.1) at (3.9, 3.9)
  }
}`},
	{name: "later seams cut earlier ones", sections: 1, pieces: 3, text: `
block t 4 x 4 finished 4in {
  section A {
    1 foam at (1, 1)
    2 kelp along (2, 0) -- (2, 4) at (3, 1)
    3 tar along (0, 2) -- (4, 2) at (3, 3)
  }
}`},
	{name: "at asserts where a piece is", fault: "is in piece 1, not in piece 2", text: `
block t 4 x 4 finished 4in {
  section A {
    1 foam at (3.5, 3.5)
    2 kelp along n -- e at (3.9, 3.9)
  }
}`},
	{name: "a join cuts every region it runs through", sections: 4, pieces: 4, text: `
block t 4 x 4 finished 4in {
  join w -- e, n -- s
  for across in 1, 3 { for up in 1, 3 { section { 1 foam at (across, up) } } }
}`},
	{name: "a join is clipped to the outline", sections: 2, pieces: 2, text: `
block t 4 x 4 finished 4in {
  join c - polar(9, 30deg) -- c + polar(9, 30deg)
  section A { 1 foam at nw + (0.5, -0.5) }
  section B { 1 kelp at se + (-0.5, 0.5) }
}`},
	{name: "a join does not end inside", fault: "stops short", text: `
block t 4 x 4 finished 4in {
  join (2, 1) -- (2, 4)
  section A { 1 foam at (1, 1) }
}`},
	{name: "a join on a join divides nothing", fault: "splits nothing", text: `
block t 4 x 4 finished 4in {
  join w -- c
  join w -- e
  section A { 1 foam at (1, 1) }
}`},
	{name: "a point on a join is in no section", fault: "lies on a join", text: `
block t 4 x 4 finished 4in {
  join w -- e
  section A { 1 foam at c }
}`},
	{name: "joins act first, wherever they stand", sections: 2, pieces: 2, text: `
block t 4 x 4 finished 4in {
  section A { 1 foam at (1, 3) }
  section B { 1 kelp at (1, 1) }
  join w -- e
}`},
	{name: "every region is claimed", fault: "has neither a section nor a placed unit", text: `
block t 4 x 4 finished 4in {
  join w -- e
  section A { 1 foam at (1, 1) }
}`},
	{name: "numbers follow one another", fault: "this is piece 2, not 3", text: `
block t 4 x 4 finished 4in {
  section A {
    1 foam at (1, 1)
    3 kelp along n -- e
  }
}`},
	{name: "a piece under later ones", fault: "lies wholly under pieces sewn later", text: `
block t 4 x 4 finished 4in {
  section A {
    1 foam at (2, 0.5)
    2 kelp along (0, 3) -- (4, 3)
    3 tar along (0, 2) -- (4, 2)
  }
}`},
	{name: "a drawn unit: lines divide, points name", sections: 1, pieces: 6, text: `
block t 8 x 8 finished 6in {
  line n -- w -- s -- e -- n, w -- e
  piece foam at (1, 7), (7, 7), (1, 1), (7, 1)
  piece kelp at (4, 6)
  piece tar at (4, 2)
}`},
	{name: "drawn lines may cross, lie on each other and run out", sections: 2, pieces: 4, text: `
block t 4 x 4 finished 4in {
  line w -- e, (1, 2) -- (9, 2), s -- n
  for x in 1, 3 { for y in 1, 3 { piece foam at (x, y) } }
}`},
	{name: "corners draw their sides", sections: 1, pieces: 2, text: `
block t 4 x 4 finished 4in {
  piece foam (0, 0), se, ne
  piece kelp (0, 4), (4, 4), (0, 0)
}`},
	{name: "a drawn unit is placed like any other", sections: 2, pieces: 4, text: `
unit half 4 x 4 { line sw -- ne; piece foam at (1, 3); piece tar at (3, 1) }
block t 8 x 4 finished 8in {
  place half at sw
  place half by c at (6, 2) reversed
  join s -- n
}`},
	{name: "a drawn line ends on a line or on the edge", fault: "ends in the middle of a patch", text: `
block t 4 x 4 finished 4in {
  line s -- (2, 3)
  piece foam at (1, 1)
}`},
	{name: "nothing is set in", fault: "turns inwards", text: `
block t 4 x 4 finished 4in {
  line w -- c -- s
  piece foam at (1, 1)
  piece kelp at (3, 3)
}`},
	{name: "seams do not stop inside each other in a round", fault: "each stop inside the next", text: `
block t 4 x 4 finished 4in {
  line (1, 0) -- (1, 3), (0, 3) -- (3, 3), (3, 4) -- (3, 1), (4, 1) -- (1, 1)
  piece foam at (0.5, 1), (1, 3.5), (3.5, 3), (2, 0.5), c
}`},
	{name: "a patch is named once", fault: "has its fabric already", text: `
block t 4 x 4 finished 4in {
  line s -- n
  piece foam at (1, 1), (3, 1)
  piece kelp at (1, 3)
}`},
	{name: "and not forgotten", fault: "2 patches have no fabric", text: `
block t 4 x 4 finished 4in {
  line s -- n, c -- e
  piece foam at (1, 1)
}`},
	{name: "units turn anticlockwise about the point they are placed by", sections: 2, pieces: 4, text: `
unit brick 2 x 1 {
  section A {
    1 foam at (0.5, 0.5)
    2 kelp along (1.5, 0) -- (1.5, 1)
  }
}
block t 2 x 2 finished 4in {
  join n -- s
  place brick at (1, 0) turn 90deg
  place brick by c at (1.5, 1) turn -90deg
}`},
	{name: "units are reversed before they are turned", sections: 4, pieces: 8, text: `
unit brick 2 x 2 {
  section A {
    1 foam at (1.5, 0.5)
    2 kelp along (0, 0.5) -- (1.5, 2)
  }
}
block t 4 x 4 finished 4in {
  join w -- e, n -- s
  place brick at (0, 0)
  place brick at (4, 0) reversed
  place brick by c at (1, 3) reversed turn 180deg
  place brick by c at (3, 3) turn 180deg
}`},
	{name: "placed units do not overlap", fault: "overlaps the brick of line 6 by 1", text: `
unit brick 2 x 2 { section A { 1 foam at c } }
block t 4 x 2 finished 4in {
  place brick at (0, 0)
  place brick at (1.5, 0)
}`},
	{name: "no unit stands inside itself", fault: "port > star > port", text: `
unit port 2 x 2 { place star at sw }
unit star 2 x 2 { place port at sw }
block t 2 x 2 finished 4in { place port at sw }`},
	{name: "compass points keep their names", fault: "is already the unit's point", text: `
block t(n: count = 3) 2 x n finished 4in { section A { 1 foam at c } }`},
	{name: "a range may run no times", sections: 1, pieces: 1, text: `
block t(rows: count = 1) 2 x rows finished 4in {
  for i in 1..rows - 1 { join (0, i) -- (2, i) }
  section A { 1 foam at c }
}`},
	{name: "a let lives to the end of its braces", fault: "nothing here is called `far`", text: `
block t 4 x 4 finished 4in {
  if true { let far = 3 }
  section A { 1 foam at (far, 1) }
}`},
	{name: "a fabric is a value, and a parameter may hide one", sections: 1, pieces: 4, text: `
unit steps(foam: fabric, other: fabric) 4 x 4 {
  section A {
    1 foam at c
    for i in 1..3 {
      piece if odd(i) then other else pick(i, foam, tar, tar) along (0, 2 - 0.5 * i) -- (4, 2 - 0.5 * i)
    }
  }
}
block t 4 x 4 finished 4in { place steps(other: kelp, foam: tar) at sw }`},
	{name: "a length has no place in geometry", fault: "does not fit", text: `
block t 4 x 4 finished 4in {
  let low = 2 + 1in
  section A { 1 foam at c }
}`},
	{name: "the inch has one spelling", fault: "an inch is written", text: `
block t 4 x 4 finished 6" {
  section A { 1 foam at c }
}`},
	{name: "signs of a word processor", fault: "word processor", text: `
block t 4 x 4 finished 6in {
  join n — s
  section A { 1 foam at (1, 1) }
  section B { 1 kelp at (3, 1) }
}`},
	{name: "an unfinished line is told where it ends", fault: "a value is missing", text: `
block t 4 x 4 finished 6in {
  let low =
  join n -- s
}`},
	{name: "a section's name is used once", fault: "already written on line 6", text: `
block t 4 x 4 finished 6in {
  join n -- s
  section A { 1 foam at (1, 1) }
  section A { 1 foam at (3, 1) }
}`},
	{name: "outlines run either way", sections: 2, pieces: 2, text: `
unit tri(side: number) outline (0, 0), (0, side), (side, 0) { section A { 1 foam at (1, 1) } }
block t 4 x 4 finished 6in {
  join nw -- se
  place tri(4) at sw
  place tri(side: 4) at ne turn 180deg
}`},
}

func TestSemantics(t *testing.T) {
	for _, c := range semantics {
		t.Run(c.name, func(t *testing.T) {
			src := &problem.Source{Name: "t.seam", Text: cloths + strings.TrimPrefix(c.text, "\n")}
			p, problems := Compile(src, nil)
			if c.fault != "" {
				if e := errors(problems); len(e) != 1 || !strings.Contains(e[0].Message, c.fault) {
					t.Errorf("want one error, with %q, got\n%s", c.fault, told(problems))
				}
				return
			}
			if p == nil {
				t.Fatalf("does not compile:\n%s", told(problems))
			}
			sections, pieces := count(p.Blocks[0].Sizes[0])
			if sections != c.sections || pieces != c.pieces {
				t.Errorf("%d sections and %d pieces, want %d and %d", sections, pieces, c.sections, c.pieces)
			}
		})
	}
}

func errors(problems []problem.Problem) (list []problem.Problem) {
	for _, p := range problems {
		if p.Severity == problem.Error {
			list = append(list, p)
		}
	}
	return list
}

// count counts every copy of every drawing.
func count(s pattern.Sized) (sections, pieces int) {
	for _, c := range s.Copies {
		sections++
		pieces += len(s.Drawings[c.Drawing].Pieces)
	}
	return sections, pieces
}

func told(problems []problem.Problem) string {
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(string(p.Code) + " " + p.Severity.String() + ": " + p.Message + "\n")
	}
	return b.String()
}
