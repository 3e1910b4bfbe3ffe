// Package quilting works out what a quilt comes to.
//
// What goes in is a pattern whose blocks are known at every size; what comes out
// is the same pattern with the Layout of every quilt filled in: where each block
// lies, what is set between and around them, and how each of those is cut.
// Afterwards blocks and areas cover the quilt without gap or overlap. A quilt that
// cannot be laid out says why, and has no layout.
package quilting
