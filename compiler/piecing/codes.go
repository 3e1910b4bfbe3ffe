package piecing

import "seamwright/lang/problem"

// Codes of this package.
const (
	LooseEnd      problem.Code = "G102" // a join that stops short
	IdleJoin      problem.Code = "G103" // a join that divides nothing
	AnchorOutside problem.Code = "G104" // a section's point outside the unit
	AnchorOnJoin  problem.Code = "G105" // a section's point on a join or edge
	TwoInOne      problem.Code = "G106" // two sections in one region
	EmptyRegion   problem.Code = "G107" // a region without a section
	DividesUnit   problem.Code = "G108" // a join `from` a size through a placed unit
	TooMany       problem.Code = "G109" // more regions than can be worked out

	AnchorOnSeam   problem.Code = "G110" // a section's point on one of its seams
	PieceMissing   problem.Code = "G111" // a seam that misses its section
	PieceSwallowed problem.Code = "G112" // a piece that later ones cover
	PieceScattered problem.Code = "G113" // a seam that crosses its section twice
	NotInPiece     problem.Code = "G114" // a point that its piece does not hold
	AnchorNear     problem.Code = "G115" // a section's point almost on a seam
	RunsOn         problem.Code = "G116" // a seam that runs on beyond what is written
	PartialSeam    problem.Code = "G117" // a partial join that can't be sewn so

	Overlap        problem.Code = "G120" // placed units that overlap
	ReachesOut     problem.Code = "G121" // a placed unit that reaches out of its parent
	CrossesJoin    problem.Code = "G122" // a placed unit that lies across a join
	Gap            problem.Code = "G123" // placed units that leave a gap
	NoStraightJoin problem.Code = "G124" // placed units without a straight join between them
	FoundJoins     problem.Code = "G125" // joins that were found, not written

	NearPoints problem.Code = "G130" // two points that are almost one
	Renamed    problem.Code = "G140" // a letter that is taken

	LooseLine     problem.Code = "G151" // a line that ends in the middle of a patch
	FloatingLine  problem.Code = "G152" // lines that touch nothing else
	NotConvex     problem.Code = "G153" // a patch with an inward corner
	NotSewable    problem.Code = "G154" // patches that no straight seam parts
	NamedTwice    problem.Code = "G155" // a patch with two fabrics
	Unnamed       problem.Code = "G156" // a patch without a fabric
	PointOnLine   problem.Code = "G157" // a point that is in no patch
	AlmostOne     problem.Code = "G158" // points that are almost one, in a drawing that fails
	CornersDiffer problem.Code = "G159" // corners that are not those of a patch
	Sections      problem.Code = "G160" // how a drawn unit is sewn
	IdleLine      problem.Code = "G161" // a line that divides nothing
	WishRefused   problem.Code = "G162" // sections as they can't be had
	WishIdle      problem.Code = "G163" // a wish for sections that is about nothing

	NotCovered problem.Code = "G190" // a fault of the program
)

// Fabrics of the examples.
const (
	sky = "fabric sky light #dfeaf0\n"
	sea = "fabric sea dark #25525e\n"
)

// Codes explains the problems that this package reports.
func Codes() []problem.Info {
	infos := regionCodes()
	infos = append(infos, pieceCodes()...)
	infos = append(infos, placeCodes()...)
	infos = append(infos, drawnCodes()...)
	return append(infos, wholeCodes()...)
}
