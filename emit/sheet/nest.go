package sheet

import (
	"cmp"
	"math"
	"slices"
)

// nestLimit is the number of drawings up to which a run is also nested: the
// skyline's boxes waste half the paper on triangles, but nesting costs the
// square of what lies on a sheet.
const nestLimit = 48

// nest packs items by their convex hulls: a hull may be slid wherever it keeps
// its distance from those already placed. Turns are tried in their order on all
// sheets before the next one.
//
// For two convex shapes the places where one touches the other form a convex
// polygon, the sum of the one and the other turned round (Minkowski). The
// highest, then leftmost free place is a corner of such polygons or of the room,
// or a crossing of their sides.
func nest(items []item, at pos, w, h length, turns func(*item) []float64) [][]Place {
	order := slices.Clone(items)
	slices.SortFunc(order, func(a, b item) int {
		return cmp.Or(cmp.Compare(area(b.line), area(a.line)), cmp.Compare(a.drawing, b.drawing))
	})
	var hulls [][][]pos // on each sheet
	var sheets [][]Place
	for i := range order {
		it := &order[i]
		done := false
		try := func(k int, turn float64) {
			shape := hull(turnedLine(it.line, turn))
			if ref, ok := slide(hulls[k], shape, w, h); ok {
				for j := range shape {
					shape[j] = add(shape[j], ref)
				}
				hulls[k] = append(hulls[k], shape)
				sheets[k] = append(sheets[k], it.place(turn, add(at, ref)))
				done = true
			}
		}
		all := turns(it)
		if it.part > 0 {
			all = all[:1]
		}
		for _, turn := range all {
			for k := max(0, len(hulls)-openSheets); k < len(hulls) && !done; k++ {
				try(k, turn)
			}
		}
		for _, turn := range all {
			if !done {
				if len(hulls) == 0 || len(hulls[len(hulls)-1]) > 0 {
					hulls, sheets = append(hulls, nil), append(sheets, nil)
				}
				try(len(hulls)-1, turn)
			}
		}
		if !done {
			return nil
		}
	}
	return sheets
}

// quarterTurns are as in the block, then turned by quarters.
func quarterTurns(*item) []float64 { return []float64{0, 90, 180, 270} }

// anyTurns adds those that lay a side of the item along the paper's edge.
func anyTurns(it *item) []float64 {
	out := quarterTurns(it)
	for i, p := range it.line {
		d := unit(p, it.line[(i+1)%len(it.line)])
		t := math.Round(math.Atan2(float64(d.Y), float64(d.X)) * 180 / math.Pi * 1000)
		for q := range 4 {
			turn := math.Mod(t/1000+float64(q)*90+360, 360)
			if !slices.ContainsFunc(out, func(o float64) bool { return math.Abs(o-turn) < 0.01 }) {
				out = append(out, turn)
			}
		}
	}
	return out
}

// turnedLine returns the points turned anticlockwise on the page.
func turnedLine(line []pos, turn float64) []pos {
	move := Place{Turn: turn}.Motion()
	out := make([]pos, len(line))
	for i, p := range line {
		out[i] = move(pos{X: -p.X, Y: -p.Y}) // a motion reverses first, and the line is reversed
	}
	return out
}

// slide finds the highest, then leftmost place for a shape in a room of w x h
// beside those in it.
func slide(placed [][]pos, shape []pos, w, h length) (pos, bool) {
	b := boxOf(shape)
	if !fits(b, w, h) {
		return pos{}, false
	}
	room := box{-b.x0, -b.y0, w - b.x1, h - b.y1} // of the shape's origin
	around := make([][]pos, len(placed))
	for i, p := range placed {
		around[i] = offset(sum(p, shape), func(int) length { return sectionGap }, nil).at
	}
	best, found := pos{}, false
	try := func(p pos) {
		if p.X < room.x0-near || p.X > room.x1+near || p.Y < room.y0-near || p.Y > room.y1+near {
			return
		}
		if found && (p.Y > best.Y+near || p.Y > best.Y-near && p.X >= best.X) {
			return
		}
		for _, poly := range around {
			if deepIn(p, poly) {
				return
			}
		}
		moved := make([]pos, len(shape))
		for i, q := range shape {
			moved[i] = add(q, p)
		}
		for _, other := range placed { // sides that are all but parallel cross anywhere
			if !keepsApart(moved, other, sectionGap-nestSlack) {
				return
			}
		}
		best, found = p, true
	}
	walls := room.corners()
	for _, c := range walls {
		try(c)
	}
	for i, poly := range around {
		for j, p := range poly {
			side := ray{p, unit(p, poly[(j+1)%len(poly)])}
			try(p)
			for k, c := range walls {
				if x, ok := meet(side, ray{c, unit(c, walls[(k+1)%4])}); ok {
					try(x)
				}
			}
			for _, other := range around[:i] {
				for k, c := range other {
					if x, ok := meet(side, ray{c, unit(c, other[(k+1)%len(other)])}); ok {
						try(x)
					}
				}
			}
		}
	}
	return best, found
}

// deepIn reports whether a point lies inside a convex polygon, not on its edge.
func deepIn(p pos, poly []pos) bool {
	for i, a := range poly {
		if cross(unit(a, poly[(i+1)%len(poly)]), sub(p, a)) < near {
			return false
		}
	}
	return true
}

// nestSlack is what may be missing of the gap between sections: the width of a
// printer's dot in ten.
const nestSlack = 1e-4

// keepsApart reports whether two convex polygons are at least so far apart.
func keepsApart(a, b []pos, gap length) bool {
	most, least := length(math.Inf(-1)), length(math.Inf(1))
	for _, pair := range [2][2][]pos{{a, b}, {b, a}} {
		for i, p := range pair[0] {
			q := pair[0][(i+1)%len(pair[0])]
			out := right(unit(p, q))
			beyond := length(math.Inf(1))
			for _, r := range pair[1] {
				beyond = min(beyond, dot(sub(r, p), out))
				least = min(least, segmentDist(r, p, q))
			}
			most = max(most, beyond)
		}
	}
	return most >= gap || most > 0 && least >= gap
}

// sum returns the places of b's origin where b touches a: a and b turned round,
// added. Both are convex.
func sum(a, b []pos) []pos {
	out := make([]pos, 0, len(a)*len(b))
	for _, p := range a {
		for _, q := range b {
			out = append(out, sub(p, q))
		}
	}
	return hull(out)
}

// nestGrain is the grid on which hulls are compared. Sums of shapes have sides
// that are all but parallel, whose crossings are noise; on a grid they are one
// side. It is a hundredth of a printer's dot.
const nestGrain = 1e-5

// hull returns the convex hull of points, on the grid, its inside to the left
// (Andrew's monotone chain, 1979).
func hull(ps []pos) []pos {
	snapped := make([]pos, len(ps))
	for i, p := range ps {
		snapped[i] = pos{X: snap(p.X), Y: snap(p.Y)}
	}
	slices.SortFunc(snapped, func(a, b pos) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	snapped = slices.Compact(snapped)
	out := make([]pos, 0, len(snapped)+1)
	for pass := range 2 {
		start := len(out)
		for _, p := range snapped {
			for len(out) >= start+2 && flat(out[len(out)-2], out[len(out)-1], p) {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1]
		if pass == 0 {
			slices.Reverse(snapped)
		}
	}
	return out
}

// flat reports whether the way from a over b to c turns right, or so little to
// the left that b is on the way.
func flat(a, b, c pos) bool {
	return cross(sub(b, a), sub(c, b)) <= nestGrain*dist(a, c)
}

func snap(l length) length { return length(math.Round(float64(l/nestGrain))) * nestGrain }
