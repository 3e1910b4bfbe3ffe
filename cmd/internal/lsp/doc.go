// Package lsp is the editor server: the language server protocol on two streams.
//
//   - [Serve] answers an editor until it says goodbye.
//
// One loop does everything, in the order in which it comes in, so that nothing is
// locked; only compiling goes on beside it, one text at a time, a moment after the
// last key. Requests are answered from the text as it is, at once: from its tree,
// which has holes where the text is wrong, and the names in it. What only the
// compiler knows (pieces, sizes, values) comes from the last text that compiled,
// followed to where it stands now.
//
// Where to look: server.go is the loop, dispatch.go the list of what is answered,
// text.go the places in a text, check.go the compiling; the others are one request
// each. Framing and structures of the protocol are in wire.
package lsp
