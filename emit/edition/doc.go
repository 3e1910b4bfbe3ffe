// Package edition keeps what an edition of a pattern prints, so that it can be
// compared with another and held to it.
//
// In: a compiled pattern with its sheets, tables and booklets. Out: a [Record],
// everything that a maker meets on paper, as plain data; and [Editions], the
// records of all released editions of one pattern as they stand in a file beside
// it: the last one whole, of each earlier one what was otherwise.
//
// What holds afterwards: reading what was written gives equal records; the file
// has one fact on a line, in the order of the pattern, so that a difference in
// git is the difference in print; nothing of the program, the machine or the
// source text is in it. Only what is bulky, strokes and the program's own
// sentences, is kept as sums, each for a part that has a name.
package edition
