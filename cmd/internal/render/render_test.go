package render

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"seamwright/lang/problem"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares with, or rewrites, a file under testdata.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), string(got)); d != "" {
		t.Errorf("%s (-want +got):\n%s", name, d)
	}
}

// at finds words in a text.
func at(src *problem.Source, words string) problem.Place {
	i := strings.Index(src.Text, words)
	if i < 0 {
		panic(words)
	}
	return problem.Place{Source: src, Span: problem.Span{Start: int32(i), End: int32(i + len(words))}}
}

// sample has a problem of every shape.
func sample() []problem.Problem {
	boat := &problem.Source{Name: "harbour boat.seam", Text: "fabric sky \"sky\" light #dfeaf0\n" +
		"block boat 8 x 8 finished 6in {\r\n" +
		"\tjoin w - e   // 船 🚢 and e\u0301\n" +
		"  section A { 1 sky at c; 2 skyy along n -- e }\n" +
		"  let wide = " + strings.Repeat("1 + ", 60) + "oops + " + strings.Repeat("1 + ", 40) + "1\n" +
		"}\n"}
	wave := &problem.Source{Name: "std/wave", Text: "unit wave 2 x 2 {\n}\n"}
	ship := at(boat, "🚢")
	return []problem.Problem{
		{Code: "L201", Severity: problem.Error, At: at(boat, "skyy"), Message: "nothing here is called `skyy`",
			Labels: []problem.Label{{At: at(boat, "sky"), Text: "a fabric of this file"}},
			Help:   "write `sky`", Edits: []problem.Edit{{At: at(boat, "skyy").Span, New: "sky"}}},
		{Code: "L123", Severity: problem.Error, At: at(boat, "-"), Message: "a single dash takes away; `--` joins two points",
			Edits: []problem.Edit{{At: at(boat, "-").Span, New: "--"}}},
		{Code: "L103", Severity: problem.Warning, At: ship, Message: "a ship in the text"},
		{Code: "L201", Severity: problem.Error, At: at(boat, "oops"), Message: "nothing here is called `oops`",
			Help: "two lines\nof help"},
		{Code: "G101", Severity: problem.Note, At: problem.Place{Source: boat, Span: problem.Span{Start: at(boat, "block").Span.Start, End: int32(len(boat.Text)) - 1}},
			Message: "a block that\nruns on", Labels: []problem.Label{{At: at(wave, "wave"), Text: "uses this"}},
			Drawn: &problem.Drawn{Unit: "boat", Points: [][2]float64{{1, 2.5}}, Lines: [][2][2]float64{{{0, 0}, {1, 1}}}}},
		{Code: "L118", Severity: problem.Error, At: problem.Place{Source: boat, Span: problem.Span{Start: int32(len(boat.Text)), End: int32(len(boat.Text))}},
			Message: "the file ends before its last }"},
		{Code: "F101", Severity: problem.Error, At: problem.Place{Source: &problem.Source{Name: "gone.seam"}}, Message: "there is no such file"},
		{Code: "F201", Severity: problem.Error, Message: "no place at all", Help: "help"},
	}
}

// The SARIF golden was found valid against the schema of the standard (OASIS,
// sarif-schema-2.1.0.json, errata 01) with an independent JSON Schema validator;
// validate it again when it changes.
func TestGoldens(t *testing.T) {
	var text, colour, js, sarif bytes.Buffer
	ps := sample()
	Text(&text, ps, Style{})
	Text(&colour, ps[:1], Style{Colour: true})
	JSON(&js, ps)
	SARIF(&sarif, ps, []problem.Info{{Code: "L201", Title: "an unknown name", Rule: "Names are declared."}})
	golden(t, "problems.txt", text.Bytes())
	golden(t, "colour.txt", colour.Bytes())
	golden(t, "problems.json", js.Bytes())
	golden(t, "problems.sarif", sarif.Bytes())
}

func TestTextStops(t *testing.T) {
	ps := make([]problem.Problem, MaxShown+7)
	for i := range ps {
		ps[i] = problem.Problem{Code: "L101", Message: "m"}
	}
	var b bytes.Buffer
	Text(&b, ps, Style{})
	if n := strings.Count(b.String(), "error L101"); n != MaxShown || !strings.Contains(b.String(), "7 more") {
		t.Errorf("%d told: %s", n, b.String()[b.Len()-200:])
	}
}

// A pattern can't write on the terminal: no escape, no reversed reading.
func TestTextIsHarmless(t *testing.T) {
	evil := "\x1b[2J\u202e\u2066\a\r\x9b31m\u0085"
	src := &problem.Source{Name: "x" + evil + ".seam", Text: "let " + evil + " = 1"}
	var b bytes.Buffer
	Text(&b, []problem.Problem{{Code: "L103", At: at(src, evil), Message: evil, Help: evil,
		Labels: []problem.Label{{At: at(src, "let"), Text: evil}},
		Edits:  []problem.Edit{{At: at(src, evil).Span, New: evil}}}}, Style{})
	for _, r := range b.String() {
		if r != '\n' && (r < ' ' || r >= 0x7F && r < 0xA0 || r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069) {
			t.Errorf("%U reaches the terminal", r)
		}
	}
}

// On any text and any span, no renderer fails, the marks stand under the words,
// and the machine formats are JSON.
func TestAnySpan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringOfN(rapid.RuneFrom([]rune("ab \t\n\r船é\u0301")), 0, 300, -1)).Draw(t, "text")
		src := &problem.Source{Name: "a.seam", Text: text}
		offset := rapid.Int32Range(-2, int32(len(text))+2)
		from, to := offset.Draw(t, "from"), offset.Draw(t, "to")
		p := problem.Problem{Code: "L101", At: problem.Place{Source: src, Span: problem.Span{Start: from, End: to}}, Message: "m",
			Edits: []problem.Edit{{At: problem.Span{Start: from, End: to}, New: "new"}}}
		var b bytes.Buffer
		Text(&b, []problem.Problem{p}, Style{})
		if !utf8.Valid(b.Bytes()) {
			t.Errorf("not UTF-8: %q", b.String())
		}
		for _, write := range []func(*bytes.Buffer){
			func(b *bytes.Buffer) { JSON(b, []problem.Problem{p}) },
			func(b *bytes.Buffer) { SARIF(b, []problem.Problem{p}, nil) },
		} {
			b.Reset()
			write(&b)
			if !json.Valid(b.Bytes()) {
				t.Errorf("no JSON: %s", b.String())
			}
		}
	})
}

func TestMarksStandUnderWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ascii := rapid.StringOfN(rapid.RuneFrom([]rune("abc ")), 0, 200, -1)
		before, after := ascii.Draw(t, "before"), ascii.Draw(t, "after")
		src := &problem.Source{Name: "a.seam", Text: before + "WORDS" + after}
		var b bytes.Buffer
		Text(&b, []problem.Problem{{Code: "L101", At: at(src, "WORDS"), Message: "m"}}, Style{})
		lines := strings.Split(b.String(), "\n")
		if i := strings.Index(lines[1], "WORDS"); i < 0 || i != strings.Index(lines[2], "^^^^^") || len(lines[1]) > widest+20 {
			t.Errorf("%s\n%s", lines[1], lines[2])
		}
	})
}

func TestApply(t *testing.T) {
	got, ok := Apply("abcdef", []problem.Edit{{At: problem.Span{Start: 4, End: 5}, New: "X"}, {At: problem.Span{Start: 1, End: 1}, New: "Y"}})
	if got != "aYbcdXf" || !ok {
		t.Errorf("%q %v", got, ok)
	}
	for _, bad := range [][]problem.Edit{
		{{At: problem.Span{Start: 0, End: 3}}, {At: problem.Span{Start: 2, End: 4}}},
		{{At: problem.Span{Start: 0, End: 7}}},
		{{At: problem.Span{Start: 3, End: 1}}},
	} {
		if got, ok := Apply("abcdef", bad); ok || got != "abcdef" {
			t.Errorf("%v: %q %v", bad, got, ok)
		}
	}
}
