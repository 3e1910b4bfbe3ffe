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
		frames := larger.frames()
		for k := range ways {
			f, some := frames.at(k)
			if !some {
				break
			}
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
		Code: TooLarge, Severity: problem.Error, Help: help, At: l.p.Place(d.Source),
		Message: fmt.Sprintf("section %s of %s at %s is %s with its allowance, too large for the sheet %s, which has room for %s",
			d.Name, l.block.Name, l.sized.Finished.Exact(), size.In(8), l.paper.Name, pattern.Size{W: room.w(), H: room.h()}.In(8)),
	})
}

// usualMargin is one that every printer reaches; a wider one may be why there is
// no room.
const usualMargin = 0.5 * pattern.Inch

// smallPaper reports a sheet without room for sections.
func (l *layout) smallPaper() {
	help := "print on a larger sheet: letter or a4"
	if m := l.paper.Margin; m > usualMargin {
		help = "make the margin smaller, which is " + m.Exact() + " on every side: margin 1/2in; or print on a larger sheet"
	}
	l.problems = append(l.problems, problem.Problem{
		Code: SmallPaper, Severity: problem.Error, At: l.p.Place(l.block.Source),
		Message: fmt.Sprintf("the sheet %s, %s, has no room for a section beside the scales, the legend and the front view", l.paper.Name, l.paper.Paper.In(8)),
		Help:    help,
	})
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
		Code: NoLabel, Severity: problem.Warning, At: l.p.Place(s.d.Source),
		Message: fmt.Sprintf("the sheet of section %s of %s at %s has no room for %s", s.d.Name, l.block.Name, l.sized.Finished.Exact(), what),
		Help:    "use shorter words for the fabric, make the spaces larger, or leave out this finished size",
	}
}

// CheckTexts reports characters of the printed texts that the font lacks, each
// text once.
func CheckTexts(p *pattern.Pattern) (problems []problem.Problem) {
	for i := range p.Texts {
		missing := drawing.Missing(p.Texts[i].Words)
		if len(missing) == 0 {
			continue
		}
		more, it := "", "it is printed as a box"
		if len(missing) > 1 {
			it = "they are printed as boxes"
		}
		if len(missing) > mostMissing {
			missing, more = missing[:mostMissing], " and more"
		}
		problems = append(problems, problem.Problem{
			Code: NoGlyph, Severity: problem.Warning, At: p.Texts[i].At,
			Message: fmt.Sprintf("the font has no %q%s, so %s", string(missing), more, it),
			Help:    "write the words in letters that the font has: Latin, Greek, Cyrillic; it has no little pictures",
		})
	}
	return problems
}

// mostMissing keeps the message about a text in another script readable.
const mostMissing = 8
