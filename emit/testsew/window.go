package testsew

import (
	"encoding/xml"
	"fmt"
	"math"
)

// window reads what a clip path leaves to be seen: a rectangle.
func window(d *xml.Decoder) (box, error) {
	var path poly
	for {
		token, err := d.Token()
		if err != nil {
			return box{}, err
		}
		switch t := token.(type) {
		case xml.StartElement:
			strokes, err := chains(t)
			if err != nil {
				return box{}, err
			}
			for _, s := range strokes {
				path = append(path, s.points...)
			}
		case xml.EndElement:
			if t.Name.Local != "clipPath" {
				continue
			}
			b := path.box()
			for i := range path {
				if p, q := path.side(i); math.Min(math.Abs(p.x-q.x), math.Abs(p.y-q.y)) > noLength {
					return box{}, fmt.Errorf("it is no rectangle")
				}
			}
			if len(path) != 4 {
				return box{}, fmt.Errorf("it has %d corners", len(path))
			}
			return b, nil
		}
	}
}

func (a box) holds(p pt) bool { return a.x0 <= p.x && p.x <= a.x1 && a.y0 <= p.y && p.y <= a.y1 }

func (a box) grown(by float64) box { return box{a.x0 - by, a.y0 - by, a.x1 + by, a.y1 + by} }

// seen returns what of strokes lies in a window: chains that end at its edge, or
// whole ones. A circle is seen where its centre is.
func seen(strokes []stroke, w box) (out []stroke) {
	for _, s := range strokes {
		if s.circle || s.filled {
			if w.holds(s.points[0]) {
				out = append(out, s)
			}
			continue
		}
		points := s.points
		if s.closed {
			points = append(append([]pt(nil), points...), points[0])
		}
		var parts []stroke
		for i := 1; i < len(points); i++ {
			a, b, ok := w.cut(points[i-1], points[i])
			if !ok {
				continue
			}
			if n := len(parts); n > 0 && a == points[i-1] && parts[n-1].points[len(parts[n-1].points)-1] == a {
				parts[n-1].points = append(parts[n-1].points, b)
				continue
			}
			part := s
			part.closed, part.points = false, []pt{a, b}
			parts = append(parts, part)
		}
		if n := len(parts); s.closed && n > 0 { // the first chain may go on from the last, or be all of it
			first, last := &parts[0], &parts[n-1]
			if end := len(last.points) - 1; last.points[end] == points[0] && first.points[0] == points[0] {
				if n == 1 {
					first.closed, first.points = true, first.points[:end]
				} else {
					first.points = append(last.points, first.points[1:]...)
					parts = parts[:n-1]
				}
			}
		}
		out = append(out, parts...)
	}
	return out
}

// cut returns the part of a stroke that lies in the box (Liang and Barsky, 1984).
func (a box) cut(p, q pt) (from, to pt, ok bool) {
	lo, hi := 0.0, 1.0
	d := q.sub(p)
	for _, c := range [4][2]float64{{-d.x, p.x - a.x0}, {d.x, a.x1 - p.x}, {-d.y, p.y - a.y0}, {d.y, a.y1 - p.y}} {
		switch {
		case c[0] == 0 && c[1] < 0:
			return p, q, false
		case c[0] < 0:
			lo = max(lo, c[1]/c[0])
		case c[0] > 0:
			hi = min(hi, c[1]/c[0])
		}
	}
	if hi-lo <= noLength || p == q {
		return p, q, false
	}
	from, to = p, q
	if lo > 0 {
		from = p.add(d.mul(lo))
	}
	if hi < 1 {
		to = p.add(d.mul(hi))
	}
	return from, to, true
}
