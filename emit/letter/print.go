package letter

import (
	"fmt"
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

const (
	sixInches    = 6 * pattern.Inch
	fifteenCm    = 15 * pattern.Centimetre
	printsMargin = pattern.Inch / 4 // what most printers can't reach (common practice, no source)
)

// A fit is what becomes of a sheet where a printer fits it to other paper.
type fit struct {
	factor float64
	how    string
}

// fits lists what usual programs and printers do to a sheet: fit it onto the paper
// that lies in the printer, with or without the margin that printers can't reach.
// The factor is the smaller of those of width and height. What a ruler can't tell
// apart is one.
func (a *answer) fits() []fit {
	var all []fit
	for _, from := range a.papers() {
		made, ok := pattern.SheetNamed(from)
		for _, onto := range []string{"letter", "a4"} {
			if there, _ := pattern.SheetNamed(onto); ok {
				if from != onto {
					all = append(all, fit{factor(made.Paper, there.Paper, 0), onPaper(from) + " onto " + onPaper(onto)})
				}
				all = append(all, fit{factor(made.Paper, there.Paper, printsMargin), onPaper(from) + " onto " + onPaper(onto) + " inside the printer's margins"})
			}
		}
	}
	return together(all)
}

// papers are those that the sheet may have been made for.
func (a *answer) papers() []string {
	if a.paper != "" {
		return []string{a.paper} // nothing fits a pad to a page: it is printed by a press
	}
	if a.size == nil {
		return []string{"letter", "a4"}
	}
	var all []string
	for _, m := range a.size.Marks {
		all = append(all, m.Name)
	}
	return all
}

// together puts fits into one that a ruler can't tell apart.
func together(all []fit) []fit {
	var out []fit
	for _, f := range all {
		f.how += ", " + percent(f.factor)
		at := slices.IndexFunc(out, func(o fit) bool { return math.Abs(o.factor-f.factor) <= float64(ruler/sixInches) })
		if at >= 0 {
			out[at].how += "; " + f.how
			continue
		}
		out = append(out, f)
	}
	return out
}

func factor(a, b pattern.Size, margin length) float64 {
	return min(float64((b.W-2*margin)/a.W), float64((b.H-2*margin)/a.H))
}

// onPaper is how a paper is called in a sentence.
func onPaper(name string) string {
	if name == "a4" {
		return "A4"
	}
	return name
}

// print looks at the rules that were measured on the sheet.
func (a *answer) print() {
	l := &a.letter
	if l.Rule == 0 && l.RuleCm == 0 {
		return
	}
	six, cm := float64(l.Rule/sixInches), float64(l.RuleCm/fifteenCm)
	slackSix, slackCm := float64(ruler/sixInches), float64(ruler/fifteenCm)
	figures := ""
	if six > 0 {
		figures = fmt.Sprintf("%s of 6 in: %s", in(l.Rule), percent(six))
	}
	if cm > 0 {
		if figures != "" {
			figures += "; "
		}
		figures += fmt.Sprintf("%s of 15 cm: %s", l.RuleCm.Cm(), percent(cm))
	}
	switch {
	case six > 0 && cm > 0 && math.Abs(six-cm) > slackSix+slackCm:
		a.oneWay(six, cm, figures)
	case off(six, slackSix) || off(cm, slackCm):
		a.scaled(mean(six, cm), max(slackSix*boolean(six > 0), slackCm*boolean(cm > 0)), figures)
	default:
		a.scale = 1
		a.cause("the print is true", figures, "Your sheets are printed at their true size, so the print is not the cause.")
	}
}

func off(factor, slack float64) bool { return factor > 0 && math.Abs(factor-1) > slack }

func mean(a, b float64) float64 {
	if a == 0 || b == 0 {
		return a + b
	}
	return (a + b) / 2
}

func boolean(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// printAgain is what to do about any print that is not true.
const printAgain = "Please print the sheets again at 100 % (\"actual size\"), on one side, and measure the 1-inch square and both rules before you sew. " +
	"Sections that are sewn already fit only each other, so begin again from the new sheets."

// scaled is a print of another size, alike in both directions.
func (a *answer) scaled(scale, slack float64, figures string) {
	a.scale = scale
	say := fmt.Sprintf("Your sheets were printed at %s of their size. ", percent(scale))
	what := "printed at " + percent(scale)
	var best *fit
	all := a.fits()
	for i := range all {
		if d := math.Abs(all[i].factor - scale); d <= slack && (best == nil || d < math.Abs(best.factor-scale)) {
			best = &all[i]
		}
	}
	if best != nil {
		figures += "; " + best.how
		what += ", which is fit to page"
		say += fmt.Sprintf("That is what \"fit to page\" does (%s). ", best.how)
	}
	if a.size != nil {
		w := length(a.size.Finished[0])
		say += fmt.Sprintf("So every section comes out at that size too, and a block that should finish %s finishes %s; joined with the right allowances it measures %s before that. ",
			in(w), in(w*length(scale)), in(w*length(scale)+2*a.record.Allowance()))
	}
	if scale > 1 {
		say += "The patches are then too small for their spaces as well. "
	}
	a.cause(what, figures, say+printAgain)
}

// oneWay is a print that is stretched or shrunk more in one direction.
func (a *answer) oneWay(six, cm float64, figures string) {
	say := fmt.Sprintf("Your print is %s of its size along one side and %s along the other, so sections that lie differently on the paper do not fit each other. "+
		"That comes from a setting that fills the page, or from how the printer draws the paper in. Choose 100 %% (\"actual size\") and no filling; "+
		"if it stays so, print with another program or on another printer. "+
		"Please measure both rules again before you sew; sections from these sheets should not be used.", percent(six), percent(cm))
	a.cause("the print is stretched in one direction", figures, say)
}
