package pattern

import "seamwright/lang/problem"

// A Pattern is one compiled file: everything that is printed comes from here.
type Pattern struct {
	Title    string // as the author wrote it
	File     string // the source's base name without extension, for file names
	About    About
	Settings Settings
	Fabrics  []Fabric   // in the order of the text; only those that are used or recoloured
	Blocks   []Block    // in the order of the text
	Colorway []Colorway // the pattern's own cloths come first, unnamed in the text
	Quilts   []Quilt
	Pads     []Pad
	Texts    []Text                     // what the author wrote and is printed, where it is not plain ASCII
	Accepted []Accepted                 // warnings the author answered for
	Sources  map[string]*problem.Source // the texts that it was made from, by name
	Limits   []Limit                    // every threshold that the pattern was checked by
}

// Pieces counts the pieces of all blocks in all their sizes.
func (p *Pattern) Pieces() int {
	n := 0
	for i := range p.Blocks {
		for k := range p.Blocks[i].Sizes {
			n += p.Blocks[i].Sizes[k].Figures.Pieces
		}
	}
	return n
}

// An Accepted is a warning that the author silenced, with the reason given.
type Accepted struct {
	Code, Message, Reason string
	Source                Source
}

// About is what the author says of the pattern.
type About struct {
	Edition     int
	Author      string
	Year        string
	Rights      string // permission line
	Contact     string
	Corrections string // where errata are published
	Notes       []string
	Pictures    []Picture
	Sayings     []Saying

	EditionAt  Source        // where the edition is set; zero if it is not
	LanguageAt problem.Place // where the language is set; likewise
}

// A Saying is the author's own sentence in place of one that the program would
// print, or before it.
type Saying struct {
	Name    string // of the message
	Text    string
	Instead bool
	At      problem.Place // of the name
}

// Settings are the pattern's choices, with their defaults filled in.
type Settings struct {
	Allowance Length // seam allowance, 1/4 in unless said
	Extra     Length // left beyond the cutting line on the block's border; 0 unless said
	Ease      Length // patches are cut this much larger than their space on every side; 1/2 in unless said
	Sheet     Sheet
	Miniature bool
	Metric    bool   // metric measures first
	Tint      bool   // colours as pale tints on foundation sheets
	Placement bool   // foundation sheets show where the next raw edge lies
	Tile      bool   // a section too large for the sheet is printed in parts, to be glued
	Grain     []int  // fabrics whose patches keep the straight grain on the block's border, though they are laid at a slant then
	Language  string // of the booklet's own words, "de"; "" where none is named

	AllowanceAt Source // where the allowance is set; zero if it is not
	EaseAt      Source // where the ease is set; likewise
	BraceAt     Source // of what is set: behind it a setting may be added; zero if there is none
	Buying      Buying
	Limits      []Limit // thresholds that the pattern sets; their names are not looked at
}

// Buying says how cloth to buy is reckoned.
type Buying struct {
	Usable     Length  // width of the cloth that is cut from; 0: none is reckoned
	Straighten Length  // cut off to straighten the end of each cloth
	Shrinkage  float64 // per cent of the length, lost in washing
	Spare      int     // strips more, of the commonest size
	Scraps     []Scrap // that are there already
	From       []Size  // cloths that may serve instead: fat quarters, pre-cut squares
}

// A Sheet is a size of paper and the margin that printers need.
type Sheet struct {
	Name   string // letter, a4, legal, a3, tabloid, common, or as written
	Paper  Size
	Margin Length // nothing of a section is printed nearer the paper's edge
	Bound  bool   // it is sold printed, in a pad: nothing on it tells of printing
}

// A Fabric is a role: what a cloth does in the block.
type Fabric struct {
	Name    string // as written in the text; never printed
	Words   string // as printed
	Value   string // light, medium, dark
	Colour  uint32 // 0xRRGGBB, the author's own choice of cloth
	Scrappy string // "", piece, section, unit, block
	Source  Source
}

// A Colorway dresses the roles in other cloths; Dress[i] stands for Fabrics[i].
type Colorway struct {
	Name  string // "" for the pattern's own
	Words string
	Dress []Cloth
}

// A Cloth is what is bought. Roles dressed in an equal cloth share it.
type Cloth struct {
	Words  string
	Value  string
	Colour uint32
}

// A Source says where a part of the pattern stands in the text.
type Source struct {
	File         string
	Line, Column int
}

// A Block is one block at every finished size.
type Block struct {
	Name  string // as written
	Title string // as printed: the name with spaces for underscores, or the doc comment's first sentence
	Doc   string
	Grid  [2]float64 // width and height in grid squares

	// Reverses is the name of the block that this one is the mirror image of, made
	// because a quilt has it reversed; "" for blocks that are written. Its sections
	// have the names of that block's, with an r; without where they are the same.
	Reverses string

	Sizes  []Sized // in the order of the text
	Source Source
}

// A Sized is a block at one finished size, complete in itself.
type Sized struct {
	Finished Size      // Size + 2 allowances = unfinished, before it is joined
	Outline  []Pos     // of the finished block
	Drawings []Drawing // one for each different section, in the order of their names
	Copies   []Copy    // every section of the block: drawing k appears Make times
	Joins    []Join    // in the order in which they are sewn
	Firsts   []First   // that would let more joins nest; the picture stays the same
	Figures  Figures
}

// A First says with which piece, by its index, a drawing should be begun.
type First struct{ Drawing, Piece int }

// A Drawing is one section as it is printed, wherever and however often it is used.
type Drawing struct {
	Name     string // A, B, ..., TA, or with a final r for a reversed one
	Unit     string // the unit it was written in; the block's own name if in the block
	Make     int    // copies for one block
	Reversed int    // index of the drawing that this one reverses, else -1
	Plain    bool   // one piece: cut exact, no paper
	Found    string // the sheet for which its section was found; "" if it was written
	Outline  []Pos  // as it lies in Copies[First], front view, block coordinates
	First    int    // index into Copies
	Edges    []Edge // Edges[i] runs from Outline[i] to Outline[i+1]
	Pieces   []Piece
	Source   Source
}

// A Piece is one space of a section.
type Piece struct {
	Number  int    // from 1, in sewing order
	Fabric  int    // index into Pattern.Fabrics
	Polygon []Pos  // finished, block coordinates, convex unless the section has one piece
	Seam    [2]Pos // its seam's true ends (zero for piece 1): the new piece lies to the left
	Patch   Patch  // the cloth as it is cut
	Source  Source
}

// EdgeKind says what becomes of an edge.
type EdgeKind int8

const (
	Joined EdgeKind = iota // sewn to another section of the block
	Border                 // lies on the finished block's edge
)

// An Edge is one side of a section.
type Edge struct {
	Kind     EdgeKind
	Letter   string    // small letter of the edge, where partners' names would not do: see below; else ""
	Partners []Partner // from the edge's start to its end; none on the border
	Marks    []Mark    // from the edge's start to its end
}

// A Partner is what an edge, or a part of it, is sewn to, in the first copy.
// Where copies of one drawing meet each other, or repeats of one unit, or where
// other copies meet other drawings, both edges have letters, and those are true
// of all copies.
type Partner struct {
	Drawing int    // index into Drawings
	Edge    int    // index into its Edges
	Letter  string // the partner edge's letter, or ""
}

// A MarkKind says why there is a match mark.
type MarkKind int8

const (
	JoinEnd MarkKind = iota // an end of the join
	SeamEnd                 // a seam of the section itself or of its neighbour ends here
	Between                 // on a plain stretch, so that long edges are pinned
	Stop                    // a partial seam is sewn this far at first
)

// A Mark is a point of an edge to pin through. Joined edges carry the same marks.
type Mark struct {
	At     Pos
	Kind   MarkKind
	Match  bool   // seams of both sides end here: a point that must match
	Letter string // the same on both edges, where one has more than two marks; none if Between
}

// A Copy is one section in its place. Its drawing, as it lies in the block as
// Drawing.Outline, is turned about the origin, anticlockwise, then shifted.
type Copy struct {
	Drawing int
	Turn    float64 // degrees, exact for multiples of 90
	Shift   Pos
	Of      string // the placed units it stands in, outermost first: "wedge 3"
	Source  Source // the place statement, or the section's own

	// Pieces tells where its pieces are written, where that is elsewhere than those of
	// the drawing: somebody has written the same section twice.
	Pieces []Source
}

// A Join is one seam between finished parts. Left and Right are the copies that
// lie along it, on either side of the line from A to B and in order from A; what
// has been joined to them before comes with them.
//
// A partial seam is two joins. The first, which Begins, is sewn from A and stops at
// B, though the parts lie along each other farther. The second, whose first part was
// Begun, has the ends and copies of the whole seam: what is sewn then is [Sized.Rest].
type Join struct {
	Number int // from 1, in sewing order
	A, B   Pos // true ends
	Left   []int
	Right  []int
	Points []Pos // where seams of both sides end: to match, with pins
	Press  Press
	Why    PressReason // of Press
	Meet   int         // seams at the fullest of its points to match; 0 without any
	Begins int         // number of the join that finishes this one; else 0
	Begun  int         // number of the join that this one finishes; else 0
	Source Source
}

// Figures are what was counted and measured, for the report.
type Figures struct {
	Sections, Pieces, Seams int
	Drawings, PlainDrawings int
	Points                  int    // points to match
	MostSeams               int    // seams and joins that meet at one point, at the most
	MostLayers              int    // layers of cloth at one point at the most, joins pressed as planned, where four seams or more meet; 0: nowhere, or not counted
	Narrowest               Length // least width of any piece
	NarrowestPiece          string // its label, "B3"
	AreaError               Length // |sum of pieces - block| / total edge length
	NearestPoints           Length // least distance between two different points
	SamePoints              Length // greatest distance between two points taken for one
}
