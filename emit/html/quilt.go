package html

import (
	"encoding/base64"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/photo"
	"seamwright/emit/report"
	"seamwright/emit/table"
)

// A Photo is one of the author's pictures.
type Photo struct {
	Of    *drawing.Raster
	Words string // below it; "" for none
}

const (
	// photoWide is how many dots wide a picture of colors is at the most: twice what
	// the page shows it at, for fine screens.
	photoWide = 1400

	// mostPhotos is how many bytes of pictures go into a page: with the sheets it
	// still goes through the mail.
	mostPhotos = 4 << 20
)

// photos shows the author's pictures.
func (w *page) photos(all []Photo) {
	if len(all) == 0 {
		return
	}
	bytes := 0
	w.raw("<div class=\"pictures\">\n")
	for i := range all {
		file, kind := photo.Small(all[i].Of, photoWide)
		if bytes += len(file); bytes > mostPhotos {
			w.element("p", w.said.Count("photos_more", len(all)-i))
			break
		}
		w.raw(`<figure><img alt="`).text(all[i].Words).raw(`" src="data:`).raw(kind).raw(`;base64,`)
		w.b = base64.StdEncoding.AppendEncode(w.b, file)
		w.raw(`">`)
		if all[i].Words != "" {
			w.element("figcaption", all[i].Words)
		}
		w.raw("</figure>\n")
	}
	w.raw("</div>\n")
}

// A Quilt is one that is laid out: its picture in the pattern's own cloths, how it is
// pressed (nil where there are no joins), and its cloth in every colorway.
type Quilt struct {
	Of    *pattern.Quilt
	Cloth func() [][]table.Cloth
	SVG
	Pressing SVG
}

// quilt shows one: what it looks like, its blocks, what is cut beside them, and what
// is bought for the whole.
func (w *page) quilt(q *Quilt) {
	l := q.Of.Layout
	w.element("h2", w.say("quilt", "title", q.Of.Title))
	w.quiltPicture(q.SVG, "quilt.svg")
	if q.Pressing != nil {
		w.quiltPicture(q.Pressing, "pressing.svg")
	}
	size := w.own(l.Size)
	if q.Of.Binding.Width > 0 {
		size = w.say("quilt_bound", "size", size)
	}
	facts := []report.Item{{Name: w.say("quilt_size"), Words: size}}
	for _, c := range table.Counts(w.p, l) {
		b := &w.p.Blocks[c.Block]
		words := w.say("quilt_of", "n", strconv.Itoa(c.Count), "title", b.Title, "size", report.Finished(w.p, &b.Sizes[c.Size], w.said))
		if c.Turned > 0 {
			words = w.say("quilt_some_reversed", "blocks", words, "n", strconv.Itoa(c.Turned))
		}
		facts = append(facts, report.Item{Name: w.say("quilt_blocks"), Words: words})
	}
	if l.Backing.W > 0 {
		facts = append(facts, report.Item{Name: w.say("part_backing"), Words: w.own(l.Backing)})
	}
	if l.Batting.W > 0 {
		facts = append(facts, report.Item{Name: w.say("batting"), Words: w.own(l.Batting)})
	}
	w.facts(facts)
	w.setting(l)
	cloth := q.Cloth()
	for i := range cloth {
		head := w.say("cloth_whole")
		if w.p.Colorway[i].Name != "" {
			head = w.say("cloth_whole_in", "words", w.p.Colorway[i].Words)
		}
		how, all := table.QuiltBuying(w.p, cloth[i], w.said)
		w.bought(head, how, all, func(k int) (string, uint32) { return cloth[i][k].Dress.Words, cloth[i][k].Dress.Colour })
	}
}

// quiltPicture shows a picture of a quilt, or names its file where the page would get
// too large.
func (w *page) quiltPicture(picture SVG, file string) {
	svg := picture()
	if w.sheets += len(svg); w.sheets > mostSheets {
		w.element("p", w.say("quilt_large", "file", file))
		return
	}
	w.raw("<div class=\"pictures\">\n")
	w.figure("wide", svg, "")
	w.raw("</div>\n")
}

// own tells a size in the pattern's own system, to the nearest eighth.
func (w *page) own(s pattern.Size) string {
	if w.p.Settings.Metric {
		return w.local(s.Cm())
	}
	return s.In(8)
}

// setting tells what is cut between and around the blocks.
func (w *page) setting(l *pattern.Layout) {
	if len(l.Cuts)+len(l.Runs) == 0 {
		return
	}
	metric := w.p.Settings.Metric
	w.element("h4", w.say("beside"))
	w.heads("setting_for", "fabric", "count", "cut_as", "size")
	w.raw("</tr></thead>\n<tbody>\n")
	for i := range l.Cuts {
		c := &l.Cuts[i]
		f := &w.p.Fabrics[c.Fabric]
		cut := table.Row{Shape: c.Shape, Patches: c.Count}
		w.raw("<tr><td>").text(table.Part(w.said, c.For)).raw("</td><td>").swatch(f.Colour).text(f.Words).raw("</td><td>(").number(table.Squares(c)).
			raw(")</td><td>").text(cut.Cut(w.said)).raw(`</td><td class="size">`).text(w.local(table.Size(c.Size, metric))).raw("</td></tr>\n")
	}
	for i := range l.Runs {
		r := &l.Runs[i]
		f := &w.p.Fabrics[r.Fabric]
		width, lengths := table.RunWords(w.p, r, w.said)
		w.raw("<tr><td>").text(table.Part(w.said, r.For)).raw("</td><td>").swatch(f.Colour).text(f.Words).raw("</td><td></td><td>").text(w.say("strips", "width", width)).
			raw("</td><td>").text(lengths).raw("</td></tr>\n")
	}
	w.raw("</tbody></table></div>\n")
}
