package edition

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/sheet"
)

// Sums stand for what is bulky. They guard against accident, not malice.

func sum(text string) string {
	h := fnv.New64a()
	h.Write([]byte(text))
	return strconv.FormatUint(h.Sum64(), 36)
}

// page keeps where sections lie on a sheet, and a sum of every part of it.
func page(s *pattern.Sized, sh *sheet.Sheet, mark string) Sheet {
	out := Sheet{Print: sh.Print}
	for _, p := range sh.Places {
		at := Place{Section: s.Drawings[p.Drawing].Name, Turn: round(p.Turn), Shift: pair(p.Shift)}
		if p.Part != nil {
			at.Part = strconv.Itoa(p.Part.Number) + "/" + strconv.Itoa(p.Part.Of)
		}
		out.Sections = append(out.Sections, at)
	}
	parts := &parter{mark: mark}
	parts.items(parts.begin("page"), sh.Page.Items, 0)
	for _, p := range parts.all {
		if len(p.lines)+len(p.words) > 0 {
			out.Parts = append(out.Parts, Part{p.name, sum(string(p.lines)), sum(strings.Join(p.words, "\n"))})
		}
	}
	slices.SortStableFunc(out.Parts, func(a, b Part) int { return strings.Compare(a.Name, b.Name) })
	return out
}

// A parter divides a page into its parts: the groups that have names, and those
// in the head of the sheet, such as the front view.
type parter struct {
	all  []*part
	mark string // that is printed; it answers to all the rest, and is left out
}

type part struct {
	name  string
	lines []byte
	words []string
}

func (p *parter) begin(name string) *part {
	p.all = append(p.all, &part{name: name})
	return p.all[len(p.all)-1]
}

func (p *parter) items(in *part, items []drawing.Item, depth int) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			one := len(item.Points)
			if item.Pairs { // as if each stroke were a path
				one = 2
			}
			for i, at := range item.Points {
				if i%one == 0 {
					in.number(float64(item.Style), float64(item.Fill), float64(one))
					in.length(item.Circle)
				}
				in.length(at.X)
				in.length(at.Y)
			}
		case *drawing.Text:
			in.words = append(in.words, strings.ReplaceAll(item.Text, p.mark, ""))
		case *drawing.Group:
			to := in
			if item.ID != "" && (depth == 0 || depth == 1 && in.name == "head") {
				to = p.begin(partName(item))
			}
			p.items(to, item.Items, depth+1)
		}
	}
}

// partName is what a group is called to people.
func partName(g *drawing.Group) string {
	if g.Class == "furniture" {
		return "furniture" // its name tells of the frame it was made for
	}
	return strings.ReplaceAll(g.ID, "-", " ")
}

func (p *part) number(fs ...float64) {
	for _, f := range fs {
		p.lines = binary.LittleEndian.AppendUint64(p.lines, uint64(int64(math.Round(f))))
	}
}

// fine is the fineness with which strokes are looked at: what is printed alike
// has one sum, whatever the last bits of the numbers.
const fine = 0.01 * pattern.Millimetre

// tip keeps what lies halfway between two steps, as an eighth of an inch does, from
// being rounded by the noise of its last bits, which is not the same on every
// processor: far above that noise, far below a step.
const tip = 1e-4

func (p *part) length(l pattern.Length) { p.number(float64(l/fine) + tip) }

// chapters sums the sentences of each chapter of a booklet.
func chapters(made *Made) []Word {
	var names []string
	said := map[string]*strings.Builder{}
	name := "cover"
	for i, page := range made.Booklet {
		if made.Chapter[i] != "" {
			name = made.Chapter[i]
		}
		if said[name] == nil {
			said[name] = &strings.Builder{}
			names = append(names, name)
		}
		texts(said[name], page.Items)
	}
	var out []Word
	for _, name := range names {
		words := strings.ReplaceAll(said[name].String(), made.Sheets.Mark, "")
		out = append(out, Word{"booklet, " + name, sum(words)})
	}
	return out
}

func texts(to *strings.Builder, items []drawing.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Text:
			to.WriteString(item.Text + "\n")
		case *drawing.Group:
			texts(to, item.Items)
		}
	}
}
