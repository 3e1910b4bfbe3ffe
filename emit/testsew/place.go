package testsew

import (
	"math"
)

// A placed is one section in its place in the block.
type placed struct {
	name    string
	of      string
	sewn    *sewn // nil for a plain patch
	outline poly
	shown   []part
	layers  []layer
	seams   []pt // where seams end on the outline
	marks   []tick
	stops   []pt
	edges   []told
	paper   bool    // it has marks
	areas   []poly  // of its spaces
	turn    float64 // from its sheet's front into the block, radians
	wrong   float64 // area of another cloth than the picture's
	worst   part
	strays  float64 // area of the right cloth, but of another piece
	stray   string
}

// settle finds how a section of a sheet, as it lies from the front, is turned
// and shifted to fill its place: never turned over. Of several ways the one that
// gives the picture is taken, for the sheet shows the maker the front; where several do,
// as with a template that a half turn leaves as it is, that by which fewest words along its
// edges are misread.
func settle(s *sewn, place poly, areas []coloured, misread func(*placed) int) (placed, bool) {
	var best placed
	found := false
	from, to := s.section.outline.corners(), place.corners()
	if len(from) != len(to) {
		return best, false
	}
	for turn := range from {
		move, miss := fit(from, to, turn)
		if miss > fits {
			continue
		}
		p := s.moved(move)
		p.compare(areas)
		more := p.wrong + p.strays - best.wrong - best.strays
		if !found || more < -asWell || more < asWell && misread(&p) < misread(&best) {
			best, found = p, true
		}
	}
	return best, found
}

// asWell, in square inches, is less than any sliver of another cloth that counts.
const asWell = 1e-6

// fits is how far a corner of a section may lie from its place: half a thread,
// and many times what sheets are rounded to.
const fits = 0.005

// fit returns the motion that takes each corner of a polygon as near as possible
// to one of another (least squares), and how far the worst one stays away.
func fit(from, to poly, turn int) (func(pt) pt, float64) {
	n := len(from)
	var a, b pt
	for i := range from {
		a, b = a.add(from[i]), b.add(to[i])
	}
	a, b = a.mul(1/float64(n)), b.mul(1/float64(n))
	var sin, cos float64
	for i := range from {
		p, q := from[i].sub(a), to[(i+turn)%n].sub(b)
		cos, sin = cos+p.dot(q), sin+p.cross(q)
	}
	r := math.Hypot(sin, cos)
	if r == 0 {
		return nil, math.Inf(1)
	}
	sin, cos = sin/r, cos/r
	move := func(p pt) pt {
		p = p.sub(a)
		return pt{cos*p.x - sin*p.y, sin*p.x + cos*p.y}.add(b)
	}
	worst := 0.0
	for i := range from {
		worst = max(worst, move(from[i]).to(to[(i+turn)%n]))
	}
	return move, worst
}

func (s *sewn) moved(move func(pt) pt) placed {
	p := placed{name: s.section.name, sewn: s, outline: s.section.outline.mapped(move), paper: len(s.section.spaces) > 1}
	for _, m := range s.section.marks {
		p.marks = append(p.marks, tick{move(m.at), move(m.at.add(m.out)).sub(move(m.at))})
	}
	for _, at := range s.section.stops {
		p.stops = append(p.stops, move(at))
	}
	for _, e := range s.section.edges {
		p.edges = append(p.edges, told{e.words, move(e.at)})
	}
	for i := range s.shown {
		p.shown = append(p.shown, part{s.shown[i].area.mapped(move), s.shown[i].fabric, s.shown[i].piece})
	}
	for _, l := range s.layers {
		p.layers = append(p.layers, layer{l.area.mapped(move), l.piece, l.up})
	}
	zero := move(pt{})
	x := move(pt{1, 0}).sub(zero)
	p.turn = math.Atan2(x.y, x.x)
	for _, sp := range s.section.spaces {
		p.areas = append(p.areas, sp.area.mapped(move))
		for _, q := range sp.area {
			p.seams = append(p.seams, move(q))
		}
	}
	return p
}

// compare finds the area in which the front is not what the picture shows.
func (p *placed) compare(areas []coloured) {
	widest := 0.0
	home := make([]int, len(areas)) // the piece that shows there, from 1
	for i := range p.shown {
		for k, a := range areas {
			if !a.area.box().meets(p.shown[i].area.box()) {
				continue
			}
			for _, c := range a.area.convex() {
				q := p.shown[i].area.common(c)
				if q == nil || q.width() < thin {
					continue
				}
				if a.fabric == p.shown[i].fabric {
					if home[k] == 0 {
						home[k] = p.shown[i].piece + 1
					}
					if home[k] != p.shown[i].piece+1 {
						p.strays += q.area()
						p.stray = a.space
					}
					continue
				}
				p.wrong += q.area()
				if q.width() > widest {
					widest, p.worst = q.width(), part{q, a.space + " should be " + a.fabric + ", but " + p.shown[i].fabric + " shows", 0}
				}
			}
		}
	}
}

// tipLimit keeps the tips of very sharp plain patches from reaching across the
// block, as a maker trims them: 1 + the cosine of the turn at a corner of 37 degrees.
const tipLimit = 0.2

// plain makes a patch that is cut exact and needs no paper: its outline is the
// picture's; checkExact holds the table's size to it.
func plain(sh *shape, move func(pt) pt, fabric string, allowance float64) placed {
	p := placed{name: sh.name, outline: sh.outline.mapped(move)}
	for _, c := range p.outline.convex() {
		p.shown = append(p.shown, part{c, fabric, 0})
		p.layers = append(p.layers, layer{c, 0, true})
	}
	n := len(p.outline)
	out := make(poly, n) // the cut corners, where edges moved out by the allowance meet
	for i := range p.outline {
		z, a, b := p.outline[(i+n-1)%n], p.outline[i], p.outline[(i+1)%n]
		in, on := through(z, a).dir, through(a, b).dir
		out[i] = a.add(pt{in.y + on.y, -in.x - on.x}.mul(allowance / max(1+in.dot(on), tipLimit)))
	}
	for i := range p.outline { // its allowances, edge by edge
		a, b := p.outline.side(i)
		p.layers = append(p.layers, layer{poly{out[i], out[(i+1)%n], b, a}, 0, true})
	}
	p.seams = append(p.seams, p.outline...)
	p.areas = []poly{p.outline}
	return p
}
