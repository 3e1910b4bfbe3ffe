package words

import (
	"regexp"
	"slices"
	"testing"
)

var placeholder = regexp.MustCompile(`\{[a-z0-9]+\}`)

// Every language has the messages of the default one, with its placeholders,
// each as often; none is empty.
func TestLanguagesAreComplete(t *testing.T) {
	complete(t, In)
	for _, some := range []func(string) *Catalogue{OnSheets, InTables, OnPictures, ToMakers, InReport} {
		complete(t, func(language string) (*Catalogue, bool) {
			c := some(language)
			return c, c.Language == language
		})
	}
}

func complete(t *testing.T, catalogue func(string) (*Catalogue, bool)) {
	t.Helper()
	if l := Languages(); len(l) < 2 || !slices.Contains(l, Default) {
		t.Fatalf("languages: %v", l)
	}
	want, _ := catalogue(Default)
	for _, language := range Languages() {
		c, ok := catalogue(language)
		if !ok {
			t.Fatal(language)
		}
		for key, message := range c.messages {
			if _, ok := want.messages[key]; !ok {
				t.Errorf("%s: %q is in no other language", language, key)
			}
			if message == "" {
				t.Errorf("%s: %q says nothing", language, key)
			}
		}
		for key, message := range want.messages {
			got, ok := c.messages[key]
			if !ok {
				t.Errorf("%s: %q is missing", language, key)
				continue
			}
			a, b := placeholder.FindAllString(message, -1), placeholder.FindAllString(got, -1)
			slices.Sort(a)
			slices.Sort(b)
			if !slices.Equal(slices.Compact(a), slices.Compact(b)) {
				t.Errorf("%s: %q has %v, not %v", language, key, b, a)
			}
		}
	}
}

// A key that is given twice would be told by the second alone: neither in a file
// nor in a language's own file and that of its tables, for the booklet has both, nor
// in the report's and that of the tables.
func TestNoKeyTwice(t *testing.T) {
	line := regexp.MustCompile(`(?m)^([a-z0-9_.]+) =`)
	for _, language := range Languages() {
		for _, names := range [][]string{{language + ".txt", "tables/" + language + ".txt"}, {"sheets/" + language + ".txt"}, {"pictures/" + language + ".txt"}, {"makers/" + language + ".txt"}, {"report/" + language + ".txt", "tables/" + language + ".txt"}} {
			seen := map[string]bool{}
			for _, name := range names {
				text, err := files.ReadFile(name)
				if err != nil {
					t.Fatal(err)
				}
				for _, m := range line.FindAllSubmatch(text, -1) {
					if seen[string(m[1])] {
						t.Errorf("%s: %s stands twice", name, m[1])
					}
					seen[string(m[1])] = true
				}
			}
			if c, _ := read(language, names...); len(c.messages) != len(seen) || len(seen) < 20 {
				t.Errorf("%v: %d messages are read of %d", names, len(c.messages), len(seen))
			}
		}
	}
}

func TestSay(t *testing.T) {
	c, _ := In("en")
	if got := c.Say("page", "n", "{m}", "m", "9"); got != "page {m} of 9" {
		t.Errorf("got %q: what is filled in must not be looked at again", got)
	}
	if one, many := c.Count("times", 1), c.Count("times", 4); one != "once" || many != "4 times" {
		t.Errorf("%q, %q", one, many)
	}
	if got := c.Say("no_such"); got != "no_such" {
		t.Errorf("got %q", got)
	}
	if _, ok := In("../words"); ok {
		t.Error("a path is no language")
	}
}
