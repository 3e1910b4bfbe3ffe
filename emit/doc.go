// Package emit turns a compiled pattern into what is printed and read: [Build]
// lists every file with its bytes. It reads the model and nothing else: no
// source text, no evaluation, no rules.
//
//	drawing  a page before it has a format
//	sheet    foundation sheets: what goes on paper, and where
//	diagram  pictures of the block
//	table    cutting tables
//	flow     text, tables and pictures over pages
//	photo    the author's pictures
//	booklet  the printed pattern of one size, and its words
//	report   what was checked, in words; pattern.json
//	html     the report for a browser
//	svg      drawings to SVG
//	pdf      drawings to PDF
//	png      drawings to dots
package emit
