package pattern

import "seamwright/lang/problem"

// A Picture is one of the author's own, for the booklet.
type Picture struct {
	File  string // as written, from the pattern's own folder
	Words string // below it; "" for none
	At    problem.Place
	Data  string // the file's bytes, of whatever kind; "" where there are none to be had
	Why   string // then, in words
}
