package compare

import (
	"fmt"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/edition"
	"seamwright/lang/problem"
)

// A Finding is a problem whose place is still to be found in the texts.
type Finding struct {
	problem.Problem
	At pattern.Source // where nothing is known of a change: where the edition is set
}

// mostFindings is how many changes are told one by one. More are seldom one
// mistake, and `compare` tells all.
const mostFindings = 12

// Guard holds what is printed now to what was released: nothing may be otherwise
// under the number of an edition that is out. An edition with a higher number is
// in the making, and free.
func Guard(released *edition.Editions, now *edition.Record, p *pattern.Pattern) []Finding {
	last := released.Last()
	if last == nil || now.Edition > last.Edition {
		return nil
	}
	set := p.About.EditionAt
	if now.Edition < last.Edition {
		is := fmt.Sprintf("this is edition %d", now.Edition)
		if now.Edition == 0 {
			is = "this has no edition any more"
		}
		return []Finding{{problem.Problem{
			Code: Lowered, Severity: problem.Error,
			Message: fmt.Sprintf("%s, but edition %d has been released", is, last.Edition),
			Help:    fmt.Sprintf("write `edition %d`, or higher: a number stands for what was printed under it", last.Edition+1),
		}, set}}
	}
	r := Compare(last, now)
	g := &guard{report: r, edition: last.Edition, set: set}
	told := map[[3]string]bool{} // what is so at several sizes is mended at one place
	for i := range r.Changes {
		c := &r.Changes[i]
		k := [3]string{c.Block, c.Subject, c.Aspect}
		switch {
		case told[k]:
		case c.Kind == Program:
			g.program = append(g.program, r.Line(c))
		default:
			g.found(c)
		}
		told[k] = true
	}
	g.more()
	g.printing()
	return g.all
}

// A guard is one look at a released edition.
type guard struct {
	report  *Report
	edition int
	set     pattern.Source // where the edition is set
	all     []Finding
	left    int      // changes that are not told one by one
	program []string // what is printed otherwise for no reason that is known
}

func (g *guard) tell(at pattern.Source, help, message string) {
	if at.Line == 0 {
		at = g.set
	}
	g.all = append(g.all, Finding{problem.Problem{
		Code: Drifted, Severity: problem.Error, Help: help,
		Message: fmt.Sprintf("edition %d is released and prints otherwise", g.edition) + message,
	}, at})
}

func (g *guard) found(c *Change) {
	if len(g.all) == mostFindings {
		g.left++
		return
	}
	g.tell(c.At, fmt.Sprintf("if it is meant, write `edition %d` and release it when it is ready; else put back what changed", g.edition+1), ": "+g.report.Line(c))
}

// more tells how many there are besides.
func (g *guard) more() {
	if g.left > 0 {
		g.tell(g.set, "`seamwright compare` with the name of the pattern tells all of them", fmt.Sprintf(" in %d more places", g.left))
	}
}

// printing tells of strokes and sentences that are otherwise although the pattern
// is the same, in one problem, for they have one reason.
func (g *guard) printing() {
	const most = 3
	if len(g.program) == 0 {
		return
	}
	parts := g.program[:min(most, len(g.program))]
	message := ": " + strings.Join(parts, "; ")
	if n := len(g.program) - len(parts); n > 0 {
		message += fmt.Sprintf("; and %d more", n)
	}
	g.tell(g.set, fmt.Sprintf("either the text changed in something that is only seen in print, or this version of the program prints it otherwise; put it back, "+
		"build it with the version that released it, or write `edition %d` and release that", g.edition+1), message)
}
