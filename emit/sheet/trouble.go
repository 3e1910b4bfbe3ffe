package sheet

import (
	"fmt"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/lang/problem"
)

// papers are the sheets offered when one is too small, the commonest first.
var papers = [...]pattern.Sheet{
	{Name: "legal", Paper: pattern.Size{W: 8.5, H: 14}},
	{Name: "a3", Paper: pattern.Size{W: 297 * pattern.Millimetre, H: 420 * pattern.Millimetre}},
	{Name: "tabloid", Paper: pattern.Size{W: 11, H: 17}},
}

// tooLarge reports a section that fits the paper at no angle, with what helps:
// a join that divides it, then a larger sheet that it would fit.
func (l *layout) tooLarge(it *item, frames []frame) {
	d := &l.sized.Drawings[it.drawing]
	room := frames[0].room // of the frame with the most room
	for _, f := range frames {
		if f.room.w()*f.room.h() > room.w()*room.h() {
			room = f.room
		}
	}
	help := "divide the section at this size with a join from a size on: join P -- Q from " + sizeArgument(l.sized.Finished.W)
	if d.Found != "" {
		help = l.foundTooLarge(d)
	}
	for _, p := range papers {
		larger := *l
		larger.paper = p
		larger.paper.Margin = l.paper.Margin
		for _, f := range larger.frames() {
			if _, ok := it.turnFor(f.room.w(), f.room.h()); ok {
				help += "; or print on a larger sheet: sheet " + p.Name + ", or --sheet " + p.Name + " for once"
				l.tooLargeFor(d, it, room, help)
				return
			}
		}
	}
	l.tooLargeFor(d, it, room, help)
}

// foundTooLarge is what helps where no join can be written: the section is that of
// a drawn unit.
func (l *layout) foundTooLarge(d *pattern.Drawing) string {
	help := ""
	if d.Found != l.paper.Name {
		help = "its unit is drawn, and this section was found for the sheet " + d.Found + "; write `sheet " + sheetWords(l.paper.Name) +
			"` into `pattern`, and others are found; or "
	}
	if len(d.Pieces) == 1 {
		help += "draw a line that divides this piece"
	} else {
		help += "draw a line right across, or do without a `section at` or `section along` that asks for so large a section"
	}
	return help + "; or leave out the finished size " + sizeArgument(l.sized.Finished.W)
}

func (l *layout) tooLargeFor(d *pattern.Drawing, it *item, room box, help string) {
	size := pattern.Size{W: it.box.w(), H: it.box.h()}
	l.problems = append(l.problems, problem.Problem{
		Code: TooLarge, Severity: problem.Error, Help: help,
		Message: fmt.Sprintf("section %s of %s%s at %s is %s with its allowance, too large for the sheet %s, which has room for %s",
			d.Name, l.block.Name, written(d.Source), l.sized.Finished.Exact(), size.In(8), l.paper.Name, pattern.Size{W: room.w(), H: room.h()}.In(8)),
	})
}

// smallPaper reports a sheet without room for sections.
func (l *layout) smallPaper() {
	l.problems = append(l.problems, problem.Problem{
		Code: SmallPaper, Severity: problem.Error,
		Message: fmt.Sprintf("the sheet %s, %s, has no room for a section beside the scales, the legend and the front view", l.paper.Name, l.paper.Paper.In(8)),
		Help:    "print on a larger sheet: letter or a4",
	})
}

// written says where a section stands in the text, where that is known.
func written(s pattern.Source) string {
	if s.Line == 0 {
		return ""
	}
	return fmt.Sprintf(" (line %d of %s)", s.Line, s.File)
}

// sheetWords writes the name of a sheet as the language does: 9in x 12in.
func sheetWords(name string) string {
	if strings.ContainsAny(name, "0123456789") && strings.Contains(name, "x") {
		return strings.Replace(name, "x", " x ", 1)
	}
	return name
}

// sizeArgument writes a size as the language does.
func sizeArgument(w length) string { return strings.ReplaceAll(w.Exact(), " in", "in") }

// unlabelled reports what has no room in its spaces, in the allowance, nor below
// the sections of its sheet.
func (l *layout) unlabelled(s *section, what string) problem.Problem {
	return problem.Problem{
		Code: NoLabel, Severity: problem.Warning,
		Message: fmt.Sprintf("the sheet of section %s of %s at %s has no room for %s", s.d.Name, l.block.Name, l.sized.Finished.Exact(), what),
		Help:    "use shorter words for the fabric, make the spaces larger, or leave out this finished size",
	}
}

// checkGlyphs reports characters of the printed texts that the font lacks.
func (l *layout) checkGlyphs() {
	var missing []rune
	about := &l.p.About
	texts := []string{l.p.Title, l.block.Title, about.Author, about.Year, about.Rights, about.Contact, about.Corrections}
	for _, f := range l.p.Fabrics {
		texts = append(texts, f.Words)
	}
	for _, t := range texts {
		for _, r := range drawing.Missing(t) {
			if !strings.ContainsRune(string(missing), r) {
				missing = append(missing, r)
			}
		}
	}
	if len(missing) > 0 {
		l.problems = append(l.problems, problem.Problem{
			Code: NoGlyph, Severity: problem.Warning,
			Message: fmt.Sprintf("the sheets' font has no %q, so it is printed as a box", string(missing)),
			Help:    "write the words in letters that the font has: Latin, Greek, Cyrillic",
		})
	}
}
