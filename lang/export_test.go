package lang

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// What the tests of the grammar share with the package's own. They stand outside
// of it, for the tagged grammar is read by a package that imports this one.

func Samples(t rapid.TB) map[string]string { return samples(t) }

func DrawnText(t *rapid.T) string { return lay(t, drawn(t)) }

func MutatedText(t *rapid.T) string { return mutated(t) }

func SameTree() cmp.Options { return sameTree(false) }

func TreeOf(g *Tagged) []Decl { return g.tree() }

func Seeds(f *testing.F) { seeds(f) }

var Render = render
