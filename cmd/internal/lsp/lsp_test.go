package lsp_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"go.lsp.dev/protocol"
)

func TestProblemsAsOneTypes(t *testing.T) {
	e := start(t)
	u := e.open(filepath.Join(t.TempDir(), "boat.seam"), boat)
	if ps := errorsOf(e.problems(u, 1)); len(ps) > 0 {
		t.Errorf("a good text has problems: %v", ps)
	}
	bad := strings.Replace(boat, "2 night along (0", "2 nihgt along (0", 1)
	e.replace(u, 2, bad)
	ps := e.problems(u, 2)
	if len(ps) != 1 {
		t.Fatalf("%d problems, want 1", len(ps))
	}
	if got, want := ps[0].Range.Start, at(bad, "nihgt", 0); got != want {
		t.Errorf("it stands at %v, want %v", got, want)
	}
	if ps[0].Code != protocol.String("L201") || ps[0].Severity != protocol.DiagnosticSeverityError {
		t.Errorf("it is %v, %v", ps[0].Code, ps[0].Severity)
	}
	// Mended by one key, sent as a change of a range.
	from := at(bad, "nihgt", 2)
	to := from
	to.Character += 2
	e.change(u, 3, &protocol.TextDocumentContentChangePartial{Range: protocol.Range{Start: from, End: to}, Text: "gh"})
	if ps := errorsOf(e.problems(u, 3)); len(ps) > 0 {
		t.Errorf("mended, it has problems: %v", ps)
	}
}

func errorsOf(all []protocol.Diagnostic) (list []protocol.Diagnostic) {
	for _, d := range all {
		if d.Severity == protocol.DiagnosticSeverityError {
			list = append(list, d)
		}
	}
	return list
}

const wave = "unit wave(cloth: fabric) 2 x 2 {\n  section { 1 cloth at c }\n}\n"

const sea = `use wave from "wave"
fabric blue "blue" dark #224466
block sea 2 x 2 finished 4in { place wave(cloth: blue) at sw }
`

// What an editor holds unsaved is what a pattern uses, and a change of it is seen
// at once.
func TestUnsavedFilesAreUsed(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "wave.seam"), []byte("// empty on the disk\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	e := start(t)
	root := e.open(filepath.Join(dir, "sea.seam"), sea)
	if ps := e.problems(root, 1); len(errorsOf(ps)) != 1 {
		t.Fatalf("the disk's file has no unit, and %d errors are told", len(errorsOf(ps)))
	}
	used := e.open(filepath.Join(dir, "wave.seam"), wave)
	if ps := e.problems(root, 1); len(errorsOf(ps)) != 0 {
		t.Errorf("with the editor's file: %v", ps)
	}
	e.replace(used, 2, strings.Replace(wave, "1 cloth at c", "1 cloth", 1))
	if ps := e.problems(used, 2); len(errorsOf(ps)) != 1 {
		t.Errorf("a mistake in the used file: %v", ps)
	}
	// Of a file that is closed, problems are told at its own place.
	if err := e.server.DidClose(e.ctx, &protocol.DidCloseTextDocumentParams{TextDocument: protocol.TextDocumentIdentifier{URI: used}}); err != nil {
		t.Fatal(err)
	}
	if ps := e.problems(root, 1); len(errorsOf(ps)) != 1 {
		t.Errorf("closed without saving: %v", ps)
	}
}

func TestFormatting(t *testing.T) {
	e := start(t)
	untidy := strings.Replace(boat, "  let deck = 2\n", "let   deck=2\n", 1)
	for _, text := range []string{untidy, strings.ReplaceAll(untidy, "\n", "\r\n"), boat + "\n\n\n"} {
		u := e.open(filepath.Join(t.TempDir(), "boat.seam"), text)
		edits, err := e.server.Formatting(e.ctx, &protocol.DocumentFormattingParams{TextDocument: protocol.TextDocumentIdentifier{URI: u}})
		if err != nil || len(edits) != 1 {
			t.Fatalf("%d edits, %v", len(edits), err)
		}
		want := boat
		if strings.Contains(text, "\r\n") {
			want = strings.ReplaceAll(boat, "\n", "\r\n")
		}
		if got := applied(text, edits); got != want {
			t.Errorf("it becomes %q", got)
		}
	}
	u := e.open(filepath.Join(t.TempDir(), "broken.seam"), "block b 2 x 2 finished 4in {")
	if edits, err := e.server.Formatting(e.ctx, &protocol.DocumentFormattingParams{TextDocument: protocol.TextDocumentIdentifier{URI: u}}); len(edits) > 0 || err != nil {
		t.Errorf("a broken text is laid out: %v, %v", edits, err)
	}
}

// applied applies edits to a text of ASCII, from its end.
func applied(text string, edits []protocol.TextEdit) string {
	lines := strings.SplitAfter(text, "\n")
	offset := func(p protocol.Position) int {
		n := 0
		for _, l := range lines[:p.Line] {
			n += len(l)
		}
		return n + int(p.Character)
	}
	for i := len(edits) - 1; i >= 0; i-- {
		from, to := offset(edits[i].Range.Start), offset(edits[i].Range.End)
		text = text[:from] + edits[i].NewText + text[to:]
	}
	return text
}

func TestSymbolsAndFolds(t *testing.T) {
	e := start(t)
	u := e.open(filepath.Join(t.TempDir(), "boat.seam"), boat)
	id := protocol.TextDocumentIdentifier{URI: u}
	result, err := e.server.DocumentSymbol(e.ctx, &protocol.DocumentSymbolParams{TextDocument: id})
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	var walk func([]protocol.DocumentSymbol)
	walk = func(list []protocol.DocumentSymbol) {
		for _, s := range list {
			names = append(names, s.Name)
			walk(s.Children)
		}
	}
	walk(result.(protocol.DocumentSymbolSlice))
	if got := strings.Join(names, ", "); got != "Pier Light, lamp, night, pier_light, deck, A, B" {
		t.Errorf("the symbols are %s", got)
	}
	folds, err := e.server.FoldingRanges(e.ctx, &protocol.FoldingRangeParams{TextDocument: id})
	if err != nil || len(folds) != 3 {
		t.Errorf("%d folds, want 3: %v", len(folds), err)
	}
}

// Behind letters that count differently in bytes, characters and UTF-16 code units,
// problems stand where the editor counts them, and changes arrive where it meant.
func TestPlacesBehindOddLetters(t *testing.T) {
	const text = "fabric a \"a\" light #ffffff\r\nblock b 2 x 2 finished 4in {\r\n" +
		"  section { check 1 == 1 \"𝒜e\u0301👩🏽‍🚀\" 1 aa at c }\r\n}\r\n"
	// before the name: 26 of ASCII and the letters 𝒜 (4 bytes, 2 units), e and its
	// accent (1 + 2 bytes, 2 units), a family of five (4+4+3+4 bytes, 2+2+1+2 units),
	// then `" 1 ` (4): counted by hand.
	for _, c := range []struct {
		offers []protocol.PositionEncodingKind
		says   protocol.PositionEncodingKind
		column uint32
	}{
		{nil, "utf-16", 26 + 2 + 2 + 7 + 4},
		{[]protocol.PositionEncodingKind{"utf-32", "utf-16"}, "utf-16", 26 + 2 + 2 + 7 + 4},
		{[]protocol.PositionEncodingKind{"utf-16", "utf-8"}, "utf-8", 26 + 4 + 3 + 15 + 4},
	} {
		e := start(t, c.offers...)
		if e.encoded != c.says {
			t.Errorf("offered %v it chooses %s", c.offers, e.encoded)
		}
		u := e.open(filepath.Join(t.TempDir(), "t.seam"), text)
		ps := errorsOf(e.problems(u, 1))
		if len(ps) != 1 || ps[0].Range.Start != (protocol.Position{Line: 2, Character: c.column}) {
			t.Fatalf("%s: %v, want column %d", c.says, ps, c.column)
		}
		to := ps[0].Range.End
		from := to
		from.Character--
		e.change(u, 2, &protocol.TextDocumentContentChangePartial{Range: protocol.Range{Start: from, End: to}})
		if ps := errorsOf(e.problems(u, 2)); len(ps) > 0 {
			t.Errorf("%s: mended, it has %v", c.says, ps)
		}
	}
}
