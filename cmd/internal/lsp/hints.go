package lsp

import (
	"slices"
	"strconv"
	"strings"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/lang"
)

// hints answers what is printed for a statement: the labels of its pieces, a
// section's letter where it is not the written one, when a join is sewn.
func (s *server) hints(d *document, at *wire.At) (any, *wire.Error) {
	hints := []wire.InlayHint{}
	follow := d.follow()
	if follow == nil {
		return hints, nil
	}
	shown := d.span(at.Range)
	add := func(end int32, label, tip string) {
		if label != "" {
			hints = append(hints, wire.InlayHint{Position: d.position(end), Label: label, Tooltip: tip, PaddingLeft: true})
		}
	}
	d.eachStatement(func(st lang.Stmt) {
		span := st.Where()
		if span.End < shown.Start || span.Start > shown.End {
			return
		}
		switch st := st.(type) {
		case *lang.Piece:
			if from, ok := follow(span.Start); ok {
				labels, tip := s.labels(d.good.pieces[from], (*made).label)
				add(span.End, labels, tip)
			}
			for _, e := range st.At { // of a drawn unit: each point is a patch
				if from, ok := follow(e.Where().Start); ok {
					labels, tip := s.labels(d.good.pieces[from], (*made).label)
					add(e.Where().End, labels, tip)
				}
			}
		case *lang.Section:
			head := st.Name.Span
			if st.Name.Text == "" {
				head = lang.Span{Start: span.Start, End: span.Start + int32(len("section"))}
			}
			if from, ok := follow(head.Start); ok {
				labels, tip := s.labels(d.good.sections[from], func(m *made) string { return m.drawing.Name })
				if labels != st.Name.Text {
					add(head.End, labels, tip)
				}
			}
		case *lang.Join:
			for _, e := range st.Lines {
				if from, ok := follow(e.Where().Start); ok {
					orders, tip := s.labels(d.good.joins[from], func(m *made) string { return strconv.Itoa(m.join.Number) })
					if orders != "" {
						add(e.Where().End, "join "+orders, tip)
					}
				}
			}
		}
	})
	return hints, nil
}

// labels joins the names of what a statement made, without repeats; of many the
// first and the last.
func (s *server) labels(all []made, name func(*made) string) (label, tip string) {
	var list []string
	for _, m := range s.ofShown(all) {
		if n := name(&m); !slices.Contains(list, n) {
			list = append(list, n)
			tip = m.block.Name + " at " + m.size.Finished.Exact()
		}
	}
	if n := len(list); n > mostShown {
		return list[0] + " ... " + list[n-1], strconv.Itoa(n) + " of them, " + tip
	}
	return strings.Join(list, ", "), tip
}
