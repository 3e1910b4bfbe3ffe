package pattern

import (
	"math"
	"strconv"
)

// Label returns what is printed in a space, "A1"; i is an index into Pieces.
func (d *Drawing) Label(i int) string {
	return d.Name + strconv.Itoa(d.Pieces[i].Number)
}

// Motion returns a function that takes a point of the drawing to its place in
// the block. Quarter turns are exact.
func (c *Copy) Motion() func(Pos) Pos {
	sin, cos := math.Sincos(c.Turn * math.Pi / 180)
	switch math.Mod(math.Mod(c.Turn, 360)+360, 360) {
	case 0:
		sin, cos = 0, 1
	case 90:
		sin, cos = 1, 0
	case 180:
		sin, cos = 0, -1
	case 270:
		sin, cos = -1, 0
	}
	s, k := Length(sin), Length(cos)
	dx, dy := c.Shift.X, c.Shift.Y
	// Products are converted: rounded before they are added, on every processor alike.
	return func(p Pos) Pos {
		return Pos{Length(k*p.X) - Length(s*p.Y) + dx, Length(s*p.X) + Length(k*p.Y) + dy}
	}
}
