package rules

import (
	"fmt"
	"math"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// rulerMark is the finest mark of nearly every ruler for cutting (Decimals to
// fractions, thesprucecrafts.com).
const rulerMark pattern.Length = 1.0 / 8

// Ruler: what is measured with a ruler lies on its marks. That is the block, patches
// that are cut exact, and sections where they are rectangles; patches for paper are
// rounded up and trimmed, and triangles are rounded as the trade rounds them.
func (catalogue) Ruler() Rule {
	mark := inches("ruler_mark", rulerMark)
	return Rule{
		Limits: []Limit{mark},
		Info: problem.Info{
			Code:   "R109",
			Title:  "a size lies between the marks of a ruler",
			Rule:   "Blocks, and patches that are cut exact without paper, measure whole eighths of an inch with their allowances; of rectangular sections on paper, which are trimmed on a line and only measured afterwards, a note tells where they are not even on sixteenths. Rulers for cutting have no finer marks. Sizes that are finished in whole millimeters, and patterns that say `metric yes`, are measured with metric rulers and not asked.",
			Source: "Decimals to fractions, thesprucecrafts.com",
			Example: `fabric hull "hull" dark #25525e
block tender 4 x 4 finished 3.7in {
  section A { 1 hull at c }
}
`,
			Cured: `fabric hull "hull" dark #25525e
block tender 4 x 4 finished 3 3/4in {
  section A { 1 hull at c }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			s, marks := v.Sized, v.Limits.length(mark)
			if v.Pattern.Settings.Metric || wholeMM(s.Finished.W) && wholeMM(s.Finished.H) {
				return
			}
			a := 2 * v.Pattern.Settings.Allowance
			if w, h := s.Finished.W+a, s.Finished.H+a; !onMark(w, marks) || !onMark(h, marks) {
				report(Finding{
					Severity: problem.Warning,
					At:       v.Block.Source,
					Message:  fmt.Sprintf("finished at %s the block measures %s until it is joined, and rulers are marked in eighths of an inch", s.Finished.Exact(), pattern.Size{W: w, H: h}.Exact()),
					Help:     "choose a finished size in eighths of an inch, or accept it here with a reason",
				})
				return
			}
			var off []*pattern.Drawing
			for i := range s.Drawings {
				d := &s.Drawings[i]
				p := &d.Pieces[0].Patch
				if w, h, ok := rectangle(d.Outline); ok && !d.Plain && !(onMark(w+a, marks/2) && onMark(h+a, marks/2)) {
					off = append(off, d)
				}
				rectangle := p.Shape == pattern.Rectangle || p.Shape == pattern.Square
				if d.Plain && rectangle && !(onMark(p.Exact.W, marks) && onMark(p.Exact.H, marks)) {
					report(Finding{
						Severity: problem.Warning,
						At:       d.Source,
						Message:  fmt.Sprintf("%s is cut exact, %s at %s finished, and rulers are marked in eighths of an inch", d.Name, decimal(p.Exact), v.size()),
						Help:     "choose a finished size at which it comes out even, leave out this one, or accept it here with a reason",
					})
				}
			}
			v.trimmedOff(off, report)
		},
	}
}

// trimmedOff notes the sections on paper that are rectangles and are trimmed to a size
// farther between the marks than the middle, which the eye finds: the paper says
// where, but no ruler tells whether it came out.
func (v *View) trimmedOff(off []*pattern.Drawing, report func(Finding)) {
	if len(off) == 0 {
		return
	}
	a := 2 * v.Pattern.Settings.Allowance
	w, h, _ := rectangle(off[0].Outline)
	f := Finding{
		Severity: problem.Note,
		At:       off[0].Source,
		Message:  fmt.Sprintf("section %s is trimmed to %s at %s finished, between the marks of a ruler", off[0].Name, pattern.Size{W: w + a, H: h + a}.Exact(), v.size()),
		Help:     "makers trim it on the printed line and can't measure whether it came out",
	}
	if n := len(off) - 1; n > 0 {
		f.Message += fmt.Sprintf("; so are %d more", n)
	}
	report(f)
}

// rectangle returns the sides of a rectangle, if an outline is one.
func rectangle(outline []pattern.Pos) (w, h pattern.Length, ok bool) {
	p := make(plane.Polygon, len(outline))
	for i, q := range outline {
		p[i] = point(q)
	}
	if p = p.Corners(); len(p) != 4 {
		return 0, 0, false
	}
	a, b, c := p[1].Sub(p[0]), p[2].Sub(p[1]), p[3].Sub(p[2])
	square := math.Abs(a.Dot(b)) < onLine && a.Add(c).Len() < onLine
	return pattern.Length(a.Len()), pattern.Length(b.Len()), square
}

func onMark(l, marks pattern.Length) bool {
	return math.Abs(math.Remainder(float64(l), float64(marks))) <= float64(slack)
}

func wholeMM(l pattern.Length) bool {
	return math.Abs(math.Remainder(l.MM(), 1)) <= pattern.Length(slack).MM()
}

// decimal writes a size that lies between the marks, so that this can be seen.
func decimal(s pattern.Size) string {
	return fmt.Sprintf("%.4g in x %.4g in", s.W.Inches(), s.H.Inches())
}
