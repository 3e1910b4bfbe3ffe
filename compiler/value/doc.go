// Package value holds the quantities of the language: numbers, lengths, angles,
// points, lines, fabrics, texts and truth values, each with its kind, and the
// arithmetic that is allowed between kinds.
//
// A [Number] is an exact fraction until a root, an angle or a size beyond 64 bits
// enters; from there on it is a float64. A length is a Number of inches, an angle
// a Number of degrees, a count a Number that is whole and not negative. Points and
// lines are float64 coordinates in grid squares.
//
// Comparing, [Number.Floor] and [Number.Ceil] forgive [Tolerance].
package value
