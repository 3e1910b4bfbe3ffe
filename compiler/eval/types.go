package eval

import (
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/compiler/value"
	"seamwright/lang/problem"
)

// A Result is a file evaluated, before any geometry is cut.
type Result struct {
	Pattern  pattern.Pattern // everything but Blocks[i].Sizes
	Blocks   []*Block        // as Pattern.Blocks
	Units    []*Body         // the file's other units that need no arguments, placed or not
	Accepts  []Accept        // those at the top of the file
	Problems []problem.Problem
}

// A Block is a body with finished sizes.
type Block struct {
	*Body
	Finished []pattern.Size
	At       []problem.Place // of each size
	Reverses int             // 1 + index of the block that this one is the mirror image of; 0 for one that is written
}

// A Body is a unit with its parameters settled. Two uses of a unit with equal
// arguments share one Body.
type Body struct {
	Name     string
	Source   problem.Place
	Outline  plane.Polygon
	Box      bool // a rectangle with its corner at the origin
	Joins    []Join
	Sections []Section
	Places   []Place
	Lines    []Line // of a drawn unit
	Drawn    []Drawn
	Keeps    []Keep
	Args     []Arg // the values of its parameters
	Failed   bool  // faults were reported; do not use
	Accepts  []Accept

	parts int // what was written, the parts of placed units counted at each place
}

// A Join divides; the written ends count. A partial one divides nothing: it is as
// much of a later join as is sewn when its turn comes.
type Join struct {
	Line    plane.Line
	Partial bool
	From    pattern.Length // 0: at every size
	At      problem.Place
}

// A Section is an ordered list of pieces in one region.
type Section struct {
	Name    string // "" for the next free letter
	Found   bool   // worked out from a drawing, not written
	At      problem.Place
	Pieces  []Piece
	Accepts []Accept
}

// A Piece lies beyond its line. Lines are infinite here.
type Piece struct {
	Fabric  int           // index into Pattern.Fabrics
	Param   string        // of a drawing: the parameter that names the fabric, if one does
	Line    plane.Line    // unused for the first piece
	Points  []plane.Point // the anchor (first piece) and assertions
	At      problem.Place // the whole statement
	LineAt  problem.Place
	PointAt []problem.Place // as Points
}

// A Place sets a unit into a region: Motion takes the unit's own coordinates to
// the parent's.
type Place struct {
	Body   *Body
	Motion plane.Motion
	As     string
	By     plane.Point // the unit's own point that was named, in its coordinates
	HasBy  bool
	At     problem.Place
}

// A Line is one written segment of a drawn unit.
type Line struct {
	Line    plane.Line
	Partial bool // its seam may be sewn part of the way first
	At      problem.Place
	Stmt    problem.Place // the whole statement
}

// A Keep asks that patches of a drawn unit share one section: those that hold the
// points, or those on both sides of the lines.
type Keep struct {
	Name    string // "" for the next free letter
	Points  []plane.Point
	Lines   []plane.Line
	At      problem.Place
	PointAt []problem.Place // as Points
	LineAt  []problem.Place // as Lines
}

// An Arg is a parameter with its value.
type Arg struct {
	Name  string
	Value value.Value
}

// A Drawn names the fabric of patches, by a point in each or by corners.
type Drawn struct {
	Fabric  int
	Param   string // the parameter that names the fabric, if one does
	First   bool   // each of the patches is the first of its section
	Points  []plane.Point
	Corners []plane.Point
	At      problem.Place
	PointAt []problem.Place
}

// An Accept silences a rule's warning at one place, for a stated reason.
type Accept struct {
	Code   problem.Code
	Reason string
	At     problem.Place
}
