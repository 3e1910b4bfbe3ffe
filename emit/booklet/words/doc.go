// Package words has every sentence that a booklet says by itself, in each
// language that there is a file for. A language is added by adding a file: no
// other part of the program knows which there are.
package words
