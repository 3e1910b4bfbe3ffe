package problem_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/lang/problem"
)

func TestNearest(t *testing.T) {
	words := []string{"section", "join", "let", "along", "at", "piece", "place", "lantern"}
	for _, c := range []struct{ given, want string }{
		{"secton", "section"},
		{"setcion", "section"},
		{"jion", "join"},
		{"Join", "join"},
		{"alog", "along"},
		{"lett", "let"},
		{"AT", "at"},
		{"ax", ""}, // two letters: no slip allowed
		{"plaice", "place"},
		{"piace", "piece"}, // one slip from both, the first is taken
		{"lanterne", "lantern"},
		{"boat", ""},
		{"join", ""}, // it is itself, nothing to suggest but the others
		{"", ""},
		{strings.Repeat("a", 1000), ""},
	} {
		if got := problem.Nearest(c.given, words); got != c.want {
			t.Errorf("Nearest(%q) = %q, want %q", c.given, got, c.want)
		}
	}
}

// One slip in a word of six letters or more is always found.
func TestNearestFindsOneSlip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := []rune(rapid.StringMatching(`[a-z]{6,12}`).Draw(t, "word"))
		at := rapid.IntRange(0, len(word)-2).Draw(t, "at")
		damaged := append([]rune(nil), word...)
		switch rapid.IntRange(0, 3).Draw(t, "kind") {
		case 0:
			damaged = append(damaged[:at], damaged[at+1:]...)
		case 1:
			damaged = append(damaged[:at], append([]rune{'é'}, damaged[at:]...)...)
		case 2:
			damaged[at] = 'ß'
		case 3:
			damaged[at], damaged[at+1] = damaged[at+1], damaged[at]
		}
		if string(damaged) == string(word) {
			t.Skip("no damage")
		}
		if got := problem.Nearest(string(damaged), []string{string(word)}); got != string(word) {
			t.Fatalf("Nearest(%q) = %q, want %q", string(damaged), got, string(word))
		}
	})
}
