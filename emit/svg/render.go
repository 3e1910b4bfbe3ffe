package svg

import (
	"fmt"
	"strings"

	svgo "github.com/ajstarks/svgo/float"

	"seamwright/emit/drawing"
)

// A writer holds one document while it is made.
type writer struct {
	out     []byte
	canvas  *svgo.SVG // writes to out through Write
	run     run       // strokes of one look that are not yet written
	strokes [drawing.Styles]string
	ids     map[string]bool
	clips   int
	texts   texts
	err     error
}

// A run is a sequence of chains of one look, written as one path element.
type run struct {
	attrs string
	data  []byte
}

// Write appends to the document; it is svgo's way in and never fails.
func (w *writer) Write(p []byte) (int, error) {
	w.out = append(w.out, p...)
	return len(p), nil
}

// Render returns a page as an SVG document. The error tells of a fault in the
// drawing: a coordinate that is no number, an identity given twice.
func Render(page *drawing.Page) ([]byte, error) {
	w := &writer{ids: map[string]bool{}, out: make([]byte, 0, 32<<10)}
	w.canvas = svgo.New(w)
	width, ok1 := fix(page.Size.W)
	height, ok2 := fix(page.Size.H)
	if !ok1 || !ok2 || width <= 0 || height <= 0 {
		return nil, fmt.Errorf("page %s: a size of %v x %v in is not a page", page.Name, float64(page.Size.W), float64(page.Size.H))
	}
	box := appendNext(appendNext([]byte(`viewBox="0 0`), width, 2), height, 2)
	w.canvas.Startunit(float64(width)/perMM, float64(height)/perMM, "mm", string(append(box, '"')), `stroke-linejoin="round"`)
	w.canvas.Title(drawing.Clean(page.Title))
	w.texts.count(page.Items)
	w.items(page.Items)
	w.texts.define(w)
	w.canvas.End()
	if w.err != nil {
		return nil, fmt.Errorf("page %s: %w", page.Name, w.err)
	}
	return w.out, nil
}

// fail keeps the first fault.
func (w *writer) fail(format string, args ...any) {
	if w.err == nil {
		w.err = fmt.Errorf(format, args...)
	}
}

func (w *writer) items(items []drawing.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			w.path(item)
		case *drawing.Text:
			w.flush()
			w.text(item)
		case *drawing.Group:
			w.flush()
			w.group(item)
		}
	}
	w.flush()
}

func (w *writer) group(g *drawing.Group) {
	attrs := make([]byte, 0, 80)
	if g.Clip != nil {
		attrs = fmt.Appendf(attrs, `clip-path="url(#%s)" `, w.clip(g))
	}
	if g.ID != "" {
		if !name(g.ID) || w.ids[g.ID] {
			w.fail("the identity %q is not a name or is given twice", g.ID)
			return
		}
		w.ids[g.ID] = true
		attrs = append(append(append(attrs, `id="`...), g.ID...), `" `...)
	}
	if g.Class != "" {
		if !name(g.Class) {
			w.fail("the class %q is not a name", g.Class)
			return
		}
		attrs = append(append(append(attrs, `class="`...), g.Class...), `" `...)
	}
	w.out = append(append(append(w.out, "<g "...), attrs...), ">\n"...)
	if words := spoken(g.Items); words != "" {
		w.canvas.Desc(words)
	}
	w.items(g.Items)
	w.canvas.Gend()
}

// spoken joins the texts that stand directly in a group, for readers.
func spoken(items []drawing.Item) string {
	first, rest := "", []string(nil)
	for _, item := range items {
		if t, ok := item.(*drawing.Text); ok {
			if first == "" {
				first = drawing.Clean(t.Text)
			} else {
				rest = append(rest, drawing.Clean(t.Text))
			}
		}
	}
	if rest == nil {
		return first
	}
	return first + " " + strings.Join(rest, " ")
}

// clip writes a clipping path and returns its identity.
func (w *writer) clip(g *drawing.Group) string {
	w.clips++
	id := fmt.Sprintf("_c%d", w.clips)
	data := w.chain(nil, &drawing.Path{Points: g.Clip, Closed: true})
	w.canvas.ClipPath(`id="` + id + `"`)
	w.canvas.Path(string(data))
	w.canvas.ClipEnd()
	return id
}

// name reports whether s can be an identity: a letter, then letters, digits, -
// and _. The writer's own identities begin with _.
func name(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		letter := c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
		if !letter && (i == 0 || !(c >= '0' && c <= '9' || c == '-' || c == '_')) {
			return false
		}
	}
	return s != ""
}
