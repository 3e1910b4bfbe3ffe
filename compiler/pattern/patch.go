package pattern

// A Shape is how a patch is cut from cloth.
type Shape int8

const (
	Uncut         Shape = iota // not worked out yet
	Rectangle                  // W x H
	Square                     // W = H
	HalfSquare                 // a square cut once on the diagonal: two patches
	QuarterSquare              // a square cut twice on the diagonals: four patches
	HalfRectangle              // a rectangle cut once on the diagonal: two patches of one hand
	TemplatePatch              // cut round a template; W x H is the cloth it takes
)

// Yield returns how many patches one W x H of cloth gives.
func (s Shape) Yield() int {
	switch s {
	case HalfSquare, HalfRectangle:
		return 2
	case QuarterSquare:
		return 4
	}
	return 1
}

// A Patch is the cloth for one space as it is cut. For a foundation it is
// larger than its space by the ease, and W runs along the seam where Along is
// set; a plain patch is exact.
type Patch struct {
	Shape    Shape
	Size     Size   // as cut; of the square or rectangle before it is cut on a diagonal
	Exact    Size   // the least that would do, before rounding
	Margin   Length // how far the cloth reaches beyond the exact need, at the least
	Plain    bool   // cut exact, for a section without paper
	Along    bool   // one edge lies along the seam, of a HalfSquare its long side; where not, a later piece is laid at a slant
	Reversed bool   // of a HalfRectangle or TemplatePatch: the other hand, cut from cloth laid face down
	Laid     [4]Pos // where the cut cloth of a foundation patch lies when finished, block coordinates, from 0 to 1 on the grain; of a triangle the last corner twice
}

// A Scrap is a piece of cloth that is there already.
type Scrap struct {
	Size   Size
	Fabric int // NoFabric where it may serve for any
}

// PatchStep returns what the sides of patches are rounded up to. Oversize
// patches go by quarters: eighths would look precise and be noise (common
// practice, no source). Exact ones go by eighths, the finest marks of nearly
// every ruler for cutting (Decimals to Fractions, thesprucecrafts.com).
func (s *Settings) PatchStep(plain bool) Length {
	switch {
	case s.Metric && plain:
		return Millimetre
	case s.Metric:
		return 5 * Millimetre
	case plain:
		return Inch / 8
	}
	return Inch / 4
}

// UsualStraighten returns how much of each cloth is cut off to straighten its end,
// unless the pattern says so: a round figure in either system (common practice, no
// source).
func UsualStraighten(metric bool) Length {
	if metric {
		return 2.5 * Centimetre
	}
	return Inch
}
