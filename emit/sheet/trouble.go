package sheet

import (
	"fmt"
	"math"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/tiling"
	"seamwright/lang/problem"
)

// papers are the sheets offered when one is too small, the commonest first.
var papers = [...]pattern.Sheet{
	{Name: "legal", Paper: pattern.Size{W: 8.5, H: 14}},
	{Name: "a3", Paper: pattern.Size{W: 297 * pattern.Millimetre, H: 420 * pattern.Millimetre}},
	{Name: "tabloid", Paper: pattern.Size{W: 11, H: 17}},
}

// tooLarge reports a section that fits the paper at no angle, with what helps:
// a join that divides it, then a larger sheet that it would fit, then parts.
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
	if name := l.largerFor(it); name != "" {
		help += "; or print on a larger sheet: sheet " + name + ", or --sheet " + name + " for once"
	}
	help += l.smaller(it, frames)
	size := pattern.Size{W: it.box.w(), H: it.box.h()}
	p := problem.Problem{
		Code: TooLarge, Severity: problem.Error, At: l.p.Place(d.Source),
		Message: fmt.Sprintf("section %s of %s at %s is %s with its allowance, too large for the sheet %s, which has room for %s",
			d.Name, l.block.Name, l.sized.Finished.Exact(), l.measure(size), l.paper.Name, l.measure(pattern.Size{W: room.w(), H: room.h()})),
	}
	if l.p.Settings.Tile {
		p.Message += fmt.Sprintf(", even in %d parts", tiling.Most)
	} else if parts := l.divide(it, frames); parts != nil {
		help += fmt.Sprintf("; or, with more work for whoever sews it, print it in %d parts that are glued together: write `tile yes` into `pattern`", len(parts.Parts))
		p.Edits = l.tileEdit(&p)
	}
	p.Help = help
	l.problems = append(l.problems, p)
}

// measure tells a size as a message about the pattern does.
func (l *layout) measure(s pattern.Size) string {
	if l.p.Settings.Metric {
		return s.Cm()
	}
	return s.In(16)
}

// largerFor names the first larger sheet that a section fits, "" for none.
func (l *layout) largerFor(it *item) string {
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
				return p.Name
			}
		}
	}
	return ""
}

// smaller offers the largest size at which a section fits the sheet, as in the block
// or turned by a quarter, and the smaller sizes that the block has.
func (l *layout) smaller(it *item, frames []frame) string {
	step := pattern.Inch / 4 // what is easily measured
	if l.p.Settings.Metric {
		step = 5 * pattern.Millimetre
	}
	drawn := boxOf(l.sized.Drawings[it.drawing].Outline)
	within := func(w, h length) length { // what is drawn grows with the block, its allowance does not
		return min((w-(it.box.w()-drawn.w()))/drawn.w(), (h-(it.box.h()-drawn.h()))/drawn.h())
	}
	most := length(0)
	for _, f := range frames {
		most = max(most, within(f.room.w(), f.room.h()), within(f.room.h(), f.room.w()))
	}
	help := ""
	finished := l.sized.Finished.W
	if fits := length(math.Floor(float64((most*finished+near)/step))) * step; fits >= finished/2 && fits < finished {
		help = "; or make the block smaller: this section fits at finished " + sizeArgument(fits)
	}
	only := ""
	for i := range l.block.Sizes {
		if w := l.block.Sizes[i].Finished.W; w < finished {
			only += " --size " + sizeArgument(w)
		}
	}
	if only != "" {
		help += "; or build the smaller sizes alone:" + only
	}
	return help
}

// tileEdit writes `tile yes` behind the brace of the pattern's settings, where they
// stand in the text that the problem is told of.
func (l *layout) tileEdit(p *problem.Problem) []problem.Edit {
	brace := l.p.Place(l.p.Settings.BraceAt)
	if brace.Source == nil || brace.Source != p.At.Source {
		return nil
	}
	at := brace.Span.Start + 1
	text := "\n  tile yes"
	if line, _, _ := strings.Cut(brace.Source.Text[at:], "\n"); strings.TrimSpace(line) != "" {
		text += "\n " // the settings go on in the same line
	}
	return []problem.Edit{{At: problem.Span{Start: at, End: at}, New: text}}
}

// glued notes that a section is printed in parts, and what would save that.
func (l *layout) glued(it *item, d *divided) {
	section := &l.sized.Drawings[it.drawing]
	help := "a join at this size saves the gluing: join P -- Q from " + sizeArgument(l.sized.Finished.W)
	if section.Found != "" {
		help = "a line right across the drawn unit saves the gluing"
	}
	if name := l.largerFor(it); name != "" {
		help += "; so does a larger sheet: sheet " + name
	}
	l.problems = append(l.problems, problem.Problem{
		Code: InParts, Severity: problem.Note, At: l.p.Place(section.Source), Help: help,
		Message: fmt.Sprintf("section %s of %s at %s is too large for the sheet %s and is printed in %d parts, to be glued together before it is sewn",
			section.Name, l.block.Name, l.sized.Finished.Exact(), l.paper.Name, len(d.Parts)),
	})
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
func sizeArgument(w length) string {
	return strings.NewReplacer(" in", "in", " cm", "cm", " mm", "mm").Replace(w.Exact())
}

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
