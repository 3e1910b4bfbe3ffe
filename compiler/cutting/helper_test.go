package cutting

import (
	"math"

	"seamwright/compiler/pattern"
)

type pos = pattern.Pos

// sewn makes a section by the definition of one: from the last seam back, each
// piece is what lies left of its line.
func sewn(outline []pos, seams ...[2]pos) pattern.Drawing {
	d := pattern.Drawing{Name: "A", Make: 1, Reversed: -1, Outline: outline, Edges: make([]pattern.Edge, len(outline))}
	d.Pieces = make([]pattern.Piece, len(seams)+1)
	rest := outline
	for k := len(seams); k >= 0; k-- {
		piece := &d.Pieces[k]
		piece.Number = k + 1
		piece.Polygon = rest
		if k == 0 {
			break
		}
		left := leftOf(seams[k-1])
		at := dot(left, seams[k-1][0])
		piece.Polygon = clip(nil, rest, pos{X: -left.X, Y: -left.Y}, -at)
		rest = clip(nil, rest, left, at)
		piece.Seam = ends(piece.Polygon, seams[k-1])
	}
	d.Plain = len(seams) == 0
	return d
}

func leftOf(line [2]pos) pos {
	a, _ := direction(line[0], line[1])
	return pos{X: -a.Y, Y: a.X}
}

// ends returns the true ends of a seam: the side of its piece on the line.
func ends(polygon []pos, line [2]pos) [2]pos {
	a, _ := direction(line[0], line[1])
	low, high := pattern.Length(math.Inf(1)), pattern.Length(math.Inf(-1))
	for _, p := range polygon {
		r := pos{X: p.X - line[0].X, Y: p.Y - line[0].Y}
		if math.Abs(float64(cross(a, r))) < 1e-9 {
			low, high = min(low, dot(a, r)), max(high, dot(a, r))
		}
	}
	at := func(t pattern.Length) pos { return pos{X: line[0].X + a.X*t, Y: line[0].Y + a.Y*t} }
	return [2]pos{at(low), at(high)}
}

func cut(settings pattern.Settings, d pattern.Drawing) *pattern.Drawing {
	if settings.Allowance == 0 {
		settings.Allowance = 0.25
	}
	if settings.Ease == 0 {
		settings.Ease = 0.5
	}
	p := pattern.Pattern{Settings: settings, Blocks: []pattern.Block{{Sizes: []pattern.Sized{{Drawings: []pattern.Drawing{d}}}}}}
	Cut(&p)
	return &p.Blocks[0].Sizes[0].Drawings[0]
}

// plain cuts a section of one piece, whose sides named in border lie on the
// edge of the block.
func plain(outline []pos, border ...int) pattern.Patch {
	d := sewn(outline)
	for _, i := range border {
		d.Edges[i].Kind = pattern.Border
	}
	return cut(pattern.Settings{}, d).Pieces[0].Patch
}

func rect(w, h pattern.Length) []pos { return []pos{{}, {X: w}, {X: w, Y: h}, {Y: h}} }

// turned turns a polygon about the origin, in degrees.
func turned(polygon []pos, degrees float64) []pos {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	s, k := pattern.Length(sin), pattern.Length(cos)
	out := make([]pos, len(polygon))
	for i, p := range polygon {
		out[i] = pos{X: k*p.X - s*p.Y, Y: s*p.X + k*p.Y}
	}
	return out
}

// area returns the area of a polygon, positive if anticlockwise.
func area(polygon []pattern.Pos) pattern.Length {
	var sum pattern.Length
	for i, p := range polygon {
		sum += cross(p, polygon[(i+1)%len(polygon)])
	}
	return sum / 2
}
