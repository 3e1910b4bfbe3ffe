// Package editors holds what editors need to know of patterns: how to start
// the editor server, and how words are colored. It has no code; its tests hold the
// words to the language, and work in a pattern with a real editor.
package editors
