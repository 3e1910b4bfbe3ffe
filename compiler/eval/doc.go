// Package eval gives a file its meaning: names, kinds, parameters, loops and
// conditions are worked out, and every unit becomes a [Body]: plain lines and
// points in grid squares, in the order of the text. What the lines divide is
// asked later, in piecing.
//
// A unit is walked twice by the same code: once for its kinds alone, everything in
// it, so that mistakes are found where no loop or condition leads; and once for each
// different set of arguments, for what it makes.
//
// Every fault is reported, not only the first; a body with faults is marked and
// not used further. Evaluation is total: loops, depth and steps have budgets,
// each with its code.
package eval
