// Package svg writes drawings as SVG 1.1. In: a [drawing.Page]. Out: one
// document at true scale, width and height in millimetres and a viewBox in the
// same millimetres, so that a number in the file is a length on paper.
//
// What holds afterwards: the document is valid against the SVG 1.1 DTD; every
// number is finite, without exponent, with at most four decimals; identities are
// unique; author's text is escaped and kept for readers in desc elements, while
// what is seen are outlines of the embedded font, so no installed font matters.
// The same page gives the same bytes.
//
// The document's frame (its head, titles, definitions and clips) is written
// through svgo; what there is a lot of (paths, groups, glyphs) is appended here:
// svgo writes through fmt with a fixed number of decimals, which was most of a
// sheet's bytes and time. It also swallows write errors and writes NaN as it
// comes; here the writer is memory, which cannot fail, and every number is
// checked on its way in.
//
// Measures and outlines of ASCII are tables, written from the font by a test that
// holds them to it: reading the font took a fifth of a small build.
package svg
