package letter

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamwright/emit/edition"
)

// space looks at a patch that did not cover its space.
func (a *answer) space() {
	l := &a.letter
	if l.Space == "" {
		return
	}
	if a.size == nil {
		a.cause("the size that was meant is not known", "space "+l.Space, "Please tell me which size you sew: it stands at the head of every sheet, after \"Finishes\".")
		return
	}
	s := find(a.size, l.Space)
	if s == nil {
		a.noSpace()
		return
	}
	if s.Exact {
		a.cause("a patch without paper", l.Space+" is cut exact: "+cutWords(s), fmt.Sprintf("%s has no paper: it is cut exactly to size, %s, allowance included. Please measure the one that you cut.", l.Space, cutWords(s)))
		return
	}
	if l.Cut[0] == 0 {
		a.laid(s)
		return
	}
	a.cut(s)
}

// find is a space by its label.
func find(size *edition.Size, label string) *edition.Space {
	for i := range size.Sections {
		sec := &size.Sections[i]
		for k := range sec.Spaces {
			if strings.EqualFold(sec.Name+strconv.Itoa(sec.Spaces[k].Number), label) {
				return &sec.Spaces[k]
			}
		}
	}
	return nil
}

// noSpace is a label that the held edition does not have; another may.
func (a *answer) noSpace() {
	for i := len(a.records) - 1; i >= 0; i-- {
		r := a.records[i]
		for b := range r.Blocks {
			for k := range r.Blocks[b].Sizes {
				if s := &r.Blocks[b].Sizes[k]; find(s, a.letter.Space) != nil {
					where := fmt.Sprintf("%s at %s of edition %d", r.Blocks[b].Title, s.Words(), r.Edition)
					a.cause("a space of another size or edition", a.letter.Space+" is in "+where,
						fmt.Sprintf("There is no space %s in the size and edition that you name, but there is one in %s. Please look at the head of your sheets: they may be from there.", a.letter.Space, where))
					return
				}
			}
		}
	}
	a.cause("a space that is not in the pattern", a.letter.Space, fmt.Sprintf("I can't find a space %s. Please look at the number again: the letter of the section stands before it.", a.letter.Space))
}

// cutWords says how a patch is cut: "rectangle of 3 1/4 in x 2 1/4 in", "square
// of 3 3/4 in, cut once on the diagonal".
func cutWords(s *edition.Space) string {
	if strings.HasPrefix(s.Cut, "round") {
		return "piece " + s.Cut + ", " + both(s.Size)
	}
	shape, how, triangle := strings.Cut(s.Cut, " cut ")
	words := shape + " of " + both(s.Size)
	if triangle {
		words += ", cut " + how
	}
	return words
}

func both(size [2]float64) string {
	if size[0] == size[1] {
		return in(length(size[0]))
	}
	return in(length(size[0])) + " x " + in(length(size[1]))
}

// laying is how a patch is laid, to the maker.
func (a *answer) laying(s *edition.Space) string {
	past := in(a.record.Allowance())
	switch {
	case s.Number == 1:
		return "It is the first of its section: lay it under the paper, right side away from it, and look against the light: it must reach " + past + " past every line of its space, all round. "
	case s.Slant:
		return "Lay the patch at a slant, as the picture \"slant\" shows, right sides together with the piece before it, and look against the light: it must reach past every line of its space when it is folded over. "
	}
	edge := "the edge of its first measure"
	if strings.Contains(s.Cut, "cut once") {
		edge = "its long side"
	}
	return "Lay the patch right sides together with the piece before it, " + edge + " along the line that you will sew and " + past +
		" past it, and look against the light: it must reach past every line of its space when it is folded over. "
}

// laid is a patch that was cut right, as far as is known.
func (a *answer) laid(s *edition.Space) {
	figures := a.letter.Space + " is cut as a " + cutWords(s)
	say := fmt.Sprintf("The patch for %s is cut as a %s. Please measure yours. ", a.letter.Space, cutWords(s))
	if m, ok := a.margin(); ok {
		figures += fmt.Sprintf("; it reaches %s beyond what is needed", in(m))
		tilt := math.Atan(2*float64(m)/s.Size[0]) * 180 / math.Pi
		say += fmt.Sprintf("If it is that size, it was laid short or at an angle: it has %s to spare on the side where it has least, and comes short at a corner if it lies more than about %.0f degrees askew. ", in(m), math.Floor(tilt))
	} else {
		say += "If it is that size, it was laid short or at an angle. "
	}
	a.cause("cut too small, or laid short or askew", figures, say+a.laying(s))
}

// margin is how far the cloth of the space reaches beyond its need, which is known
// of the newest edition.
func (a *answer) margin() (length, bool) {
	if a.pattern == nil || a.record != a.newest {
		return 0, false
	}
	for b := range a.pattern.Blocks {
		block := &a.pattern.Blocks[b]
		for k := range block.Sizes {
			s := &block.Sizes[k]
			if block.Name != a.block.Name || !near(s.Finished.W, length(a.size.Finished[0]), ruler) {
				continue
			}
			for d := range s.Drawings {
				for i := range s.Drawings[d].Pieces {
					if strings.EqualFold(s.Drawings[d].Label(i), a.letter.Space) {
						return s.Drawings[d].Pieces[i].Patch.Margin, true
					}
				}
			}
		}
	}
	return 0, false
}

// cut compares the patch that was cut with what the table says.
func (a *answer) cut(s *edition.Space) {
	got := a.letter.Cut
	if got[1] == 0 {
		got[1] = got[0]
	}
	want := [2]length{length(s.Size[0]), length(s.Size[1])}
	name := a.letter.Space
	figures := fmt.Sprintf("cut %s x %s; the table says %s", in(got[0]), in(got[1]), cutWords(s))
	fits := func(w [2]length) bool { return near(got[0], w[0], soft/2) && near(got[1], w[1], soft/2) }
	width, height := across(s.Polygon)
	switch {
	case fits(want):
		if a.scale > 1 {
			a.cause("spaces that are printed too large", figures+"; print "+percent(a.scale), "The patch is cut right, but its space is printed too large: the print is the cause.")
			return
		}
		a.laid(s)
	case want[0] != want[1] && fits([2]length{want[1], want[0]}):
		a.cause("the patch lay the other way", figures+"; the same, turned", fmt.Sprintf("The patch for %s is cut right but lay the other way: its side of %s runs along the line. %s", name, in(want[0]), a.laying(s)))
	case fits([2]length{width, height}) || fits([2]length{height, width}):
		a.cause("cut to the finished size", figures+fmt.Sprintf("; the space finishes %s x %s", in(width), in(height)),
			fmt.Sprintf("Your patch for %s is as large as its space finishes. Patches for paper are cut larger, so that they reach past every line: %s. Please cut it by the table.", name, cutWords(s)))
	case a.fromOtherSize(fits, figures):
	case got[0] < want[0]-soft/2 || got[1] < want[1]-soft/2:
		short := max(want[0]-got[0], want[1]-got[1])
		a.cause("cut too small", figures+"; "+in(short)+" short", fmt.Sprintf("Your patch for %s is %s smaller than the table says. It is cut as a %s. %s", name, in(short), cutWords(s), a.laying(s)))
	default:
		a.cause("large enough, so laid short or askew", figures, fmt.Sprintf("Your patch for %s is large enough, so it was laid short or at an angle. %s", name, a.laying(s)))
	}
}

// fromOtherSize finds the patch in the table of another size.
func (a *answer) fromOtherSize(fits func([2]length) bool, figures string) bool {
	for i := range a.block.Sizes {
		o := &a.block.Sizes[i]
		if s := find(o, a.letter.Space); o != a.size && s != nil && fits([2]length{length(s.Size[0]), length(s.Size[1])}) {
			a.cause("cut by the table of another size", figures+"; the table of "+o.Words()+" says so", fmt.Sprintf("Your patch for %s is what the table of the block that finishes %s says. Please cut by the table of %s.", a.letter.Space, o.Words(), a.size.Words()))
			return true
		}
	}
	return false
}

// across is how wide and high a space finishes.
func across(ps [][2]float64) (length, length) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range ps {
		x0, y0, x1, y1 = min(x0, p[0]), min(y0, p[1]), max(x1, p[0]), max(y1, p[1])
	}
	return length(x1 - x0), length(y1 - y0)
}
