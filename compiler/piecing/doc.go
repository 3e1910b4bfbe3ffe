// Package piecing finds the pieces, sections and joins that the lines of a text
// make: from an evaluated file ([eval.Result]) to a complete pattern.
//
// The way from one to the other, a file a step:
//
//	divide    joins, last sewn first, cut the outline into regions
//	slit      partial seams, whose last part is sewn after what ends on them
//	drawn     lines without sections are planned first; what follows sees joins
//	          and sections as if they had been written
//	claim     each region has one section or one placed unit
//	tile      placed units fill their regions, no more and no less
//	found     joins that nobody wrote, between placed units
//	section   seams, last sewn first, cut a region into pieces
//	assembly  units in units become copies of sections in a block
//	meet      which edges meet along each join, and where seams end there
//	equal     sections that are one drawing
//	names     a letter for each drawing
//	sized     grid squares become lengths
//	prove     the pieces cover the block: areas, and points too near to tell
//
// All work is in grid squares; a body is cut once, however often it is placed
// and in however many sizes. What holds afterwards: in every size the pieces of
// a block cover its outline without gap or overlap, every seam runs from border
// to border of its section, and every join from border to border of the part it
// finishes; but for those that finish a partial seam.
package piecing
