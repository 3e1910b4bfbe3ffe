package cutting

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"seamwright/compiler/pattern"
)

// A Cloth is what one fabric takes: the strips, and the sum in the order in
// which it is made.
type Cloth struct {
	Strips []Strip
	Mixed  bool           // a strip has patches of more than one size
	Inches pattern.Length // of all strips
	Spare  pattern.Length // for spare strips of the commonest size
	Need   pattern.Length // with straightening, and what shrinks away
	Buy    pattern.Length // rounded up to what is sold
	Scrap  pattern.Size   // will do instead; zero if it would not
	Least  pattern.Length // proved: no plan of strips is shorter; 0 if not worked out
	Waste  float64        // part of the strips that no patch is cut from; likewise
	TooBig bool           // a patch is larger than the cloth is wide; nothing else is worked out
}

// scrap is the least cloth that is worth its own words: what the trade calls a
// scrap has no size, and this one is a hand's (common practice, no source).
func scrap(metric bool) pattern.Size {
	if metric {
		return pattern.Size{W: 18 * pattern.Centimetre, H: 13 * pattern.Centimetre}
	}
	return pattern.Size{W: 7, H: 5}
}

// Step returns what cloth is sold by: eighths of a yard, 4 1/2 in (Fraction
// conversions, catbirdquilts.wordpress.com 2014), or 10 cm (common practice, no
// source).
func Step(metric bool) pattern.Length {
	if metric {
		return 10 * pattern.Centimetre
	}
	return 4.5
}

// Buy reckons the cloth for patches of one fabric, and for long strips of it. One
// size goes to a strip; sizes are mixed only where that saves a step of what is
// bought.
func Buy(needs []Need, runs []pattern.Run, set *pattern.Settings) Cloth {
	plain, ok := unmixed(needs, set.Buying.Usable)
	long := make([]Strip, len(runs))
	for i := range runs {
		fits := false
		long[i], fits = joined(&runs[i], set)
		ok = ok && fits
	}
	if !ok {
		return Cloth{TooBig: true}
	}
	c := bought(append(plain, long...), needs, set)
	if m := bought(append(mixed(plain, set.Buying.Usable), long...), needs, set); m.Buy < c.Buy-noise {
		m.Mixed = true
		c = m
	}
	if set.Buying.Spare == 0 && len(runs) == 0 {
		c.Scrap = fits(needs, scrap(set.Metric), set)
	}
	return c
}

// bought makes the sum, of lengths as they are told.
func bought(all []Strip, needs []Need, set *pattern.Settings) Cloth {
	c := Cloth{Strips: all}
	for i := range all {
		c.Inches += all[i].Height.Told(set.Metric) * pattern.Length(all[i].Times)
	}
	spare := pattern.Length(0)
	if set.Buying.Spare > 0 && len(needs) > 0 {
		common := slices.MaxFunc(needs, func(a, b Need) int { return cmp.Compare(a.Count, b.Count) })
		if s, ok := strips(common, set.Buying.Usable); ok {
			spare = s.Height * pattern.Length(set.Buying.Spare)
		}
	}
	c.Spare = spare.Told(set.Metric)
	shrunk := pattern.Length(1 + set.Buying.Shrinkage/100)
	c.Need = (c.Inches + c.Spare + set.Buying.Straighten.Told(set.Metric)) * shrunk
	exact := (total(all) + spare + set.Buying.Straighten) * shrunk
	c.Buy = pattern.RoundUp(max(c.Need, exact), Step(set.Metric))
	return c
}

// fits returns the scrap if all patches come from it, with what shrinks away.
func fits(needs []Need, size pattern.Size, set *pattern.Settings) pattern.Size {
	shrunk := pattern.Length(1 + set.Buying.Shrinkage/100)
	for _, s := range [2]pattern.Size{size, {W: size.H, H: size.W}} {
		if plain, ok := unmixed(needs, s.W/shrunk); ok && total(mixed(plain, s.W/shrunk))*shrunk <= s.H+noise {
			return size
		}
	}
	return pattern.Size{}
}

// Yards returns a length of cloth in yards, to the next eighth up: "3/8 yd".
func Yards(l pattern.Length) string {
	eighths := math.Ceil(float64(l)/4.5 - noise)
	return strings.TrimSuffix(pattern.Length(eighths/8).In(8), "in") + "yd"
}
