package svg

import (
	"fmt"
	"strings"
	"sync"
	"sync/atomic"

	svgo "github.com/ajstarks/svgo/float"

	"seamwright/emit/drawing"
)

// A Renderer writes pages, and keeps what it made of shared groups. It is safe
// for concurrent use.
type Renderer struct {
	mu     sync.Mutex
	shared map[*drawing.Group]*fragment
	size   atomic.Int64 // of the largest page so far, for the next one's buffer
	glyphs sync.Map     // path data by *drawing.Glyph
}

// A fragment is a shared group as it is written on every page.
type fragment struct {
	once   sync.Once
	data   []byte
	ids    map[string]bool
	glyphs map[word]string // that are defined in it
	err    error
}

// Render returns a page as an SVG document. The error tells of a fault in the
// drawing: a coordinate that is no number, an identity given twice.
func Render(page *drawing.Page) ([]byte, error) { return new(Renderer).Render(page) }

// Render returns a page as the function of this name does.
func (r *Renderer) Render(page *drawing.Page) ([]byte, error) {
	w := newWriter(r, "_")
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
	if n := int64(len(w.out)); n > r.size.Load() {
		r.size.Store(n)
	}
	return w.out, nil
}

// fragment returns a shared group's bytes, made when they are first asked for.
func (r *Renderer) fragment(g *drawing.Group) *fragment {
	r.mu.Lock()
	if r.shared == nil {
		r.shared = map[*drawing.Group]*fragment{}
	}
	f := r.shared[g]
	if f == nil {
		f = &fragment{}
		r.shared[g] = f
	}
	r.mu.Unlock()
	f.once.Do(func() {
		w := newWriter(r, "_"+g.ID) // identities of its own, for it stands on any page
		w.texts.count(g.Items)
		w.open(g)
		w.texts.define(w)
		w.canvas.Gend()
		f.data, f.ids, f.err = w.out, w.ids, w.err
		f.glyphs = map[word]string{}
		for d, id := range w.texts.ids {
			if d.size == 0 {
				f.glyphs[d] = id
			}
		}
	})
	return f
}

// A writer holds one document, or a part of it, while it is made.
type writer struct {
	renderer *Renderer
	out      []byte
	canvas   *svgo.SVG // writes to out through Write
	run      run       // strokes of one look that are not yet written
	strokes  [drawing.Styles]string
	ids      map[string]bool
	clips    int
	texts    texts
	err      error
}

// A run is a sequence of chains of one look, written as one path element.
type run struct {
	attrs string
	data  []byte
}

func newWriter(r *Renderer, prefix string) *writer {
	w := &writer{renderer: r, ids: map[string]bool{}, out: make([]byte, 0, max(16<<10, r.size.Load()*9/8))}
	w.canvas = svgo.New(w)
	w.texts = texts{prefix: prefix, uses: make(map[word]int, 256), ids: make(map[word]string, 128)}
	return w
}

// Write appends to the document; it is svgo's way in and never fails.
func (w *writer) Write(p []byte) (int, error) {
	w.out = append(w.out, p...)
	return len(p), nil
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
	if !g.Shared {
		w.open(g)
		w.canvas.Gend()
		return
	}
	f := w.renderer.fragment(g)
	for id := range f.ids {
		w.claim(id)
	}
	if f.err != nil {
		w.fail("%w", f.err)
	}
	w.out = append(w.out, f.data...)
	if w.texts.lent == nil {
		w.texts.lent = f.glyphs
	}
}

// open writes a group and what is in it, but not its end.
func (w *writer) open(g *drawing.Group) {
	attrs := make([]byte, 0, 80)
	if g.Clip != nil {
		attrs = fmt.Appendf(attrs, `clip-path="url(#%s)" `, w.clip(g))
	}
	if g.ID != "" {
		w.claim(g.ID)
		attrs = append(append(append(attrs, `id="`...), g.ID...), `" `...)
	}
	if g.Class != "" {
		if !name(g.Class) {
			w.fail("the class %q is not a name", g.Class)
		}
		attrs = append(append(append(attrs, `class="`...), g.Class...), `" `...)
	}
	w.out = append(append(append(w.out, "<g "...), attrs...), ">\n"...)
	if words := spoken(g.Items); words != "" {
		w.canvas.Desc(words)
	}
	w.items(g.Items)
}

// claim takes an identity for one group.
func (w *writer) claim(id string) {
	if !name(id) || w.ids[id] {
		w.fail("the identity %q is not a name or is given twice", id)
	}
	w.ids[id] = true
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
	id := fmt.Sprintf("%sc%d", w.texts.prefix, w.clips)
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
