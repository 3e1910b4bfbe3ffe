// Command seamwright compiles quilt block patterns, written as text, to
// foundation sheets, booklets, diagrams, cutting tables and a report.
//
// The package holds flags, files and words, and decides nothing about patterns:
// each verb is one file that reads its arguments, calls the compiler and the
// emitters, and says what came of it. verbs.go lists them. A verb's flags are
// built only when it is asked for.
package main
