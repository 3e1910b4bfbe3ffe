package quilting

import (
	"slices"
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
	inner := w.parts()
	w.shift(t)
	w.size = pattern.Size{W: in.W + 2*t, H: in.H + 2*t}
	o := &outer{work: w, number: number, inner: inner, t: t, in: in}
	switch b.Corner {
	case pattern.ButtedCorner:
		// The sides take the length through the middle; top and bottom the whole
		// width then (Determining border lengths, anniesattic.com).
		o.sides(w.rectangle(what, b.Fabric, 0, t, t, in.H), w.rectangle(what, b.Fabric, t+in.W, t, t, in.H))
		o.bottom(0, w.size.W, w.rectangle(what, b.Fabric, 0, 0, w.size.W, t))
		o.top(0, w.size.W, w.rectangle(what, b.Fabric, 0, t+in.H, w.size.W, t))
		w.run(what, b.Fabric, t, in.H, in.H, w.size.W, w.size.W)
	case pattern.StoneCorner:
		o.sides(w.rectangle(what, b.Fabric, 0, t, t, in.H), w.rectangle(what, b.Fabric, t+in.W, t, t, in.H))
		for _, y := range [2]pattern.Length{0, t + in.H} {
			stone := "corner of the " + what
			parts := []pattern.Part{w.rectangle(stone, b.Stones, 0, y, t, t), w.rectangle(what, b.Fabric, t, y, in.W, t), w.rectangle(stone, b.Stones, t+in.W, y, t, t)}
			for k, x := range [2]pattern.Length{t, t + in.W} {
				w.join(pattern.InBorder, number, [2]pattern.Pos{{X: x, Y: y}, {X: x, Y: y + t}}, parts[k:k+1], parts[k+1:k+2])
			}
			if y == 0 {
				o.bottom(0, w.size.W, parts...)
			} else {
				o.top(0, w.size.W, parts...)
			}
		}
		w.run(what, b.Fabric, t, in.H, in.H, in.W, in.W)
		w.cut("corners of the "+what, b.Stones, w.exact(pattern.Size{W: t, H: t}), 4)
	case pattern.MitredCorner:
		o.mitred(what, b.Fabric)
		// As long as the finished side, and an inch to mitre (mitred borders,
		// quiltingboard.com t168402); run adds two allowances of it.
		more, x, y := 1-2*w.a, w.size.W, w.size.H
		w.run(what, b.Fabric, t, x+more, x+more, y+more, y+more)
	}
	return ""
}

// An outer is a border being sewn to what lies inside it.
type outer struct {
	*work
	number int
	inner  []pattern.Part
	t      pattern.Length // the border's width
	in     pattern.Size   // of what lies inside
}

// sides sews on the strips on the left and on the right.
func (o *outer) sides(left, right pattern.Part) {
	t, high := o.t, o.t+o.in.H
	o.join(pattern.ToBorder, o.number, [2]pattern.Pos{{X: t, Y: t}, {X: t, Y: high}}, []pattern.Part{left}, o.inner)
	o.join(pattern.ToBorder, o.number, [2]pattern.Pos{{X: t + o.in.W, Y: t}, {X: t + o.in.W, Y: high}}, o.inner, []pattern.Part{right})
	o.inner = append(o.inner, left, right)
}

// bottom sews on what lies below, along a stretch.
func (o *outer) bottom(from, to pattern.Length, parts ...pattern.Part) {
	o.join(pattern.ToBorder, o.number, [2]pattern.Pos{{X: from, Y: o.t}, {X: to, Y: o.t}}, o.inner, parts)
}

// top sews on what lies above.
func (o *outer) top(from, to pattern.Length, parts ...pattern.Part) {
	o.join(pattern.ToBorder, o.number, [2]pattern.Pos{{X: from, Y: o.t + o.in.H}, {X: to, Y: o.t + o.in.H}}, parts, o.inner)
}

// mitred sews on four strips, and then their ends to each other.
func (o *outer) mitred(what string, fabric int) {
	t, x, y := o.t, o.size.W, o.size.H
	bottom := o.area(what, fabric, []pattern.Pos{{}, {X: x}, {X: x - t, Y: t}, {X: t, Y: t}})
	right := o.area(what, fabric, []pattern.Pos{{X: x}, {X: x, Y: y}, {X: x - t, Y: y - t}, {X: x - t, Y: t}})
	top := o.area(what, fabric, []pattern.Pos{{X: x, Y: y}, {Y: y}, {X: t, Y: y - t}, {X: x - t, Y: y - t}})
	left := o.area(what, fabric, []pattern.Pos{{Y: y}, {}, {X: t, Y: t}, {X: t, Y: y - t}})
	o.inner = slices.Clip(o.inner)
	inner := o.inner
	o.sides(left, right)
	o.inner = inner
	o.bottom(t, x-t, bottom)
	o.top(t, x-t, top)
	for _, m := range [4]struct {
		from, to    pattern.Pos
		left, right pattern.Part
	}{
		{pattern.Pos{}, pattern.Pos{X: t, Y: t}, left, bottom},
		{pattern.Pos{X: x}, pattern.Pos{X: x - t, Y: t}, bottom, right},
		{pattern.Pos{X: x, Y: y}, pattern.Pos{X: x - t, Y: y - t}, right, top},
		{pattern.Pos{Y: y}, pattern.Pos{X: t, Y: y - t}, top, left},
	} {
		o.join(pattern.InBorder, o.number, [2]pattern.Pos{m.from, m.to}, []pattern.Part{m.left}, []pattern.Part{m.right})
	}
}

// parts lists all that is laid so far.
func (w *work) parts() (all []pattern.Part) {
	for i := range w.out.Placed {
		all = append(all, pattern.Part(i))
	}
	for i := range w.out.Areas {
		all = append(all, pattern.AreaPart(i))
	}
	return all
}

// shift moves all that is laid, to make room below and on the left.
func (w *work) shift(by pattern.Length) {
	move := func(p *pattern.Pos) { *p = pattern.Pos{X: p.X + by, Y: p.Y + by} }
	for i := range w.out.Placed {
		move(&w.out.Placed[i].Shift)
	}
	for i := range w.out.Areas {
		for k := range w.out.Areas[i].Polygon {
			move(&w.out.Areas[i].Polygon[k])
		}
	}
	for i := range w.joints {
		move(&w.joints[i].join.A)
		move(&w.joints[i].join.B)
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
			return "its binding has no fabric: binding 2 1/4in of sky, or binding sky"
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
