package testsew

import (
	"cmp"
	"math"
	"slices"
)

// A Thick is a point of the block and how many layers of cloth lie there.
type Thick struct {
	X, Y   float64 // inches from the lower left corner
	Layers int
}

// fold presses the joins as planned, in the order in which they were sewn. Of a
// join pressed open, each section's allowance is folded back under it. Of one
// pressed to a side, the section on that side folds its allowance under itself,
// and the other's lies flat beyond its own edge, under its neighbor.
func (t *table) fold(c int) []layer {
	p := &t.placed[c]
	edges := make([]int, 0, len(p.outline))
	for i := range p.outline {
		if _, ok := t.order[[2]int{c, i}]; ok && !t.flat[[2]int{c, i}] {
			edges = append(edges, i)
		}
	}
	slices.SortFunc(edges, func(i, j int) int { return cmp.Compare(t.order[[2]int{c, i}], t.order[[2]int{c, j}]) })
	layers := p.layers
	for _, i := range edges {
		strip := p.strip(i, 3*t.in.allowance)
		a, b := p.outline.side(i)
		l := through(a, b)
		box := strip.box()
		var out []layer
		for _, y := range layers {
			beyond := poly(nil)
			if y.area.box().meets(box) {
				beyond = y.area.common(strip)
			}
			if beyond == nil {
				out = append(out, y)
				continue
			}
			for _, rest := range y.area.minus(strip) {
				out = append(out, layer{rest, y.piece, y.up})
			}
			out = append(out, layer{beyond.mapped(l.mirror).ccw(), y.piece, !y.up})
		}
		layers = out
	}
	return layers
}

// strip is the area beyond an edge in which its allowance lies: at a corner that
// points in, it ends there, for beyond lies the section itself.
func (p *placed) strip(i int, wide float64) poly {
	n := len(p.outline)
	z, a, b, c := p.outline[(i+n-1)%n], p.outline[i], p.outline[(i+1)%n], p.outline[(i+2)%n]
	l, from, to := through(a, b), 0.0, a.to(b)
	if through(z, a).side(b) > -same {
		from -= wide
	}
	if l.side(c) > -same {
		to += wide
	}
	return poly{l.point(from, -wide), l.point(to, -wide), l.point(to, 0), l.point(from, 0)}
}

// finest is the distance of the points at which layers are counted: half a seam
// allowance of 1/4 in has four of them.
const finest = 1.0 / 32

// Points lie off the middle of their squares: seams at simple angles would else
// run through many of them, where it can't be told which side they are on.
const offX, offY = 0.4142, 0.2361

// mostPoints limits how many points of a block are counted; beyond it they are
// further apart.
const mostPoints = 1 << 20

// layers counts the layers all over the block: how much of it has how many, and
// the thickest points.
func (t *table) layers() (shares []float64, thickest []Thick) {
	box := t.in.outline.box()
	step := max(finest, math.Sqrt((box.x1-box.x0)*(box.y1-box.y0)/mostPoints))
	w, h := int((box.x1-box.x0)/step), int((box.y1-box.y0)/step)
	if w <= 0 || h <= 0 {
		return nil, nil
	}
	counts := make([]int16, w*h)
	at := func(x, y int) pt { return pt{box.x0 + (float64(x)+offX)*step, box.y0 + (float64(y)+offY)*step} }
	for c := range t.placed {
		for _, y := range t.fold(c) {
			fill(y.area, box, step, w, h, counts)
		}
	}
	total := 0
	for i, n := range counts {
		if !t.in.outline.holds(at(i%w, i/w)) {
			counts[i] = 0
			continue
		}
		for int(n) >= len(shares) {
			shares = append(shares, 0)
		}
		shares[n]++
		total++
	}
	for i := range shares {
		shares[i] /= float64(max(total, 1))
	}
	return shares, peaks(counts, w, at)
}

// fill adds one to every point of a convex polygon, row by row.
func fill(p poly, b box, step float64, w, h int, counts []int16) {
	own := p.box()
	for y := max(0, int((own.y0-b.y0)/step-offY)); y < h; y++ {
		at := b.y0 + (float64(y)+offY)*step
		if at > own.y1 {
			break
		}
		x0, x1 := math.Inf(1), math.Inf(-1)
		for i := range p {
			a, c := p.side(i)
			if (a.y > at) != (c.y > at) {
				x := a.x + (at-a.y)/(c.y-a.y)*(c.x-a.x)
				x0, x1 = min(x0, x), max(x1, x)
			}
		}
		for x := max(0, int(math.Ceil((x0-b.x0)/step-offX))); x < w && b.x0+(float64(x)+offX)*step < x1; x++ {
			counts[y*w+x]++
		}
	}
}

// peaks are the points of most layers, a few that lie well apart.
func peaks(counts []int16, w int, at func(x, y int) pt) (out []Thick) {
	const few, apart = 3, 0.5 // half an inch: two seam allowances
	most := slices.Max(counts)
	for n := most; n > 2 && len(out) < few && n >= most-1; n-- {
		for i, have := range counts {
			if have != n || len(out) == few {
				continue
			}
			p := at(i%w, i/w)
			if !slices.ContainsFunc(out, func(t Thick) bool { return p.to(pt{t.X, t.Y}) < apart }) {
				out = append(out, Thick{p.x, p.y, int(n)})
			}
		}
	}
	return out
}
