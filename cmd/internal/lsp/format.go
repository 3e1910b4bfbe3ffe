package lsp

import (
	"strings"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// format lays the whole text out, also where a part of it is asked for: layout is
// the same everywhere. A text with mistakes is left alone without a word, for
// editors ask at every save, and the mistakes are told already.
func (s *server) format(d *document, _ *wire.At) (any, *wire.Error) {
	file := d.tree()
	if problem.Failed(d.faults) {
		return nil, nil
	}
	laid := lang.Format(file)
	if crlf(d.source.Text) {
		laid = strings.ReplaceAll(laid, "\n", "\r\n")
	}
	return d.lineEdits(laid), nil
}

// lineEdits returns the edits that make another text of a document's. Where there
// are as many lines as before each is replaced by itself, so that the cursor stays;
// else one stretch is replaced.
func (t *text) lineEdits(to string) []wire.TextEdit {
	edits := []wire.TextEdit{}
	was, now := strings.SplitAfter(t.source.Text, "\n"), strings.SplitAfter(to, "\n")
	add := func(start, end int, words string) {
		edits = append(edits, wire.TextEdit{Range: t.rang(lang.Span{Start: int32(start), End: int32(end)}), NewText: words})
	}
	if len(was) == len(now) {
		at := 0
		for i := range was {
			if was[i] != now[i] {
				ending := func(s string) int { return len(strings.TrimRight(s, "\r\n")) }
				if was[i][ending(was[i]):] == now[i][ending(now[i]):] {
					add(at, at+ending(was[i]), now[i][:ending(now[i])])
				} else {
					add(at, at+len(was[i]), now[i])
				}
			}
			at += len(was[i])
		}
		return edits
	}
	head, at := 0, 0
	for head < len(was) && head < len(now) && was[head] == now[head] {
		at += len(was[head])
		head++
	}
	tail, end := 0, len(t.source.Text)
	for tail < len(was)-head && tail < len(now)-head && was[len(was)-1-tail] == now[len(now)-1-tail] {
		end -= len(was[len(was)-1-tail])
		tail++
	}
	add(at, end, strings.Join(now[head:len(now)-tail], ""))
	return edits
}
