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

	Overlap        problem.Code = "G120" // placed units that overlap
	ReachesOut     problem.Code = "G121" // a placed unit that reaches out of its parent
	CrossesJoin    problem.Code = "G122" // a placed unit that lies across a join
	Gap            problem.Code = "G123" // placed units that leave a gap
	NoStraightJoin problem.Code = "G124" // placed units without a straight join between them
	FoundJoins     problem.Code = "G125" // joins that were found, not written

	NearPoints problem.Code = "G130" // two points that are almost one
	Renamed    problem.Code = "G140" // a letter that is taken
	DrawnUnit  problem.Code = "G150" // a drawn unit

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
	return append(infos, wholeCodes()...)
}
