// Package families holds the block families that are shipped with the program.
//
// A family is one text here, NAME.seam: its main unit has the name of the file,
// other units in it are its parts or relatives. The main unit's doc comment says
// what the block is and ends with an example, a whole pattern indented by four
// spaces. A pattern gets at it with `use NAME from "std/NAME"`.
//
// To add one, write NAME.seam and run the tests with -update, which draws the
// example into testdata/NAME.svg; look at the picture. No Go is touched.
package families
