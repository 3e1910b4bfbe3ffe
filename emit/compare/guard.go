package compare

import (
	"fmt"
	"strconv"

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
	next := strconv.Itoa(last.Edition + 1)
	var out []Finding
	told := map[[3]string]bool{} // what is so at several sizes is mended at one place
	n := 0
	for i := range r.Changes {
		c := &r.Changes[i]
		if k := [3]string{c.Block, c.Subject, c.Aspect}; told[k] {
			continue
		} else {
			told[k] = true
		}
		if n++; n > mostFindings {
			continue
		}
		f := Finding{problem.Problem{
			Code: Drifted, Severity: problem.Error,
			Message: fmt.Sprintf("edition %d is released and prints otherwise: %s", last.Edition, r.Line(c)),
			Help:    "if it is meant, write `edition " + next + "` and release it when it is ready; else put back what changed",
		}, c.At}
		if c.Kind == Program {
			f.Help = "either the text changed in something that is only seen in print, or this version of the program prints it otherwise; put it back, build it with the version that released it, or write `edition " + next + "` and release that"
		}
		if c.At.Line == 0 {
			f.At = set
		}
		out = append(out, f)
	}
	if n > mostFindings {
		out = append(out, Finding{problem.Problem{
			Code: Drifted, Severity: problem.Error,
			Message: fmt.Sprintf("edition %d is released and prints otherwise in %d more places", last.Edition, n-mostFindings),
			Help:    "`seamwright compare` with the name of the pattern tells all of them",
		}, set})
	}
	return out
}
