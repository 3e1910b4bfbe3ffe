package compare

import (
	"encoding/base64"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/edition"
	"seamwright/emit/svg"
)

// style makes the page readable on a screen, on paper and on a phone. What
// changed is told by fill, weight and dashes, never by color alone.
const style = `body{font:16px/1.45 system-ui,sans-serif;max-width:64rem;margin:2rem auto;padding:0 1rem;color:#111;background:#fff}
h1{font-size:1.5rem}h2{font-size:1.25rem;margin-top:2.2rem;border-top:1px solid #999;padding-top:.8rem}h3{font-size:1rem}
table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.3rem .6rem;border-bottom:1px solid #bbb}
td:first-child{font-weight:600}del{text-decoration:none;color:#444}ins{text-decoration:none;font-weight:600}
figure{display:inline-block;margin:.5rem .8rem .5rem 0;vertical-align:top;max-width:100%}img{max-width:100%;height:auto;border:1px solid #ccc}
figcaption{font-size:.85rem;max-width:18.5rem}@media print{body{margin:0;max-width:none}}`

// policy lets the page load nothing: all that it shows is in it.
const policy = "default-src 'none'; img-src data:; style-src 'unsafe-inline'"

// mostPictures is how many sizes of a block are drawn; more would hardly be looked
// at, and those that change alike are drawn once.
const mostPictures = 4

// HTML tells what was compared on one page that asks nobody for anything.
func HTML(pairs []Pair) ([]byte, error) {
	h := &page{}
	h.put(`<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="`, policy,
		`"><meta name="viewport" content="width=device-width"><title>What changed</title><style>`, style, "</style></head><body>\n<h1>What changed</h1>\n")
	for i := range pairs {
		p := &pairs[i]
		if p.Report == nil {
			h.put("<h2>").text(p.Old + p.New).put("</h2>\n<p>There is only the " + p.Only + " one.</p>\n")
			continue
		}
		h.report(p)
	}
	h.put("</body></html>\n")
	return []byte(h.b.String()), h.err
}

type page struct {
	b   strings.Builder
	err error
}

func (h *page) put(ss ...string) *page {
	for _, s := range ss {
		h.b.WriteString(s)
	}
	return h
}

// text puts a text that is somebody's.
func (h *page) text(s string) *page {
	for _, r := range clean(s) {
		switch r {
		case '<':
			h.b.WriteString("&lt;")
		case '>':
			h.b.WriteString("&gt;")
		case '&':
			h.b.WriteString("&amp;")
		case '"':
			h.b.WriteString("&#34;")
		default:
			h.b.WriteRune(r)
		}
	}
	return h
}

func (h *page) report(p *Pair) {
	r := p.Report
	h.put("<h2>").text(r.New.Title()).put("</h2>\n<p>").text(p.Old).put(" &rarr; ").text(p.New).put(": ").text(r.InShort()).put(".</p>\n")
	block := "\x00"
	for i := range r.Changes {
		c := &r.Changes[i]
		if c.Block != block {
			if i > 0 {
				h.put("</tbody></table>\n")
			}
			block = c.Block
			h.put("<h3>").text(r.heading(block)).put("</h3>\n")
			h.pictures(r, block)
			h.put("<table><thead><tr><th>What</th><th>Was</th><th>Is</th><th>Affects</th></tr></thead><tbody>\n")
		}
		h.put("<tr><td>").text(c.Name())
		if at := r.at(c); len(at) > 0 {
			h.put(", at ").text(list(at))
		}
		h.put("</td><td><del>").text(c.Old).put("</del></td><td><ins>").text(c.New).put("</ins>")
		if c.Note != "" {
			if c.New != "" {
				h.put("; ")
			}
			h.text(c.Note)
		}
		h.put("</td><td>", c.Affects, "</td></tr>\n")
	}
	if len(r.Changes) > 0 {
		h.put("</tbody></table>\n")
	}
}

// pictures draws the sizes of a block at which its picture changed.
func (h *page) pictures(r *Report, block string) {
	seen := map[string]bool{}
	for i := range r.New.Blocks {
		b := &r.New.Blocks[i]
		if b.Name != block {
			continue
		}
		for k := range b.Sizes {
			m := r.matched[b.Name+"/"+b.Sizes[k].Name]
			if m == nil || len(seen) == mostPictures {
				continue
			}
			if signs := m.signs(); signs != "" && !seen[signs] {
				seen[signs] = true
				h.drawn(r, m)
			}
		}
	}
}

const pictureSide = 3.1 * pattern.Inch

func (h *page) drawn(r *Report, m *matching) {
	at := ", finishes " + m.new.Words()
	h.picture("Before and now, over each other"+at, "Filled: what changed. Dashed: where it was. Thin: as before.", m.new,
		func(at pos, size pattern.Size) []drawing.Item { return m.overlay(at, size) })
	h.picture("Before"+at, "", m.old, func(at pos, size pattern.Size) []drawing.Item { return colored(r.Old, m.old, m.was, at, size) })
	h.picture("Now"+at, "", m.new, func(at pos, size pattern.Size) []drawing.Item { return colored(r.New, m.new, m.is, at, size) })
	h.put("\n")
}

func (h *page) picture(caption, more string, s *edition.Size, draw func(pos, pattern.Size) []drawing.Item) {
	const edge = 0.1 * pattern.Inch
	side := pictureSide - 2*edge
	scale := side / length(max(s.Finished[0], s.Finished[1], 1e-6))
	size := pattern.Size{W: length(s.Finished[0]) * scale, H: length(s.Finished[1]) * scale}
	p := &drawing.Page{Name: "picture", Title: caption, Size: pattern.Size{W: size.W + 2*edge, H: size.H + 2*edge}}
	p.Items = draw(pos{X: edge, Y: edge}, size)
	data, err := svg.Render(p)
	if err != nil {
		h.err = err
		return
	}
	const dots = 96 // CSS pixels to an inch
	h.put(`<figure><img alt="`).text(caption).put(`" width="`, strconv.Itoa(int(p.Size.W*dots)), `" height="`, strconv.Itoa(int(p.Size.H*dots)),
		`" src="data:image/svg+xml;base64,`, base64.StdEncoding.EncodeToString(data), `"><figcaption>`).text(caption).put(". ").text(more).put("</figcaption></figure>")
}
