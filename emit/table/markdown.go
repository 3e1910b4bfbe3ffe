package table

import (
	"math"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
)

// Markdown writes both views for people to read and to print, in the words of a
// catalogue.
func (c *Cuts) Markdown(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, said *words.Catalogue) []byte {
	w := newWriter(p, s, said)
	w.b = forPieces(s)
	w.text("# ").say("table_title", "title", escaped(b.Title), "size", w.local(s.Finished.Exact())).text("\n\n")
	w.say("table_one", "size", w.inBoth(s.Finished), "raw", w.inBoth(unfinished(p, s))).text("\n")
	if hasPaper(s) {
		w.say("table_ease", "ease", w.local(p.Settings.Ease.Words(w.metric, 8)), "step", w.inOwn(p.Settings.PatchStep(false))).text("\n")
	}
	w.text("\n## ").say("table_by_fabric").text("\n")
	for i := 0; i < len(c.Rows); {
		i = w.fabric(c, i)
	}
	w.variety()
	w.scraps(c)
	w.cloth(c, b)
	w.text("\n## ").say("table_by_section").text("\n\n").say("cutting_along").text("\n")
	if hasSlant(s) {
		w.say("table_slant").text("\n")
	}
	for d := range s.Drawings {
		w.section(&s.Drawings[d])
	}
	return w.b
}

// A writer appends to a text; its methods that write return the writer.
type writer struct {
	b      []byte
	p      *pattern.Pattern
	s      *pattern.Sized
	said   *words.Catalogue
	metric bool
	mark   byte // of decimals
}

func newWriter(p *pattern.Pattern, s *pattern.Sized, said *words.Catalogue) *writer {
	return &writer{p: p, s: s, said: said, metric: p.Settings.Metric, mark: said.Say("decimal_mark")[0]}
}

func (w *writer) text(s string) *writer   { w.b = append(w.b, s...); return w }
func (w *writer) author(s string) *writer { w.b = AppendMarkdown(w.b, s); return w }
func (w *writer) number(n int) *writer    { w.b = strconv.AppendInt(w.b, int64(n), 10); return w }

// say writes a message. An author's text in it must be [escaped].
func (w *writer) say(key string, fill ...string) *writer { return w.text(w.said.Say(key, fill...)) }

func escaped(author string) string { return string(AppendMarkdown(nil, author)) }

// value writes how light a fabric is.
func (w *writer) value(value string) *writer {
	if w.said.Has(value) {
		return w.say(value)
	}
	return w.author(value)
}

func (w *writer) local(measure string) string { return local(w.said, measure) }

// inBoth tells a finished size in both systems.
func (w *writer) inBoth(s pattern.Size) string { return w.local(s.Words(w.metric)) }

// inOwn tells a length in the pattern's own system.
func (w *writer) inOwn(l pattern.Length) string {
	if w.metric {
		return w.local(l.Cm())
	}
	return l.In(8)
}

// cells writes a size as two cells, the pattern's own system first.
func (w *writer) cells(s pattern.Size) *writer {
	from := len(w.b)
	w.b = appendSize(w.b, s, w.metric)
	w.b = append(w.b, " | "...)
	w.b = appendSize(w.b, s, !w.metric)
	for i := from; i < len(w.b); i++ {
		if w.b[i] == '.' {
			w.b[i] = w.mark
		}
	}
	return w
}

// fabric writes the rows of one fabric, from row i, and returns the next row.
func (w *writer) fabric(c *Cuts, i int) int {
	index := c.Rows[i].Fabric
	f := &w.p.Fabrics[index]
	w.text("\n### ").author(f.Words).text(" (").value(f.Value).text(")\n")
	if f.Scrappy != "" {
		w.text("\n").say("table_scrappy", "another", w.said.Say("scrappy_"+f.Scrappy)).text("\n")
	}
	for plain := range 2 {
		began := false
		for ; i < len(c.Rows) && c.Rows[i].Fabric == index && c.Rows[i].Plain == (plain == 1); i++ {
			if !began {
				w.fabricHead(plain == 1)
				began = true
			}
			w.row(&c.Rows[i])
		}
	}
	inches := c.Areas[index]
	w.text("\n").say("table_area", "own", w.area(inches, w.metric), "other", w.area(inches, !w.metric)).text("\n")
	return i
}

func (w *writer) fabricHead(plain bool) {
	if plain {
		w.text("\n**").say("table_exact").text("** (").say("table_no_paper").text("):\n")
	}
	w.text("\n| ").say("count")
	if plain {
		w.text(" | ").say("table_reversed")
	}
	w.text(" | ").say("cut_as").text(" | ").say("size").text(" | ").other().text(" | ").say("for_spaces").text(" |\n|---:")
	if plain {
		w.text("|---:")
	}
	w.text("|---|---|---|---|\n")
}

func (w *writer) row(r *Row) {
	straight, reversed := r.Cloth()
	w.text("| ").count(straight).text(" | ")
	if r.Plain {
		w.count(reversed).text(" | ")
	}
	w.text(r.Cut(w.said)).text(" | ").cells(r.Size).text(" | ")
	w.b = appendSpaces(w.b, w.s, r.Spaces, w.said.Say("reversed"))
	w.text(" |\n")
}

// other names the column of the system that comes second.
func (w *writer) other() *writer {
	if w.metric {
		return w.say("size_inches")
	}
	return w.say("size_metric")
}

// count writes a count in brackets, so that none is read into a size.
func (w *writer) count(n int) *writer {
	if n == 0 {
		return w
	}
	return w.text("(").number(n).text(")")
}

// area tells square inches, rounded up to whole ones, or square centimetres.
func (w *writer) area(inches float64, metric bool) string {
	const noise = 1e-6
	if metric {
		return w.said.Say("square_cm", "n", strconv.Itoa(int(math.Ceil(inches*2.54*2.54-noise))))
	}
	return w.said.Say("square_inches", "n", strconv.Itoa(int(math.Ceil(inches-noise))))
}

func (w *writer) section(d *pattern.Drawing) {
	w.text("\n### ").say("section_head", "name", d.Name, "n", strconv.Itoa(d.Make))
	if d.Reversed >= 0 {
		w.text(" (").say("section_reversed", "name", w.s.Drawings[d.Reversed].Name).text(")")
	}
	if d.Plain {
		w.text(": ").say("exact")
	}
	w.text("\n\n| ").say("space").text(" | ").say("fabric").text(" | ").say("cut_as").text(" | ").say("size").text(" | ").other().
		text(" | ").say("lay").text(" |\n|---|---|---|---|---|---|\n")
	for i := range d.Pieces {
		piece := &d.Pieces[i]
		w.text("| ")
		w.b = appendLabel(w.b, d, i)
		w.text(" | ").author(w.p.Fabrics[piece.Fabric].Words).text(" | ").text(Shape(w.said, piece.Patch.Shape, d.Name)).
			text(" | ").cells(piece.Patch.Size).text(" | ").text(Lay(w.said, piece, i)).text(" |\n")
	}
}

func unfinished(p *pattern.Pattern, s *pattern.Sized) pattern.Size {
	a := 2 * p.Settings.Allowance
	return pattern.Size{W: s.Finished.W + a, H: s.Finished.H + a}
}

func hasSlant(s *pattern.Sized) bool {
	for d := range s.Drawings {
		for i := range s.Drawings[d].Pieces {
			if layWords(&s.Drawings[d].Pieces[i], i) == slanting {
				return true
			}
		}
	}
	return false
}

func hasPaper(s *pattern.Sized) bool {
	for i := range s.Drawings {
		if !s.Drawings[i].Plain {
			return true
		}
	}
	return false
}
