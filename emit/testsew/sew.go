package testsew

import (
	"math"
	"slices"
	"strings"
)

// A layer is one thickness of cloth, from the front.
type layer struct {
	area  poly
	piece int // from 0
	up    bool
}

// A part is what shows of one piece from the front.
type part struct {
	area   poly
	fabric string
	piece  int
}

// A sewn is a section when it has been sewn and trimmed.
type sewn struct {
	section *section
	layers  []layer // the lowest first
	shown   []part
	margins []margin
	behind  measure // cloth behind seams and edges
}

// A margin is how far a patch reaches beyond what it must cover.
type margin struct {
	space string
	by    float64
}

// A measure is the least of a figure, and where it was found.
type measure struct {
	least float64
	where string
}

func (m *measure) add(by float64, where string) {
	if m.where == "" || by < m.least {
		m.least, m.where = by, where
	}
}

// A bench is where one section is sewn.
type bench struct {
	s         *section
	allowance float64
	area      poly   // of the trimmed section; what is left longer on the border is cut off at the end
	cut       []poly // the same in convex parts
	mains     []poly // of each piece so far, trimmed
	tails     []poly // seam allowances of the pieces' own edges
	out       *sewn
	faults    []string
}

// sew sews a section of paper with patches of the table, laid as it says.
func sew(s *section, patches []patch, allowance float64) (*sewn, []string) {
	b := &bench{s: s, allowance: allowance, area: s.cut, out: &sewn{section: s}}
	b.cut = b.area.convex()
	for k := range s.spaces {
		i := slices.IndexFunc(patches, func(p patch) bool { return p.section == s.name && p.number == s.spaces[k].number })
		if i < 0 {
			b.faults = append(b.faults, "the table has no patch for "+s.space(k+1))
			return b.out, b.faults
		}
		s.spaces[k].fabric = patches[i].fabric
		b.add(k, &patches[i])
	}
	b.trim()
	b.show()
	b.edges()
	return b.out, b.faults
}

// add lays a patch, sews it, trims what is below and folds it over.
func (b *bench) add(k int, p *patch) {
	if strings.HasPrefix(p.shape, "round the template") {
		b.template(p)
		return
	}
	sp := &b.s.spaces[k]
	need := b.need(k)
	laid, edges := b.lay(k, p, need)
	least := math.Inf(1)
	for _, e := range edges {
		for _, q := range need {
			least = min(least, e.side(q))
		}
	}
	b.out.margins = append(b.out.margins, margin{b.s.space(k + 1), least})
	if k == 0 {
		b.mains, b.tails = append(b.mains, laid), append(b.tails, nil)
		return
	}
	for j := range b.mains { // folded back on the line and trimmed an allowance beyond it
		beyond := sp.seam.moved(b.allowance).flipped()
		b.mains[j], b.tails[j] = b.mains[j].clip(beyond), b.tails[j].clip(beyond)
	}
	tail := laid.clip(sp.seam.flipped()).mapped(sp.seam.mirror).ccw().clip(sp.seam.moved(b.allowance).flipped())
	main := laid.clip(sp.seam)
	b.seam(k, tail)
	b.mains, b.tails = append(b.mains, main), append(b.tails, tail)
}

// template cuts a patch round its template, on the dashed line, from cloth of the
// size in the table.
func (b *bench) template(p *patch) {
	fits := false
	for _, axis := range b.axes(0) {
		turned := b.s.cut.mapped(func(q pt) pt { return pt{axis.along(q), axis.side(q)} }).box()
		w, h := turned.x1-turned.x0-same, turned.y1-turned.y0-same
		fits = fits || w <= p.w && h <= p.h || w <= p.h && h <= p.w
	}
	if !fits {
		b.faults = append(b.faults, "the template of "+b.s.name+" is larger than the cloth in the table")
	}
	x := b.area.box()
	all := poly{{x.x0, x.y0}, {x.x1, x.y0}, {x.x1, x.y1}, {x.x0, x.y1}} // trimmed to the line below
	b.mains, b.tails = append(b.mains, all), append(b.tails, nil)
}

// lay returns where the cloth of a patch would lie if it were folded over its
// line as a whole, and those of its edges that must reach past what it covers.
func (b *bench) lay(k int, p *patch, need poly) (laid poly, edges []line) {
	sp := &b.s.spaces[k]
	if k > 0 && p.lay == longSide {
		mid, high := b.s.middle(k), p.w/math.Sqrt2
		laid = poly{sp.seam.point(mid-high, -b.allowance), sp.seam.point(mid+high, -b.allowance), sp.seam.point(mid, high-b.allowance)}
		return laid, lines(laid)[1:]
	}
	if k > 0 && p.lay == "along the line" {
		mid := b.s.middle(k)
		laid = b.rectangle(sp.seam, mid-p.w/2, mid+p.w/2, -b.allowance, p.h-b.allowance)
		return laid, lines(laid)[1:]
	}
	if k == 0 && strings.HasSuffix(p.shape, halfShape) {
		return b.halfOver(p, need)
	}
	if k > 0 { // it must reach past its line too
		need = append(need, sp.seam.point(sp.from, -b.allowance), sp.seam.point(sp.to, -b.allowance))
	}
	best := math.Inf(-1)
	for _, axis := range b.axes(k) {
		low, high := pt{math.Inf(1), math.Inf(1)}, pt{math.Inf(-1), math.Inf(-1)}
		for _, q := range b.s.beyond(k) {
			u, v := axis.along(q), axis.side(q)
			low, high = pt{min(low.x, u), min(low.y, v)}, pt{max(high.x, u), max(high.y, v)}
		}
		mid := low.mid(high)
		for _, size := range [2]pt{{p.w, p.h}, {p.h, p.w}} {
			r := b.rectangle(axis, mid.x-size.x/2, mid.x+size.x/2, mid.y-size.y/2, mid.y+size.y/2)
			least := math.Inf(1)
			for _, e := range lines(r) {
				for _, q := range need {
					least = min(least, e.side(q))
				}
			}
			if least > best {
				best, laid = least, r
			}
		}
	}
	return laid, lines(laid)
}

// halfShape ends how the half of a square is cut.
const halfShape = "square, cut once on the diagonal"

// halfOver lays half a square over the first space, as far beyond each of its sides: with
// the long side along one of the space's, that from which it reaches furthest.
func (b *bench) halfOver(p *patch, need poly) (laid poly, edges []line) {
	best := math.Inf(-1)
	for _, axis := range b.axes(0) {
		high := p.w / math.Sqrt2
		triangle := poly{axis.point(-high, 0), axis.point(high, 0), axis.point(0, high)}
		var over [3]float64 // how far the space reaches beyond each side
		for i, e := range lines(triangle) {
			over[i] = math.Inf(1)
			for _, q := range b.s.beyond(0) {
				over[i] = min(over[i], e.side(q))
			}
		}
		// Moved so that it reaches as far on every side: by the lengths of the sides, for
		// sides times their normals add up to nothing.
		equal := (2*over[0] + math.Sqrt2*(over[1]+over[2])) / (2 + 2*math.Sqrt2)
		up, out := over[0]-equal, (over[2]-over[1])/math.Sqrt2
		moved := triangle.mapped(func(q pt) pt { return q.add(axis.point(out, up)) })
		least := math.Inf(1)
		for _, e := range lines(moved) {
			for _, q := range need {
				least = min(least, e.side(q))
			}
		}
		if least > best {
			best, laid = least, moved
		}
	}
	return laid, lines(laid)
}

// longSide is how the half of a square is laid.
const longSide = "long side along the line"

// middle is the middle of a space along its line.
func (s *section) middle(k int) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range s.beyond(k) {
		low, high = min(low, s.spaces[k].seam.along(q)), max(high, s.spaces[k].seam.along(q))
	}
	return (low + high) / 2
}

// axes are the ways in which a maker might turn a patch that has no edge on its
// line: square to the section, with any side of its space, or as the arrow there says.
func (b *bench) axes(k int) []line {
	out := []line{{pt{}, pt{1, 0}}}
	if g := b.s.spaces[k].grain; g != (pt{}) {
		out = append(out, line{pt{}, g})
	}
	for _, p := range [2]poly{b.s.spaces[k].area, b.s.outline} {
		for i := range p {
			if q, r := p.side(i); q.to(r) > same {
				out = append(out, line{pt{}, r.sub(q).unit()})
			}
		}
	}
	return out
}

func (b *bench) rectangle(l line, u0, u1, v0, v1 float64) poly {
	return poly{l.point(u0, v0), l.point(u1, v0), l.point(u1, v1), l.point(u0, v1)}
}

func lines(p poly) (out []line) {
	for i := range p {
		out = append(out, through(p.side(i)))
	}
	return out
}

// need returns the points that a patch must cover: what will show of it, out to
// the line on which the section is trimmed, and its seam allowances.
func (b *bench) need(k int) (need poly) {
	sp := &b.s.spaces[k]
	for _, c := range b.cut {
		if len(b.cut) > 1 { // of a bent section, what lies round the space
			box := sp.area.box()
			c = c.common(poly{{box.x0 - b.allowance, box.y0 - b.allowance}, {box.x1 + b.allowance, box.y0 - b.allowance},
				{box.x1 + b.allowance, box.y1 + b.allowance}, {box.x0 - b.allowance, box.y1 + b.allowance}})
		}
		if k > 0 {
			c = c.clip(sp.seam)
		}
		for j := k + 1; j < len(b.s.spaces); j++ {
			c = c.clip(b.s.spaces[j].seam.flipped())
		}
		need = append(need, c...)
	}
	for h := k; h < len(b.s.spaces); h++ {
		for _, strip := range b.strips(h) {
			if h > k { // what the later piece, folded over its own line, leaves to this one
				strip = strip.clip(b.s.spaces[h].seam.flipped())
			}
			for m := k + 1; m < h; m++ {
				strip = strip.clip(b.s.spaces[m].seam.flipped())
			}
			if h > k && k > 0 {
				strip = strip.clip(sp.seam)
			}
			need = append(need, strip...)
		}
	}
	return need
}

// strips are the seam allowances beyond those sides of a space that are sewn to
// later pieces, square to them.
func (b *bench) strips(k int) (out []poly) {
	area := b.s.spaces[k].area
	for i := range area {
		p, q := area.side(i)
		for j := k + 1; j < len(b.s.spaces); j++ {
			seam := &b.s.spaces[j].seam
			if math.Abs(seam.side(p)) < same && math.Abs(seam.side(q)) < same && p.to(q) > same {
				beyond := seam.dir.left().mul(b.allowance)
				out = append(out, poly{p, q, q.add(beyond), p.add(beyond)}.ccw())
			}
		}
	}
	return out
}

// seam measures the cloth behind a seam on both sides: what was sewn before, and
// the new patch's own edge.
func (b *bench) seam(k int, tail poly) {
	sp := &b.s.spaces[k]
	where := "seam of " + b.s.space(k+1)
	for i := range samples {
		t := sp.from + inset + (sp.to-sp.from-2*inset)*float64(i)/(samples-1)
		ray := line{sp.seam.point(t, 0), sp.seam.dir.left()}
		b.out.behind.add(reach(ray, []poly{tail}, b.allowance), where)
		b.out.behind.add(reach(ray, b.mains, b.allowance), where)
	}
}

// edges measures the cloth beyond the section's outline.
func (b *bench) edges() {
	var shown []poly
	for _, p := range b.out.shown {
		shown = append(shown, p.area)
	}
	trimmed := b.s.cut.convex() // what is left beyond it on the border is cut off at the end
	for i := range b.s.outline {
		p, q := b.s.outline.side(i)
		l, n := through(p, q), p.to(q)
		if n < 4*inset {
			continue
		}
		for j := range samples {
			t := inset + (n-2*inset)*float64(j)/(samples-1)
			ray := line{l.point(t, 0), l.dir.left().mul(-1)}
			b.out.behind.add(reach(ray, shown, b.allowance), "edge of section "+b.s.name)
			b.out.behind.add(reach(ray, trimmed, b.allowance), "edge of section "+b.s.name)
		}
	}
}

const (
	samples = 33   // of a seam, ends included
	inset   = 0.01 // how far from a seam's ends they begin: the lines there are drawn to 0.01 mm
)

// reach returns how far along a ray there is cloth without a gap, up to a limit.
func reach(ray line, cloth []poly, limit float64) float64 {
	type span struct{ from, to float64 }
	var spans []span
	for _, p := range cloth {
		from, to := math.Inf(-1), math.Inf(1)
		for _, l := range lines(p) {
			s, d := l.side(ray.at), l.dir.cross(ray.dir)
			switch {
			case d > noLength:
				from = max(from, -s/d)
			case d < -noLength:
				to = min(to, -s/d)
			case s < -same:
				to = math.Inf(-1)
			}
		}
		if len(p) > 2 && to > from {
			spans = append(spans, span{from, to})
		}
	}
	far := 0.0
	for range spans {
		for _, s := range spans {
			if s.from <= far+same && s.to > far {
				far = s.to
			}
		}
		if far >= limit {
			break
		}
	}
	return min(far, limit)
}

// trim cuts the section out on its cutting line.
func (b *bench) trim() {
	for k := range b.mains {
		for _, c := range b.cut {
			if t := b.tails[k].common(c); t != nil {
				b.out.layers = append(b.out.layers, layer{t, k, false})
			}
			if m := c.common(b.mains[k]); m != nil {
				b.out.layers = append(b.out.layers, layer{m, k, true})
			}
		}
	}
}

// show finds what is seen from the front, and holes.
func (b *bench) show() {
	holes := append([]poly(nil), b.cut...)
	for k := len(b.mains) - 1; k >= 0; k-- {
		var left []poly
		for _, h := range holes {
			if p := h.common(b.mains[k]); p != nil {
				b.out.shown = append(b.out.shown, part{p, b.s.spaces[k].fabric, k})
			}
			left = append(left, h.minus(b.mains[k])...)
		}
		holes = left
	}
	for _, h := range holes {
		if h.width() > thin {
			b.faults = append(b.faults, "no cloth covers section "+b.s.name+" at "+b.near(h.middle())+": "+figure(h.area())+" sq in are bare")
		}
	}
}

// near names the space a point of the section lies in or by.
func (b *bench) near(p pt) string {
	best, name := math.Inf(1), ""
	for k := range b.s.spaces {
		for i := range b.s.spaces[k].area {
			q, r := b.s.spaces[k].area.side(i)
			d := fromSegment(p, q, r)
			if b.s.spaces[k].area.holds(p) {
				d = 0
			}
			if d < best {
				best, name = d, b.s.space(k+1)
			}
		}
	}
	return name
}

// thin is how broad an area must be to count: lines are drawn to 0.01 mm, and a
// hundredth of an inch is a thread.
const thin = 0.005
