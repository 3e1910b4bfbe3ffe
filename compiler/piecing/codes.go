package piecing

import "seamwright/lang/problem"

// Codes of this package.
const (
	BadOutline     problem.Code = "G101"
	LooseEnd       problem.Code = "G102"
	IdleJoin       problem.Code = "G103"
	AnchorOutside  problem.Code = "G104"
	AnchorOnJoin   problem.Code = "G105"
	TwoInOne       problem.Code = "G106"
	EmptyRegion    problem.Code = "G107"
	DividesUnit    problem.Code = "G108"
	AnchorOnSeam   problem.Code = "G110"
	PieceMissing   problem.Code = "G111"
	PieceSwallowed problem.Code = "G112"
	PieceScattered problem.Code = "G113"
	NotInPiece     problem.Code = "G114"
	AnchorNear     problem.Code = "G115"
	RunsOn         problem.Code = "G116"
	Overlap        problem.Code = "G120"
	ReachesOut     problem.Code = "G121"
	CrossesJoin    problem.Code = "G122"
	Gap            problem.Code = "G123"
	NoStraightJoin problem.Code = "G124"
	FoundJoins     problem.Code = "G125"
	NearPoints     problem.Code = "G130"
	Renamed        problem.Code = "G140"
	DrawnUnit      problem.Code = "G150"
	NotCovered     problem.Code = "G190"
)
