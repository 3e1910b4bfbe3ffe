package testsew

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// complete counts, from the sheets and the tables alone, whether a block's worth
// of prints and patches has every section of the block.
func (w *work) complete() {
	need := map[string]int{}
	for _, c := range w.in.copies {
		need[w.in.shapes[c.shape].name]++
	}
	for i := range w.in.shapes {
		name := w.in.shapes[i].name
		printed := -1
		for _, s := range w.paper {
			if s.name == name {
				printed = s.prints
			}
		}
		if printed >= 0 && printed != need[name] {
			w.find("section " + name + " is printed " + count(printed) + " times for a block that has " + count(need[name]) + " of it")
		}
		for _, p := range w.patches {
			if p.section == name && p.copies != need[name] {
				w.find("the table makes section " + name + " " + count(p.copies) + " times, the block has " + count(need[name]))
				break
			}
		}
	}
	for _, s := range w.paper {
		if need[s.name] == 0 {
			w.find("section " + s.name + " is on a sheet, but not in the block")
		}
	}
}

// checkWords holds the fabric that stands in a space to the table.
func (w *work) checkWords(s *section) {
	for _, n := range s.numbers {
		i := slices.IndexFunc(w.patches, func(p patch) bool { return p.section == s.name && p.number == n.number })
		if i < 0 || n.words == "" || strings.HasPrefix(n.words, w.patches[i].fabric) {
			continue
		}
		for _, p := range w.patches {
			if strings.HasPrefix(n.words, p.fabric) {
				w.find("in " + s.space(n.number) + " the sheet says " + p.fabric + ", the table " + w.patches[i].fabric)
				break
			}
		}
	}
}

// checkTables holds what is cut to what is sewn: the two tables to each other,
// and every patch to the ease that is promised beyond its space.
func (w *work) checkTables() {
	need := map[string]int{}
	for _, p := range w.patches {
		need[p.key()] += p.copies
	}
	for _, r := range w.rows {
		k := patch{fabric: r.fabric, exact: r.exact, w: r.w, h: r.h, shape: r.shape}
		got := (r.count + r.reversed) * k.yield()
		key := k.key()
		if want := need[key]; got < want || got >= want+2*k.yield() {
			w.find("the table by fabric cuts " + count(got) + " patches of " + r.fabric + " " + figure(r.w) + " x " + figure(r.h) + " in, the sections need " + count(want))
		}
		delete(need, key)
	}
	for _, p := range w.patches {
		if need[p.key()] > 0 {
			w.find("the patch of " + p.space + " is not in the table by fabric")
			break
		}
	}
	for i := range w.patches {
		w.checkExact(&w.patches[i])
	}
	for _, s := range w.paper {
		for k := range s.spaces {
			i := slices.IndexFunc(w.patches, func(p patch) bool { return p.section == s.name && p.number == s.spaces[k].number })
			if i < 0 || len(s.spaces) < 2 {
				continue
			}
			if short := w.in.ease - s.ease(k, &w.patches[i]); short > easeSlack {
				w.find("the patch of " + s.space(k+1) + " is " + figure(w.in.ease-short) + " in larger than its space on a side, not " + figure(w.in.ease) + " as the table promises")
			}
		}
	}
}

// checkExact holds a patch that is cut exact, without paper, to the picture: its
// finished shape and an allowance all round, and not much more, since nothing is
// trimmed afterwards.
func (w *work) checkExact(p *patch) {
	i := slices.IndexFunc(w.in.shapes, func(s shape) bool { return s.name == p.section })
	if !p.exact || i < 0 || strings.HasPrefix(p.shape, "round the template") {
		return
	}
	need, ok := exact(w.in.shapes[i].outline.corners(), p.shape, w.in.allowance)
	if !ok {
		w.find("no " + p.shape + " gives the shape of " + p.space)
		return
	}
	for k, have := range [2]float64{max(p.w, p.h), min(p.w, p.h)} {
		if have < need[k]-easeSlack || have > need[k]+tooLarge {
			w.find("the patch of " + p.space + " is cut " + figure(have) + " in where its shape needs " + figure(need[k]))
		}
	}
}

// tooLarge is more than rounding twice to an eighth can add.
const tooLarge = 0.26

// exact returns the sides of the rectangle, the longer first, from which a shape
// with an allowance all round is cut. A triangle with an allowance is a larger
// one of the same form: its inscribed circle grows by the allowance.
func exact(p poly, form string, allowance float64) (sides [2]float64, ok bool) {
	var length []float64
	for i := range p {
		a, b := p.side(i)
		length = append(length, a.to(b))
	}
	switch {
	case len(p) == 4 && !strings.Contains(form, "diagonal"):
		sides = [2]float64{length[0] + 2*allowance, length[1] + 2*allowance}
	case len(p) == 3 && strings.Contains(form, "diagonal"):
		slices.Sort(length)
		grow := 1 + 2*allowance/(length[0]+length[1]-length[2])
		sides = [2]float64{length[0] * grow, length[1] * grow}
		if strings.Contains(form, "cut twice") {
			sides = [2]float64{length[2] * grow, length[2] * grow}
		}
	default:
		return sides, false
	}
	if sides[0] < sides[1] {
		sides[0], sides[1] = sides[1], sides[0]
	}
	return sides, true
}

// easeSlack forgives the rounding of inches beside centimetres to an eighth.
const easeSlack = 0.01

// ease returns how much larger a patch is than its space on every side, laid
// with its middle on it, in the best of its ways.
func (s *section) ease(k int, p *patch) float64 {
	sp := &s.spaces[k]
	b := &bench{s: s}
	if k > 0 && p.lay == longSide { // half a square: its height holds the space, and the ease below and square to both sides above
		mid, low, high := s.middle(k), 0.0, math.Inf(-1)
		for _, q := range s.beyond(k) {
			low, high = min(low, sp.seam.side(q)), max(high, math.Abs(sp.seam.along(q)-mid)+sp.seam.side(q))
		}
		return (p.w/math.Sqrt2 - (high - low)) / (1 + math.Sqrt2)
	}
	axes, sizes := b.axes(k), [][2]float64{{p.w, p.h}, {p.h, p.w}}
	if k > 0 && p.lay == "along the line" {
		axes, sizes = []line{sp.seam}, sizes[:1]
	}
	best := -1.0
	for _, axis := range axes {
		turned := s.beyond(k).mapped(func(q pt) pt { return pt{axis.along(q), axis.side(q)} }).box()
		for _, size := range sizes {
			best = max(best, min(size[0]-(turned.x1-turned.x0), size[1]-(turned.y1-turned.y0))/2)
		}
	}
	return best
}

// beyond returns the points that a patch is measured by: the space, and where it
// lies on the block's border what is left there beyond the cutting line.
func (s *section) beyond(n int) poly {
	area := s.spaces[n].area
	out := append(poly(nil), area...)
	if s.extra == nil {
		return out
	}
	for i := range area {
		a, b := area.side(i)
		for k := range s.outline {
			p, q := s.outline.side(k)
			if a.to(b) < same || fromSegment(a, p, q) > same || fromSegment(b, p, q) > same {
				continue
			}
			ray, wide := line{a.mid(b), through(p, q).dir.left().mul(-1)}, s.leftOn(k)
			strip := poly{a, b, b.add(ray.dir.mul(wide)), a.add(ray.dir.mul(wide))}.ccw()
			if n > 0 {
				strip = strip.clip(s.spaces[n].seam)
			}
			for _, later := range s.spaces[n+1:] {
				strip = strip.clip(later.seam.flipped())
			}
			for e := range s.outline { // the seam of a join runs on there too
				if c, d := s.outline.side(e); len(s.outline.convex()) == 1 && s.leftOn(e) < same {
					strip = strip.clip(through(c, d))
				}
			}
			out = append(out, strip...)
		}
	}
	return out
}

// leftOn returns how much is left beyond the cutting line along an edge.
func (s *section) leftOn(edge int) float64 {
	const far = 10 // inches: more than anybody leaves
	p, q := s.outline.side(edge)
	ray := line{p.mid(q), through(p, q).dir.left().mul(-1)}
	return reach(ray, s.extra.convex(), far) - reach(ray, s.cut.convex(), far)
}

// key is what patches have in common that are cut alike.
func (p *patch) key() string {
	shape, _, _ := strings.Cut(p.shape, ", for ")
	if shape == "round the template" { // the table by section does not repeat which
		shape += " of " + p.section
	}
	return p.fabric + "|" + shape + "|" + figure(max(p.w, p.h)) + "|" + figure(min(p.w, p.h)) + "|" + strconv.FormatBool(p.exact)
}

// yield is how many patches are cut from one square or rectangle.
func (p *patch) yield() int {
	switch {
	case strings.Contains(p.shape, "cut twice"):
		return 4
	case strings.Contains(p.shape, "cut once"):
		return 2
	}
	return 1
}
