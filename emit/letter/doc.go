// Package letter finds the likely cause of what a maker writes about, and words
// the reply.
//
// In: what the letter says, as figures ([Letter]), and the records of the editions
// of the pattern. Out: an [Answer]: causes, the likeliest first, each with the
// figures it was found by, and a text that is ready to be sent.
//
// What holds afterwards: every cause is computed from what was measured, and told
// with the figure that it predicts beside the one that was read; where two causes
// fit what was measured, both are told and how to tell them apart. A ruler is
// believed to a 32nd of an inch, cloth to an eighth.
//
//	letter   what a letter says, and what is answered
//	held     which edition the maker holds
//	print    the scale of the print: rules that were measured
//	block    the size of the block
//	space    a patch that did not cover
//	reply    the text
package letter
