package words

import "testing"

// What an author says stands instead of a message or before it, for every number, and
// the catalogue itself stays as it was.
func TestWith(t *testing.T) {
	c, _ := In("en")
	plain := c.Say("trim_when")
	if got := c.With("trim_when", "Breathe.", false).Say("trim_when"); got != "Breathe. "+plain {
		t.Errorf("before: %q", got)
	}
	other := c.With("times", "{n} Mal", true)
	if one, many := other.Count("times", 1), other.Count("times", 3); one != "1 Mal" || many != "3 Mal" {
		t.Errorf("instead: %q, %q", one, many)
	}
	if c.Say("trim_when") != plain || c.Count("times", 1) != "once" || c.With("no_such", "x", true) != c {
		t.Error("the catalogue has changed, or a message was added")
	}
}
