package compare

import (
	"slices"
	"strconv"
	"strings"
)

// remedies says what to do if one has already cut or sewn: once for each way of
// mending, with what it is for.
func (e *errata) remedies() {
	type remedy struct {
		words string
		of    []Change // one for each subject, with all the sizes
	}
	var all []remedy
	blade := false
	for i := range e.r.Changes {
		c := e.r.Changes[i]
		words := e.remedy(&c)
		if words == "" {
			continue
		}
		blade = blade || strings.Contains(words, "cut ") && strings.Contains(words, " again")
		at := slices.IndexFunc(all, func(r remedy) bool { return r.words == words })
		if at < 0 {
			all, at = append(all, remedy{words: words}), len(all)
		}
		r := &all[at]
		if k := slices.IndexFunc(r.of, func(o Change) bool { return o.Block == c.Block && o.Subject == c.Subject }); k >= 0 {
			for _, size := range c.Sizes {
				if !slices.Contains(r.of[k].Sizes, size) {
					r.of[k].Sizes = append(slices.Clone(r.of[k].Sizes), size)
				}
			}
		} else {
			r.of = append(r.of, c)
		}
	}
	e.Heading("If you have already cut or sewn")
	if len(all) == 0 {
		e.Text("Nothing that you have made is wrong. Only words are corrected.")
		return
	}
	for _, r := range all {
		e.Item("-", e.subjects(r.of)+": "+r.words)
	}
	if blade {
		e.Note("A rotary cutter cuts what it meets: close it whenever you lay it down, and cut away from yourself.")
	}
}

// subjects names what a remedy is for, those of the same sizes together.
func (e *errata) subjects(of []Change) string {
	var sizes []string
	names := map[string][]string{}
	for i := range of {
		at := e.r.at(&of[i])
		if names[at] == nil {
			sizes = append(sizes, at)
		}
		names[at] = append(names[at], of[i].Subject)
	}
	var parts []string
	for _, at := range sizes {
		s := list(names[at])
		if at != "" {
			s += " at " + at
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, "; ")
}

// remedy says how a change is mended in cloth; "" where nothing is to be done.
func (e *errata) remedy(c *Change) string {
	switch c.Kind {
	case Geometry:
		switch {
		case c.Aspect == "section" && c.New == "":
			return "it is not needed any more."
		case c.Aspect == "section":
			return "it is new; sew it from the corrected sheet."
		case e.keepsOutline(c):
			return "a section that is sewn still fits its neighbors and may stay, though its picture is the old one; sew those to come from the corrected sheet."
		}
		return "a section that is sewn from the old sheet does not fit any more; sew it again from the corrected sheet."
	case Numbers:
		return "what is sewn is right if it looks like the picture; write the new numbers and letters over the old ones on sheets that are printed."
	case Fabrics:
		return "cut its patch again from the right fabric; " + c.Old + " is wrong there."
	case Patches:
		return e.patchRemedy(c)
	case Copies:
		if c.Aspect == "copies" {
			return copiesRemedy(c)
		}
		return "look at the corrected sheet before you go on."
	case Marks:
		return "pin by the corrected sheet; what is sewn may stay if it lies flat."
	case Joining:
		return "joins that are sewn may stay if the block lies flat; go on as it should be."
	case Cloth:
		if c.Aspect == "to buy" && c.Old != "" && c.New != "" {
			return "buy " + c.New + " in all."
		}
	case Settings:
		if affects(c) != "words" {
			return "print and cut everything again."
		}
	}
	return ""
}

// keepsOutline reports whether the section of a change has the outline that it had.
func (e *errata) keepsOutline(c *Change) bool {
	return e.everywhere(c, func(m *matching, i int) bool {
		if m.new.Sections[m.is[i].section].Name != c.Section || m.from[i] < 0 {
			return true
		}
		old, new := &m.old.Sections[m.was[m.from[i]].section], &m.new.Sections[m.is[i].section]
		return apart(old.Outline, new.Outline) <= same
	})
}

// everywhere reports whether something holds of every patch at all sizes of a
// change.
func (e *errata) everywhere(c *Change, holds func(m *matching, i int) bool) bool {
	for b := range e.r.New.Blocks {
		block := &e.r.New.Blocks[b]
		for k := range block.Sizes {
			m := e.r.matched[block.Name+"/"+block.Sizes[k].Name]
			if block.Name != c.Block || m == nil || !slices.Contains(c.Sizes, block.Sizes[k].Words()) {
				continue
			}
			for i := range m.is {
				if !holds(m, i) {
					return false
				}
			}
		}
	}
	return true
}

// patchRemedy tells whether a patch that was cut as printed will do.
func (e *errata) patchRemedy(c *Change) string {
	if e.everywhere(c, func(m *matching, i int) bool {
		k := m.from[i]
		if m.is[i].label != c.Space || k < 0 {
			return true
		}
		old := &m.old.Sections[m.was[k].section].Spaces[m.was[k].space]
		new := &m.new.Sections[m.is[i].section].Spaces[m.is[i].space]
		return !new.Exact && old.Cut == new.Cut && old.Other == new.Other && old.Size[0] >= new.Size[0]-same && old.Size[1] >= new.Size[1]-same
	}) {
		return "the patch as it was printed is larger than it need be, and will do."
	}
	return "the patch as it was printed is too small, or of another shape; cut it again."
}

func copiesRemedy(c *Change) string {
	old, err1 := strconv.Atoi(c.Old)
	new, err2 := strconv.Atoi(c.New)
	switch {
	case err1 != nil || err2 != nil:
		return ""
	case new > old:
		return "make " + strconv.Itoa(new-old) + " more for each block, " + c.New + " in all."
	}
	return "only " + c.New + " are needed for each block; keep the others."
}
