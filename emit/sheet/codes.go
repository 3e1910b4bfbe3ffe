package sheet

import "seamwright/lang/problem"

// The codes of paper.
const (
	TooLarge   problem.Code = "S101" // a section fits the sheet at no angle
	SmallPaper problem.Code = "S102" // the sheet has no room for a section and what must be printed beside it
	NoLabel    problem.Code = "S201" // a space has no room for its label
	NoGlyph    problem.Code = "S202" // the font has no such character
)
