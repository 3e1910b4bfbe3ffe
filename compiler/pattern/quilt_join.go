package pattern

// A Part is what is sewn as one when a quilt is put together: a block, an index
// into Layout.Placed from 0, or an area, see AreaPart.
type Part int

// AreaPart returns the part that an area is; i is an index into Layout.Areas.
func AreaPart(i int) Part { return Part(-1 - i) }

// Placed returns the part's index into Layout.Placed, and whether it is a block.
func (p Part) Placed() (int, bool) { return int(p), p >= 0 }

// Area returns the part's index into Layout.Areas, and whether it is an area.
func (p Part) Area() (int, bool) { return int(-1 - p), p < 0 }

// A Row is one strip of a quilt, sewn by itself before it is joined to the next.
type Row struct {
	Parts   []Part // from the left; corner triangles are in no row
	Sashing bool   // of sashes, not of blocks
}

// A Step is what a join of a quilt belongs to.
type Step int8

const (
	InRow    Step = iota // parts of one row; Of is its number from 1
	OfRows               // a row, Of, and the next
	AtCorner             // a triangle at a corner, on point
	InBorder             // strips and corners of border Of, to each other
	ToBorder             // border Of, to all inside it
)

// A QuiltJoin is one seam between parts of a quilt, all seams of blocks being sewn.
// Left and Right are the parts that lie along it, on either side of the line from A
// to B and in order from A; what has been joined to them before comes with them.
type QuiltJoin struct {
	Step        Step
	Of          int
	A, B        Pos
	Left, Right []Part
	Ends        []QuiltEnd // in order from A
	Points      []Length   // from A: where seams of both sides end, to match, with pins
	Press       Press
	Why         PressReason // of Press
	Meet        int         // seams at the fullest of its points to match; 0 without any
}

// At returns a point of the join, so far from A.
func (j *QuiltJoin) At(along Length) Pos {
	whole := j.Length()
	if whole == 0 {
		return j.A
	}
	t := along / whole
	return Pos{j.A.X + t*(j.B.X-j.A.X), j.A.Y + t*(j.B.Y-j.A.Y)}
}

// Length is how long the join is.
func (j *QuiltJoin) Length() Length { return hypot(j.B.X-j.A.X, j.B.Y-j.A.Y) }

// A SeamKind says whose seam it is that ends on a join.
type SeamKind int8

const (
	OfSection SeamKind = iota // pressed toward the newer piece, always
	OfBlock                   // a join of a block
	OfQuilt                   // an earlier join of the quilt
)

// A QuiltEnd is where a seam ends on a join of a quilt, inside it.
type QuiltEnd struct {
	Along Length // from the join's A
	Left  bool   // of the join
	Kind  SeamKind
	Part  Part // the block it belongs to; of an OfQuilt seam, 0
	Copy  int  // of an OfSection seam: index into Copies
	Index int  // into the section's Pieces, or the Joins of the block or of the quilt
	Lies  int8 // 1 where its allowances lie toward B, -1 toward A, 0 where it is open; of an OfQuilt seam as if it were pressed left
}

// A TwoWays is a block that is pressed in two ways, so that its seams nest with
// those of its neighbors: where Placed.OtherWay is set these joins, indices into
// its Joins, lie to the other side.
type TwoWays struct {
	Block, Size int
	Joins       []int
}
