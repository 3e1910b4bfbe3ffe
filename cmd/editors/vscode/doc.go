// Package vscode holds the extension for editors that take those of Visual Studio
// Code, and the grammar by which it and many other programs color a pattern. It has
// no code in Go; its tests hold the grammar to the language.
package vscode
