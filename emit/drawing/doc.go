// Package drawing is a page before it has a format: paths and texts in true
// lengths, each with a named style. Sheets and diagrams make drawings; the SVG
// and PDF writers render the same drawing, so they can't disagree.
//
// A page's origin is its upper left corner, x to the right, y down, in
// [pattern.Length]. Texts are set in the embedded font and measured with it;
// nothing depends on a font that happens to be installed.
package drawing
