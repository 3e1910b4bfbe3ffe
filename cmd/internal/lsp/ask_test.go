package lsp_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

func (e *editor) hover(u uri.URI, p protocol.Position) string {
	e.t.Helper()
	h, err := e.server.Hover(e.ctx, &protocol.HoverParams{TextDocumentPositionParams: on(u, p)})
	if err != nil {
		e.t.Fatal(err)
	}
	if h == nil {
		return ""
	}
	return h.Contents.(*protocol.MarkupContent).Value
}

func TestHover(t *testing.T) {
	e := start(t)
	u := e.open(filepath.Join(t.TempDir(), "boat.seam"), boat)
	e.problems(u, 1)
	// A2 is what lies left of x = 1.25 squares, above the middle: 1 1/4 in by 2 in
	// at 4 in, where a square is an inch. All by hand.
	for _, c := range []struct {
		words string
		n     int
		wants []string
	}{
		{"2 night along (1.25", 0, []string{"**A2**, night; pier_light at 4 in", "fills 1 1/4 in x 2 in", "seam: 2 in (5.1 cm) long", "1 1/4 in right, 4 in up (1.25, 4)"}},
		{"let deck", 5, []string{"a number: `2`"}},
		{"join (0", 1, []string{"**Join 1** of 1", "4 in (10.2 cm) long", "**join**: "}},
		{"pier_light", 2, []string{"A lamp by night.", "2 sections, 4 pieces, 1 join"}},
		{"night    \"", 2, []string{"fabric night", "#22384a"}},
		{"edition", 0, []string{"printed on every sheet"}},
		{"finished", 3, []string{"seam allowances out of sight"}},
	} {
		got := e.hover(u, at(boat, c.words, c.n))
		for _, want := range c.wants {
			if !strings.Contains(got, want) {
				t.Errorf("on %q it says:\n%s\nwithout %q", c.words, got, want)
			}
		}
	}
	// Facts are followed while the text is wrong elsewhere.
	broken := strings.Replace(boat, "edition 1", "edition 1 nonsense nonsense", 1)
	e.replace(u, 2, broken)
	if got := e.hover(u, at(broken, "2 night along (1.25", 0)); !strings.Contains(got, "**A2**") {
		t.Errorf("in a broken text it says: %s", got)
	}
}

func (e *editor) labels(u uri.URI, p protocol.Position) []string {
	e.t.Helper()
	r, err := e.server.Completion(e.ctx, &protocol.CompletionParams{TextDocumentPositionParams: on(u, p)})
	if err != nil {
		e.t.Fatal(err)
	}
	var labels []string
	for _, i := range r.(*protocol.CompletionList).Items {
		labels = append(labels, i.Label)
	}
	return labels
}

// What is offered where: | is the cursor. Most of the texts are half written.
func TestCompletion(t *testing.T) {
	const head = "fabric sky \"sky\" light #dfeaf0\nunit wave(cloth: fabric) 2 x 2 { section { 1 cloth at c } }\n"
	e := start(t)
	for i, c := range []struct{ text, wants, not string }{
		{"|", "block fabric use", "join"},
		{"bl|", "block", "join"},
		{"pattern \"P\" {\n  |\n}", "edition allowance", "border block"},
		{"pattern \"P\" {\n  sheet |\n}", "a4 letter", "edition"},
		{"quilt { sashing 1in of | }", "sky", "wave"},
		{"quilt {\n  row |\n}", "wave sky", "nw"},
		{"block b 2 x 2 finished 4in {\n  |\n}", "join section place let", "pattern"},
		{"block b 2 x 2 finished 4in {\n  section A {\n    |", "piece let", "join"},
		{"block b 2 x 2 finished 4in {\n  section A {\n    1 |", "sky", "wave nw"},
		{"block b 2 x 2 finished 4in {\n  section A {\n    1 sky |", "at along", "sky"},
		{"block b 2 x 2 finished 4in {\n  let deck = 1\n  section A {\n    1 sky at c\n    2 sky along |", "deck nw north mid", "wave"},
		{"block b 2 x 2 finished 4in {\n  place |", "wave log_cabin", "sky"},
		{"block b 2 x 2 finished 4in {\n  place wave(|", "sky", ""},
		{"block b 2 x 2 finished 4in {\n  place wave(cloth: sky) |", "at turn reversed", "sky"},
		{"block b 2 x 2 finished 4in {\n  let p = c.|", "x y", "sky"},
		{"block b 2 x 2 finished 4in {\n  accept |", "R101", "sky"},
		{"block b 2 x 2 finished 4in {\n  join w -- e\n  jo|", "join", "fabric"},
		{"unit u(a: |", "fabric count", "sky"},
		{"use log_cabin from \"|", "std/log_cabin", "sky"},
		{"// a note |", "", "block"},
		{"fabric red \"|", "", "light"},
		{"fabric red \"red\" |", "light dark", "sky"},
		{"colorway c { sky as | }", "sky", "wave"},
	} {
		text := head + strings.Replace(c.text, "|", "", 1)
		u := e.open(filepath.Join(t.TempDir(), "t"+string(rune('a'+i))+".seam"), text)
		got := e.labels(u, at(head+c.text, "|", 0))
		for _, want := range strings.Fields(c.wants) {
			if !slices.Contains(got, want) {
				t.Errorf("%s: %q is not offered, but %.200v", c.text, want, got)
			}
		}
		for _, not := range strings.Fields(c.not) {
			if slices.Contains(got, not) {
				t.Errorf("%s: %q is offered", c.text, not)
			}
		}
	}
}

func (e *editor) rename(u uri.URI, p protocol.Position, name string) (*protocol.WorkspaceEdit, error) {
	return e.server.Rename(e.ctx, &protocol.RenameParams{TextDocumentPositionParams: on(u, p), NewName: name})
}

func TestRename(t *testing.T) {
	e := start(t)
	dir := t.TempDir()
	u := e.open(filepath.Join(dir, "boat.seam"), boat)
	e.problems(u, 1)
	edit, err := e.rename(u, at(boat, "deck)", 1), "water_line")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := applied(boat, edit.Changes[u]), strings.ReplaceAll(boat, "deck", "water_line"); got != want {
		t.Errorf("it becomes %s", got)
	}
	for name, why := range map[string]string{"nw": "point or side", "join": "word of the language", "2b": "letters", "a b": "letters", "lamp": "is taken", "": "letters"} {
		if _, err := e.rename(u, at(boat, "deck)", 1), name); err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("renamed to %q: %v, want %q", name, err, why)
		}
	}
	if _, err := e.rename(u, at(boat, "pattern", 1), "a"); err == nil {
		t.Error("a word of the language is renamed")
	}
}

// A unit and its parameter are renamed in every file that uses them, open or not.
func TestRenameAcrossFiles(t *testing.T) {
	e := start(t)
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "sea.seam"), []byte(sea), 0o666); err != nil {
		t.Fatal(err)
	}
	u := e.open(filepath.Join(dir, "wave.seam"), wave)
	other := uri.File(filepath.Join(dir, "sea.seam"))
	for _, c := range []struct{ words, old, name string }{{"wave(", "wave(", "swell("}, {"cloth:", "cloth", "dye"}} {
		edit, err := e.rename(u, at(wave, c.words, 0), strings.TrimSuffix(c.name, "("))
		if err != nil {
			t.Fatal(err)
		}
		if got, want := applied(wave, edit.Changes[u]), strings.ReplaceAll(wave, c.old, c.name); got != want {
			t.Errorf("here it becomes %s", got)
		}
		want := strings.ReplaceAll(sea, c.old, c.name)
		if c.name == "swell(" {
			want = strings.Replace(want, "use wave", "use swell", 1)
		}
		if got := applied(sea, edit.Changes[other]); got != want {
			t.Errorf("there it becomes %s", got)
		}
	}
	places, err := e.server.References(e.ctx, &protocol.ReferenceParams{TextDocumentPositionParams: on(u, at(wave, "wave(", 0)),
		Context: protocol.ReferenceContext{IncludeDeclaration: true}})
	if err != nil || len(places) != 3 {
		t.Errorf("%d references, want 3 (the unit, the use, the place): %v", len(places), err)
	}
	root := e.open(filepath.Join(dir, "sea.seam"), sea)
	def, err := e.server.Definition(e.ctx, &protocol.DefinitionParams{TextDocumentPositionParams: on(root, at(sea, "wave(", 1))})
	if l, ok := def.(*protocol.Location); err != nil || !ok || l.URI != u || l.Range.Start != at(wave, "wave(", 0) {
		t.Errorf("it is defined at %v, %v", def, err)
	}
}

func TestShippedFamilies(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	t.Setenv("HOME", t.TempDir())
	const text = "use log_cabin from \"std/log_cabin\"\nfabric a \"a\" light #ffffff\nblock b 8 x 8 finished 6in {\n  place log_cabin(heart: a, warm: a, cool: a) at sw\n}\n"
	e := start(t)
	u := e.open(filepath.Join(t.TempDir(), "cabin.seam"), text)
	def, err := e.server.Definition(e.ctx, &protocol.DefinitionParams{TextDocumentPositionParams: on(u, at(text, "warm", 0))})
	l, ok := def.(*protocol.Location)
	if err != nil || !ok {
		t.Fatalf("it is defined at %v, %v", def, err)
	}
	data, err := os.ReadFile(l.URI.FsPath())
	if err != nil {
		t.Fatal(err)
	}
	line := strings.Split(string(data), "\n")[l.Range.Start.Line]
	if !strings.HasPrefix(line[l.Range.Start.Character:], "warm: fabric") {
		t.Errorf("it is defined at %q", line)
	}
	if got := e.hover(u, at(text, "log_cabin(", 1)); !strings.Contains(got, "rounds: count") {
		t.Errorf("it says: %s", got)
	}
	edit, err := e.rename(u, at(text, "log_cabin(", 1), "hearth")
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Replace(strings.Replace(text, "use log_cabin", "use log_cabin as hearth", 1), "place log_cabin", "place hearth", 1)
	if got := applied(text, edit.Changes[u]); got != want {
		t.Errorf("renamed it becomes %s", got)
	}
	if shown := e.open(l.URI.FsPath(), string(data)); len(errorsOf(e.problems(shown, 1))) > 0 {
		t.Error("the family has problems where the editor shows it")
	}
}

func TestActionsMend(t *testing.T) {
	e := start(t)
	bad := strings.Replace(boat, "2 night along (0", "2 nihgt along (0", 1)
	u := e.open(filepath.Join(t.TempDir(), "boat.seam"), bad)
	e.problems(u, 1)
	p := at(bad, "nihgt", 2)
	list, err := e.server.CodeAction(e.ctx, &protocol.CodeActionParams{TextDocument: protocol.TextDocumentIdentifier{URI: u}, Range: protocol.Range{Start: p, End: p}})
	if err != nil || len(list) != 1 {
		t.Fatalf("%d actions, want 1: %v", len(list), err)
	}
	a := list[0].(*protocol.CodeAction)
	if a.Title != "Write `night` for `nihgt`" || applied(bad, a.Edit.Changes[u]) != boat {
		t.Errorf("%s makes %s", a.Title, applied(bad, a.Edit.Changes[u]))
	}
}

func TestHints(t *testing.T) {
	const text = `fabric a "a" light #ffffff
fabric b "b" dark #000000
unit half 2 x 2 { section A { 1 a at (0.5, 1.5)
  2 b along sw -- ne } }
block pin 4 x 4 finished 6in {
  for i in 0..3 { place half as T at c turn 90deg * i }
  join w -- c
  join c -- e
  join n -- s
}
`
	e := start(t)
	u := e.open(filepath.Join(t.TempDir(), "pin.seam"), text)
	if ps := errorsOf(e.problems(u, 1)); len(ps) > 0 {
		t.Fatal(ps)
	}
	list, err := e.server.InlayHint(e.ctx, &protocol.InlayHintParams{TextDocument: protocol.TextDocumentIdentifier{URI: u},
		Range: protocol.Range{End: protocol.Position{Line: 99}}})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, h := range list {
		got = append(got, string(h.Label.(protocol.String)))
	}
	if s := strings.Join(got, ", "); s != "TA, TA1, TA2, join 1, join 2, join 3" {
		t.Errorf("the hints are %s", s)
	}
}

// The patches of a drawn unit are told of where they are named, at the size that
// the settings choose.
func TestDrawnUnits(t *testing.T) {
	const text = `fabric sky "sky" light #dfeaf0
fabric sea "sea" dark #25525e
block halves 8 x 8 finished 6in, 8in {
  line w -- e, (0, 2) -- (8, 2)
  piece sky at (4, 6), (4, 1)
  piece sea at (4, 3)
}
`
	e := start(t)
	u := e.open(filepath.Join(t.TempDir(), "t.seam"), text)
	if ps := errorsOf(e.problems(u, 1)); len(ps) > 0 {
		t.Fatal(ps)
	}
	if got := e.hover(u, at(text, "piece sky", 0)); strings.Count(got, "; halves at 6 in") != 2 || !strings.Contains(got, "fills 6 in x 3 in") {
		t.Errorf("it says: %s", got)
	}
}

// A section that is written a second time is the same drawing, and facts are told
// where each piece is written and lies.
func TestEqualSections(t *testing.T) {
	const text = `fabric a "a" light #ffffff
fabric b "b" dark #000000
block pair 4 x 2 finished 8in {
  section {
    1 a at (0.5, 1)
    2 b along (1, 0) -- (1, 2)
  }
  section {
    1 a at (3.5, 1)
    2 b along (3, 2) -- (3, 0)
  }
  join n -- s
}
`
	e := start(t)
	u := e.open(filepath.Join(t.TempDir(), "t.seam"), text)
	if ps := errorsOf(e.problems(u, 1)); len(ps) > 0 {
		t.Fatal(ps)
	}
	for words, places := range map[string][2]string{
		"2 b along (1, 0)": {"2 in right, 0 in up (1, 0)", "2 in right, 4 in up (1, 2)"},
		"2 b along (3, 2)": {"6 in right, 0 in up (3, 0)", "6 in right, 4 in up (3, 2)"},
	} {
		got := e.hover(u, at(text, words, 0))
		if strings.Count(got, "**A2**, b, made 2 times") != 1 || !strings.Contains(got, places[0]) || !strings.Contains(got, places[1]) {
			t.Errorf("on %q it says: %s", words, got)
		}
	}
}

func TestSignatures(t *testing.T) {
	const text = "unit wave(cloth: fabric, n: count = 2) 2 x 2 { section { 1 cloth at mid(nw, se) } }\nblock b 2 x 2 finished 4in { place wave(cloth: "
	e := start(t)
	u := e.open(filepath.Join(t.TempDir(), "t.seam"), text)
	for _, c := range []struct {
		p     protocol.Position
		label string
		which uint32
	}{
		{at(text, "mid(nw, ", 8), "mid(p: point, q: point) -> point", 1},
		{at(text, "place wave(", 11), "wave(cloth: fabric, n: count = 2)", 0},
	} {
		h, err := e.server.SignatureHelp(e.ctx, &protocol.SignatureHelpParams{TextDocumentPositionParams: on(u, c.p)})
		if err != nil || h == nil {
			t.Fatalf("%s: %v", c.label, err)
		}
		if got := h.Signatures[0].Label; got != c.label {
			t.Errorf("it takes %s, want %s", got, c.label)
		}
	}
}

// Decoded as the protocol says, the tokens are the words of the text.
func TestSemanticTokens(t *testing.T) {
	e := start(t)
	u := e.open(filepath.Join(t.TempDir(), "boat.seam"), boat)
	r, err := e.server.SemanticTokensFull(e.ctx, &protocol.SemanticTokensParams{TextDocument: protocol.TextDocumentIdentifier{URI: u}})
	if err != nil || len(r.Data)%5 != 0 {
		t.Fatalf("%d numbers, %v", len(r.Data), err)
	}
	lines := strings.Split(boat, "\n")
	line, char := 0, 0
	kinds := map[string]uint32{}
	for i := 0; i < len(r.Data); i += 5 {
		if r.Data[i] > 0 {
			char = 0
		}
		line, char = line+int(r.Data[i]), char+int(r.Data[i+1])
		kinds[lines[line][char:char+int(r.Data[i+2])]] = r.Data[i+3]
	}
	for word, kind := range map[string]uint32{"block": 0, "/// A lamp by night.": 1, `"lamp"`: 2, "1.25": 3, "--": 4, "pier_light": 5, "night": 6, "deck": 8, "edition": 10, "dark": 11} {
		if got, ok := kinds[word]; !ok || got != kind {
			t.Errorf("%q is of kind %d (%v), want %d", word, got, ok, kind)
		}
	}
}

// A rule's warning can be answered for: what the action writes silences it.
func TestWarningsAreAccepted(t *testing.T) {
	const text = `pattern "P" { edition 1 }
fabric lamp  "lamp"  light #f2dca0
fabric night "night" dark  #22384a
block b 4 x 4 finished 4in {
  section A {
    1 lamp  at (2, 2)
    2 night along (0.2, 0) -- (0.2, 4)
  }
}
`
	e := start(t)
	u := e.open(filepath.Join(t.TempDir(), "t.seam"), text)
	all := e.problems(u, 1)
	i := slices.IndexFunc(all, func(d protocol.Diagnostic) bool { return d.Code == protocol.String("R101") })
	if i < 0 || all[i].Severity != protocol.DiagnosticSeverityWarning {
		t.Fatalf("no warning of a narrow piece: %v", all)
	}
	list, err := e.server.CodeAction(e.ctx, &protocol.CodeActionParams{TextDocument: protocol.TextDocumentIdentifier{URI: u}, Range: all[i].Range})
	if err != nil {
		t.Fatal(err)
	}
	k := slices.IndexFunc(list, func(a protocol.CommandOrCodeAction) bool {
		return a.(*protocol.CodeAction).Title == "Accept R101, with a reason"
	})
	if k < 0 {
		t.Fatalf("it can't be accepted: %d actions", len(list))
	}
	mended := applied(text, list[k].(*protocol.CodeAction).Edit.Changes[u])
	if !strings.Contains(mended, "    accept R101 \"say why\"\n    2 night") {
		t.Errorf("it becomes %s", mended)
	}
	e.replace(u, 2, mended)
	for _, d := range e.problems(u, 2) {
		if d.Code == protocol.String("R101") || d.Severity == protocol.DiagnosticSeverityError {
			t.Errorf("accepted, it has %v: %v", d.Code, d.Message)
		}
	}
}
