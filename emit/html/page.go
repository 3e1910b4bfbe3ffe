package html

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/report"
	"seamwright/emit/svg"
	"seamwright/emit/table"
)

// A Block is what was drawn of one block.
type Block struct {
	Pictures []Picture
	Sheets   [][]SVG // by size and sheet
}

// A Picture is a picture of a block that the page shows large.
type Picture struct {
	Of *pattern.Sized // at this size; nil: at the first, and all that are divided as it is
	SVG
}

// An SVG gives a drawing as a document when it is asked for.
type SVG func() []byte

// mostSheets is how many bytes of sheets go into a page. Mail takes attachments
// of several megabytes, and a browser draws that many lines without a halt.
const mostSheets = 3 << 20

// Beside is what a page shows that is of no block.
type Beside struct {
	Photos []Photo
	Quilts []Quilt
}

// Page returns the document, in the pattern's language. Made and blocks have one entry for each block, made
// for each of its sizes. The error tells of a fault in a picture.
func Page(p *pattern.Pattern, made [][]report.Made, blocks []Block, beside Beside) ([]byte, error) {
	w := &page{p: p, said: words.InReport(p.Settings.Language), writer: &writer{b: make([]byte, 0, 128<<10)}}
	w.head(len(beside.Photos) > 0)
	w.photos(beside.Photos)
	w.fabrics()
	for b := range p.Blocks {
		w.block(b, made[b], &blocks[b])
	}
	for i := range beside.Quilts {
		w.quilt(&beside.Quilts[i])
	}
	for _, part := range report.Whole(p, w.said) {
		w.raw("<h2>").text(part.Title).raw("</h2>\n")
		w.facts(part.Items)
	}
	w.raw("</body>\n</html>\n")
	return w.b, w.err
}

// A page is one under way.
type page struct {
	*writer
	p         *pattern.Pattern
	said      *words.Catalogue
	sheets    int // bytes of them so far
	cautioned bool
	err       error
}

func (w *page) say(key string, fill ...string) string { return w.said.Say(key, fill...) }

// local writes a measure's decimals as the language does.
func (w *page) local(measure string) string {
	return strings.ReplaceAll(measure, ".", w.say("decimal_mark"))
}

func (w *page) title() string {
	title := drawing.Clean(w.p.Title)
	if title == "" {
		title = drawing.Clean(w.p.File)
	}
	return title
}

func (w *page) head(photos bool) {
	policy := policy
	if photos {
		policy += "; img-src data:" // those that are in the page itself
	}
	w.raw("<!DOCTYPE html>\n<html lang=\"").raw(w.said.Language).raw("\">\n<head>\n<meta charset=\"utf-8\">\n").
		raw(`<meta http-equiv="Content-Security-Policy" content="`).raw(policy).raw("\">\n").
		raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>").text(w.title()).raw("</title>\n<style>").
		raw(style).raw("</style>\n</head>\n<body>\n")
	w.element("h1", w.title())
	a := &w.p.About
	if a.Edition > 0 {
		w.element("p", w.say("edition_alone", "n", strconv.Itoa(a.Edition)))
	}
	for _, s := range []string{a.Author, a.Year, a.Rights, a.Contact, a.Corrections} {
		if s != "" {
			w.element(`p class="soft"`, s)
		}
	}
	for _, note := range a.Notes {
		w.element("p", note)
	}
	w.raw("<nav>")
	for b := range w.p.Blocks {
		for s := range w.p.Blocks[b].Sizes {
			w.raw(`<a href="#`).raw(anchor(b, s)).raw(`">`).text(w.p.Blocks[b].Title).raw(", ").
				text(w.local(w.p.Blocks[b].Sizes[s].Finished.Exact())).raw("</a>\n")
		}
	}
	w.raw("</nav>\n")
}

func anchor(block, size int) string { return "b" + strconv.Itoa(block) + "-" + strconv.Itoa(size) }

// fabrics is the key: every role, and its cloth in each colorway.
func (w *page) fabrics() {
	w.element("h2", w.say("fabrics"))
	w.heads("fabric", "value")
	ways := w.p.Colorway[min(1, len(w.p.Colorway)):]
	for i := range ways {
		w.element("th", w.say("colorway", "words", ways[i].Words))
	}
	w.raw("</tr></thead>\n<tbody>\n")
	for i := range w.p.Fabrics {
		f := &w.p.Fabrics[i]
		w.raw("<tr><td>").swatch(f.Colour).text(f.Words).raw("</td><td>").text(w.say(f.Value))
		if f.Scrappy != "" {
			w.raw("; ").text(w.say("scrappy_" + f.Scrappy))
		}
		w.raw("</td>")
		for k := range ways {
			w.raw("<td>").swatch(ways[k].Dress[i].Colour).text(ways[k].Dress[i].Words).raw("</td>")
		}
		w.raw("</tr>\n")
	}
	w.raw("</tbody></table></div>\n")
}

// swatch shows a color. It is a picture, for the policy allows no style of its
// own.
func (w *writer) swatch(rgb uint32) *writer {
	const hex = "0123456789abcdef"
	w.raw(`<svg class="swatch" viewBox="0 0 8 8" aria-hidden="true"><path stroke="#808080" stroke-width=".6" d="M0 0h8v8H0z" fill="#`)
	for shift := 20; shift >= 0; shift -= 4 {
		w.b = append(w.b, hex[rgb>>shift&15])
	}
	return w.raw(`"/></svg>`)
}

// heads begins a table whose columns have such heads; more may follow.
func (w *page) heads(keys ...string) {
	w.raw("<div class=\"scroll\"><table>\n<thead><tr>")
	for _, key := range keys {
		w.element("th", w.say(key))
	}
}

// block shows one block, then each of its sizes.
func (w *page) block(index int, made []report.Made, drawn *Block) {
	b := &w.p.Blocks[index]
	w.element("h2", b.Title)
	if b.Doc != "" && drawing.Clean(b.Doc) != drawing.Clean(b.Title) {
		w.element("p", b.Doc)
	}
	w.raw("<div class=\"pictures\">\n")
	for i, picture := range diagram.Plain(w.p, b) {
		caption := w.say("front")
		switch {
		case i == 1:
			caption = w.say("to_color")
		case i > 1:
			caption = w.say("colorway", "words", w.p.Colorway[i-1].Words)
		}
		data, err := svg.Render(picture.Make(nil))
		if err != nil && w.err == nil {
			w.err = err
		}
		w.figure("", data, caption)
	}
	w.raw("</div>\n")
	for s := range b.Sizes {
		w.raw(`<h3 id="`).raw(anchor(index, s)).raw(`">`).text(w.say("finishes", "title", b.Title, "size", report.Finished(w.p, &b.Sizes[s], w.said))).raw("</h3>\n")
		w.size(b, &b.Sizes[s], &made[s], drawn, s)
	}
}

// figure writes a picture with words below it. Where there is none the page is not
// written: a report that lacks a sheet tells nobody so.
func (w *page) figure(class string, svg []byte, caption string) {
	if !bytes.Contains(svg, []byte("<svg")) && w.err == nil {
		w.err = fmt.Errorf("there is nothing to show above %q", caption)
	}
	w.raw("<figure")
	if class != "" {
		w.raw(` class="`).raw(class).raw(`"`)
	}
	w.raw(">").picture(svg)
	if caption != "" {
		w.element("figcaption", caption)
	}
	w.raw("</figure>\n")
}

func (w *page) facts(items []report.Item) {
	w.raw("<table class=\"facts\"><tbody>\n")
	for _, i := range items {
		w.raw(`<tr><th scope="row">`).text(i.Name).raw("</th><td>").text(i.Words).raw("</td></tr>\n")
	}
	w.raw("</tbody></table>\n")
}

// size tells of a block at one size.
func (w *page) size(b *pattern.Block, s *pattern.Sized, m *report.Made, drawn *Block, index int) {
	for _, part := range report.Size(w.p, s, m, w.said) {
		if part.Title != "" {
			w.element("h4", part.Title)
		}
		w.facts(part.Items)
		switch {
		case part.Title == "":
			w.large(s, drawn, index)
		case part.Print:
			w.printed(drawn.Sheets[index], m)
		}
	}
	w.cutting(s, m.Cuts)
	w.cloth(b, s, m.Cuts)
}

// large shows the pictures that are of this size, or of the block.
func (w *page) large(s *pattern.Sized, drawn *Block, index int) {
	began := false
	for _, p := range drawn.Pictures {
		if p.Of != s && !(p.Of == nil && index == 0) {
			continue
		}
		if !began {
			w.raw("<div class=\"pictures\">\n")
			began = true
		}
		w.figure("wide", p.SVG(), "")
	}
	if began {
		w.raw("</div>\n")
	}
}

// printed shows the sheets, small.
func (w *page) printed(sheets []SVG, m *report.Made) {
	w.element(`p class="soft"`, w.say("sheets_small"))
	w.raw("<div class=\"pictures\">\n")
	for i, sheet := range sheets {
		svg := sheet()
		if w.sheets += len(svg); w.sheets > mostSheets {
			w.element("p", w.said.Count("sheets_more", len(sheets)-i))
			break
		}
		w.figure("sheet", svg, w.said.Count("sheet_print", m.Sheets[i].Copies, "sheet", strconv.Itoa(i+1)))
	}
	w.raw("</div>\n")
}

// cutting tells what is cut, by fabric.
func (w *page) cutting(s *pattern.Sized, c *table.Cuts) {
	metric := w.p.Settings.Metric
	w.element("h4", w.say("to_cut"))
	w.caution()
	other := "size_metric"
	if metric {
		other = "size_inches"
	}
	w.heads("fabric", "count", "cut_as", "size", other, "for_spaces")
	w.raw("</tr></thead>\n<tbody>\n")
	for i := range c.Rows {
		r := &c.Rows[i]
		f := &w.p.Fabrics[r.Fabric]
		straight, reversed := r.Cloth()
		w.raw("<tr><td>").swatch(f.Colour).text(f.Words).raw("</td><td>")
		count := "(" + strconv.Itoa(straight) + ")"
		if reversed > 0 {
			count = w.say("and_reversed", "count", count, "n", strconv.Itoa(reversed))
		}
		w.text(count).raw("</td><td>").text(r.Cut(w.said))
		if r.Plain {
			w.raw("; ").text(w.say("exact"))
		}
		w.raw(`</td><td class="size">`).text(w.local(table.Size(r.Size, metric))).
			raw(`</td><td class="size">`).text(w.local(table.Size(r.Size, !metric))).
			raw("</td><td>").text(table.SpaceList(s, r.Spaces, w.say("reversed"))).raw("</td></tr>\n")
	}
	w.raw("</tbody></table></div>\n")
}

// caution warns once, where cutting is first told of.
func (w *page) caution() {
	if !w.cautioned {
		w.element("p", w.say("care"))
	}
	w.cautioned = true
}

// cloth tells what to buy, with the sum.
func (w *page) cloth(b *pattern.Block, s *pattern.Sized, c *table.Cuts) {
	how, all := c.Buying(w.p, b, s, w.said)
	w.bought(w.say("cloth_to_buy"), how, all, func(i int) (string, uint32) {
		f := &w.p.Fabrics[all[i].Fabric]
		return f.Words, f.Colour
	})
}

// bought lists what is bought of each cloth, and the sum it comes from; of tells a
// cloth's words and color.
func (w *page) bought(head, how string, all []table.Purchase, of func(i int) (string, uint32)) {
	if how == "" {
		return
	}
	w.element("h4", head)
	w.element("p", how)
	w.raw("<table class=\"facts\"><tbody>\n")
	for i := range all {
		words, color := of(i)
		w.raw(`<tr><th scope="row">`).swatch(color).text(words).raw("</th><td>").text(all[i].Words)
		if all[i].Note != "" {
			w.raw("; ").text(all[i].Note)
		}
		for _, line := range all[i].Lines() {
			w.raw("<br><span class=\"soft\">").text(line).raw("</span>")
		}
		w.raw("</td></tr>\n")
	}
	w.raw("</tbody></table>\n")
}
