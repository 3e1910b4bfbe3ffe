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
	u := b.unit
	for i, t := range b.Tolerances(hands) {
		if i == 0 {
			tell(w, "hands", fmt.Sprintf("of %d trials:", t.Trials))
		}
		text := fmt.Sprintf("%-10s finishes %s wide, 95 of 100 from %s to %s", t.Hands, u.long(t.Width[0], 2), u.of(t.Width[1], 2), u.of(t.Width[2], 2))
		if b.Points > 0 {
			text += fmt.Sprintf("; %.1f %% of points match (standard uncertainty %.2f); comfortable from %s", 100*t.Match, 100*t.MatchError, t.from(u))
		}
		tell(w, "", text)
		if b.Points > 0 {
			tell(w, "", "           below that, the first to fail: "+t.First.why(u))
		}
	}
}

// from tells the smallest comfortable size, which some hands never reach.
func (t *Tolerance) from(u unit) string {
	if t.Smallest > NoSize {
		return "no size"
	}
	return u.long(t.Smallest, 1) + " (± " + u.of(max(0.05, t.SmallestError), 1) + ")"
}

// slanting is the angle to a join below which a seam is called slanting: there
// an error of sewing moves its end by half as much again.
const slanting = 42

// why tells where the point lies and what is hard about it.
func (p *Weakest) why(u unit) string {
	cause := "the shortest patch side there is only " + u.long(p.Edge, 2)
	if p.Angle < slanting {
		cause = fmt.Sprintf("its seam slants at %.0f degrees to the join, and %s", p.Angle, cause)
	}
	return fmt.Sprintf("%s, join %d, at %s: %s", p.Sections, p.Join, u.at(p.X, p.Y), cause)
}
