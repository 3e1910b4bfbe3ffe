// Package pressing chooses to which side every join is pressed.
//
// Seams inside a section are pressed toward the newer piece, always. Joins are
// free: where two seams meet from both sides of a later join they should lie
// opposite ways, so that they nest. That is a signed graph: joins are its nodes,
// meeting seams its edges, and seams of sections say which way one node must
// lie. Where all can be had, one walk finds it; else a search finds the least
// number of seams that do not nest, and those are pressed open.
//
// Seams of two sections that lie the same way can't nest whatever the joins do.
// Most sections may as well be begun with another piece, a row with any of its
// patches; with which they should be, so that fewer joins are pressed open, is told
// in Firsts. Alike sections are begun alike, for they share their sheet. Sections
// found for a drawing are then sewn so, as nobody wrote their order. After the joins
// of blocks those of the quilts have a say in it.
package pressing
