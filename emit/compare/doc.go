// Package compare tells what changed between two editions of a pattern, or
// between any two versions of it.
//
// In: two records of package edition. Out: a [Report] of changes in a maker's
// words, which can be written as text, Markdown, JSON and one HTML page with the
// two drawings laid over each other; the errata page; and, of a released edition
// that is printed otherwise now, problems.
//
// What holds afterwards: equal records give no change. A space is known by where
// it lies before it is known by its label, so that a new number reads as a new
// number and a moved line as a moved line, and neither as one space gone and
// another come. A change that is the same at several sizes is told once. What is
// only known by its sum is told only where nothing else explains it.
//
//	change    what a change is, and what it affects
//	match     which space of the old is which of the new
//	compare   patterns; blocks, sizes
//	sections  spaces, sections, marks
//	sheets    layout, and what is known by sums
//	guard     a released edition that is printed otherwise
//	text, json, html, errata: how it is told; picture: how it is drawn
package compare
