package rules

import "seamwright/compiler/pattern"

// slack keeps a piece that is drawn exactly on a threshold on its good side:
// far above rounding error, far below anything that can be cut.
const slack pattern.Length = 1e-4
