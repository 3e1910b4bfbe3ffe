package rules

import (
	"fmt"
	"math"
	"strconv"
	"sync"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// A View is one block at one finished size, as rules look at it: its pieces
// where they lie in the finished block, in inches.
type View struct {
	Pattern *pattern.Pattern
	Block   *pattern.Block
	Sized   *pattern.Sized
	Limits  Limits
	Placed  []Placed // every piece of every copy, copy by copy
	first   []int    // Placed index of each copy's first piece
	border  []plane.Ray
	crowds  func() [][]corner // the corners at places where seams crowd, gathered when first asked for
	ends    []end             // scratch
}

// A Placed is one piece in its place.
type Placed struct {
	Copy    int
	Piece   *pattern.Piece
	Drawing *pattern.Drawing
	Polygon plane.Polygon
}

func newView(p *pattern.Pattern, ls Limits, b *pattern.Block, s *pattern.Sized) *View {
	v := &View{Pattern: p, Limits: ls, Block: b, Sized: s, first: make([]int, 0, len(s.Copies))}
	for i := range s.Outline {
		v.border = append(v.border, segment(s.Outline[i], s.Outline[(i+1)%len(s.Outline)]).Ray())
	}
	pieces, corners := 0, 0
	for c := range s.Copies {
		d := &s.Drawings[s.Copies[c].Drawing]
		pieces += len(d.Pieces)
		for i := range d.Pieces {
			corners += len(d.Pieces[i].Polygon)
		}
	}
	v.crowds = sync.OnceValue(func() [][]corner { return v.gather(min(6, int(ls.number(seamsNote())))) })
	v.Placed = make([]Placed, 0, pieces)
	points := make(plane.Polygon, corners) // of all polygons
	for c := range s.Copies {
		at := &s.Copies[c]
		d := &s.Drawings[at.Drawing]
		move := plane.Motion{Turn: at.Turn, Shift: point(at.Shift)}.Matrix()
		v.first = append(v.first, len(v.Placed))
		for i := range d.Pieces {
			piece := &d.Pieces[i]
			n := len(piece.Polygon)
			polygon := points[:n:n]
			points = points[n:]
			for k, q := range piece.Polygon {
				polygon[k] = move.Apply(point(q))
			}
			v.Placed = append(v.Placed, Placed{c, piece, d, polygon})
		}
	}
	return v
}

// Of returns the pieces of one copy.
func (v *View) Of(copy int) []Placed {
	if copy+1 < len(v.first) {
		return v.Placed[v.first[copy]:v.first[copy+1]]
	}
	return v.Placed[v.first[copy]:]
}

// Label names a piece as it is printed: B3.
func (p *Placed) Label() string { return label(p.Drawing, p.Piece) }

func label(d *pattern.Drawing, p *pattern.Piece) string {
	return fmt.Sprintf("%s%d", d.Name, p.Number)
}

// size is the finished width in words, for messages.
// size is the finished width as the author would write it.
func (v *View) size() string { return v.Sized.Finished.W.Exact() }

// told tells a length as a message does.
func (v *View) told(l pattern.Length) string { return told(v.Pattern, l) }

// finest is below what length millimeters are told to the tenth: seams, not blocks.
const finest = 2 * pattern.Centimetre

// told tells a length in the pattern's own system: inches to the nearest 1/32, or
// centimeters, and of short ones millimeters.
func told(p *pattern.Pattern, l pattern.Length) string {
	switch {
	case !p.Settings.Metric:
		return l.In(32)
	case l < finest:
		return strconv.FormatFloat(math.Round(l.MM()*10+tie)/10, 'f', -1, 64) + " mm"
	}
	return l.Cm()
}

// tie is added before rounding: of equally near tenths the upper one is told, whatever
// a processor makes of the last digit.
const tie = 1e-6

func point(p pattern.Pos) plane.Point { return plane.Point{X: float64(p.X), Y: float64(p.Y)} }

func pos(p plane.Point) pattern.Pos {
	return pattern.Pos{X: pattern.Length(p.X), Y: pattern.Length(p.Y)}
}
