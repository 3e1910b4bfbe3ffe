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
		a.unknown("space " + l.Space)
		return
	}
	s, label := find(a.size, l.Space)
	l.Space = label
	if s == nil {
		a.noSpace()
		return
	}
	if s.Exact {
		a.cause("a patch without paper", l.Space+" is cut exact: "+cutWords(s), a.say("space_exact", "space", l.Space, "cut", a.cutSaid(s)))
		return
	}
	if l.Cut[0] == 0 {
		a.laid(s)
		return
	}
	a.cut(s)
}

// find is a space by its label, however that is written, and as it is printed.
func find(size *edition.Size, label string) (*edition.Space, string) {
	for i := range size.Sections {
		sec := &size.Sections[i]
		for k := range sec.Spaces {
			if own := sec.Name + strconv.Itoa(sec.Spaces[k].Number); strings.EqualFold(own, label) {
				return &sec.Spaces[k], own
			}
		}
	}
	return nil, label
}

func has(size *edition.Size, label string) bool {
	s, _ := find(size, label)
	return s != nil
}

// noSpace is a label that the held edition does not have; another may.
func (a *answer) noSpace() {
	for i := len(a.records) - 1; i >= 0; i-- {
		r := a.records[i]
		for b := range r.Blocks {
			for k := range r.Blocks[b].Sizes {
				if s := &r.Blocks[b].Sizes[k]; has(s, a.letter.Space) {
					title := r.Blocks[b].Title
					where := a.say("space_where", "title", title, "size", s.Words(), "n", strconv.Itoa(r.Edition))
					a.cause("a space of another size or edition", fmt.Sprintf("%s is in %s at %s of edition %d", a.letter.Space, title, s.Words(), r.Edition),
						a.say("space_elsewhere", "space", a.letter.Space, "where", where))
					return
				}
			}
		}
	}
	a.cause("a space that is not in the pattern", a.letter.Space, a.say("space_unknown", "space", a.letter.Space))
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

// cutSaid says the same to the maker.
func (a *answer) cutSaid(s *edition.Space) string {
	if strings.HasPrefix(s.Cut, "round") {
		return a.say("cut_round", "size", both(s.Size))
	}
	shape, how, _ := strings.Cut(s.Cut, " cut ")
	key := "cut_size"
	switch how, _, _ = strings.Cut(how, " "); how {
	case "once":
		key = "cut_once"
	case "twice":
		key = "cut_twice"
	}
	return a.say(key, "shape", a.say("shape_"+shape), "size", both(s.Size))
}

func both(size [2]float64) string {
	if size[0] == size[1] {
		return in(length(size[0]))
	}
	return in(length(size[0])) + " x " + in(length(size[1]))
}

// laying is how a patch is laid, to the maker.
func (a *answer) laying(s *edition.Space) string {
	key := "lay_edge"
	switch {
	case s.Number == 1:
		key = "lay_first"
	case s.Slant:
		key = "lay_slant"
	case strings.Contains(s.Cut, "cut once"):
		key = "lay_long"
	}
	return a.say(key, "past", in(a.record.Allowance()))
}

// laid is a patch that was cut right, as far as is known.
func (a *answer) laid(s *edition.Space) {
	figures := a.letter.Space + " is cut as a " + cutWords(s)
	why := a.say("patch_short")
	if m, ok := a.margin(); ok {
		figures += fmt.Sprintf("; it reaches %s beyond what is needed", in(m))
		tilt := math.Atan(2*float64(m)/s.Size[0]) * 180 / math.Pi
		why = a.say("patch_spare", "spare", in(m), "degrees", strconv.Itoa(int(tilt)))
	}
	a.cause("cut too small, or laid short or askew", figures, a.say("patch_cut", "space", a.letter.Space, "cut", a.cutSaid(s))+" "+why+" "+a.laying(s))
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
			a.cause("spaces that are printed too large", figures+"; print "+percent(a.scale), a.say("patch_print"))
			return
		}
		a.laid(s)
	case want[0] != want[1] && fits([2]length{want[1], want[0]}):
		a.cause("the patch lay the other way", figures+"; the same, turned", a.say("patch_turned", "space", name, "side", in(want[0]))+" "+a.laying(s))
	case fits([2]length{width, height}) || fits([2]length{height, width}):
		a.cause("cut to the finished size", figures+fmt.Sprintf("; the space finishes %s x %s", in(width), in(height)),
			a.say("patch_finished", "space", name, "cut", a.cutSaid(s)))
	case a.fromOtherSize(fits, figures):
	case got[0] < want[0]-soft/2 || got[1] < want[1]-soft/2:
		short := max(want[0]-got[0], want[1]-got[1])
		a.cause("cut too small", figures+"; "+in(short)+" short", a.say("patch_small", "space", name, "short", in(short), "cut", a.cutSaid(s))+" "+a.laying(s))
	default:
		a.cause("large enough, so laid short or askew", figures, a.say("patch_large", "space", name)+" "+a.laying(s))
	}
}

// fromOtherSize finds the patch in the table of another size.
func (a *answer) fromOtherSize(fits func([2]length) bool, figures string) bool {
	for i := range a.block.Sizes {
		o := &a.block.Sizes[i]
		if s, _ := find(o, a.letter.Space); o != a.size && s != nil && fits([2]length{length(s.Size[0]), length(s.Size[1])}) {
			a.cause("cut by the table of another size", figures+"; the table of "+o.Words()+" says so", a.say("patch_size", "space", a.letter.Space, "other", o.Words(), "size", a.size.Words()))
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
