// Package words has every sentence that is printed by itself, in each language
// that there are files for: the booklet's, those of its tables, of the foundation
// sheets, of pictures, of the report, of pages of corrections and of replies to letters. A language is added by adding files: no other part of
// the program knows which there are.
package words
