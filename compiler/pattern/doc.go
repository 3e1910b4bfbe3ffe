// Package pattern is the model: what the compiler makes and every output reads.
// It is plain data. Nothing in it draws, evaluates or looks at text; places in
// the source are kept only as file, line and column, for people.
//
// Words, as on paper: a *section* is what is sewn on one piece of paper; a
// *space* is a numbered area on it; a *piece* is the cloth sewn into a space; a
// *patch* is that cloth as it is cut, larger; a *drawing* is one printed section,
// of which a block may need several copies.
//
// All geometry is seen from the FRONT of the finished block, in inches, x to the
// right, y up, the origin at the block's lower left corner, polygons
// anticlockwise. Reversing for print is the work of the sheets.
package pattern
