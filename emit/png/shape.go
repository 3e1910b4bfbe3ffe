package png

import (
	"image"
	"math"

	"seamwright/emit/drawing"
)

// A point is a place in dots, y down. Products are made float64 before they are added
// to, here and below: see fine.
type point struct{ x, y float64 }

func (p point) plus(q point) point              { return point{p.x + q.x, p.y + q.y} }
func (p point) minus(q point) point             { return point{p.x - q.x, p.y - q.y} }
func (p point) times(k float64) point           { return point{float64(p.x * k), float64(p.y * k)} }
func (p point) toward(q point, t float64) point { return p.plus(q.minus(p).times(t)) }

// A shape is what closed contours go round. Where two go round in the same
// direction both count, so they must not cross in opposite ones.
type shape [][]point

// bounds returns the dots that a shape can touch.
func (s shape) bounds() image.Rectangle {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, contour := range s {
		for _, p := range contour {
			x0, y0, x1, y1 = min(x0, p.x), min(y0, p.y), max(x1, p.x), max(y1, p.y)
		}
	}
	if x0 > x1 {
		return image.Rectangle{}
	}
	return image.Rect(int(math.Floor(x0)), int(math.Floor(y0)), int(math.Ceil(x1)), int(math.Ceil(y1)))
}

// flat is how far a chord may be from its curve, in dots: less is not seen.
const flat = 0.05

// arcs is into how many chords an angle of a circle is divided.
func arcs(angle, r float64) int {
	if r <= flat {
		return 1
	}
	const noise = 1e-9
	return max(1, int(math.Ceil(math.Abs(angle)/(2*math.Acos(1-flat/r))-noise)))
}

func circle(middle point, r float64) []point {
	n := max(8, arcs(2*math.Pi, r))
	out := make([]point, n)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = middle.plus(point{float64(r * cos), float64(r * sin)})
	}
	return out
}

// stroke is what a line of a look covers: the four sides of every stroke of it,
// the rounding of every corner, round dots.
func stroke(points []point, closed bool, look drawing.Look, scale float64) shape {
	half := float64(look.Width) * scale / 2
	if closed && len(points) > 0 {
		points = append(append([]point(nil), points...), points[0])
	}
	if look.Off <= 0 {
		return band(nil, points, half, closed)
	}
	var s shape
	dashes(points, float64(look.On)*scale, float64(look.Off)*scale, func(dash []point) {
		if len(dash) == 1 {
			s = append(s, circle(dash[0], half))
		} else {
			s = band(s, dash, half, false)
		}
	})
	return s
}

// band appends what a solid line covers. Where it is closed, its end is rounded
// into its beginning.
func band(s shape, points []point, half float64, closed bool) shape {
	var first, before point // normals of half the width; none yet
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		d := b.minus(a)
		length := math.Hypot(d.x, d.y)
		if length == 0 {
			continue
		}
		n := point{-d.y, d.x}.times(half / length)
		s = append(s, []point{a.minus(n), b.minus(n), b.plus(n), a.plus(n)})
		if before != (point{}) {
			s = corner(s, a, before, n)
		} else {
			first = n
		}
		before = n
	}
	if closed && before != (point{}) {
		s = corner(s, points[0], before, first)
	}
	return s
}

// corner appends the sector between two strokes, on the outside of their turn.
func corner(s shape, at, n, m point) shape {
	turn := math.Atan2(float64(n.x*m.y)-float64(n.y*m.x), float64(n.x*m.x)+float64(n.y*m.y))
	if turn == 0 {
		return s
	}
	if turn > 0 { // turning to the side that n points to: the gap is on the other
		n = n.times(-1)
	}
	steps := arcs(turn, math.Hypot(n.x, n.y))
	sector := []point{at}
	for i := range steps + 1 {
		sin, cos := math.Sincos(turn * float64(i) / float64(steps))
		sector = append(sector, at.plus(point{float64(n.x*cos) - float64(n.y*sin), float64(n.x*sin) + float64(n.y*cos)}))
	}
	if turn < 0 { // round in the same direction as the strokes
		for i, j := 0, len(sector)-1; i < j; i, j = i+1, j-1 {
			sector[i], sector[j] = sector[j], sector[i]
		}
	}
	return append(s, sector)
}

// dashes calls use with every dash of a line, a single point where dashes are
// dots.
func dashes(points []point, on, off float64, use func(dash []point)) {
	inked, left := true, on // of the dash or gap under way
	var dash []point
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := math.Hypot(b.x-a.x, b.y-a.y)
		for done := 0.0; ; {
			if inked && dash == nil {
				dash = []point{a.toward(b, done/max(length, flat))}
			}
			if left > length-done {
				left -= length - done
				break
			}
			done += left
			if inked {
				if on > 0 {
					dash = append(dash, a.toward(b, done/max(length, flat)))
				}
				use(dash)
				dash = nil
			}
			inked = !inked
			left = off
			if inked {
				left = on
			}
		}
		if inked && on > 0 {
			dash = append(dash, b)
		}
	}
	if inked && len(dash) > 1 {
		use(dash)
	}
}
