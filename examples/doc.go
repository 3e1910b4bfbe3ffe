// Package examples holds patterns to read, to build and to copy from: a harbor,
// its boats and its lights. Between them they use all of the language. The tests
// here hold them to what a good pattern should be, and their pictures to those in
// testdata/examples.
package examples
