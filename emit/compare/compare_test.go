package compare_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/emit"
	"seamwright/emit/compare"
	"seamwright/emit/edition"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

type shipped struct{}

func (shipped) Load(_ *problem.Source, path string) (*problem.Source, string) {
	if text, ok := families.Source(strings.TrimPrefix(path, "std/")); ok {
		return &problem.Source{Name: path, Text: text}, ""
	}
	return nil, "there is none"
}

func recorded(t testing.TB, text string) *edition.Record {
	t.Helper()
	p, ps := compiler.Compile(&problem.Source{Name: "test.seam", Text: text}, shipped{})
	if p == nil {
		t.Fatalf("%v", ps)
	}
	r, ps := emit.Record(p)
	if r == nil {
		t.Fatalf("%v", ps)
	}
	return r
}

// lines are the changes as they are told.
func lines(r *compare.Report) []string {
	var out []string
	for i := range r.Changes {
		out = append(out, r.Line(&r.Changes[i]))
	}
	return out
}

// quarters is a block of four sections, the same one turned, so that spaces are
// found again in any of their copies.
const quarters = `pattern "Quarters" { edition 1 }
fabric lamp "lamp" light #f0dca0
fabric tide "tide" dark  #1f3440
unit quarter 4 x 4 {
  section A {
    1 lamp at (1, 1)
    2 tide along (0, 3) -- (3, 0)
    3 lamp along (0, 3.5) -- (4, 3.5)
  }
}
block quarters 8 x 8 finished 8in {
  place quarter at sw
  place quarter turn 90deg at se
  place quarter turn 180deg at ne
  place quarter turn 270deg at nw
  join (0, 4) -- (4, 4)
  join (4, 4) -- (8, 4)
  join n -- s
}
`

func TestChangesAsTheyAreTold(t *testing.T) {
	for _, c := range []struct {
		name  string
		edits []string // old, new, ...
		want  []string // told, in any order
		kinds []compare.Kind
	}{
		{"nothing", nil, nil, nil},
		{"the order of two spaces that do not meet otherwise is the order of numbers",
			[]string{"    1 lamp at (1, 1)\n    2 tide along (0, 3) -- (3, 0)\n", "    1 tide at (3, 2)\n    2 lamp along (0, 3) -- (3, 0)\n"},
			[]string{"A1 number: A2 -> A1", "A2 number: A1 -> A2"}, []compare.Kind{compare.Numbers, compare.Patches}},
		{"a line moves: both of its sides change shape, by half a grid square of an inch",
			[]string{"(0, 3.5) -- (4, 3.5)", "(0, 3.75) -- (4, 3.75)"},
			[]string{"A3 shape: 4 in x 1/2 in -> 4 in x 1/4 in (a line moves by up to 1/4 in)"}, nil},
		{"another fabric in one space", []string{"2 tide", "2 lamp"}, []string{"A2 fabric: tide -> lamp"}, nil},
		{"a space more", []string{"(4, 3.5)\n", "(4, 3.5)\n    4 tide along (3.5, 0) -- (3.5, 4)\n"},
			[]string{"A4: new: tide"}, nil},
		{"a space less", []string{"    3 lamp along (0, 3.5) -- (4, 3.5)\n", ""}, []string{"A3: gone; was lamp"}, nil},
		{"words", []string{`"Quarters"`, `"Four Quarters"`}, []string{"title: Quarters -> Four Quarters"}, nil},
		{"a fabric's words", []string{`"tide"`, `"ebb"`}, []string{"fabric tide: tide -> ebb"}, []compare.Kind{compare.Cloth}},
		{"a fabric's name alone is not printed", []string{"fabric tide", "fabric ebb", "2 tide", "2 ebb"}, nil, []compare.Kind{}},
		{"a size more", []string{"finished 8in", "finished 8in, 12in"}, []string{"quarters finished size: new: 12 in"}, []compare.Kind{compare.Sizes}},
		{"settings", []string{"edition 1", "edition 1 ease 3/4in"}, []string{"ease: 1/2 in -> 3/4 in"}, nil},
		{"an edition alone", []string{"edition 1", "edition 2"}, nil, []compare.Kind{}},
		{"one copy is another section", []string{"place quarter turn 270deg at nw", "place quarter reversed by c at (2, 6)"},
			[]string{"section A copies: 4 -> 1", "section Ar reversed of: new: A", "section B letter: A -> B", "sheet 1: 4 times -> once"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			changed := quarters
			for i := 0; i < len(c.edits); i += 2 {
				if !strings.Contains(changed, c.edits[i]) {
					t.Fatalf("no %q", c.edits[i])
				}
				changed = strings.Replace(changed, c.edits[i], c.edits[i+1], 1)
			}
			r := compare.Compare(recorded(t, quarters), recorded(t, changed))
			told := lines(r)
			for _, want := range c.want {
				if !slices.Contains(told, want) {
					t.Errorf("%q is not told", want)
				}
			}
			for i := range r.Changes {
				if k := r.Changes[i].Kind; c.kinds != nil && !slices.Contains(c.kinds, k) || k == compare.Program {
					t.Errorf("there is no change of kind %s", k)
				}
			}
			if len(c.want) == 0 && len(c.kinds) == 0 && len(told) > 0 || t.Failed() {
				t.Errorf("told:\n%s", strings.Join(told, "\n"))
			}
		})
	}
}

// Every example is the same as itself, also when its record was written and read.
func TestExamplesAreThemselves(t *testing.T) {
	names, _ := filepath.Glob("../../examples/*.seam")
	if len(names) < 10 {
		t.Fatal("no examples")
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), `from "families/`) {
			continue // needs files beside it
		}
		now := recorded(t, string(text))
		var e edition.Editions
		if now.Edition == 0 {
			now.Edition = 1
		}
		e.Add(now)
		read, err := edition.Read(e.Bytes())
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if r := compare.Compare(read.Last(), recorded(t, string(text))); len(r.Changes) > 0 {
			t.Errorf("%s differs from itself:\n%s", name, r.Text("read", "made"))
		}
	}
}

// What is printed otherwise although the pattern is the same is told by its part.
func TestProgramChanges(t *testing.T) {
	old, new := recorded(t, quarters), recorded(t, quarters)
	s := &new.Blocks[0].Sizes[0]
	s.Sheets[0].Parts[0].Words += "x"
	s.Texts[0].Text += "x"
	got := lines(compare.Compare(old, new))
	want := []string{"sheet 1, " + s.Sheets[0].Parts[0].Name + ": words are otherwise", s.Texts[0].Name + ": says something else"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	new.Words[0].Text += "!" // explains it
	if got := lines(compare.Compare(old, new)); len(got) != 1 {
		t.Errorf("got %q", got)
	}
}

// Nothing that an author writes comes alive in a report.
func TestTextsStayTexts(t *testing.T) {
	evil := "</td></table><script>alert(1)</script> [x](javascript:1) | `a` \x1b[31m @all"
	old, new := recorded(t, quarters), recorded(t, quarters)
	new.Words[0].Text, new.Fabrics[0].Words, new.Blocks[0].Title = evil, evil, evil
	r := compare.Compare(old, new)
	page, err := compare.HTML([]compare.Pair{{Old: evil, New: evil, Report: r}})
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{"<script", "\x1b"} {
		if strings.Contains(string(page), bad) {
			t.Errorf("the page holds %q", bad)
		}
	}
	md := r.Markdown(evil, evil, 2)
	for _, bad := range []string{"<script", "\x1b", "[x]", " | `a`", " @all"} {
		if strings.Contains(md, bad) {
			t.Errorf("the Markdown holds %q", bad)
		}
	}
	cells := regexp.MustCompile(`(^|[^\\])\|`)
	for _, line := range strings.Split(md, "\n") {
		if strings.HasPrefix(line, "|") && len(cells.FindAllString(line, -1)) != 5 {
			t.Errorf("not four cells: %s", line)
		}
	}
	if text := r.Text(evil, evil); strings.Contains(strings.SplitN(text, "\n", 2)[1], "\x1b") {
		t.Error("the text holds an escape")
	}
}

// SCHEMA.md lists every member of the JSON, and no others.
func TestSchema(t *testing.T) {
	text, err := os.ReadFile("SCHEMA.md")
	if err != nil {
		t.Fatal(err)
	}
	told := map[string]bool{}
	for _, m := range regexp.MustCompile("(?m)^\\| `([a-z_]+)` \\|").FindAllStringSubmatch(string(text), -1) {
		told[m[1]] = true
	}
	changed := strings.Replace(quarters, "2 tide", "2 lamp", 1)
	data := compare.JSON([]compare.Pair{{Old: "a", New: "b", Report: compare.Compare(recorded(t, quarters), recorded(t, changed))}})
	written := map[string]bool{}
	var walk func(v any)
	walk = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, x := range v {
				written[k] = true
				walk(x)
			}
		case []any:
			for _, x := range v {
				walk(x)
			}
		}
	}
	var v any
	if err := json.Unmarshal(data, &v); err != nil {
		t.Fatal(err)
	}
	walk(v)
	if !reflect.DeepEqual(told, written) {
		t.Errorf("told %v, written %v", told, written)
	}
}

// Sections that have each other's letters, and nothing else, read as just that, in
// every example.
func TestLettersThatChangePlaces(t *testing.T) {
	names, _ := filepath.Glob("../../examples/*.seam")
	tried := 0
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), `from "families/`) {
			continue // needs files beside it
		}
		old, new := recorded(t, string(text)), recorded(t, string(text))
		want := 0
		for b := range new.Blocks {
			for s := range new.Blocks[b].Sizes {
				want += swapped(&new.Blocks[b].Sizes[s])
			}
		}
		got := 0
		r := compare.Compare(old, new)
		for i := range r.Changes {
			switch c := &r.Changes[i]; {
			case c.Kind != compare.Numbers:
				t.Errorf("%s: %s", name, r.Line(c))
			case c.Aspect == "letter":
				got += len(c.Sizes)
			}
		}
		if got != want {
			t.Errorf("%s: %d letters change, told are %d", name, want, got)
		}
		tried += want
	}
	if tried < 50 {
		t.Errorf("only %d letters were tried", tried)
	}
}

// swapped gives the sections of a size each other's letters, the first that of the
// last and so on, and returns how many have another one.
func swapped(s *edition.Size) int {
	now, n := map[string]string{}, len(s.Sections)
	changed := 0
	for i := range s.Sections {
		now[s.Sections[i].Name] = s.Sections[n-1-i].Name
		if i != n-1-i {
			changed++
		}
	}
	words := func(text string) string {
		all := strings.Fields(text)
		for i, w := range all {
			if to, ok := now[w]; ok {
				all[i] = to
			}
		}
		return strings.Join(all, " ")
	}
	for i := range s.Sections {
		c := &s.Sections[i]
		c.Name, c.Reverses = now[c.Name], words(c.Reverses)
		for k := range c.Edges {
			c.Edges[k] = words(c.Edges[k])
		}
	}
	for i := range s.Copies {
		s.Copies[i].Section = now[s.Copies[i].Section]
	}
	for i := range s.Joins {
		s.Joins[i].Press = words(s.Joins[i].Press)
	}
	for i := range s.Sheets {
		for k := range s.Sheets[i].Sections {
			s.Sheets[i].Sections[k].Section = now[s.Sheets[i].Sections[k].Section]
		}
	}
	return changed
}
