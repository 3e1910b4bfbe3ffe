// Package flow sets headings, paragraphs, lists, tables and pictures on as many
// pages as they take, each a drawing in true lengths.
//
// In: parts in the order in which they are read. Out: pages of one size. What
// holds afterwards: nothing lies outside the margins; no line of text is wider
// than its column; a heading stands on the page of what follows it; a row of a
// table or of pictures is never divided; a table that goes on repeats its head.
// The foot of each page is set last, when the number of pages is known.
package flow
