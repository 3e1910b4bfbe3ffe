// Package png writes drawings as pictures of dots, for a shop page, a letter or
// a web page that takes no SVG. In: a [drawing.Page] and how many dots it is
// wide. Out: an opaque picture on white.
//
// It is the third form of the same pages: what SVG and PDF show is drawn here
// from the same paths and the same outlines of the embedded font, so no layout
// is made twice. Every dot is colored by how much of it is covered. The same
// page gives the same bytes.
package png
