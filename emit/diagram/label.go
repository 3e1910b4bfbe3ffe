package diagram

import (
	"math"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

const (
	// Labels are as large as their space allows between these heights of
	// capitals. Below the least nobody reads them (common practice).
	labelMost  = 3 * pattern.Millimetre
	labelLeast = 1.4 * pattern.Millimetre

	// better is by how much a place must beat the last one, so that labels of
	// strips side by side stay in line.
	better = 1.02

	// labelRoom is kept free around a label, as a part of its size.
	labelRoom = 0.3
)

// place finds where in an area a text of a shape (its width and height at size
// 1) can stand largest, up to a size of most: the middle of the text and its
// size, 0 where it would be below least. The area may have corners that point
// inwards.
func place(area []pos, w, h, least, most length) (at pos, size length) {
	b := boxOf(area)
	at = centroid(area)
	if min(b.w()/w, b.h()/h) < least {
		return at, 0
	}
	if size = fits(area, at, w, h, 0); size >= 0.8*most { // as good as anywhere
		return at, min(size, most)
	}
	// Two rounds over a grid, the second around the best of the first.
	const n = 6
	cell := pos{X: b.w() / n, Y: b.h() / n}
	center := pos{X: (b.min.X + b.max.X) / 2, Y: (b.min.Y + b.max.Y) / 2}
	for range 2 {
		for i := -n / 2; i <= n/2; i++ {
			for j := -n / 2; j <= n/2; j++ {
				p := pos{X: center.X + cell.X*length(i), Y: center.Y + cell.Y*length(j)}
				if s := fits(area, p, w, h, size*better); s > 0 {
					at, size = p, s
				}
			}
		}
		if size > 0 {
			center = at
		}
		cell = pos{X: cell.X * 2 / n, Y: cell.Y * 2 / n}
	}
	if size < least {
		return at, 0
	}
	return at, min(size, most)
}

// fits returns the largest size at which a rectangle of a shape, with its
// middle at p, lies in an area; 0 where p lies outside or that is not more than
// over.
func fits(area []pos, p pos, w, h, over length) length {
	inside := false
	kx, ky := 2/w, 2/h
	a := area[len(area)-1]
	for _, b := range area {
		if touches((a.X-p.X)*kx, (a.Y-p.Y)*ky, (b.X-p.X)*kx, (b.Y-p.Y)*ky, over) {
			return 0
		}
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
			inside = !inside
		}
		a = b
	}
	if !inside {
		return 0
	}
	least := length(math.Inf(1))
	for _, b := range area {
		least = min(least, reach((a.X-p.X)*kx, (a.Y-p.Y)*ky, (b.X-p.X)*kx, (b.Y-p.Y)*ky))
		a = b
	}
	return least
}

// touches reports whether a stroke touches the square about the origin of a half side,
// which is so where [reach] is not more. It needs no division, and most places fail here.
func touches(ax, ay, bx, by, half length) bool {
	if min(ax, bx) > half || max(ax, bx) < -half || min(ay, by) > half || max(ay, by) < -half {
		return false
	}
	dx, dy := bx-ax, by-ay
	across := ax*dy - ay*dx
	return max(across, -across) <= half*(max(dx, -dx)+max(dy, -dy))
}

// reach returns the half side of the square about the origin that a stroke
// touches: the least max(|x|, |y|) along it, which is at an end, on an axis or on
// a diagonal.
func reach(ax, ay, bx, by length) length {
	norm := func(t length) length {
		x, y := ax+(bx-ax)*t, ay+(by-ay)*t
		return max(x, -x, y, -y)
	}
	least := min(norm(0), norm(1))
	dx, dy := bx-ax, by-ay
	for _, c := range [4][2]length{{-ax, dx}, {-ay, dy}, {ay - ax, dx - dy}, {-ay - ax, dx + dy}} {
		if c[1] != 0 {
			if t := c[0] / c[1]; t > 0 && t < 1 {
				least = min(least, norm(t))
			}
		}
	}
	return least
}

func centroid(area []pos) pos {
	var x, y, sum length
	o := area[0]
	for i := 1; i+1 < len(area); i++ {
		p, q := area[i], area[i+1]
		k := (p.X-o.X)*(q.Y-o.Y) - (p.Y-o.Y)*(q.X-o.X)
		x, y, sum = x+k*(o.X+p.X+q.X)/3, y+k*(o.Y+p.Y+q.Y)/3, sum+k
	}
	if sum == 0 {
		return o
	}
	return pos{X: x / sum, Y: y / sum}
}

// number places a label in its space; nil where it would be too small to read.
func number(text string, space []pos, bold bool) *drawing.Text {
	w, h := shape(text, bold)
	at, size := place(space, w, h, drawing.SizeForCap(labelLeast), drawing.SizeForCap(labelMost))
	if size == 0 {
		return nil
	}
	return textAround(text, at, size, bold)
}

// textAround returns a text with its middle at a place. Labels have no
// descenders, so the middle is that of the capitals.
func textAround(text string, at pos, size length, bold bool) *drawing.Text {
	return &drawing.Text{Text: text, At: pos{X: at.X, Y: at.Y + size*drawing.CapHeight/2}, Size: size, Anchor: drawing.Middle, Bold: bold}
}

// shape returns the room a label takes at size 1, with some around it.
func shape(text string, bold bool) (w, h length) {
	return drawing.Measure(text, 1, bold).Width + labelRoom, drawing.CapHeight + labelRoom
}
