package drawing

import "seamwright/compiler/pattern"

// A Page is one sheet of paper or one picture.
type Page struct {
	Name  string // file name without extension
	Title string // for readers of the file; author's text, not yet escaped
	Size  pattern.Size
	Items []Item // painted in this order
}

// An Item is a Path, a Text or a Group.
type Item interface{ item() }

// A Path is a chain of straight strokes, stroked or filled, or a circle; or many
// strokes of one style, each by itself.
type Path struct {
	Points []pattern.Pos
	Circle pattern.Length // radius of a circle about Points[0], instead of a chain; 0 for a chain
	Fill   Colour         // of a closed path; NoColour for none
	Style  Style
	Closed bool
	Pairs  bool // every two of Points are a stroke: no chain, never filled
}

// A Text is one line of text. At is on the baseline, at its start, middle or
// end as Anchor says; Turn is in degrees, anticlockwise on the page.
type Text struct {
	Text   string // author's text as it is; renderers escape
	At     pattern.Pos
	Size   pattern.Length // cap height is CapHeight of this
	Turn   float64
	Colour Colour
	Anchor Anchor
	Bold   bool
}

// A Group has an identity for tests, editors and the live page ("section-A",
// "space-A1") and may be clipped.
type Group struct {
	ID    string        // unique in its page; letters, digits, - and _
	Class string        // what it is: section, space, mark, rule, legend, ...
	Clip  []pattern.Pos // nil: not clipped
	Items []Item

	// Shared says that this very group stands on many pages, so that a writer
	// may keep what it made of it. It has an ID and is not changed any more.
	Shared bool
}

// Anchor says which end of a text At is.
type Anchor int8

const (
	Start Anchor = iota
	Middle
	End
)

// A Style names how a line is drawn; its look is in styles.go, once.
type Style int8

const (
	NoLine      Style = iota
	SewingLine        // between spaces: solid, thin
	OutlineLine       // a section's edge, a sewing line when joined: solid, heavier
	CuttingLine       // a seam allowance outside the outline: dashed
	ExtraLine         // left until the block is joined: dotted
	RunOnLine         // a sewing line's end carried on through the allowance: hairline
	MarkLine          // match marks
	RuleLine          // scale rules and squares
	FrameLine         // boxes, rings of numbers, furniture
	LeaderLine        // from a label to its space: hairline, short dashes
	PatchLine         // outlines in coloured pictures
	PlaceLine         // where the next raw edge lies: faint, sparse short dashes
	GlueLine          // where parts of a drawing are glued to each other: fine, very long dashes
	Styles            // how many there are
)

// A Colour is 0xRRGGBB, or NoColour.
type Colour int32

// NoColour paints nothing. Black is the text and line colour.
const (
	NoColour Colour = -1
	Black    Colour = 0
)

func (*Path) item()  {}
func (*Text) item()  {}
func (*Group) item() {}
