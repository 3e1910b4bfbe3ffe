// Package problem is the one kind of diagnostic that every stage reports:
// the parser, the evaluator, the geometry, the rules and the sheets.
//
// A [Problem] has a stable code, a severity, a place in a text, other labelled
// places, a place on the block where there is one, help, and edits that mend
// it. Rendering (text, JSON, SARIF, an editor) is somebody else's work and
// needs nothing but this value.
//
// What a code means is told by its [Info], which stands in the package that
// raises the code; `seamwright explain CODE` prints it.
package problem
