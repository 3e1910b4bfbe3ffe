package drawing

import (
	"math"

	"seamwright/compiler/pattern"
)

// A Reach is the rectangle of paper that items print on, in inches from the
// page's upper left corner, y down. It may be too large where a clip or a turned
// text leaves a corner free; it is never too small.
type Reach struct{ X0, Y0, X1, Y1 pattern.Length }

// EmptyReach is that of no items.
func EmptyReach() Reach {
	most := pattern.Length(math.Inf(1))
	return Reach{most, most, -most, -most}
}

// Join returns the least rectangle that holds both.
func (r Reach) Join(s Reach) Reach {
	return Reach{min(r.X0, s.X0), min(r.Y0, s.Y0), max(r.X1, s.X1), max(r.Y1, s.Y1)}
}

func (r Reach) around(p pattern.Pos, d pattern.Length) Reach {
	return r.Join(Reach{p.X - d, p.Y - d, p.X + d, p.Y + d})
}

// ReachOf returns the rectangle that items print on, the width of lines included.
func ReachOf(items []Item) Reach {
	r := EmptyReach()
	for _, item := range items {
		switch item := item.(type) {
		case *Path:
			if item.Style == NoLine && item.Fill == NoColour {
				continue
			}
			for _, p := range item.Points {
				r = r.around(p, item.Circle+item.Style.Look().Width/2)
			}
		case *Text:
			e := item.Extent()
			if e.Ink.Empty() {
				continue
			}
			sin, cos := math.Sincos(item.Turn * math.Pi / 180)
			for _, c := range [4][2]float64{{e.Ink.X0, e.Ink.Y0}, {e.Ink.X1, e.Ink.Y0}, {e.Ink.X0, e.Ink.Y1}, {e.Ink.X1, e.Ink.Y1}} {
				r = r.around(pattern.Pos{X: item.At.X + pattern.Length(c[0]*cos+c[1]*sin), Y: item.At.Y + pattern.Length(c[1]*cos-c[0]*sin)}, 0)
			}
		case *Image:
			r = r.Join(Reach{item.At.X, item.At.Y, item.At.X + item.Size.W, item.At.Y + item.Size.H})
		case *Group:
			in := ReachOf(item.Items)
			if item.Clip != nil {
				clip := ReachOf([]Item{&Path{Points: item.Clip, Fill: Black}})
				in = Reach{max(in.X0, clip.X0), max(in.Y0, clip.Y0), min(in.X1, clip.X1), min(in.Y1, clip.Y1)}
			}
			if in.X0 <= in.X1 && in.Y0 <= in.Y1 {
				r = r.Join(in)
			}
		}
	}
	return r
}
