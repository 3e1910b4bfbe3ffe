// Package pdf renders drawings as one PDF file, the way to print at true size:
// viewers shrink or enlarge a page picture as they like, but a PDF page has a
// physical size, and the file asks the print dialog for no scaling and for one
// side only.
//
// The file is PDF 1.7 (ISO 32000-1): pages of exact size, text as text in
// embedded fonts that hold just the glyphs used, bookmarks, a title. There is
// no clock in it and nothing random: equal drawings give equal bytes. A page's
// bytes depend on its drawing alone, not on the file that it stands in, so that a
// [Store] can keep them; a [Writer] renders pages while others are still made.
//
//	write    the file from its pages
//	content  a drawing as operators
//	font     a font cut to what is used; truetype: its tables
//	image    pictures of dots
//	store    what files have in common
//	file     objects, the cross-reference table
package pdf
