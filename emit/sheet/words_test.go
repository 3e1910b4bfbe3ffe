package sheet

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
	said "seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
	boats "seamwright/emit/internal/sample"
	"seamwright/lang/problem"
)

func textsOf(items []drawing.Item) (out []string) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Text:
			out = append(out, item.Text)
		case *drawing.Group:
			out = append(out, textsOf(item.Items)...)
		}
	}
	return out
}

// Every head says when and where to trim, a low one in few words that cost it no
// height, in every language and on every paper that is as wide as letter. On A4, which is
// narrower, only the legend does.
func TestLowHeadsSayWhereToTrim(t *testing.T) {
	for _, language := range said.Languages() {
		for _, extra := range []pattern.Length{0, 0.25} {
			for _, name := range []string{"letter", "legal", "a3", "tabloid"} {
				paper, _ := pattern.SheetNamed(name)
				p := boats.Boat()
				p.Settings.Language, p.Settings.Extra = language, extra
				l := newLayout(p, &p.Blocks[0], &p.Blocks[0].Sizes[0], paper)
				low, ok := l.frames().at(1)
				if !ok || !low.compact {
					t.Fatalf("%s: no low head", name)
				}
				key := "trim_low"
				if extra > 0 {
					key += "_extra"
				}
				text := strings.Join(textsOf(low.fixed.Items), " ")
				full := l.say(strings.Replace(key, "_low", "", 1), "allowance", l.local(l.p.Settings.Allowance.OnRuler(false)))
				if said := strings.Contains(text, l.say(key)) || strings.Contains(text, full); !said || !strings.Contains(text, l.say("legend_cutting")) {
					t.Errorf("%s on %s, extra %v: %s", language, name, extra, text)
				}
			}
		}
	}
}

// A German pattern has German sheets: nothing English is left on them, and nothing
// is cut short. In a language that there is not, sheets are English.
func TestSheetsSpeakTheirLanguage(t *testing.T) {
	p := boats.Boat()
	p.Settings.Extra = 0.25
	lay := func(language string) (Set, string) {
		p.Settings.Language = language
		set, problems := Lay(p, &p.Blocks[0], &p.Blocks[0].Sizes[0], p.Settings.Sheet)
		if problem.Failed(problems) {
			t.Fatal(problems)
		}
		text := ""
		for i := range set.Sheets {
			text += strings.Join(textsOf(set.Sheets[i].Page.Items), " | ") + " | "
		}
		return set, text
	}
	german, text := lay("de")
	for _, want := range []string{"Bogen 1 von", "Kennung " + german.Mark, "Umriss: beim Zusammennähen", "Prüfen: ", "Ausgabe 1", "diese Zugabe stehen lassen", "liegt beim Nähen oben"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on the sheets: %s", want, text)
		}
	}
	for _, english := range []string{"sheet ", "Print", "print ", "joins", "edge", "make ", "Check", "mark ", "outline", "section", "until", "Finished", "extra", "..."} {
		if strings.Contains(text, english) {
			t.Errorf("%q is on German sheets: %s", english, text)
		}
	}
	english, first := lay("en")
	none, second := lay("qq")
	if first != second || english.Mark != none.Mark || english.Mark == german.Mark {
		t.Error("a language without words is not English, or the mark does not see words")
	}
}

// Every message of the sheets is said, by its name in the text of the package, or
// of the one that binds sheets into a file.
func TestEveryMessageIsSaid(t *testing.T) {
	names, _ := filepath.Glob("*.go")
	names = append(names, "../emit.go")
	code := ""
	for _, name := range names {
		if !strings.HasSuffix(name, "_test.go") {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			code += string(text)
		}
	}
	text, err := os.ReadFile("../booklet/words/sheets/en.txt")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for line := range strings.Lines(string(text)) {
		key, _, ok := strings.Cut(line, " =")
		if !ok || strings.HasPrefix(line, "#") {
			continue
		}
		n++
		key = strings.TrimSuffix(strings.TrimSuffix(key, ".one"), ".other")
		if !strings.Contains(code, `"`+key+`"`) {
			t.Errorf("%q is never said", key)
		}
		if !said.OnSheets("en").Has(key) {
			t.Errorf("%q is not read", key)
		}
	}
	if n < 40 {
		t.Errorf("only %d messages", n)
	}
}
