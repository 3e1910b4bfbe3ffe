// Package table makes the cutting tables of one block at one finished size.
//
// [List] merges equal patches; the same rows are written as Markdown for people
// and as CSV for spreadsheets, in two views: by fabric, for the day of cutting,
// and by section, for the day of sewing. A count never stands beside a size, and
// fractions are plain ASCII. Text from the author is made harmless in both.
package table
