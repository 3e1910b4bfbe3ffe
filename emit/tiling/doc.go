// Package tiling divides a drawing that is too large for a page into parts that
// are printed on several and glued together. In: the outermost line of what is
// drawn, in true lengths, and the room of a page. Out: a [Tiling]: which part is
// shown where, and how parts meet.
//
// What holds afterwards: the parts' own rectangles cover the drawing once; each
// shows [Lap] more wherever the drawing goes on, and no part is larger than the
// room; nothing is scaled. Two parts that meet carry one joining line with at least
// two crosses on it, whose distance is a whole number of eighths of an inch, all of
// it within what both of them show: laid on each other, crosses fall on crosses.
//
// The part above or at the left keeps its strip beyond the line, for the glue; the
// other one is cut on the line and laid on the strip.
package tiling
