package compare_test

import (
	"strings"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/compare"
	"seamwright/emit/drawing"
)

// read is what stands on the pages of corrections.
func read(r *compare.Report) string {
	paper, _ := pattern.SheetNamed("letter")
	var b strings.Builder
	var walk func(items []drawing.Item)
	walk = func(items []drawing.Item) {
		for _, item := range items {
			switch item := item.(type) {
			case *drawing.Text:
				b.WriteString(item.Text + " ")
			case *drawing.Group:
				walk(item.Items)
			}
		}
	}
	for _, page := range r.Errata(paper) {
		walk(page.Items)
	}
	return b.String()
}

// What to do is worked out by hand for each change of the block of quarters, which
// finishes 8 in on a grid of 1 in.
func TestRemedies(t *testing.T) {
	for _, c := range []struct {
		name  string
		edits []string
		says  []string
		again []string // sections to print again
	}{
		{"a wider strip needs a larger patch", []string{"(0, 3.5) -- (4, 3.5)", "(0, 3) -- (4, 3)"},
			[]string{"A2 and A3: a section that is sewn still fits its neighbors", "A3: the patch as it was printed is too small", "close it whenever you lay it down"}, []string{"A"}},
		{"a narrower strip makes do with its patch", []string{"(0, 3.5) -- (4, 3.5)", "(0, 3.75) -- (4, 3.75)"},
			[]string{"A3: the patch as it was printed is larger than it need be, and will do"}, []string{"A"}},
		{"another fabric is cut again", []string{"2 tide", "2 lamp"}, []string{"A2: cut its patch again from the right fabric; tide is wrong there"}, []string{"A"}},
		{"other numbers are written over", []string{"    1 lamp at (1, 1)\n    2 tide along (0, 3) -- (3, 0)\n", "    1 tide at (3, 2)\n    2 lamp along (0, 3) -- (3, 0)\n"},
			[]string{"A1 and A2: what is sewn is right if it looks like the picture"}, []string{"A"}},
		{"words alone undo nothing", []string{`"Quarters"`, `"Four Quarters"`}, []string{"Nothing that you have made is wrong. Only words are corrected.", "No section has to be printed again."}, nil},
		{"other words of a fabric stand in its spaces", []string{`"tide"`, `"ebb"`}, []string{"Only words are corrected."}, []string{"A"}},
		{"another allowance is another pattern", []string{"edition 1", "edition 1 allowance 3/8in"}, []string{"allowance: print and cut everything again"}, []string{"A"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			changed := strings.Replace(quarters, "edition 1", "edition 2", 1)
			for i := 0; i < len(c.edits); i += 2 {
				changed = strings.Replace(changed, strings.Replace(c.edits[i], "edition 1", "edition 2", 1), strings.Replace(c.edits[i+1], "edition 1", "edition 2", 1), 1)
			}
			old, new := recorded(t, quarters), recorded(t, changed)
			r := compare.Compare(old, new)
			text := read(r)
			says := append(c.says, "Edition 1 is corrected by edition 2",
				old.Blocks[0].Sizes[0].Marks[0].Text, new.Blocks[0].Sizes[0].Marks[0].Text) // how to tell which one holds
			for _, s := range says {
				if !strings.Contains(text, s) {
					t.Errorf("%q is not said in:\n%s", s, text)
				}
			}
			var again []string
			for _, a := range r.Reprints() {
				again = append(again, a.Sections...)
			}
			if strings.Join(again, " ") != strings.Join(c.again, " ") {
				t.Errorf("%v is printed again, not %v", again, c.again)
			}
		})
	}
}

// What is said in the language of the page is, in English, what is told of a change,
// but that "square 4 in" is a square of 4 in; and in another language none of it is
// left in English.
func TestCorrectionsInALanguage(t *testing.T) {
	old := strings.Replace(quarters, "edition 1", "edition 1 language de", 1)
	for _, edits := range [][]string{
		{"(0, 3.5) -- (4, 3.5)", "(0, 3) -- (4, 3)"}, {"2 tide", "2 lamp"}, {`"Quarters"`, `"Viertel"`},
		{"    1 lamp at (1, 1)\n    2 tide along (0, 3) -- (3, 0)\n", "    1 tide at (3, 2)\n    2 lamp along (0, 3) -- (3, 0)\n"},
	} {
		changed := strings.Replace(old, "edition 1", "edition 2", 1)
		if changed = strings.Replace(changed, edits[0], edits[1], 1); !strings.Contains(changed, edits[1]) {
			t.Fatal(edits)
		}
		r := compare.Compare(recorded(t, old), recorded(t, changed))
		for i := range r.Changes {
			if got, want := r.Said(&r.Changes[i], words.ToMakers("en")), r.Line(&r.Changes[i]); got != want && r.Changes[i].Kind != compare.Patches {
				t.Errorf("%q is said, and %q told", got, want)
			}
		}
		text := read(r)
		if !strings.Contains(text, "Ausgabe 1 wird durch Ausgabe 2 berichtigt") {
			t.Errorf("not in German:\n%s", text)
		}
		for _, english := range []string{"line moves", "shape", "rectangle", "square", "patch", "number", "Affects", "cutting", "sewing", "section", "sheet", "edition"} {
			if strings.Contains(text, english) {
				t.Errorf("%q is left:\n%s", english, text)
			}
		}
	}
}
