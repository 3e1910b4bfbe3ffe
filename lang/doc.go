// Package lang is the Seamwright language as text: from bytes to a syntax tree
// and back.
//
//   - [Parse] takes any bytes and returns a tree, with holes ([BadStmt],
//     [BadExpr]) where the text makes no sense, and every problem found. It
//     never fails and never gives up early.
//   - [Format] writes a file in canonical layout, comments kept; only a file
//     without syntax errors is formatted.
//
// The specification is the tagged grammar in grammar.go. Package grammar, below
// this one, reads by it and prints the EBNF of the reference; a test holds the
// parser to it.
//
// Where to look: token.go and lexer*.go cut the text into tokens; parser.go and
// parse_*.go hold one method for each rule of the grammar; recover.go and words.go
// say what was meant where a rule fails; ast.go is the tree; format*.go writes it
// back; codes_info.go explains every problem.
//
// The package knows nothing of quilts, geometry or paper, nor of any file but
// the one it is given. Units, values and names get their meaning in compiler/.
package lang
