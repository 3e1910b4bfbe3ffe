// Package wire is the language server protocol as bytes: messages with a length
// before them, JSON-RPC in them, and those of the protocol's structures that the
// editor server uses, with the protocol's own names.
//
// Nothing that comes in can stop it but the end of the input: what is no message
// is an error to be answered, and the next message is read.
package wire
