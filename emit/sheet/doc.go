// Package sheet lays foundation sheets out. In: one block of a compiled pattern
// at one finished size, and a sheet of paper. Out: a [Set] of pages, each a
// drawing in true lengths, with an index of which section lies where and how
// often each page is printed for one block.
//
// What holds afterwards: every section that needs paper, and every plain patch
// that needs a template, is on exactly one sheet, reversed, or in parts on several
// that are windows of one drawing; sections printed a
// different number of times never share a sheet; nothing of a section lies
// outside the printable area or within 3/8 in of another; nothing is scaled; a
// label stands wholly in its own space and touches no line; the version mark
// answers to what is printed and to nothing else.
//
//	lay          which sections go on which sheet; the pages
//	pack, nest   where they lie: by boxes, by hulls
//	allowance    the cutting line and its blunted corners
//	section      a section's lines where it lies
//	paint, pen   a section as a drawing
//	placement    where the next raw edge lies
//	label        numbers and words in spaces; lead: those without room
//	strip, edge  what stands in the seam allowance
//	frame, head  what else is on a page: head, front, legend, scales, notes
//	part, glue   sections in parts, to be glued together
//	version      the mark of what is printed
package sheet
