package eval

import (
	"math"
	"strconv"

	"seamwright/compiler/plane"
	"seamwright/lang"
)

// frame returns what the body's compass points stand on.
func (b *Body) frame() frame {
	if b.Box {
		return boxed(b.Outline[2].X, b.Outline[2].Y)
	}
	return frame{state: outlineFrame, middle: centroid(b.Outline)}
}

func centroid(p plane.Polygon) plane.Point {
	var c plane.Point
	var area float64
	for i, a := range p {
		b := p[(i+1)%len(p)]
		w := a.Sub(p[0]).Cross(b.Sub(p[0]))
		c = c.Add(a.Add(b).Add(p[0]).Mul(w / 3))
		area += w
	}
	return c.Mul(1 / area)
}

// shape works out a unit's outline, anticlockwise.
func (r *run) shape() plane.Polygon {
	d := r.unit.decl
	if d.Width == nil {
		return r.outline(d.Outline)
	}
	w, ok1 := r.side(d.Width, "a unit's width")
	h, ok2 := r.side(d.Height, "a unit's height")
	if !ok1 || !ok2 {
		return nil
	}
	return plane.Polygon{{}, {X: w}, {X: w, Y: h}, {Y: h}}
}

func (r *run) side(e lang.Expr, whose string) (float64, bool) {
	v, ok := r.want(e, numberKind, whose)
	if !ok || r.checking {
		return 0, false
	}
	f := v.Num.Float64()
	switch {
	case f < minSegment:
		r.fault(BadGrid, e.Where(), whose+" must be larger than 0, and this is "+v.Num.String())
	case f > maxGrid:
		r.fault(BadGrid, e.Where(), whose+" may be "+strconv.Itoa(maxGrid)+" grid squares at most, and this is "+v.Num.String())
	default:
		return f, true
	}
	return 0, false
}

func (r *run) outline(corners []lang.Expr) plane.Polygon {
	var p plane.Polygon
	for _, e := range corners {
		if q, ok := r.wantPoint(e, "a corner of the outline"); ok {
			p = append(p, q)
		}
	}
	if r.checking || r.failed || len(corners) == 0 {
		return nil
	}
	why := ""
	area := p.Area()
	switch {
	case len(p) < 3:
		why = "an outline has three corners at least, and here are " + strconv.Itoa(len(p))
	case len(p) > maxCorners:
		why = "an outline may have " + strconv.Itoa(maxCorners) + " corners, and here are " + strconv.Itoa(len(p))
	case inOneLine(p):
		why = "the corners lie in one line, so nothing is inside"
	case area == 0 || !anticlockwise(p, area).Simple():
		why = "the outline meets itself"
	}
	if why != "" {
		r.fault(BadOutline, corners[0].Where().To(corners[len(corners)-1].Where()), why).Help =
			"give the corners in order, walking once round the unit; the last is joined to the first"
		return nil
	}
	return anticlockwise(p, area)
}

// inOneLine reports whether all corners lie in the line from the first to the one
// farthest from it.
func inOneLine(p plane.Polygon) bool {
	far := p[0]
	for _, q := range p {
		if q.Dist(p[0]) > far.Dist(p[0]) {
			far = q
		}
	}
	for _, q := range p {
		if math.Abs(far.Sub(p[0]).Cross(q.Sub(p[0]))) > minSegment*far.Dist(p[0]) {
			return false
		}
	}
	return true
}

// anticlockwise turns a polygon's sense where need be; its first corner stays.
func anticlockwise(p plane.Polygon, area float64) plane.Polygon {
	if area > 0 {
		return p
	}
	q := make(plane.Polygon, len(p))
	for i := range p {
		q[(len(p)-i)%len(p)] = p[i]
	}
	return q
}
