// Package cutting says what is cut from cloth for every space.
//
// What goes in is a pattern whose pieces are known; what comes out is the same
// pattern with every [pattern.Patch] filled in. Afterwards each foundation
// patch, laid as it says and folded over its seam, covers its space and all the
// allowance round it; each plain patch has exactly its allowance.
//
// The need of a piece is worked out by undoing the sewing. Begin with the
// section's outline and its allowance; from the last seam back, the new piece
// must fill what lies beyond its seam less one allowance, and the pieces
// before it what lies short of its seam plus one allowance. Tips are blunted as
// on the sheets; what shows from the front is never bare, out to the cutting
// line. A section costs time in proportion to its pieces.
package cutting
