// Package testsew sews a pattern on paper before anybody sews it in cloth. In:
// the files that a build has made. Out: a [Report] with figures and findings.
//
// It is a judge and not a part of the compiler: it reads the sheets and the
// cutting tables as a maker gets them, by their lines and words, and shares no
// geometry with what made them. Only the intended picture, the order of
// joining and how joins are pressed come from pattern.json. It holds the file that is
// printed to the sheets, line by line; reverses each sheet, lays patches of the
// sizes in the table, glues sections together that are printed in parts, sews on the printed lines in the order of the numbers,
// trims, folds over, trims the section on the cutting line, puts pins through
// the marks and joins, to the finished block.
//
// What holds of a report without findings: the front is the intended picture
// everywhere; behind every seam there is a whole seam allowance; every patch
// covers its space and allowances; marks of joined edges fall on each other; each
// join sews two finished parts edge to edge; and the sheets, printed as often as
// they say, have every section of the block.
//
//	geometry    points, and polygons cut by lines
//	svg         the lines of a sheet
//	pdf, print  the lines of the file that is printed, and where they are otherwise
//	window      what is seen of lines that are clipped
//	paper       sections as they are read from a sheet
//	part, glue  sections in parts, and the section that comes of them
//	spaces      which areas the lines make, and their numbers
//	tables      what is cut
//	intent      the picture and the order of joining
//	sew         one section, layer by layer
//	place       sections in the block
//	join        pins, joins and the finished block
//	partial     seams that are sewn in two goes
//	tolerance   the same with hands that are not perfect
package testsew
