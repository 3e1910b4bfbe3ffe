package pattern

// A Quilt is a setting of blocks: what the author declares, and in Layout what it
// comes to. Lengths are finished ones, but for the binding.
type Quilt struct {
	Title    string
	Block    string // the only block it is made of, by name, and how many; "" for others
	Blocks   int
	Finished Length // width of the blocks; 0 if not told
	Source   Source

	Rows         [][]Cell      // from the top down, from the left; on point, the rows between are one shorter
	OnPoint      bool          // blocks stand on a corner
	Triangles    int           // fabric of the setting triangles on point
	Sashing      Band          // between the blocks
	Around       bool          // sashing runs round all of them too
	Cornerstones int           // fabric where sashes cross; NoFabric for none
	Borders      []BorderStrip // from the inside out
	Binding      Band          // Width is of the strip as it is cut
	Bias         bool          // of the binding: cut on the bias
	Backing      Band          // Width is how far it reaches beyond the quilt, on every side
	Batting      Length        // likewise

	Layout *Layout // nil where Why says that there is none
	Why    string  // in a sentence, without its full stop
}

// NoFabric stands where no fabric is named.
const NoFabric = -1

// A Cell is a block in its place, or a plain square of a fabric.
type Cell struct {
	Block    string // by name; "" for a plain square
	Fabric   int    // of a plain square
	Turn     int    // quarter turns, anticlockwise, 0 to 3
	Reversed bool   // turned over, left for right, before it is turned
	Source   Source
}

// A Band is a strip of one fabric.
type Band struct {
	Width  Length // 0: there is none
	Fabric int    // NoFabric where none is named
}

// A Corner is how the sides of a border meet.
type Corner int8

const (
	ButtedCorner Corner = iota // sides first, then top and bottom right across
	StoneCorner                // a square in each corner
	MitredCorner               // at 45 degrees
)

// A BorderStrip runs round everything inside it.
type BorderStrip struct {
	Band
	Corner Corner
	Stones int // fabric of the squares
}

// A Layout is a quilt worked out. Places are in inches from its lower left corner.
type Layout struct {
	Size    Size     // finished, without the binding
	Placed  []Placed // blocks
	Areas   []Area   // everything else that is seen
	Rows    []Row    // from the top down; on point from the upper left corner
	Joins   []QuiltJoin
	Cuts    []Cut // patches of what lies between the blocks and round them, alike ones together
	Runs    []Run // long strips
	Backing Size  // of the whole; zero for none
	Batting Size
	Two     []TwoWays // blocks that are pressed in two ways
	Untried bool      // not every way of pressing was looked at: in another more seams may nest
}

// A Placed is a block in a quilt: indices into Blocks and its Sizes. It is
// reversed (x becomes -x), turned anticlockwise, then shifted.
type Placed struct {
	Block, Size int
	Turn        float64 // degrees
	Reversed    bool
	Shift       Pos
	Row, In     int    // the how many-eth of its row, and that row, from 1, as they are written
	OtherWay    bool   // some of its joins are pressed the other way: see TwoWays
	Source      Source // of its cell
}

// Motion returns a function that takes a point of the block to the quilt.
func (p *Placed) Motion() func(Pos) Pos {
	move := (&Copy{Turn: p.Turn, Shift: p.Shift}).Motion()
	if !p.Reversed {
		return move
	}
	return func(q Pos) Pos { return move(Pos{X: -q.X, Y: q.Y}) }
}

// CornerTriangle is what an area in a corner of a quilt on point is for.
const CornerTriangle = "corner triangle"

// An Area is a part of a quilt outside its blocks.
type Area struct {
	For     string // what it is, one of it: "sash", "cornerstone", "border 2"
	Fabric  int
	Polygon []Pos
}

// A Cut is how often one patch is cut, exact.
type Cut struct {
	For    string // what it is: "sashes"
	Fabric int
	Shape  Shape
	Size   Size // as cut; of the square before it is cut on a diagonal
	Count  int  // of patches: triangles, not squares
}

// A Run is a strip of which so much is needed, whatever it is pieced from.
type Run struct {
	For     string
	Fabric  int
	Height  Length   // as cut
	Lengths []Length // as cut, each in one piece once strips are joined
	Loose   bool     // one long strip of the sum of the lengths
	Bias    bool     // cut on the bias
	Lengthy bool     // whole widths of cloth, one length after the other: a backing
}
