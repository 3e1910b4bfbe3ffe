package lang

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// formatted holds Format to its promises for one sound text.
func formatted(t rapid.TB, text string) string {
	t.Helper()
	before, problems := parse(text)
	if len(problems) > 0 {
		t.Fatalf("not a sound text: %s", render(&problems[0]))
	}
	once := Format(before)
	after, problems := parse(once)
	if len(problems) > 0 {
		t.Fatalf("formatting makes a mistake:\n%s\n%s", render(&problems[0]), once)
	}
	if diff := cmp.Diff(before.Decls, after.Decls, sameTree(true)); diff != "" {
		t.Fatalf("formatting changes the meaning:\n%s\n%s", diff, once)
	}
	if diff := cmp.Diff(remarks(before), remarks(after)); diff != "" {
		t.Fatalf("formatting changes the comments:\n%s\n%s", diff, once)
	}
	if twice := Format(after); twice != once {
		t.Fatalf("formatting twice differs from once:\n%s", cmp.Diff(once, twice))
	}
	for _, line := range strings.Split(once, "\n") {
		if line != strings.TrimRight(line, " \t\r") {
			t.Fatalf("a line ends in blanks: %q", line)
		}
	}
	if strings.Contains(once, "\n\n\n") || once != "" && !strings.HasSuffix(once, "\n") || strings.HasPrefix(once, "\n") {
		t.Fatalf("empty lines are left:\n%q", once)
	}
	return once
}

func remarks(f *File) (texts []string) {
	for _, c := range f.Comments {
		texts = append(texts, c.Text)
	}
	return texts
}

func TestFormatSamples(t *testing.T) {
	for path, text := range samples(t) {
		t.Run(path, func(t *testing.T) { formatted(t, text) })
	}
}

func TestFormatGenerated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { formatted(t, lay(t, drawn(t))) })
}

// A change of one statement changes one line, whatever its length.
func TestFormatDoesNotRipple(t *testing.T) {
	const text = `
fabric sky "sky" light #dfeaf0
fabric jib "jib" medium #b8432f
block boat 8 x 8 finished 8in {
  let deck = 2 1/2 // the deck
  section A {
    1 jib at (3, 3)
    2 sky along n -- e // a seam
    3 sky along s -- e
  }
}
`
	before := strings.Split(formatted(t, text), "\n")
	for _, change := range [][2]string{
		{"2 sky along n -- e", "2 a_much_longer_name along n -- mid(e, (0, 1234.5))"},
		{"let deck = 2 1/2", "let a_long_name_for_the_deck = 2 1/2 * 3 + 4"},
		{`fabric jib "jib"`, `fabric jib "a jib of many words"`},
		{"1 jib", "1 j"},
	} {
		if !strings.Contains(text, change[0]) {
			t.Fatalf("%q is not in the text", change[0])
		}
		after := strings.Split(formatted(t, strings.Replace(text, change[0], change[1], 1)), "\n")
		changed := 0
		for i := range before {
			if before[i] != after[i] {
				changed++
			}
		}
		if len(before) != len(after) || changed != 1 {
			t.Errorf("%s: %d lines differ", change[1], changed)
		}
	}
}

func TestFormatLayout(t *testing.T) {
	const text = `// the harbour


pattern   "Harbour"{edition 1;author "Harbour Sheets" // ours
}
fabric sky light #DFEAF0;fabric deep "deep sea" dark #25525e scrappy by block

/// A wedge.
unit wedge outline (0,0),(4,-4),(4,4) { section A { 1 sky at (1,.2) }
// the rest
}
block boat 8 x 8 finished 6in,8in { // two sizes
  for i in 0..3 { place wedge at c turn 90deg*i }
  for i in 0 .. 3 { place wedge at c; join c--(i,
     // up
     8) }
  if 1<2 { join n--s } else { join w--e
  }

}
colorway two { deep as sky }
// the end`
	const want = `// the harbour

pattern "Harbour" {
  edition   1
  author    "Harbour Sheets"  // ours
}
fabric sky      light  #dfeaf0
fabric deep     "deep sea" dark   #25525e scrappy by block

/// A wedge.
unit wedge outline (0, 0), (4, -4), (4, 4) {
  section A { 1 sky at (1, 0.2) }
  // the rest
}
block boat 8 x 8 finished 6in, 8in {  // two sizes
  for i in 0..3 { place wedge at c turn 90deg * i }
  for i in 0..3 {
    place wedge at c
    join c -- (i,  // up
        8)
  }
  if 1 < 2 { join n -- s } else {
    join w -- e
  }
}
colorway two { deep as sky }
// the end
`
	if diff := cmp.Diff(want, formatted(t, strings.Replace(text, ",.2", ",0.2", 1))); diff != "" {
		t.Error(diff)
	}
}
