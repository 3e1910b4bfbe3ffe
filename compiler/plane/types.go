package plane

// A Point is a point of the plane, or a vector.
type Point struct{ X, Y float64 }

// A Line runs through two different points, from A to B. Its left is the side
// that a walker from A to B has on the left hand. Whether it means the whole
// line or the segment is said by each function.
type Line struct{ A, B Point }

// A Polygon is a simple closed chain of corners, anticlockwise, no corner given
// twice; three corners in one line are allowed where a neighbour meets it.
type Polygon []Point

// A Motion reverses (first, if Reversed: x becomes -x), then turns, then shifts.
// Quarter turns are exact.
type Motion struct {
	Reversed bool
	Turn     float64 // degrees, anticlockwise
	Shift    Point
}
