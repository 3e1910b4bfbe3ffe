// Package files reads patterns and writes what is made of them.
//
//   - [Read] and [Find] turn the arguments of a command into texts; whatever is
//     not a readable text of sensible size is a problem with an F code.
//   - [Loader] finds the texts that a pattern uses: the families shipped with
//     the program, and files inside the pattern's project.
//   - [Write] puts a set of outputs into a folder, all of them or none;
//     [Replace] rewrites one file.
//
// A project is the nearest folder above the pattern that holds `.git` or a file
// `seamwright.root`, else the pattern's own folder. No `use` reads outside it,
// neither by `..` nor through a symbolic link.
package files
