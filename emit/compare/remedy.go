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
		key, fill := e.remedy(&c)
		if key == "" {
			continue
		}
		words := e.say(key, fill...)
		blade = blade || key == "remedy_fabric" || key == "remedy_setting" || key == "remedy_small" || key == "remedy_all"
		at := slices.IndexFunc(all, func(r remedy) bool { return r.words == words })
		if at < 0 {
			all, at = append(all, remedy{words: words}), len(all)
		}
		r := &all[at]
		if k := slices.IndexFunc(r.of, func(o Change) bool { return o.Block == c.Block && o.Subject == c.Subject && e.part(&o) == e.part(&c) }); k >= 0 {
			for _, size := range c.Sizes {
				if !slices.Contains(r.of[k].Sizes, size) {
					r.of[k].Sizes = append(slices.Clone(r.of[k].Sizes), size)
				}
			}
		} else {
			r.of = append(r.of, c)
		}
	}
	e.Heading(e.say("done"))
	if len(all) == 0 {
		e.Text(e.say("done_nothing"))
		return
	}
	for _, r := range all {
		e.Item("-", e.say("remedy", "what", e.subjects(r.of), "remedy", r.words))
	}
	if blade {
		e.Note(e.say("blade"))
	}
}

// subjects names what a remedy is for, those of the same sizes together.
func (e *errata) subjects(of []Change) string {
	var sizes []string
	names := map[string][]string{}
	for i := 0; i < len(of); i++ {
		at, name := e.list(e.r.at(&of[i])), e.subject(of[i].Subject)
		if names[at] == nil {
			sizes = append(sizes, at)
		}
		var parts []string // of one quilt, which follow each other
		for ; e.part(&of[i]) != ""; i++ {
			if parts = append(parts, e.part(&of[i])); i+1 == len(of) || of[i+1].Subject != of[i].Subject || e.part(&of[i+1]) == "" {
				break
			}
		}
		if len(parts) > 0 {
			name = e.say("subject_parts", "subject", name, "parts", e.list(parts))
		}
		names[at] = append(names[at], name)
	}
	var parts []string
	for _, at := range sizes {
		s := e.list(names[at])
		if at != "" {
			s = e.say("at_short", "what", s, "sizes", at)
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, "; ")
}

// part is what of a quilt is cut, or which cloth is bought for it; "" if a change is
// of neither.
func (e *errata) part(c *Change) string {
	if c.Kind != Quilts {
		return ""
	}
	if part, ok := strings.CutPrefix(c.Aspect, partOf); ok {
		return e.partName(part)
	}
	if cloth, ok := strings.CutPrefix(c.Aspect, buyOf); ok {
		return cloth
	}
	return ""
}

// remedy says how a change is mended in cloth: a message and what is filled in; ""
// where nothing is to be done.
func (e *errata) remedy(c *Change) (key string, fill []string) {
	switch c.Kind {
	case Geometry:
		switch {
		case c.Aspect == "section" && c.New == "":
			return "remedy_gone", nil
		case c.Aspect == "section":
			return "remedy_new", nil
		case e.keepsOutline(c):
			return "remedy_fits", nil
		}
		return "remedy_shape", nil
	case Numbers:
		return "remedy_numbers", nil
	case Fabrics:
		return "remedy_fabric", []string{"old", c.Old}
	case Patches:
		return e.patchRemedy(c), nil
	case Copies:
		if c.Aspect == "copies" {
			return copiesRemedy(c)
		}
		return "remedy_look", nil
	case Marks:
		return "remedy_marks", nil
	case Joining:
		return "remedy_joins", nil
	case Cloth:
		if c.Aspect == "to buy" && c.Old != "" && c.New != "" {
			return "remedy_buy", []string{"new", c.New}
		}
	case Quilts:
		return quiltRemedy(c)
	case Settings:
		if a := affects(c); a == "cutting" || a == "sewing" {
			return "remedy_all", nil
		}
	}
	return "", nil
}

// quiltRemedy says what to do where a quilt is cut, laid out or joined otherwise.
func quiltRemedy(c *Change) (key string, fill []string) {
	switch {
	case strings.HasPrefix(c.Aspect, buyOf) && c.Old != "" && c.New != "":
		return "remedy_buy", []string{"new", c.New}
	case strings.HasPrefix(c.Aspect, partOf) && c.Note == "" && c.New != "":
		return "remedy_setting", nil
	case c.Aspect == "pressing" || c.Aspect == "pressed in two ways":
		return "remedy_press", nil
	case c.Affects == "sewing":
		return "remedy_lay", nil
	}
	return "", nil
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
		return "remedy_large"
	}
	return "remedy_small"
}

func copiesRemedy(c *Change) (key string, fill []string) {
	old, err1 := strconv.Atoi(c.Old)
	new, err2 := strconv.Atoi(c.New)
	switch {
	case err1 != nil || err2 != nil:
		return "", nil
	case new > old:
		return "remedy_more", []string{"more", strconv.Itoa(new - old), "new", c.New}
	}
	return "remedy_fewer", []string{"new", c.New}
}
