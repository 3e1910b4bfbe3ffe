package cutting

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

// mostPlanned is the number of different sizes up to which columns are looked for;
// with more of them first-fit is hardly worse, and columns take long.
const mostPlanned = 60

// Proved reckons cloth as [Buy] does, and proves how little cloth any plan of strips
// takes. It takes some ten times as long, a tenth of a millisecond for a block.
func Proved(needs []Need, runs []pattern.Run, set *pattern.Settings) Cloth {
	c, _ := proved(needs, runs, set)
	return c
}

// proved returns the linear program too, where there was need of one.
func proved(needs []Need, runs []pattern.Run, set *pattern.Settings) (c Cloth, p *program) {
	c = Buy(needs, runs, set)
	if c.TooBig || c.Scrap.W > 0 || len(needs) > mostPlanned {
		return c, nil
	}
	var long pattern.Length
	for i := range runs {
		s, _ := joined(&runs[i], set)
		long += s.inches()
	}
	switch len(needs) {
	case 0:
	case 1: // the better way round, for strips that need not be whole
		c.Least = needs[0].least(set.Buying.Usable)
	default:
		p = newProgram(needs, set.Buying.Usable, set.PatchStep(true))
		p.bound = p.solve()
		c.Least = p.bound
	}
	c.Least = min(c.Least+long, c.Inches)
	c.Waste = wasteOf(&c, needs, runs, set)
	return c, p
}

// least is how much length of cloth one size takes at the least: of strips of every
// height the fullest hold it one way round.
func (n *Need) least(width pattern.Length) pattern.Length {
	each := pattern.Length(math.Inf(1))
	for _, s := range [2]pattern.Size{n.Size, {W: n.Size.H, H: n.Size.W}} {
		if per := PerStrip(width, s.W); per > 0 {
			each = min(each, s.H/pattern.Length(per))
		}
	}
	return each * pattern.Length(n.Count)
}

// wasteOf is the part of the strips that no patch is cut from.
func wasteOf(c *Cloth, needs []Need, runs []pattern.Run, set *pattern.Settings) float64 {
	if c.Inches <= 0 {
		return 0
	}
	var area pattern.Length
	for i := range runs {
		s, _ := joined(&runs[i], set)
		area += min(lengthOf(runs[i].Lengths)*runs[i].Height, s.inches()*set.Buying.Usable)
	}
	for _, n := range needs {
		area += n.Size.W * n.Size.H * pattern.Length(n.Count)
	}
	return max(0, float64(1-area/(c.Inches*set.Buying.Usable)))
}

// Plan reckons cloth as [Proved] does, and looks for better ways of mixing sizes
// where that saves a step.
func Plan(needs []Need, runs []pattern.Run, set *pattern.Settings) Cloth {
	c, p := proved(needs, runs, set)
	if c.TooBig || c.Scrap.W > 0 || len(needs) == 0 || len(needs) > mostPlanned {
		return c
	}
	if least := []Strip{{Height: c.Least, Times: 1}}; bought(least, needs, set).Buy >= c.Buy-noise { // no plan saves a step
		return c
	}
	if p == nil {
		p = newProgram(needs, set.Buying.Usable, set.PatchStep(true))
		p.bound = p.solve()
	}
	better := p.plan(p.bound)
	for i := range runs {
		s, _ := joined(&runs[i], set)
		better = append(better, s)
	}
	if b := bought(better, needs, set); b.Buy < c.Buy-noise {
		b.Mixed, b.Least = true, min(c.Least, b.Inches)
		b.Waste = wasteOf(&b, needs, runs, set)
		c = b
	}
	return c
}

// mostDives is how often the rest of an order is worked out anew; each time at
// least one way is settled.
const mostDives = 12

// whole cuts what the program has in whole strips.
func (p *program) whole(left []Need) (all []Strip) {
	for i := range p.basis {
		if times := int(math.Floor(p.level[i] + noise)); times > 0 {
			if s, ok := cutOut(left, p.basis[i].height, p.basis[i].counts, times, p.width); ok {
				all = append(all, s)
			}
		}
	}
	return all
}

// once cuts one strip of the way that is chosen, of those that the program has in
// part.
func (p *program) once(left []Need, choose func(*program, int) float64) []Strip {
	best, most := -1, 0.0
	for i := range p.basis {
		if v := choose(p, i); p.level[i] > noise && v > most {
			best, most = i, v
		}
	}
	if best < 0 {
		return nil
	}
	s, ok := cutOut(left, p.basis[best].height, p.basis[best].counts, 1, p.width)
	if !ok {
		return nil
	}
	return []Strip{s}
}

// share is how much of a strip the program has.
func (p *program) share(i int) float64 { return p.level[i] }

// fullness is how much of a strip is cut from, of patches that are still needed.
func (p *program) fullness(i int) float64 {
	var area pattern.Length
	for k, n := range p.basis[i].counts {
		need := &p.needs[k/2]
		area += need.Size.W * need.Size.H * pattern.Length(min(n, need.Count))
	}
	return float64(area / (p.basis[i].height * p.width))
}

// plan returns a plan that takes little more than the bound: whole strips of the
// program's ways first, the rest worked out again or filled strip by strip, and at
// last improved.
func (p *program) plan(bound pattern.Length) (best []Strip) {
	needs, width, step := p.needs, p.width, p.step
	plain, _ := unmixed(needs, width)
	best = mixed(plain, width)
	keep := func(taken []Strip, left []Need) {
		for _, bias := range [...]float64{1, 1.02, 1.05, 1.1, 1.2} { // how much more than its area a large patch is worth
			if all := append(slices.Clone(taken), filled(slices.Clone(left), width, step, worths(left, bias))...); total(all) < total(best)-noise {
				best = all
			}
		}
	}
	first := *p
	keep(nil, needs)
	for _, choose := range [...]func(*program, int) float64{(*program).share, (*program).fullness} {
		left, p := slices.Clone(needs), &first
		var taken []Strip
		for dive := 0; dive < mostDives && total(best) > bound+noise; dive++ {
			strips := p.whole(left)
			if len(strips) == 0 {
				strips = p.once(left, choose)
			}
			if len(strips) == 0 {
				break
			}
			taken = append(taken, strips...)
			keep(taken, left)
			open := slices.DeleteFunc(slices.Clone(left), func(n Need) bool { return n.Count <= 0 })
			if len(open) == 0 {
				break
			}
			left, p = open, newProgram(open, width, step)
			p.solve()
		}
	}
	best = improved(best, bound, width, step)
	slices.SortStableFunc(best, func(a, b Strip) int { return -cmp.Compare(a.Height, b.Height) })
	return best
}

// cutOut takes the patches of a strip off what is left. False where widths that lie
// between marks do not fit.
func cutOut(left []Need, height pattern.Length, counts []int, times int, width pattern.Length) (Strip, bool) {
	s := Strip{Height: height, Times: times}
	var used pattern.Length
	before := slices.Clone(left)
	for k, n := range counts {
		size := left[k/2].Size
		if k%2 == 1 {
			size = pattern.Size{W: size.H, H: size.W}
		}
		used += size.W * pattern.Length(min(n, left[k/2].Count))
		if n = min(n*times, left[k/2].Count); n > 0 {
			left[k/2].Count -= n
			s.Cuts = append(s.Cuts, Need{size, n})
		}
	}
	if used > width+noise || len(s.Cuts) == 0 {
		copy(left, before)
		return Strip{}, false
	}
	return s, true
}
