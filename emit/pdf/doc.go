// Package pdf renders drawings as one PDF file, the way to print at true size:
// viewers shrink or enlarge a page picture as they like, but a PDF page has a
// physical size, and the file asks the print dialog for no scaling and for one
// side only.
//
// The file is PDF 1.7 (ISO 32000-1): pages of exact size, text as text in
// embedded fonts that hold just the glyphs used, bookmarks, a title. There is
// no clock in it and nothing random: equal drawings give equal bytes.
package pdf
