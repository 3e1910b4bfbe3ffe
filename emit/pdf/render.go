package pdf

import (
	"cmp"
	"fmt"
	"math"

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
	Bookmark string       // the first page of a chapter bears its name; else ""
	Trim     pattern.Size // what is left after cutting, centered; zero: the whole page
}

// perInch is the size of PDF's unit: 1/72 in (ISO 32000-1, 8.3.2.3).
const perInch = 72

// Render returns the document as a file.
func Render(d *Document) ([]byte, error) {
	if len(d.Pages) == 0 {
		return nil, fmt.Errorf("a document without pages")
	}
	f := newFile()
	catalog, info, tree, resources := f.reserve(), f.reserve(), f.reserve(), f.reserve()
	w := &writer{bold: subset{bold: true}}
	pages := make([]ref, len(d.Pages))
	kids := ""
	for i := range d.Pages {
		p := &d.Pages[i]
		pages[i] = f.reserve()
		kids += pages[i].String() + " "
		content := f.reserve()
		if err := w.page(p.Page); err != nil {
			return nil, fmt.Errorf("page %s: %w", p.Name, err)
		}
		f.stream(content, "", w.out)
		f.put(pages[i], fmt.Sprintf("<</Type /Page /Parent %s /MediaBox %s /TrimBox %s /Resources %s /Contents %s>>",
			tree, box(p.Size, p.Size), box(p.Size, p.Trim), resources, content))
	}
	f.put(resources, fmt.Sprintf("<</Font <<%s%s>>%s>>", w.regular.resources(f), w.bold.resources(f), w.pictures(f)))
	f.put(tree, fmt.Sprintf("<</Type /Pages /Count %d /Kids [%s]>>", len(pages), kids))
	outlines := bookmarks(f, d, pages)
	language := cmp.Or(d.Language, "en")
	f.put(catalog, fmt.Sprintf("<</Type /Catalog /Pages %s %s/Lang %s "+
		"/ViewerPreferences <</PrintScaling /None /Duplex /Simplex /PickTrayByPDFSize true /DisplayDocTitle true>>>>", tree, outlines, text(language)))
	f.put(info, fmt.Sprintf("<</Title %s /Author %s /Subject %s /Creator (Seamwright) /Producer (Seamwright)>>",
		text(drawing.Clean(d.Title)), text(drawing.Clean(d.Author)), text(drawing.Clean(d.Subject))))
	return f.finish(catalog, info), nil
}

// box is a centered rectangle of a page, in points.
func box(page, inner pattern.Size) string {
	if inner == (pattern.Size{}) {
		inner = page
	}
	x, y := float64(page.W-inner.W)/2*perInch, float64(page.H-inner.H)/2*perInch
	b := append(number([]byte{'['}, x), ' ')
	b = append(number(b, y), ' ')
	b = append(number(b, x+float64(inner.W)*perInch), ' ')
	return string(append(number(b, y+float64(inner.H)*perInch), ']'))
}

// bookmarks writes the outline and returns the catalog's entry for it.
func bookmarks(f *file, d *Document, pages []ref) string {
	var marked []int
	for i := range d.Pages {
		if d.Pages[i].Bookmark != "" {
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
			text(drawing.Clean(d.Pages[page].Bookmark)), root, chain, pages[page]))
	}
	f.put(root, fmt.Sprintf("<</Type /Outlines /First %s /Last %s /Count %d>>", items[0], items[len(items)-1], len(items)))
	return fmt.Sprintf("/Outlines %s /PageMode /UseOutlines ", root)
}

// A writer makes the content streams of a document's pages, one after another.
type writer struct {
	out           []byte
	height        float64 // of the page, points
	regular, bold subset
	images        []*drawing.Raster
	style         drawing.Style // as last set, so that it is not set again
	fill, text    drawing.Colour
	err           error
}

// unset stands for "whatever the page began with".
const unset = drawing.Colour(-2)

func (w *writer) page(p *drawing.Page) error {
	w.out, w.height = w.out[:0], float64(p.Size.H)*perInch
	w.reset()
	w.out = append(w.out, "1 J 1 j\n"...) // round ends, so that dots are round
	w.items(p.Items)
	return w.err
}

func (w *writer) reset() { w.style, w.fill = drawing.NoLine, unset }

func (w *writer) items(items []drawing.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			w.path(item)
		case *drawing.Text:
			w.word(item)
		case *drawing.Group:
			w.group(item)
		case *drawing.Image:
			w.image(item)
		}
	}
}

func (w *writer) group(g *drawing.Group) {
	if g.Clip == nil {
		w.items(g.Items)
		return
	}
	w.out = append(w.out, "q\n"...)
	w.chain(&drawing.Path{Points: g.Clip, Closed: true})
	w.out = append(w.out, "W n\n"...)
	w.reset()
	w.items(g.Items)
	w.out = append(w.out, "Q\n"...)
	w.reset()
}

// at appends a place of the page in points, y up.
func (w *writer) at(x, y pattern.Length) {
	px, py := float64(x)*perInch, w.height-float64(y)*perInch
	if math.IsNaN(px+py) || math.IsInf(px+py, 0) {
		w.err = fmt.Errorf("a point at %v, %v in is not on any paper", float64(x), float64(y))
		return
	}
	w.out = append(number(append(number(w.out, px), ' '), py), ' ')
}

func (w *writer) path(p *drawing.Path) {
	stroke, fill := p.Style != drawing.NoLine, p.Fill != drawing.NoColour
	if !stroke && !fill {
		return
	}
	if stroke && p.Style != w.style {
		w.stroke(p.Style)
	}
	if fill {
		w.paint(p.Fill)
	}
	w.chain(p)
	switch {
	case stroke && fill:
		w.out = append(w.out, "B\n"...)
	case stroke:
		w.out = append(w.out, "S\n"...)
	default:
		w.out = append(w.out, "f\n"...)
	}
}

func (w *writer) stroke(s drawing.Style) {
	w.style = s
	look := s.Look()
	w.out = append(number(w.out, float64(look.Width)*perInch), " w ["...)
	if look.Off > 0 {
		w.out = append(number(w.out, float64(look.On)*perInch), ' ')
		w.out = number(w.out, float64(look.Off)*perInch)
	}
	w.out = append(w.out, "] 0 d "...)
	if look.On > 0 { // a dash ends square, or its round ends would lengthen it
		w.out = append(w.out, "0 J\n"...)
	} else {
		w.out = append(w.out, "1 J\n"...)
	}
}

// paint sets the color of fills and texts.
func (w *writer) paint(c drawing.Colour) {
	if c == w.fill {
		return
	}
	w.fill = c
	for shift := 16; shift >= 0; shift -= 8 {
		w.out = append(number(w.out, float64(uint32(c)>>shift&0xFF)/255), ' ')
	}
	w.out = append(w.out, "rg\n"...)
}

func (w *writer) chain(p *drawing.Path) {
	if len(p.Points) > 0 && p.Circle > 0 {
		w.circle(p.Points[0], p.Circle)
		return
	}
	for i, q := range p.Points {
		w.at(q.X, q.Y)
		if i == 0 {
			w.out = append(w.out, "m\n"...)
		} else {
			w.out = append(w.out, "l\n"...)
		}
	}
	if p.Closed {
		w.out = append(w.out, "h\n"...)
	}
}

// circle appends four curves. The handle's length makes the curve touch the
// circle in the middle of each quarter; the error is under 0.03 % of the radius.
func (w *writer) circle(c pattern.Pos, r pattern.Length) {
	k := r * 4 / 3 * (math.Sqrt2 - 1)
	w.at(c.X+r, c.Y)
	w.out = append(w.out, "m\n"...)
	for _, q := range [4][2]pattern.Pos{ // outward direction at the start and the end of a quarter
		{{X: 1}, {Y: 1}}, {{Y: 1}, {X: -1}}, {{X: -1}, {Y: -1}}, {{Y: -1}, {X: 1}},
	} {
		a, b := q[0], q[1]
		w.at(c.X+r*a.X+k*b.X, c.Y+r*a.Y+k*b.Y)
		w.at(c.X+r*b.X+k*a.X, c.Y+r*b.Y+k*a.Y)
		w.at(c.X+r*b.X, c.Y+r*b.Y)
		w.out = append(w.out, "c\n"...)
	}
	w.out = append(w.out, "h\n"...)
}

// word sets one line of text. Codes change fonts every 255 characters; each run
// of one font is shown by itself and moves on by its own widths.
func (w *writer) word(t *drawing.Text) {
	runes := []rune(drawing.Visual(t.Text))
	if len(runes) == 0 {
		return
	}
	w.paint(t.Colour)
	s := &w.regular
	if t.Bold {
		s = &w.bold
	}
	size := float64(t.Size) * perInch
	sin, cos := math.Sincos(t.Turn * math.Pi / 180)
	start := t.Start()
	w.out = append(w.out, "BT "...)
	for _, v := range [4]float64{cos, sin, -sin, cos} {
		w.out = append(number(w.out, v), ' ')
	}
	w.at(start.X, start.Y)
	w.out = append(w.out, "Tm "...)
	font := -1
	for i, r := range runes {
		code := s.code(r)
		if code/codesPerFont != font {
			if i > 0 {
				w.out = append(w.out, "> Tj "...)
			}
			font = code / codesPerFont
			w.out = fmt.Appendf(w.out, "/%s ", s.fontName(font))
			w.out = append(number(w.out, size), " Tf <"...)
		}
		w.out = fmt.Appendf(w.out, "%02X", code%codesPerFont+1)
	}
	w.out = append(w.out, "> Tj ET\n"...)
}
