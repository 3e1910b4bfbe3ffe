// Package names says which names a text declares and what each use of a name
// means, from the syntax tree alone: for editors, which must know it while the
// text is still wrong.
//
//   - [Resolve] makes the [Table] of one file. It never fails; what is written in
//     a hole of the tree is not seen.
//   - A name of another file is a [Ref] without a declaration: whoever can read
//     that file looks it up there.
//
// Scopes are those of the language's reference: fabrics and units are known in the
// whole file, parameters in their unit from the next parameter on, the name of a
// loop in its braces, a `let` from behind it to the end of the braces it stands in.
// Values, units, helpers, sections and colorways are name spaces of their own.
package names
