package solver

import "seamwright/compiler/plane"

// A Partition is an outline divided into patches. Indices in it point into its
// own slices; -1 stands for "none".
type Partition struct {
	Points  []Point
	Edges   []Edge // each seam's edges stand together and in order, the outline's come last
	Seams   []Seam
	Patches []Patch
	Faults  []Fault // if any, there is no plan
	Near    []Near  // places that were taken as different but are suspiciously near
	Idle    []int   // lines of the input that divide nothing
	Gap     Gap

	tiled bool // made by Tile
	mesh  *mesh
}

// A Role says what meets at a point.
type Role int8

const (
	OnOutline Role = iota
	Plain          // inside one seam, and nothing meets it
	Tee            // a seam runs straight through, others meet it from one side only
	Match          // seams meet here from both sides: matched once in every plan
)

// A Point is a place where edges meet or bend.
type Point struct {
	plane.Point
	Role Role
}

// An Edge runs between two points with nothing between them.
type Edge struct {
	From, To    int // points; along the seam, or anticlockwise on the outline
	Left, Right int // patches; Right is -1 on the outline
	Seam        int // -1 on the outline
	Line        int // the first line (or polygon) of the input that it lies on; -1 on the outline
}

// A Seam is a straight run of inner edges that can't be made longer.
type Seam struct {
	Points []int // from end to end
	First  int   // its edges are First, First+1, ...: one less than its points
}

// A Patch is an area without lines in it.
type Patch struct {
	Points  []int // anticlockwise, with those in the middle of a side
	Edges   []int // Edges[i] lies between Points[i] and the next
	Area    float64
	Convex  bool // always, unless the outline itself is not convex
	Polygon int  // with Tile: the polygon it is; else -1
}

// A Gap shows how safely equal was told from different: nothing was measured
// between Zero and NonZero.
type Gap struct {
	Zero    float64 // the largest distance taken as none
	NonZero float64 // the smallest taken as some; infinite if there was none
	Area    float64 // difference between the outline's area and the patches'
}

// A Near is two places that are different but nearer than the limit given.
type Near struct {
	A, B     plane.Point
	Distance float64
}

// A FaultKind says why lines don't make patches.
type FaultKind int8

const (
	NoLength   FaultKind = iota // a line whose ends are one point
	LooseEnd                    // a line stops in the middle of a patch
	Floating                    // lines that touch neither the outline nor anything that does
	NotConvex                   // a patch has a corner that turns inwards; Unsewable tells the cure
	BadOutline                  // fewer than three corners, no area, or it crosses itself
	Uncovered                   // with Tile: an area that no polygon covers
	Overlap                     // with Tile: an area that two polygons claim
	Outside                     // with Tile: a polygon reaches over the outline
	TooMany                     // lines meet millions of times
	Unresolved                  // numbers too large, not finite, or the areas don't add up
)

// A Fault is one reason why the partition can't be used.
type Fault struct {
	Kind     FaultKind
	At       plane.Point   // the loose end, the corner that turns inwards, a point of the area
	Line     int           // the line or polygon concerned, or -1
	Other    int           // Overlap: the second polygon; else -1
	Nearest  plane.Point   // LooseEnd: the nearest point of the patch's border, its own line left out
	Ahead    plane.Point   // LooseEnd: where it would arrive if it ran on
	Back     plane.Point   // LooseEnd: where it last met another line, or its other end
	Area     float64       // Uncovered, Overlap
	Polygon  plane.Polygon // NotConvex, Uncovered, Overlap: the area concerned
	Distance float64       // LooseEnd: from At to Nearest
}

// A Witness shows that one part can't be taken apart, though every cut that
// could be made has been made.
type Witness struct {
	Patches []int // the part
	Point   int   // a point with no straight seam through it, or -1
	Cycle   []Run // else the shortest round of seams each of which stops inside the next
	Cure    []Extension
}

// A Run is the stretch of a seam inside a part. It stops at To, a point inside
// the next run of the cycle.
type Run struct {
	Seam     int
	From, To int // points
}

// An Extension prolongs a drawn line. A witness's cure has been tried: with all
// its extensions drawn, the part can be sewn. It is the smallest that was found.
type Extension struct {
	Line     int // the line of the input that ends at From
	From, To plane.Point
	Cuts     int // patches that it divides
}

// Wishes are what the author or the paper asks of a plan. The zero value asks
// for nothing.
type Wishes struct {
	MaxPieces int                      // pieces in a section; 0 is any number
	Fits      func(plane.Polygon) bool // whether a section of this outline fits; every part of it must fit then too
	Unfit     int                      // as how many sections one that does not fit counts, two or more; 0 is 4, for it takes parts, glued together
	Plain     []bool                   // of a patch: alone it is a section that fits, however large; nil if none is
	Together  [][]int                  // patches that must share a section
	Distinct  []int                    // indices into Together: no two of these sets may share a section
	NoJoin    []int                    // edges that no join may follow
	Join      []int                    // edges that a join must follow
	First     []int                    // patches that must be the first of their section
	Alike     []int                    // of every patch a number, the same for patches of one fabric: of equally many sections, those of which fewer differ are taken; nil if that doesn't matter
	Budget    int                      // patches to look at before giving up on proof; 0 is DefaultBudget
}

// A Plan is how to sew the patches.
type Plan struct {
	Sections []Section
	Joins    []Join // in sewing order; the last one finishes the block
	Depth    int    // most joins that any patch goes through

	Least       int   // fewest sections found, wishes aside
	Bound       int   // and there can't be fewer than this
	Proved      bool  // Least is the fewest possible
	Certificate []int // patches no two of which can share a section: as many as Bound, or fewer if a search was the proof

	Refused []Refusal // wishes that can't be had
	Over    []int     // sections larger than wished: no sensible division was found
	Parts   int       // how many parts the search looked at
}

// A Section is built by adding one patch at a time.
type Section struct {
	Patches []int         // in sewing order
	Seams   []plane.Line  // Seams[i] is the seam of Patches[i], which lies to its left; Seams[0] is zero
	Outline plane.Polygon // anticlockwise, without corners in the middle of a side
}

// A Join sews two finished parts along one straight line. Left and Right are
// the sections on either side of the line from A to B.
type Join struct {
	A, B        plane.Point
	Left, Right []int
	Level       int // 1 + the greatest level of the joins inside its two parts

	// Partial: sewn from A only as far as B. A later join, whose line this one lies
	// on, sews the rest. See [Partition.PlanPartial].
	Partial bool

	opened bool // a whole partial seam, or a join that ends on one while it is open
}

// A WishKind names a field of Wishes.
type WishKind int8

const (
	WishTogether WishKind = iota
	WishNoJoin
	WishFirst
	WishDistinct
)

// A Refusal is a wish that can't be had, and why.
type Refusal struct {
	Kind  WishKind
	Index int   // into the field of Wishes; of Distinct, into Together
	Part  []int // the smallest part that holds what was asked: it can't be one section
}
