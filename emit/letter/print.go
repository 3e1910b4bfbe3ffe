package letter

import (
	"fmt"
	"math"
	"slices"
	"strings"

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
					all = append(all, fit{factor(made.Paper, there.Paper, 0), a.say("fit_onto", "from", onPaper(from), "onto", onPaper(onto))})
				}
				all = append(all, fit{factor(made.Paper, there.Paper, printsMargin), a.say("fit_margins", "from", onPaper(from), "onto", onPaper(onto))})
			}
		}
	}
	return a.together(all)
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
func (a *answer) together(all []fit) []fit {
	var out []fit
	for _, f := range all {
		f.how += ", " + a.share(f.factor)
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
		a.cause("the print is true", figures, a.say("print_true"))
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

// scaled is a print of another size, alike in both directions.
func (a *answer) scaled(scale, slack float64, figures string) {
	a.scale = scale
	say := []string{a.say("print_scaled", "scale", a.share(scale))}
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
		say = append(say, a.say("print_fit", "how", best.how))
	}
	if a.size != nil {
		w := length(a.size.Finished[0])
		say = append(say, a.say("print_sections", "should", in(w), "is", in(w*length(scale)), "whole", in(w*length(scale)+2*a.record.Allowance())))
	}
	if scale > 1 {
		say = append(say, a.say("print_small"))
	}
	a.cause(what, figures, strings.Join(append(say, a.say("print_again")), " "))
}

// oneWay is a print that is stretched or shrunk more in one direction.
func (a *answer) oneWay(six, cm float64, figures string) {
	say := a.say("print_one_way", "one", a.share(six), "other", a.share(cm))
	a.cause("the print is stretched in one direction", figures, say)
}
