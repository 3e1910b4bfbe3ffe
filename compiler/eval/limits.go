package eval

// Limits. Each is far above what a sewable pattern needs and low enough that
// reaching it takes well under a second and a few megabytes.
const (
	// maxSteps is how many expressions and statements one file may need. A block
	// of 10,000 pieces takes about 200,000.
	maxSteps = 5_000_000

	// bodySteps is what working a unit out for new arguments counts, besides its
	// statements: it takes memory that is kept.
	bodySteps = 100

	// maxRange is how often one range may run.
	maxRange = 100_000

	// maxDepth is how deep units may stand in units: a quilt of blocks of quarters
	// of wedges is 4.
	maxDepth = 64

	// maxParts is how many pieces, sections, joins, lines and places a unit may
	// have, those of its placed units counted at each place.
	maxParts = 200_000

	// maxSizes is how many finished sizes a block may have.
	maxSizes = 24

	// maxCorners is how many corners an outline may have.
	maxCorners = 200

	// maxFiles is how many files one pattern may use.
	maxFiles = 100

	// maxGrid is the largest width or height of a unit, and the farthest any point
	// may lie from the origin, in grid squares. A double tells points a thousandth
	// of a thread apart there.
	maxGrid = 10_000

	// minSegment is the least length that gives a line a direction, in grid squares.
	// Shorter ones come from sums that should have been equal.
	minSegment = 1e-6

	// maxFinished is the largest finished side in inches: ten feet, wider than any
	// bed quilt.
	maxFinished = 120

	// minFinished is the smallest finished side in inches; a seam allowance is 1/4.
	minFinished = 0.25

	// ratioSlack is how far, in inches, a written finished height may be from what
	// the width and the grid make: the finest mark of a ruler, so that a height may
	// be rounded to it.
	ratioSlack = 1.0 / 64

	// maxTitle is how long a doc comment's first sentence may be and still serve as
	// a block's printed title.
	maxTitle = 48
)
