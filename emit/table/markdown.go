package table

import (
	"math"
	"strconv"

	"seamwright/compiler/pattern"
)

// Markdown writes both views for people to read and to print.
func (c *Cuts) Markdown(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) []byte {
	w := writer{b: forPieces(s), p: p, s: s, metric: p.Settings.Metric}
	w.text("# Cutting: ").author(b.Title).text(", finishes ").text(s.Finished.Exact()).text("\n\n")
	w.text("For one block. It finishes ").size(s.Finished).text(" and measures ").size(unfinished(p, s)).text(" until it is joined.\n")
	if hasPaper(s) {
		w.text("Patches for spaces on paper are cut ").length(p.Settings.Ease).
			text(" larger than the space on every side, then rounded up to ").own(p.Settings.PatchStep(false)).text(".\n")
	}
	w.text("\n## By fabric\n")
	for i := 0; i < len(c.Rows); {
		i = w.fabric(c, i)
	}
	w.variety()
	w.scraps(c)
	w.cloth(c, b)
	w.text("\n## By section\n\nOf a patch that is laid along its line, the first measure runs along the line.\n")
	if hasSlant(s) {
		w.text("How the patches lie that are laid at a slant is drawn in the picture \"slant\" of this size.\n")
	}
	for d := range s.Drawings {
		w.section(&s.Drawings[d])
	}
	return w.b
}

// A writer appends to a text; each method returns the writer.
type writer struct {
	b      []byte
	p      *pattern.Pattern
	s      *pattern.Sized
	metric bool
}

func (w *writer) text(s string) *writer   { w.b = append(w.b, s...); return w }
func (w *writer) author(s string) *writer { w.b = AppendMarkdown(w.b, s); return w }
func (w *writer) number(n int) *writer    { w.b = strconv.AppendInt(w.b, int64(n), 10); return w }
func (w *writer) length(l pattern.Length) *writer {
	return w.text(l.Words(w.metric, 8))
}

// size writes a finished size in both systems.
func (w *writer) size(s pattern.Size) *writer { return w.text(s.Words(w.metric)) }

// own writes a length in the pattern's own system.
func (w *writer) own(l pattern.Length) *writer {
	if w.metric {
		return w.text(l.Cm())
	}
	return w.text(l.In(8))
}

// cells writes a size as two cells, the pattern's own system first.
func (w *writer) cells(s pattern.Size) *writer {
	w.b = appendSize(w.b, s, w.metric)
	w.b = append(w.b, " | "...)
	w.b = appendSize(w.b, s, !w.metric)
	return w
}

// fabric writes the rows of one fabric, from row i, and returns the next row.
func (w *writer) fabric(c *Cuts, i int) int {
	index := c.Rows[i].Fabric
	f := &w.p.Fabrics[index]
	w.text("\n### ").author(f.Words).text(" (").author(f.Value).text(")\n")
	if f.Scrappy != "" {
		w.text("\nScrappy: another cloth for every ").text(f.Scrappy).
			text(", if you like. A scrap of at least the size will do.\n")
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
	w.text("\nArea of all patches: ").area(inches, w.metric).text(" (").area(inches, !w.metric).text(").\n")
	return i
}

func (w *writer) fabricHead(plain bool) {
	if plain {
		w.text("\n**Cut exact** (no paper):\n")
	}
	w.text("\n| Count ")
	if plain {
		w.text("| Reversed ")
	}
	w.text("| Shape | Size | ").text(w.other()).text(" | For spaces |\n|---:")
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
	w.b = r.appendShape(w.b)
	w.text(" | ").cells(r.Size).text(" | ")
	w.b = appendSpaces(w.b, w.s, r.Spaces, "reversed")
	w.text(" |\n")
}

// other names the column of the system that comes second.
func (w *writer) other() string {
	if w.metric {
		return "Inches"
	}
	return "Metric"
}

// count writes a count in brackets, so that none is read into a size.
func (w *writer) count(n int) *writer {
	if n == 0 {
		return w
	}
	return w.text("(").number(n).text(")")
}

// area writes square inches, rounded up to whole ones, or square centimetres.
func (w *writer) area(inches float64, metric bool) *writer {
	if metric {
		return w.number(int(math.Ceil(inches*2.54*2.54 - 1e-6))).text(" sq cm")
	}
	return w.number(int(math.Ceil(inches - 1e-6))).text(" sq in")
}

func (w *writer) section(d *pattern.Drawing) {
	w.text("\n### Section ").text(d.Name).text(", make ").number(d.Make)
	if d.Reversed >= 0 {
		w.text(" (").text(w.s.Drawings[d.Reversed].Name).text(" reversed)")
	}
	if d.Plain {
		w.text(": cut exact, no paper")
	}
	w.text("\n\n| Space | Fabric | Shape | Size | ").text(w.other()).text(" | Lay |\n|---|---|---|---|---|---|\n")
	for i := range d.Pieces {
		piece := &d.Pieces[i]
		w.text("| ")
		w.b = appendLabel(w.b, d, i)
		w.text(" | ").author(w.p.Fabrics[piece.Fabric].Words).text(" | ").text(shapeWords(piece.Patch.Shape)).
			text(" | ").cells(piece.Patch.Size).text(" | ").text(layWords(piece, i)).text(" |\n")
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
