package pdf

import (
	"cmp"
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// A Document is what becomes one file.
type Document struct {
	Title, Author, Subject string
	Language               string // of the words, as in RFC 5646; "" for English
	Pages                  []Page
}

// A Page is a drawing with its place in the file.
type Page struct {
	*drawing.Page
	Bookmark string         // the first page of a chapter bears its name; else ""
	Shared   bool           // the drawing stands in several pages or files of one [Store]
	Slug     pattern.Length // paper around the drawing, which is cut off: room for a printer's marks
	Bleed    pattern.Length // how far into it something may be printed that is cut through
	Over     []drawing.Item // drawn after the drawing, which may be shared; without pictures
}

// Render returns the document as a file.
func Render(d *Document) ([]byte, error) { return NewWriter(nil).Close(d) }

// A Writer makes one file from pages that come one after another. Each is
// rendered at once, beside whatever makes the next, and its drawing is let go: a
// long document need not be held as drawings.
type Writer struct {
	store *Store
	pages []*placed
	slots chan struct{}
	tasks sync.WaitGroup

	mu    sync.Mutex
	fault string // of a page that could not be drawn; "" while there is none
}

// A placed is a page of the file.
type placed struct {
	name, bookmark string
	size           pattern.Size
	slug, bleed    pattern.Length
	body           *page
	over           []drawing.Item
}

// A page is the content of a drawing.
type page struct {
	once   sync.Once
	stream stream
	used   [2]glyphs
	images []*drawing.Raster
	err    error
	early  bool // it is being rendered from items that its page no longer has
}

// NewWriter begins a file. The store may be nil.
func NewWriter(store *Store) *Writer {
	if store == nil {
		store = &Store{}
	}
	return &Writer{store: store, slots: make(chan struct{}, runtime.GOMAXPROCS(0))}
}

// Early begins to render a drawing that will be a page, a shared one, and takes its
// items away: what is put on it from then on is to be drawn over it.
func (w *Writer) Early(p *drawing.Page) {
	body, items := w.store.shared(p), p.Items
	p.Items, body.early = nil, true
	w.run(func() { body.render(w.store, p.Size.H, items) })
}

// Add appends a page. Its drawing is not to be changed afterwards.
func (w *Writer) Add(p Page) {
	q := &placed{name: p.Name, bookmark: p.Bookmark, size: p.Size, slug: p.Slug, bleed: p.Bleed, over: p.Over}
	if p.Shared {
		q.body = w.store.shared(p.Page)
	} else {
		q.body = &page{}
	}
	w.pages = append(w.pages, q)
	if q.body.early {
		return
	}
	drawn := p.Page
	w.run(func() { q.body.render(w.store, drawn.Size.H, drawn.Items) })
}

// run does something beside what follows; with all processors busy it waits.
func (w *Writer) run(task func()) {
	w.slots <- struct{}{}
	w.tasks.Go(func() {
		defer func() {
			if r := recover(); r != nil {
				w.mu.Lock()
				w.fault = cmp.Or(w.fault, fmt.Sprintf("%v\n%s", r, debug.Stack()))
				w.mu.Unlock()
			}
			<-w.slots
		}()
		task()
	})
}

func (p *page) render(store *Store, height pattern.Length, items []drawing.Item) {
	p.once.Do(func() {
		c := &content{out: store.buffer()}
		c.draw(height, items)
		p.stream, p.used, p.images, p.err = store.pack(c.out), c.used, c.images, c.err
		store.spare(c.out)
	})
}

// Close finishes the file and returns it.
func (w *Writer) Close(d *Document) ([]byte, error) {
	for _, p := range d.Pages {
		w.Add(p)
	}
	w.tasks.Wait()
	if w.fault != "" {
		return nil, fmt.Errorf("%s", w.fault)
	}
	if len(w.pages) == 0 {
		return nil, fmt.Errorf("a document without pages")
	}
	f := newFile(w.store)
	catalog, info, tree, resources, lettering := f.reserve(), f.reserve(), f.reserve(), f.reserve(), f.reserve()
	pictures := gallery{file: f}
	var used [2]glyphs
	pages, written := make([]ref, len(w.pages)), map[*page]ref{}
	kids := ""
	for i, p := range w.pages {
		parts := []*page{p.body}
		if len(p.over) > 0 {
			over := &page{}
			over.render(w.store, p.size.H, p.over)
			parts = append(parts, over)
		}
		pages[i] = f.reserve()
		kids += pages[i].String() + " "
		contents := ""
		for _, part := range parts {
			if part.err != nil {
				return nil, fmt.Errorf("page %s: %w", p.name, part.err)
			}
			at, ok := written[part]
			if !ok {
				at = f.reserve()
				f.packed(at, "", part.stream)
				written[part] = at
			}
			contents += at.String() + " "
			for weight := range used {
				used[weight].join(&part.used[weight])
			}
		}
		with := resources.String()
		if len(p.body.images) > 0 {
			with = fmt.Sprintf("<</Font %s %s>>", lettering, pictures.entry(p.body.images))
		}
		f.put(pages[i], fmt.Sprintf("<</Type /Page /Parent %s /MediaBox %s%s /Resources %s /Contents [%s]>>",
			tree, box(p.size, p.slug), boxes(p), with, contents))
	}
	fonts := ""
	for weight, name := range fontNames {
		if len(used[weight].runes()) > 0 {
			fonts += fmt.Sprintf("/%s %s ", name, f.font(&used[weight], weight == 1))
		}
	}
	f.put(lettering, fmt.Sprintf("<<%s>>", fonts))
	f.put(resources, fmt.Sprintf("<</Font %s>>", lettering))
	f.put(tree, fmt.Sprintf("<</Type /Pages /Count %d /Kids [%s]>>", len(pages), kids))
	outlines := w.bookmarks(f, pages)
	language := cmp.Or(d.Language, "en")
	f.put(catalog, fmt.Sprintf("<</Type /Catalog /Pages %s %s/Lang %s "+
		"/ViewerPreferences <</PrintScaling /None /Duplex /Simplex /PickTrayByPDFSize true /DisplayDocTitle true>>>>", tree, outlines, text(language)))
	f.put(info, fmt.Sprintf("<</Title %s /Author %s /Subject %s /Creator (Seamwright) /Producer (Seamwright)>>",
		text(drawing.Clean(d.Title)), text(drawing.Clean(d.Author)), text(drawing.Clean(d.Subject))))
	return f.finish(catalog, info), nil
}

// boxes tells where a page is cut, and how far it is printed beyond
// (ISO 32000-1, 14.11.2).
func boxes(p *placed) string {
	s := " /TrimBox " + box(p.size, 0)
	if p.bleed > 0 {
		s += " /BleedBox " + box(p.size, p.bleed)
	}
	return s
}

// box is a drawing's rectangle and so much around it, in points. The drawing's
// own lower left corner is the origin, whatever stands around.
func box(size pattern.Size, around pattern.Length) string {
	a := float64(around) * perInch
	b := append(number([]byte{'['}, -a), ' ')
	b = append(number(b, -a), ' ')
	b = append(number(b, float64(size.W)*perInch+a), ' ')
	return string(append(number(b, float64(size.H)*perInch+a), ']'))
}

// bookmarks writes the outline and returns the catalog's entry for it.
func (w *Writer) bookmarks(f *file, pages []ref) string {
	var marked []int
	for i, p := range w.pages {
		if p.bookmark != "" {
			marked = append(marked, i)
		}
	}
	if len(marked) == 0 {
		return ""
	}
	root := f.reserve()
	items := make([]ref, len(marked))
	for i := range items {
		items[i] = f.reserve()
	}
	for i, page := range marked {
		chain := ""
		if i > 0 {
			chain += fmt.Sprintf(" /Prev %s", items[i-1])
		}
		if i+1 < len(items) {
			chain += fmt.Sprintf(" /Next %s", items[i+1])
		}
		f.put(items[i], fmt.Sprintf("<</Title %s /Parent %s%s /Dest [%s /Fit]>>",
			text(drawing.Clean(w.pages[page].bookmark)), root, chain, pages[page]))
	}
	f.put(root, fmt.Sprintf("<</Type /Outlines /First %s /Last %s /Count %d>>", items[0], items[len(items)-1], len(items)))
	return fmt.Sprintf("/Outlines %s /PageMode /UseOutlines ", root)
}
