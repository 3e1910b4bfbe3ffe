// Package eval gives a file its meaning: names, kinds, parameters, loops and
// conditions are worked out, and every unit becomes a [Body]: plain lines and
// points in grid squares, in the order of the text. What the lines divide is
// asked later, in piecing.
//
// Every fault is reported, not only the first; a body with faults is marked and
// not used further. Evaluation is total: loops, depth and steps have budgets,
// each with its code.
package eval
