package svg

import (
	"fmt"
	"slices"
	"sync"

	svgo "github.com/ajstarks/svgo/float"

	"seamwright/emit/drawing"
)

// A Renderer writes pages, and keeps what it made of shared groups. It is safe
// for concurrent use.
type Renderer struct {
	mu       sync.Mutex
	shared   map[*drawing.Group]*fragment
	outlines sync.Map  // path data by *drawing.Glyph, of those without a table
	writers  sync.Pool // that are done, for the next page
}

// A fragment is a shared group as it is written on every page.
type fragment struct {
	once   sync.Once
	data   []byte
	ids    []string
	glyphs glyphs // that are used in it
	err    error
}

// Render returns a page as an SVG document. The error tells of a fault in the
// drawing: a coordinate that is no number, an identity given twice.
func Render(page *drawing.Page) ([]byte, error) { return new(Renderer).Append(nil, page) }

// Append appends a page to b as an SVG document. On an error it returns b as it was.
func (r *Renderer) Append(b []byte, page *drawing.Page) ([]byte, error) {
	w := r.writer(slices.Grow(b, room(page.Items)), "_")
	defer r.done(w)
	width, ok1 := fix(page.Size.W)
	height, ok2 := fix(page.Size.H)
	if !ok1 || !ok2 || width <= 0 || height <= 0 {
		return b, fmt.Errorf("page %s: a size of %v x %v in is not a page", page.Name, float64(page.Size.W), float64(page.Size.H))
	}
	box := appendNext(appendNext([]byte(`viewBox="0 0`), width, 2), height, 2)
	w.canvas.Startunit(float64(width)/perMM, float64(height)/perMM, "mm", string(append(box, '"')), `stroke-linejoin="round"`)
	w.canvas.Title(drawing.Clean(page.Title))
	w.texts.count(page.Items)
	w.items(page.Items)
	w.define(true)
	w.canvas.End()
	if w.err != nil {
		return b, fmt.Errorf("page %s: %w", page.Name, w.err)
	}
	return w.out, nil
}

// About how many bytes are written for a point, an area that is painted, a text,
// and each letter of a long one, so that a document is not moved again and again
// while it grows.
const (
	bytesPoint  = 9
	bytesArea   = 70
	bytesText   = 60
	bytesLetter = 32
)

// room is about how many bytes a drawing takes.
func room(items []drawing.Item) (n int) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			n += bytesPoint * len(item.Points)
			if item.Fill != drawing.NoColour {
				n += bytesArea
			}
		case *drawing.Text:
			if n += bytesText; len(item.Text) >= inline {
				n += bytesLetter * len(item.Text)
			}
		case *drawing.Group:
			n += room(item.Items)
		}
	}
	return n
}

// fragment returns a shared group's bytes, made when they are first asked for.
// Its words are defined in it, its glyphs on every page among the page's own.
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
		w := r.writer(make([]byte, 0, room(g.Items)), "_"+g.ID) // identities of its own, for it stands on any page
		defer r.done(w)
		w.texts.count(g.Items)
		w.open(g)
		w.define(false)
		w.canvas.Gend()
		f.data, f.glyphs, f.err = w.out, w.glyphs.copied(), w.err
		for id := range w.ids {
			f.ids = append(f.ids, id)
		}
	})
	return f
}

// A writer holds one document, or a part of it, while it is made.
type writer struct {
	renderer *Renderer
	out      []byte
	canvas   *svgo.SVG // writes to out through Write
	run      string    // the look of the path that is open; "" for none
	looks    looks
	ids      map[string]bool
	prefix   string // of identities
	defined  int    // identities given so far
	texts    texts
	glyphs   glyphs
	err      error
}

// writer returns a writer that appends to b, one that was used before if there is.
func (r *Renderer) writer(b []byte, prefix string) *writer {
	w, ok := r.writers.Get().(*writer)
	if !ok {
		w = &writer{renderer: r, ids: map[string]bool{}}
		w.canvas = svgo.New(w)
		w.texts.index = make(map[word]int32, usualWords)
	}
	w.out, w.prefix = b, prefix
	return w
}

// usualWords is how many different words there are on most sheets.
const usualWords = 100

// done takes a writer back, with nothing of its document left in it.
func (r *Renderer) done(w *writer) {
	clear(w.ids)
	w.texts.reset()
	w.glyphs.reset()
	w.out, w.run, w.defined, w.err = nil, "", 0, nil
	r.writers.Put(w)
}

// Write appends to the document; it is svgo's way in and never fails.
func (w *writer) Write(p []byte) (int, error) {
	w.out = append(w.out, p...)
	return len(p), nil
}

func (w *writer) put(s string) { w.out = append(w.out, s...) }

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
		default:
			w.fail("a %T is not written as SVG", item)
		}
	}
	w.flush()
}

func (w *writer) group(g *drawing.Group) {
	if !g.Shared {
		w.open(g)
		w.put("</g>\n")
		return
	}
	f := w.renderer.fragment(g)
	for _, id := range f.ids {
		w.claim(id)
	}
	if f.err != nil {
		w.fail("%w", f.err)
	}
	w.out = append(w.out, f.data...)
	w.glyphs.use(&f.glyphs)
}

// open writes a group and what is in it, but not its end.
func (w *writer) open(g *drawing.Group) {
	clip := ""
	if g.Clip != nil {
		clip = w.clip(g)
	}
	w.put("<g")
	if clip != "" {
		w.put(` clip-path="url(#` + clip + `)"`)
	}
	if g.ID != "" {
		w.claim(g.ID)
		w.attribute("id", g.ID)
	}
	if g.Class != "" {
		if !name(g.Class) {
			w.fail("the class %q is not a name", g.Class)
		}
		w.attribute("class", g.Class)
	}
	w.put(">\n")
	w.spoken(g.Items)
	w.items(g.Items)
}

func (w *writer) attribute(name, value string) {
	w.out = append(append(append(append(append(w.out, ' '), name...), `="`...), value...), '"')
}

// claim takes an identity for one group.
func (w *writer) claim(id string) {
	if !name(id) || w.ids[id] {
		w.fail("the identity %q is not a name or is given twice", id)
	}
	w.ids[id] = true
}

// spoken writes the texts that stand directly in a group, for readers.
func (w *writer) spoken(items []drawing.Item) {
	some := false
	for _, item := range items {
		t, ok := item.(*drawing.Text)
		if !ok {
			continue
		}
		if some {
			w.put(" ")
		} else {
			w.put("<desc>")
		}
		w.out, some = appendEscaped(w.out, drawing.Clean(t.Text)), true
	}
	if some {
		w.put("</desc>\n")
	}
}

// clip writes a clipping path and returns its identity.
func (w *writer) clip(g *drawing.Group) string {
	id := w.identity()
	w.canvas.ClipPath(`id="` + id + `"`)
	w.canvas.Path(string(w.chain(nil, &drawing.Path{Points: g.Clip, Closed: true})))
	w.canvas.ClipEnd()
	return id
}

// identity returns a new identity. It holds a full stop, which those of groups
// and glyphs never do.
func (w *writer) identity() string {
	w.defined++
	return string(w.appendIdentity(nil, w.defined))
}

func (w *writer) appendIdentity(b []byte, n int) []byte {
	return appendFixed(append(append(b, w.prefix...), '.'), int64(n), 0)
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

// appendEscaped appends a clean text as XML character data.
func appendEscaped(b []byte, text string) []byte {
	for i := 0; i < len(text); i++ {
		switch c := text[i]; c {
		case '&':
			b = append(b, "&amp;"...)
		case '<':
			b = append(b, "&lt;"...)
		case '>':
			b = append(b, "&gt;"...)
		default:
			b = append(b, c)
		}
	}
	return b
}
