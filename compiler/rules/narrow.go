package rules

import (
	"fmt"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// A piece narrower than two allowances is filled by them: fine for a mast, and
// lumpy; below the last figure nothing but a fold of cloth is left.
const (
	narrowWarn   pattern.Length = 1.0 / 4
	narrowStrong pattern.Length = 3.0 / 16
	narrowStop   pattern.Length = 1.0 / 8
)

// Narrow: no piece is so narrow that its own allowances fill it.
func (catalogue) Narrow() Rule {
	warn, strong, stop := inches("narrow_piece", narrowWarn), inches("narrow_strong", narrowStrong), inches("narrow_stop", narrowStop)
	return Rule{
		Limits: []Limit{warn, strong, stop},
		Info: problem.Info{
			Code:   "R101",
			Title:  "a piece is very narrow",
			Rule:   "A finished piece is at least 1/4 in wide. Its two seam allowances fill a narrower one, which makes a lump and hides small mistakes badly; under 3/16 in few people sew it true, and under 1/8 in it is an error unless the pattern says `miniature yes`.",
			Source: "common practice, no source; 1/8 in strips are published as the least (see the test)",
			Example: `fabric sail "sail" light #f3ecdd
fabric mast "mast" dark #6b4a2f
block mizzen 8 x 8 finished 4in {
  section A {
    1 mast at (4, 4)
    2 sail along (3.8, 0) -- (3.8, 8)
    3 sail along (4.2, 0) -- (4.2, 8)
  }
}
`,
			Cured: `fabric sail "sail" light #f3ecdd
fabric mast "mast" dark #6b4a2f
block mizzen 8 x 8 finished 4in {
  section A {
    1 mast at (4, 4)
    2 sail along (3.5, 0) -- (3.5, 8)
    3 sail along (4.5, 0) -- (4.5, 8)
  }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			usual, few, least := v.Limits.length(warn), v.Limits.length(strong), v.Limits.length(stop)
			for i := range v.Placed {
				p := &v.Placed[i]
				w := pattern.Length(p.Polygon.Width())
				if w >= usual-slack {
					continue
				}
				f := Finding{
					Severity: problem.Warning,
					At:       p.Piece.Source,
					Points:   []pattern.Pos{pos(p.Polygon.Interior())},
					Message:  fmt.Sprintf("%s is %s wide at %s finished; its seam allowances fill it", p.Label(), v.below(w, usual), v.size()),
					Help:     "make it at least " + v.told(usual) + " wide, leave out the small size, or accept it here with a reason",
				}
				switch {
				case w < least-slack && !v.Pattern.Settings.Miniature:
					f.Severity = problem.Error
					f.Message = fmt.Sprintf("%s is %s wide at %s finished, too narrow to sew", p.Label(), v.below(w, least), v.size())
					f.Help = "make it at least " + v.told(least) + " wide, leave out the small size, or say `miniature yes` in the pattern"
				case w < few-slack:
					f.Message += ", and few people will sew it true"
				}
				report(f)
			}
		},
	}
}

// below words a width that is less than a limit, so that it does not read as the
// limit where it is rounded.
func (v *View) below(w, limit pattern.Length) string {
	if s := v.told(limit); v.told(w) == s {
		return "a little less than " + s
	}
	return "only " + v.told(w)
}
