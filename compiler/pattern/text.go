package pattern

import "seamwright/lang/problem"

// A Text is one that the author wrote and that is printed, with its place.
type Text struct {
	Words string
	At    problem.Place
}
