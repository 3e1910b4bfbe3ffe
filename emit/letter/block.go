package letter

import (
	"fmt"
	"math"

	"seamwright/emit/edition"
)

// A guess is one explanation of the block's size.
type guess struct {
	off   length // how far the size that it predicts is from what was measured
	cause Cause
}

// measured looks at the block's own size: which explanation predicts it best.
func (a *answer) measured() {
	m := a.letter.Measures
	if m[0] == 0 {
		return
	}
	if a.size == nil {
		a.unknown("measured " + in(m[0]))
		return
	}
	told := "measured " + in(m[0])
	if m[1] > 0 {
		told += " x " + in(m[1])
	}
	best := a.best(func(g *guess) length {
		if m[1] == 0 {
			return g.off
		}
		return max(g.off, a.otherWay(g.cause.What)) // one cause for both directions
	}, 0)
	if len(best) == 0 && m[1] > 0 {
		across := a.best(func(g *guess) length { return g.off }, 0)
		up := a.best(func(g *guess) length { return g.off }, 1)
		if len(across) > 0 && len(up) > 0 {
			across[0].What, up[0].What = "in its width: "+across[0].What, "in its height: "+up[0].What
			across[0].Say, up[0].Say = a.say("in_width", "what", across[0].Say), a.say("in_height", "what", up[0].Say)
			best = []Cause{across[0], up[0]}
		}
	}
	if len(best) == 0 {
		w, h := length(a.size.Finished[0]), length(a.size.Finished[1])
		e := 2 * a.record.Allowance()
		a.cause("no single cause fits the block's size", fmt.Sprintf("%s; should be %s x %s until it is joined, %s x %s finished", told, in(w+e), in(h+e), in(w), in(h)),
			a.say("no_cause"))
		return
	}
	for _, c := range best {
		c.Figures = told + "; " + c.Figures
		a.causes = append(a.causes, c)
	}
}

// best are the causes whose guess is nearest to what was measured in a direction,
// and those that a ruler can't tell from it.
func (a *answer) best(off func(*guess) length, direction int) []Cause {
	least := soft / 2
	all := a.guesses(direction)
	for i := range all {
		least = min(least, off(&all[i])+ruler)
	}
	var out []Cause
	for i := range all {
		if off(&all[i]) <= least {
			out = append(out, all[i].cause)
		}
	}
	return out
}

// otherWay is how far the guess of a name is off in the height.
func (a *answer) otherWay(what string) length {
	for _, g := range a.guesses(1) {
		if g.cause.What == what {
			return g.off
		}
	}
	return length(math.Inf(1))
}

// guesses are all explanations of the size in one direction, with what each
// predicts.
func (a *answer) guesses(direction int) []guess {
	s, e, m := length(a.size.Finished[direction]), a.record.Allowance(), a.letter.Measures[direction]
	whole := s + 2*e
	var all []guess
	add := func(predicts length, what, say string) {
		all = append(all, guess{length(math.Abs(float64(m - predicts))), Cause{what, what + " predicts " + in(predicts), say}})
	}
	add(whole, "right, before it is joined", a.say("block_right", "size", in(s), "whole", in(whole), "allowance", in(e)))
	if a.scale != 1 && a.scale > 0 {
		r := length(a.scale) // and trimmed with a ruler, or on the dashed line
		predicts := s*r + 2*e
		if math.Abs(float64(m-whole*r)) < math.Abs(float64(m-predicts)) {
			predicts = whole * r
		}
		add(predicts, "the scale of the print", a.say("block_agrees"))
		return all
	}
	add(s, "trimmed on the heavy outline", a.say("block_trimmed", "size", in(s), "whole", in(whole), "allowance", in(e), "both", in(2*e)))
	if a.scale == 0 {
		for _, f := range a.fits() {
			add(s*length(f.factor)+2*e, "fit to page, "+f.how, a.say("block_fit", "how", f.how, "rule", in(sixInches*length(f.factor))))
		}
	}
	a.otherSizes(direction, add)
	if n := a.across(direction); n > 0 && whole-m > soft/2 {
		each := (whole - m) / length(2*n)
		if each <= deepest {
			all = append(all, guess{ruler / 2, Cause{"allowances of the joins too deep", fmt.Sprintf("%s short over %s, two allowances each: %s too much in each", in(whole-m), joins(n), finely(each)),
				a.words.Count("block_deep", n, "short", in(whole-m), "each", finely(each), "cure", a.say("block_deep_cure"))}})
		}
	}
	return all
}

// deepest is by how much an allowance is sewn too deep by hands that mean to keep
// it; more has another cause (common practice, no source).
const deepest = length(3.0 / 32)

// finely tells a small length to a 64th.
func finely(l length) string { return l.In(64) }

func joins(n int) string {
	if n == 1 {
		return "1 join"
	}
	return fmt.Sprintf("%d joins", n)
}

// otherSizes guesses that the sheets are those of another size.
func (a *answer) otherSizes(direction int, add func(length, string, string)) {
	e := a.record.Allowance()
	for i := range a.block.Sizes {
		o := &a.block.Sizes[i]
		if o == a.size {
			continue
		}
		add(length(o.Finished[direction])+2*e, "the sheets of "+o.Words(),
			a.say("block_other", "size", o.Words()))
	}
}

// across is the greatest number of joins that a line across the block meets.
func (a *answer) across(direction int) int {
	most := 0
	const lines = 97 // a line between any two seams of a block that people sew
	other := 1 - direction
	for i := range lines {
		at := a.size.Finished[other] * (float64(i) + 0.5) / lines
		n := 0
		for k := range a.size.Joins {
			j := &a.size.Joins[k]
			if steep(j, direction) && (j.From[other]-at)*(j.To[other]-at) < 0 {
				n++
			}
		}
		most = max(most, n)
	}
	return most
}

// steep reports whether a join takes more of the size in a direction than in the
// other: it runs across it.
func steep(j *edition.Join, direction int) bool {
	dx, dy := math.Abs(j.To[0]-j.From[0]), math.Abs(j.To[1]-j.From[1])
	if direction == 0 {
		return dy >= dx
	}
	return dx >= dy
}
