package testsew

import (
	"fmt"
	"strings"
)

// Text tells the report to people, and below each block what every pair of hands makes
// of it, by a table of errors in the form of [Standard] that is printed too.
func (r *Report) Text(table string) (string, error) {
	hands, err := ReadHands([]byte(table))
	if err != nil {
		return "", err
	}
	var w strings.Builder
	for i := range r.Blocks {
		if i > 0 {
			w.WriteByte('\n')
		}
		b := &r.Blocks[i]
		b.text(&w)
		if len(b.Findings) == 0 { // of a block that can't be sewn there is nothing to tell
			b.hands(&w, hands)
		}
	}
	fmt.Fprintf(&w, "\nA point matches if its seams come less than %g %% of the shortest patch side there apart; a size is\n"+
		"comfortable if %g %% of the points match. The errors are drawn from this table (JCGM 101:2008), every\n"+
		"value between two limits as likely:\n\n", 100*matchPart, 100*enough)
	for line := range strings.Lines(table) {
		w.WriteString("  " + line)
	}
	return w.String(), nil
}

func (b *Block) hands(w *strings.Builder, hands []Hands) {
	for i, t := range b.Tolerances(hands) {
		if i == 0 {
			tell(w, "hands", fmt.Sprintf("of %d trials:", t.Trials))
		}
		text := fmt.Sprintf("%-10s finishes %.2f in wide, 95 of 100 from %.2f to %.2f", t.Hands, t.Width[0], t.Width[1], t.Width[2])
		if b.Points > 0 {
			text += fmt.Sprintf("; %.1f %% of points match (standard uncertainty %.2f); comfortable from %s", 100*t.Match, 100*t.MatchError, t.from())
		}
		tell(w, "", text)
		if b.Points > 0 {
			tell(w, "", "           below that, the first to fail: "+t.First.why())
		}
	}
}

// from tells the smallest comfortable size, which some hands never reach.
func (t *Tolerance) from() string {
	if t.Smallest > NoSize {
		return "no size"
	}
	return fmt.Sprintf("%.1f in (± %.1f)", t.Smallest, max(0.05, t.SmallestError))
}

// slanting is the angle to a join below which a seam is called slanting: there
// an error of sewing moves its end by half as much again.
const slanting = 42

// why tells where the point lies and what is hard about it.
func (p *Weakest) why() string {
	cause := fmt.Sprintf("the shortest patch side there is only %.2f in", p.Edge)
	if p.Angle < slanting {
		cause = fmt.Sprintf("its seam slants at %.0f degrees to the join, and %s", p.Angle, cause)
	}
	return fmt.Sprintf("%s, join %d, at %.2f, %.2f in: %s", p.Sections, p.Join, p.X, p.Y, cause)
}
