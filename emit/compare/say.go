package compare

import (
	"strconv"
	"strings"

	"seamwright/emit/booklet/words"
	"seamwright/emit/edition"
	"seamwright/emit/table"
)

// What stands in the table of corrections is what [Report.Line] tells, in the
// language of the page. Records are in English, whatever the pattern's language, so
// that they can be compared; here their words are found again.

// placeOn begins the aspect of a place on a sheet, before its number.
const placeOn = "place on sheet "

// name says what of what is corrected: "A2 fabric".
func (e *errata) name(c *Change) string {
	subject, aspect := e.subject(c.Subject), e.aspect(c.Aspect)
	switch {
	case c.onlySubject():
		return subject
	case c.onlyAspect():
		return aspect
	}
	return e.say("named", "subject", subject, "aspect", aspect)
}

// subject says what is meant. What begins with no word of ours is a name.
func (e *errata) subject(s string) string {
	if kind, name, ok := strings.Cut(s, " "); ok && e.words.Has("subject_"+kind) {
		return e.say("subject_"+kind, "name", name)
	}
	return s
}

// partName says what of a quilt is cut: "sashes".
func (e *errata) partName(part string) string {
	return table.Part(words.InTables(edition.Find(e.r.New.Settings, "language")), part)
}

func (e *errata) aspect(s string) string {
	if n, ok := strings.CutPrefix(s, placeOn); ok {
		return e.say("aspect_place", "n", n)
	}
	if n, row, ok := strings.Cut(strings.TrimPrefix(s, blockOfRow), " of row "); ok && strings.HasPrefix(s, blockOfRow) {
		return e.say("aspect_block", "n", n, "row", row)
	}
	if part, ok := strings.CutPrefix(s, partOf); ok {
		return e.say("aspect_cut", "what", e.partName(part))
	}
	if cloth, ok := strings.CutPrefix(s, buyOf); ok {
		return e.say("aspect_buy", "cloth", cloth)
	}
	if key := "aspect_" + strings.ReplaceAll(s, " ", "_"); e.words.Has(key) {
		return e.say(key)
	}
	return s
}

func (e *errata) printed(c *Change) string {
	if c.Old == "" && c.Note == "" {
		return e.say("nothing")
	}
	return e.value(c, c.Old)
}

func (e *errata) shouldBe(c *Change) string {
	note := e.noteOf(c)
	switch {
	case c.New == "" && c.Note == "":
		return e.say("nothing")
	case c.New == "":
		return note
	case c.Note == "":
		return e.value(c, c.New)
	}
	return e.value(c, c.New) + "; " + note
}

// value says an old or a new value.
func (e *errata) value(c *Change, s string) string {
	switch {
	case c.Kind == Patches:
		return e.patch(s)
	case c.Kind == Quilts:
		return e.quilt(c, s)
	case c.Aspect == "sewn":
		return e.goes(s)
	case s == onFoundation:
		return e.say("on_foundation")
	case s == cutExact:
		return e.say("cut_exact")
	case c.Aspect == "line" || c.Aspect == "join":
		if from, to, ok := strings.Cut(s, " to "); ok {
			return e.say("ends", "from", from, "to", to)
		}
	case c.Aspect == "section":
		if n, err := strconv.Atoi(strings.TrimSuffix(strings.TrimSuffix(s, "s"), " space")); err == nil {
			return e.words.Count("spaces", n)
		}
	}
	return s
}

// quilt says a value of a quilt: how a block lies, or what is cut.
func (e *errata) quilt(c *Change, s string) string {
	switch {
	case strings.HasPrefix(c.Aspect, partOf):
		all := strings.Split(s, "; ")
		for i := range all {
			if bare, ok := strings.CutSuffix(all[i], ", "+onBias); ok {
				all[i] = bare + ", " + e.say("on_bias")
			} else {
				all[i] = e.patch(all[i])
			}
		}
		return strings.Join(all, "; ")
	case strings.HasPrefix(c.Aspect, blockOfRow):
		parts := strings.Split(s, ", ")
		parts[0] = e.placed(parts[0])
		for i, part := range parts {
			if degrees, ok := strings.CutSuffix(part, turnedDegrees); ok && i > 0 {
				parts[i] = e.say("turned_degrees", "n", degrees)
			}
			switch part {
			case turnedOver:
				parts[i] = e.say("turned_over")
			case theOtherWay:
				parts[i] = e.say("other_way")
			}
		}
		return strings.Join(parts, ", ")
	}
	return s
}

// placed says a block of a quilt by its title, as makers know it: a record has it as
// "pier reversed (6in)".
func (e *errata) placed(s string) string {
	name, size, ok := strings.Cut(strings.TrimSuffix(s, ")"), " (")
	for _, r := range []*edition.Record{e.r.New, e.r.Old} {
		for i := range r.Blocks {
			b := &r.Blocks[i]
			for k := range b.Sizes {
				if ok && b.Name == name && b.Sizes[k].Name == size {
					return b.Title + ", " + b.Sizes[k].Words()
				}
			}
		}
	}
	return s
}

// goes says in how many goes a join is sewn.
func (e *errata) goes(s string) string {
	if n, ok := strings.CutPrefix(s, begins); ok {
		return e.say("begins", "n", n)
	}
	if n, ok := strings.CutPrefix(s, finishes); ok {
		return e.say("finishes", "n", n)
	}
	if s == inOneGo {
		return e.say("one_go")
	}
	return s
}

// patch says how a patch is cut: "rectangle 3 1/4 x 2 in, laid at a slant".
func (e *errata) patch(s string) string {
	parts := strings.Split(s, ", ")
	for i, part := range parts {
		switch part {
		case "cut exact":
			parts[i] = e.say("exact")
		case "reversed":
			parts[i] = e.say("reversed")
		case "laid at a slant":
			parts[i] = e.say("slant")
		}
	}
	shape, rest, _ := strings.Cut(parts[0], " ")
	switch {
	case shape == "round":
		if size, ok := strings.CutPrefix(rest, "the template "); ok {
			parts[0] = e.say("cut_round", "size", size)
		}
	case e.words.Has("shape_" + shape):
		key := "cut_size"
		for of, cut := range map[string]string{"cut_once": "cut once on the diagonal ", "cut_twice": "cut twice on the diagonals "} {
			if size, ok := strings.CutPrefix(rest, cut); ok {
				key, rest = of, size
			}
		}
		parts[0] = e.say(key, "shape", e.say("shape_"+shape), "size", rest)
	}
	return strings.Join(parts, ", ")
}

func (e *errata) heading(block string) string {
	if block == "" {
		return e.say("pattern")
	}
	return e.r.heading(block)
}

// list tells several: "A, B and C".
func (e *errata) list(all []string) string {
	if n := len(all); n > 1 {
		return e.say("and", "first", strings.Join(all[:n-1], ", "), "last", all[n-1])
	}
	return strings.Join(all, "")
}

// Said tells a change as [Report.Line] does, in a language.
func (r *Report) Said(c *Change, in *words.Catalogue) string {
	e := &errata{r: r, words: in}
	s := e.name(c) + ": " + e.what(c)
	if at := r.at(c); len(at) > 0 {
		return e.say("at", "what", s, "sizes", e.list(at))
	}
	return s
}

// what tells the old and the new.
func (e *errata) what(c *Change) string {
	old, new, note := e.value(c, c.Old), e.value(c, c.New), e.noteOf(c)
	var s string
	switch {
	case c.Old == "" && c.New == "":
		return note
	case c.Old == c.New:
		s = new
	case c.Old == "":
		s = e.say("new", "is", new)
	case c.New == "":
		s = e.say("gone", "was", old)
	default:
		s = old + " -> " + new
	}
	if note != "" {
		s += " (" + note + ")"
	}
	return s
}

// noteOf is the note of a change.
func (e *errata) noteOf(c *Change) string {
	if c.note != "" {
		return e.say(c.note, c.fill...)
	}
	return c.Note
}
