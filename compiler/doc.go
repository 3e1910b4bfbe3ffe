// Package compiler turns texts into checked, sized patterns.
//
// [Compile] reads like a table of contents: one line a pass. Each pass is a
// package that answers one question; the order of their imports is the order
// in which the questions are asked:
//
//	pattern  what is a compiled pattern?            (the model; plain data)
//	value    what kinds of quantity are there?
//	plane    points, lines, convex cuts
//	eval     what do the words mean?                (text to lines and points)
//	solver   where can a drawing be cut?            (joins nobody wrote)
//	piecing  which pieces and joins do they make?   (sections, order, copies)
//	cutting  what is cut from cloth?
//	pressing which way does every join lie?
//	rules    is it good to sew?                     (one file a rule)
package compiler
