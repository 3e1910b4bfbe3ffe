package html

import (
	"bytes"
	"strconv"
	"strings"

	"seamwright/emit/drawing"
)

// A writer appends to the page. Methods return it.
type writer struct {
	b        []byte
	pictures int // so far, for their identities
}

// raw appends what is ours: marks and words without any.
func (w *writer) raw(s string) *writer { w.b = append(w.b, s...); return w }

// text appends an author's text, so that it can be nothing but text, in an
// element and in an attribute in double quotes (HTML, 13.1.4 and 13.1.2.3).
func (w *writer) text(s string) *writer {
	s = drawing.Clean(s)
	for i := range len(s) {
		switch c := s[i]; c {
		case '&':
			w.raw("&amp;")
		case '<':
			w.raw("&lt;")
		case '>':
			w.raw("&gt;")
		case '"':
			w.raw("&quot;")
		case '\'':
			w.raw("&#39;")
		default:
			w.b = append(w.b, c)
		}
	}
	return w
}

func (w *writer) number(n int) *writer { w.b = strconv.AppendInt(w.b, int64(n), 10); return w }

// element writes a text in an element of ours.
func (w *writer) element(name, text string) *writer {
	name, attributes, _ := strings.Cut(name, " ")
	w.raw("<").raw(name)
	if attributes != "" {
		w.raw(" ").raw(attributes)
	}
	return w.raw(">").text(text).raw("</").raw(name).raw(">\n")
}

// picture puts an SVG document into the page. Its identities get a name before
// them that no other picture has. In our documents a double quote stands round
// attributes only, never in a text, so an author's text is not touched.
func (w *writer) picture(svg []byte) *writer {
	at := bytes.Index(svg, []byte("<svg"))
	if at < 0 {
		return w
	}
	svg = svg[at:]
	w.pictures++
	name := "p" + strconv.Itoa(w.pictures)
	w.raw(`<svg role="img"`)
	rest := svg[len("<svg"):]
	for {
		quote := bytes.IndexByte(rest, '"')
		if quote < 0 {
			break
		}
		before := rest[:quote+1]
		w.b = append(w.b, before...)
		rest = rest[quote+1:]
		switch {
		case bytes.HasSuffix(before, []byte(` id="`)):
			w.raw(name)
		case bytes.HasPrefix(rest, []byte("#_")) && bytes.HasSuffix(before, []byte(`xlink:href="`)):
			w.raw("#").raw(name)
			rest = rest[1:]
		case bytes.HasPrefix(rest, []byte("url(#")):
			w.raw("url(#").raw(name)
			rest = rest[len("url(#"):]
		}
	}
	w.b = append(w.b, rest...)
	return w
}
