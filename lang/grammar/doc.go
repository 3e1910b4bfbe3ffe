// Package grammar is the language's specification at work: the tagged grammar of
// package lang, read by participle.
//
//   - [EBNF] prints the grammar that the reference shows.
//   - [New] makes a parser that reads by the tags alone. The tests of lang hold its own parser,
//     which is far faster and goes on after mistakes, to what this one accepts and
//     to the trees that it makes.
//
// The program does not import it: participle and what it is made of would take a
// twentieth of the time in which a small text is checked.
package grammar
