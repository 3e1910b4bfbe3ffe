// Package booklet makes the printed pattern of one block at one finished size:
// all that a maker needs on paper, from the front cover to the sheets.
//
// In: the compiled pattern, its sheets and cutting table, the words of a
// language. Out: [Make] returns pages for one file. The sheets are among them as
// they are; every other page is set by package flow. Pages are counted through
// the whole file, so that "print page 7 four times" is true in a print dialog.
//
//	booklet  the order of the chapters; the foot of the pages
//	cover    front cover, back cover and the grade of skill
//	begin    tools, cautions, fabrics with boxes for snips
//	cutting  the cutting tables
//	reading  what the lines of a sheet mean
//	sewing   one section in full, the others as strips, trimming
//	joining  joins in order, turns, pressing, paper
//	quilt    the quilts that the block is for: picture, cutting, cloth, sewing order
//	together one booklet for several sizes
//	sheets   pages to use: to color in, at full size, what to print
//
// [Pad], [Tester], [Key], [Checker] and [Class] are other lists of such pages for
// other people, over the same parts.
package booklet
