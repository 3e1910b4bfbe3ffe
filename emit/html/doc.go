// Package html writes the report as one page for a browser, to be sent to
// somebody who has nothing of ours: pictures, figures, checks, cutting tables,
// cloth, the order of joining.
//
// In: the pattern, what was made of it, the pictures as SVG. Out: one document
// that asks for nothing else: pictures are in it, there is no script, and a
// policy in its head forbids the browser every request. It is read on screen,
// in the dark, on a phone and on paper, but never measured: sheets in it are
// small and say so.
//
// The author's text is escaped on its only way in, [writer.text]; html/template
// would do the same at a cost that every start of the program pays.
package html
