package quilting

import (
	"strconv"

	"seamwright/compiler/pattern"
)

// border sews one border round what is laid so far.
func (w *work) border(b *pattern.BorderStrip) string {
	if b.Fabric == pattern.NoFabric {
		return "a border has no fabric: border 3in of sky"
	}
	number := 1
	for i := range w.q.Borders {
		if &w.q.Borders[i] == b {
			number += i
		}
	}
	what := "border"
	if len(w.q.Borders) > 1 {
		what += " " + strconv.Itoa(number)
	}
	t, in := b.Width, w.size
	w.shift(t)
	w.size = pattern.Size{W: in.W + 2*t, H: in.H + 2*t}
	switch b.Corner {
	case pattern.ButtedCorner:
		// The sides take the length through the middle; top and bottom the whole
		// width then (Determining border lengths, anniesattic.com).
		w.rectangle(b.Fabric, 0, t, t, in.H)
		w.rectangle(b.Fabric, t+in.W, t, t, in.H)
		w.rectangle(b.Fabric, 0, 0, w.size.W, t)
		w.rectangle(b.Fabric, 0, t+in.H, w.size.W, t)
		w.run(what, b.Fabric, t, in.H, in.H, w.size.W, w.size.W)
	case pattern.StoneCorner:
		w.rectangle(b.Fabric, 0, t, t, in.H)
		w.rectangle(b.Fabric, t+in.W, t, t, in.H)
		w.rectangle(b.Fabric, t, 0, in.W, t)
		w.rectangle(b.Fabric, t, t+in.H, in.W, t)
		for _, c := range [4]pattern.Pos{{}, {X: t + in.W}, {X: t + in.W, Y: t + in.H}, {Y: t + in.H}} {
			w.rectangle(b.Stones, c.X, c.Y, t, t)
		}
		w.run(what, b.Fabric, t, in.H, in.H, in.W, in.W)
		w.cut("corners of the "+what, b.Stones, w.exact(pattern.Size{W: t, H: t}), 4)
	case pattern.MitredCorner:
		x, y := w.size.W, w.size.H
		w.area(b.Fabric, []pattern.Pos{{}, {X: x}, {X: x - t, Y: t}, {X: t, Y: t}})
		w.area(b.Fabric, []pattern.Pos{{X: x}, {X: x, Y: y}, {X: x - t, Y: y - t}, {X: x - t, Y: t}})
		w.area(b.Fabric, []pattern.Pos{{X: x, Y: y}, {Y: y}, {X: t, Y: y - t}, {X: x - t, Y: y - t}})
		w.area(b.Fabric, []pattern.Pos{{Y: y}, {}, {X: t, Y: t}, {X: t, Y: y - t}})
		// As long as the finished side, and an inch to mitre (mitred borders,
		// quiltingboard.com t168402); run adds two allowances of it.
		more := 1 - 2*w.a
		w.run(what, b.Fabric, t, x+more, x+more, y+more, y+more)
	}
	return ""
}

// shift moves all that is laid, to make room below and on the left.
func (w *work) shift(by pattern.Length) {
	for i := range w.out.Placed {
		w.out.Placed[i].Shift.X += by
		w.out.Placed[i].Shift.Y += by
	}
	for i := range w.out.Areas {
		for k := range w.out.Areas[i].Polygon {
			q := &w.out.Areas[i].Polygon[k]
			*q = pattern.Pos{X: q.X + by, Y: q.Y + by}
		}
	}
}

// bindingMore is what a binding takes beyond the edge of the quilt, for corners
// and for joining its strips and ends: (perimeter + 12) / width (Binding,
// suite101.com, 2009).
const bindingMore = 12 * pattern.Inch

// finish adds what is put behind the top, and round its edge.
func (w *work) finish() string {
	q, size := w.q, w.out.Size
	if q.Binding.Width > 0 {
		if q.Binding.Fabric == pattern.NoFabric {
			return "its binding has no fabric: binding 2 1/4in of sky"
		}
		w.out.Runs = append(w.out.Runs, pattern.Run{For: "binding", Fabric: q.Binding.Fabric, Height: q.Binding.Width,
			Lengths: []pattern.Length{2*(size.W+size.H) + bindingMore}, Loose: true, Bias: q.Bias})
	}
	if b := q.Backing; b.Width > 0 {
		if b.Fabric == pattern.NoFabric {
			return "its backing has no fabric: backing 4in of sky"
		}
		w.out.Backing = pattern.Size{W: size.W + 2*b.Width, H: size.H + 2*b.Width}
		w.backing(b.Fabric)
	}
	if q.Batting > 0 {
		w.out.Batting = pattern.Size{W: size.W + 2*q.Batting, H: size.H + 2*q.Batting}
	}
	return ""
}

// backing is pieced from whole widths of cloth side by side, the way that takes
// less of it.
func (w *work) backing(fabric int) {
	usable := w.p.Settings.Buying.Usable
	if usable <= 2*w.a {
		return
	}
	size, best := w.out.Backing, pattern.Run{}
	for _, s := range [2]pattern.Size{size, {W: size.H, H: size.W}} {
		n := 1
		for pattern.Length(n)*usable-pattern.Length(n-1)*2*w.a < s.W-same { // a seam between two widths
			n++
		}
		if best.Height == 0 || pattern.Length(n)*s.H < best.Height*pattern.Length(len(best.Lengths))-same {
			best = pattern.Run{For: "backing", Fabric: fabric, Height: pattern.RoundUp(s.H, w.step), Lengths: make([]pattern.Length, n), Lengthy: true}
			for i := range best.Lengths {
				best.Lengths[i] = usable
			}
		}
	}
	w.out.Runs = append(w.out.Runs, best)
}
