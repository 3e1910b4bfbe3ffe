// Package diagram makes the pictures of a block, all seen from its front: in
// color, as a line drawing to color in, in grey values, its sections apart and
// numbered, and the joins step by step.
//
// Pictures have no scale: a block has one set of them, whatever its finished
// sizes. They are as wide as both letter and A4 print. A label lies wholly in its
// space, stands beside its section with a leader, or is left out, and the
// caption says so; no two labels touch.
package diagram
