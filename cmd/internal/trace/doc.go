// Package trace turns a drawing, an SVG file of a general drawing program, into
// the text of a drawn unit: its lines on a grid, its fills as fabrics.
//
//	d, err := trace.Read(svg)               // shapes as they lie on the page, and what was left out
//	text, err := d.Text(trace.Options{...}) // a pattern
//
// The way, a file a step:
//
//	read     elements, groups, transforms, styles become shapes of straight sides
//	refer    clones, and what style sheets say of classes
//	path     path data
//	frame    what of it is the block: all, a rectangle, or the page
//	snap     points that are nearly one become one, and lie on a grid if they can
//	picture  what can be seen: lines without those that are painted over, patches
//	         with their colors
//	repeat   equal cells, turned or reversed, become a unit that is placed
//	write    the text
//
// Lengths are in units of the drawing until snap, in grid squares from there on;
// y points down until snap. Nothing is guessed: what can't be taken (curves,
// texts, pictures, clones of symbols) is listed with its name.
package trace

import "seamwright/compiler/plane"

// A Drawing is what could be read.
type Drawing struct {
	Shapes  []Shape // as painted: later ones lie on top
	LeftOut []LeftOut
	Page    *[2]plane.Point // its corners, least and greatest; nil if that is not told

	edge *[2]plane.Point // of the block, if it is not all that is drawn
}

// A Shape is a chain of straight sides.
type Shape struct {
	Points []plane.Point
	Closed bool   // the last point is joined to the first
	Filled bool   // with Fill
	Fill   uint32 // 0xrrggbb
	Drawn  bool   // its sides are lines: it has a stroke, or is filled
	ID     string // its id, or its tag and place
}

// A LeftOut is an element that was not taken.
type LeftOut struct {
	What string // "a curve", "text"
	ID   string // its id, or its tag and place: "path on line 12"
}

// Options say what to write.
type Options struct {
	Name  string  // of the block
	Title string  // of the pattern
	Snap  float64 // how near points are taken as one, as a part of the longer side; 0 is DefaultSnap
}

// DefaultSnap is 1/32 in of a block of 8 in: two seams nearer than that can't be
// sewn apart, and drawing programs that snap to a grid err far less.
const DefaultSnap = 1.0 / 256

const (
	// leastSnap and mostSnap bound the tolerance: below, rounding in the file
	// would part what is one; above, there would be fewer than ten places on a side.
	leastSnap = 1e-5
	mostSnap  = 1.0 / 40

	// maxSides bounds the work: every side may meet every other one.
	maxSides = 5000

	// maxDepth bounds groups in groups.
	maxDepth = 100
)
