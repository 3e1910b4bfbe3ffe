package editors_test

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"seamwright/lang"
)

// Emacs colors every word of the language, and no other.
func TestEmacsKnowsEveryWord(t *testing.T) {
	lisp, err := os.ReadFile("emacs/seamwright.el")
	if err != nil {
		t.Fatal(err)
	}
	list, _, _ := strings.Cut(string(lisp), `"The words`)
	var known []string
	for _, m := range regexp.MustCompile(`"([a-z]+)"`).FindAllStringSubmatch(list, -1) {
		known = append(known, m[1])
	}
	if words := strings.Fields(lang.ReservedWords); !slices.Equal(known, words) {
		t.Errorf("Emacs colors %v,\nthe language's words are %v", known, words)
	}
}
