package compare

import (
	"cmp"
	"maps"
	"slices"
	"strconv"
	"strings"

	"seamwright/emit/edition"
)

// A met is two labels that stand for one space, and one place where they do.
type met struct{ was, is, times int }

// spaces compares the numbered areas: once for each label, whichever of its
// copies it was found in.
func (s *sizing) spaces() {
	found := map[string]map[string]*met{} // by label of the new, by label of the old
	var order []string
	gone := map[string]int{}
	for k := range s.was {
		gone[s.was[k].label] = k
	}
	for i := range s.is {
		label := s.is[i].label
		if found[label] == nil {
			found[label] = map[string]*met{}
			order = append(order, label)
		}
		if k := s.from[i]; k >= 0 {
			of := s.was[k].label
			delete(gone, of)
			if found[label][of] == nil {
				found[label][of] = &met{k, i, 0}
			}
			found[label][of].times++
		}
	}
	s.letters()
	for _, label := range order {
		if m := s.likeliest(found[label]); m != nil {
			s.space(m)
		}
	}
	s.comings(found)
	s.goings(gone)
}

// likeliest is the old label that was met most often; of equals, the same one.
func (s *sizing) likeliest(of map[string]*met) *met {
	var best *met
	for _, label := range slices.Sorted(maps.Keys(of)) {
		m := of[label]
		if best == nil || m.times > best.times || m.times == best.times && label == s.is[m.is].label {
			best = m
		}
	}
	return best
}

// letters finds what each section of the old is called now: as most of its spaces
// are. Two of the new may both come of one.
func (s *sizing) letters() {
	votes := map[string]map[string]int{}
	for i, k := range s.from {
		if k < 0 {
			continue
		}
		was, is := s.old.Sections[s.was[k].section].Name, s.new.Sections[s.is[i].section].Name
		if votes[is] == nil {
			votes[is] = map[string]int{}
		}
		votes[is][was]++
	}
	s.called, s.known = map[string]string{}, map[string]string{}
	for i := range s.new.Sections {
		is := s.new.Sections[i].Name
		best := ""
		for _, was := range slices.Sorted(maps.Keys(votes[is])) {
			if n := votes[is][was]; best == "" || n > votes[is][best] || n == votes[is][best] && was == is {
				best = was
			}
		}
		if best == "" {
			continue
		}
		s.known[is] = best
		if other, ok := s.called[best]; !ok || best == is || other != best && votes[is][best] > votes[other][best] {
			s.called[best] = is
		}
	}
}

// space compares one space.
func (s *sizing) space(m *met) {
	was, is := &s.was[m.was], &s.is[m.is]
	oldSection, newSection := &s.old.Sections[was.section], &s.new.Sections[is.section]
	old, new := &oldSection.Spaces[was.space], &newSection.Spaces[is.space]
	c := Change{Section: newSection.Name, Space: is.label, Subject: is.label, At: new.At}
	if s.known[newSection.Name] != oldSection.Name || old.Number != new.Number {
		c.Kind, c.Aspect = Numbers, "number"
		s.text(c, was.label, is.label)
	}
	if d := apart(was.polygon, is.polygon); d > same {
		c.Kind, c.Aspect = Geometry, "shape"
		c.noted("a line moves by up to {by}", "note_moves", "by", measure(d))
		c.Old, c.New = across(was.polygon), across(is.polygon)
		s.tell(c)
		c.Old, c.New, c.Note, c.note, c.fill = "", "", "", "", nil
	}
	if now, ok := s.renamed[old.Fabric]; !ok || now != new.Fabric {
		c.Kind, c.Aspect = Fabrics, "fabric"
		s.text(c, s.words(s.report.Old, old.Fabric), s.words(s.report.New, new.Fabric))
	}
	c.Kind, c.Aspect = Patches, "patch"
	s.text(c, cut(old), cut(new))
}

// across tells how large a space is, finished: its width and height as it lies in
// the block.
func across(ps []point) string {
	b := boxOf(ps)
	return measure(b.x1-b.x0) + " x " + measure(b.y1-b.y0)
}

// cut tells how a patch is cut.
func cut(s *edition.Space) string {
	if s.Cut == "" {
		return ""
	}
	size := measure(s.Size[0])
	if s.Size[0] != s.Size[1] {
		size += " x " + measure(s.Size[1])
	}
	text := s.Cut + " " + size
	for _, more := range [...]struct {
		is   bool
		word string
	}{{s.Exact, "cut exact"}, {s.Other, "reversed"}, {s.Slant, "laid at a slant"}} {
		if more.is {
			text += ", " + more.word
		}
	}
	return text
}

// comings tells of spaces that were nowhere before; a whole new section is told
// as one.
func (s *sizing) comings(found map[string]map[string]*met) {
	for i := range s.new.Sections {
		sec := &s.new.Sections[i]
		if s.known[sec.Name] == "" {
			s.tell(Change{Kind: Geometry, Section: sec.Name, Subject: "section " + sec.Name, Aspect: "section", New: spacesIn(sec), At: sec.At})
			continue
		}
		for k := range sec.Spaces {
			if l := label(sec, k); len(found[l]) == 0 {
				s.tell(Change{Kind: Geometry, Section: sec.Name, Space: l, Subject: l, Aspect: "space",
					New: s.words(s.report.New, sec.Spaces[k].Fabric), At: sec.Spaces[k].At})
			}
		}
	}
}

// goings tells of spaces that are nowhere any more.
func (s *sizing) goings(gone map[string]int) {
	for i := range s.old.Sections {
		sec := &s.old.Sections[i]
		left := 0
		for k := range sec.Spaces {
			if _, ok := gone[label(sec, k)]; ok {
				left++
			}
		}
		if left == len(sec.Spaces) {
			s.tell(Change{Kind: Geometry, Section: sec.Name, Subject: "section " + sec.Name, Aspect: "section", Old: spacesIn(sec)})
			continue
		}
		for k := range sec.Spaces {
			if l := label(sec, k); left > 0 && hasKey(gone, l) {
				s.tell(Change{Kind: Geometry, Section: sec.Name, Space: l, Subject: l, Aspect: "space", Old: s.words(s.report.Old, sec.Spaces[k].Fabric)})
			}
		}
	}
}

func hasKey(m map[string]int, k string) bool { _, ok := m[k]; return ok }

func spacesIn(s *edition.Section) string {
	if len(s.Spaces) == 1 {
		return "1 space"
	}
	return strconv.Itoa(len(s.Spaces)) + " spaces"
}

// sections compares what belongs to a section as a whole.
func (s *sizing) sections() {
	for i := range s.new.Sections {
		new := &s.new.Sections[i]
		old := s.oldSection(new.Name)
		if old == nil {
			continue
		}
		c := Change{Section: new.Name, Subject: "section " + new.Name, At: new.At}
		c.Kind, c.Aspect = Numbers, "letter"
		s.text(c, old.Name, new.Name)
		c.Kind, c.Aspect = Copies, "copies"
		s.text(c, strconv.Itoa(old.Make), strconv.Itoa(new.Make))
		c.Aspect = "reversed of"
		s.text(c, s.now(old.Reverses), new.Reverses)
		c.Aspect = "paper"
		s.text(c, onPaper(old), onPaper(new))
		c.Kind, c.Aspect = Joining, "edges"
		s.text(c, s.edges(old.Edges), strings.Join(new.Edges, "; "))
		s.marks(c, old, new)
	}
}

// How a section is sewn.
const (
	cutExact     = "cut exact, without paper"
	onFoundation = "on a foundation"
)

func onPaper(s *edition.Section) string {
	if s.Plain {
		return cutExact
	}
	return onFoundation
}

func (s *sizing) oldSection(new string) *edition.Section {
	for i := range s.old.Sections {
		if was, ok := s.known[new]; ok && s.old.Sections[i].Name == was {
			return &s.old.Sections[i]
		}
	}
	return nil
}

// now is what a section of the old is called in the new.
func (s *sizing) now(old string) string { return cmp.Or(s.called[old], old) }

// edges tells what edges of the old were joined to, by the new letters.
func (s *sizing) edges(old []string) string {
	out := make([]string, len(old))
	for i, e := range old {
		words := strings.Split(e, " ")
		for k := range words {
			words[k] = s.now(words[k])
		}
		out[i] = strings.Join(words, " ")
	}
	return strings.Join(out, "; ")
}

// marks compares match marks where a copy of the section lay and lies.
func (s *sizing) marks(c Change, old, new *edition.Section) {
	move, found := s.shiftOf(old, new)
	if !found {
		return
	}
	c.Kind, c.Aspect = Marks, "match marks"
	var letters, moved int
	left := slices.Clone(new.Marks)
	for _, m := range old.Marks {
		at := move(m.At)
		i := slices.IndexFunc(left, func(n edition.Mark) bool {
			return max(at[0]-n.At[0], n.At[0]-at[0], at[1]-n.At[1], n.At[1]-at[1]) <= 2*same
		})
		switch {
		case i < 0:
			moved++
			continue
		case left[i].Letter != m.Letter:
			letters++
		}
		left = slices.Delete(left, i, i+1)
	}
	count := func(ms []edition.Mark) string { return strconv.Itoa(len(ms)) }
	switch {
	case moved > 0 || len(left) > 0:
		c.noted("{gone} moved or gone, {new} new", "note_marks", "gone", strconv.Itoa(moved), "new", strconv.Itoa(len(left)))
		c.Old, c.New = count(old.Marks), count(new.Marks)
		s.tell(c)
	case letters > 0:
		c.Aspect = "letters of match marks"
		c.noted("{n} have another letter", "note_letters", "n", strconv.Itoa(letters))
		s.tell(c)
	}
}

// shiftOf returns what takes a point of an old section to its place in the new
// one: by two copies of them that were matched.
func (s *sizing) shiftOf(old, new *edition.Section) (func(point) point, bool) {
	for i, k := range s.from {
		if k < 0 || &s.old.Sections[s.was[k].section] != old || &s.new.Sections[s.is[i].section] != new {
			continue
		}
		was, is := &s.old.Copies[s.was[k].copy], &s.new.Copies[s.is[i].copy]
		there := motion(was.Turn, was.Shift)
		back := motion(-is.Turn, point{})
		return func(p point) point {
			q := there(p)
			return back(point{q[0] - is.Shift[0], q[1] - is.Shift[1]})
		}, true
	}
	return nil, false
}
