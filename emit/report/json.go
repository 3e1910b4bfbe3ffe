package report

import (
	"seamwright/compiler/pattern"
	"seamwright/emit/table"
)

// Schema names the form of pattern.json. A reader that knows it may rely on
// every member SCHEMA.md lists; members may be added under the same name, never
// changed or taken away.
const Schema = "seamwright-pattern/1"

// A Made is what the other outputs made of one block at one size.
type Made struct {
	Cuts   *table.Cuts
	Sheets []Sheet
	Pads   []Pad
}

// A Pad is sheets for several blocks, bound: Each for one block, Sheets in all.
type Pad struct {
	Blocks, Each, Spare, Sheets int
	Collated                    bool // block by block; else by kind
}

// A Sheet is one page of foundations.
type Sheet struct {
	Number   int    // as printed, from 1
	File     string // without folder
	Copies   int    // how often it is printed for one block
	Sections []Printed
}

// A Printed is one section on a sheet. To lie as printed, the drawing's front
// view (block coordinates, y up) is reversed (x becomes -x), turned
// anticlockwise, then shifted; the sheet's origin is its lower left corner.
type Printed struct {
	Drawing int
	Turn    float64 // degrees
	Shift   pattern.Pos
	Part    *PartOf // of a section in parts, which one is printed there; nil where all of it is
}

// A PartOf is a part of a section that is printed on several sheets, and the
// rectangle of its sheet that is its own: up to the joining lines.
type PartOf struct {
	Number, Of    int
	Row, Column   int
	Lower, Higher pattern.Pos // left and right corners
}

// JSON writes the whole pattern. Made has one entry for each size of each block,
// in their order; cloth one for each quilt, of each colorway.
func JSON(p *pattern.Pattern, made [][]Made, cloth [][][]table.Cloth) []byte {
	e := &encoder{b: make([]byte, 0, 4096+sizeHint*countPieces(p))}
	e.open('{')
	e.key("schema").string(Schema)
	e.about(p)
	e.settings(&p.Settings)
	e.fabrics(p)
	e.key("blocks").open('[')
	for b := range p.Blocks {
		e.block(p, &p.Blocks[b], made[b])
	}
	e.close(']')
	e.quilts(p, cloth)
	e.accepted(p.Accepted)
	e.limits(p.Limits)
	e.close('}')
	return append(e.b, '\n')
}

// sizeHint is about how many bytes a piece takes; only speed depends on it.
const sizeHint = 512

func countPieces(p *pattern.Pattern) int {
	n := 0
	for b := range p.Blocks {
		for s := range p.Blocks[b].Sizes {
			for d := range p.Blocks[b].Sizes[s].Drawings {
				n += len(p.Blocks[b].Sizes[s].Drawings[d].Pieces)
			}
		}
	}
	return n
}

func (e *encoder) about(p *pattern.Pattern) {
	a := &p.About
	e.key("title").string(p.Title)
	e.key("file").string(p.File)
	e.key("edition").int(a.Edition)
	e.key("author").string(a.Author)
	e.key("year").string(a.Year)
	e.key("rights").string(a.Rights)
	e.key("contact").string(a.Contact)
	e.key("corrections").string(a.Corrections)
	e.key("notes").open('[')
	for _, n := range a.Notes {
		e.string(n)
	}
	e.close(']')
	e.key("pictures").open('[')
	for i := range a.Pictures {
		e.open('{')
		e.key("file").string(a.Pictures[i].File)
		e.key("words").string(a.Pictures[i].Words)
		e.close('}')
	}
	e.close(']')
}

func (e *encoder) settings(s *pattern.Settings) {
	e.key("settings").open('{')
	e.key("allowance").length(s.Allowance)
	e.key("extra").length(s.Extra)
	e.key("ease").length(s.Ease)
	e.key("metric").bool(s.Metric)
	e.key("miniature").bool(s.Miniature)
	e.key("sheet").open('{')
	e.key("name").string(s.Sheet.Name)
	e.key("size").size(s.Sheet.Paper)
	e.key("margin").length(s.Sheet.Margin)
	e.close('}')
	e.close('}')
}

func (e *encoder) fabrics(p *pattern.Pattern) {
	e.key("fabrics").open('[')
	for i := range p.Fabrics {
		f := &p.Fabrics[i]
		e.line()
		e.key("name").string(f.Name)
		e.key("words").string(f.Words)
		e.cloth(f.Value, f.Colour)
		e.key("scrappy").string(f.Scrappy)
		e.close('}')
	}
	e.close(']')
	e.key("colorways").open('[')
	for i := range p.Colorway {
		c := &p.Colorway[i]
		e.line()
		e.key("name").string(c.Name)
		e.key("words").string(c.Words)
		e.key("cloths").open('[')
		for _, cloth := range c.Dress {
			e.open('{')
			e.key("words").string(cloth.Words)
			e.cloth(cloth.Value, cloth.Colour)
			e.close('}')
		}
		e.close(']')
		e.close('}')
	}
	e.close(']')
}

func (e *encoder) cloth(value string, colour uint32) {
	e.key("value").string(value)
	rgb := [7]byte{'#'}
	for i := range 6 {
		rgb[i+1] = hex[colour>>(20-4*i)&15]
	}
	e.key("color").string(string(rgb[:]))
}

func (e *encoder) accepted(as []pattern.Accepted) {
	e.key("accepted").open('[')
	for _, a := range as {
		e.line()
		e.key("code").string(a.Code)
		e.key("message").string(a.Message)
		e.key("reason").string(a.Reason)
		e.key("file").string(a.Source.File)
		e.key("line").int(a.Source.Line)
		e.close('}')
	}
	e.close(']')
}

func (e *encoder) limits(ls []pattern.Limit) {
	e.key("limits").open('[')
	for i := range ls {
		l := &ls[i]
		e.line()
		e.key("name").string(l.Name)
		e.key("code").string(l.Code)
		e.key("unit").string([...]string{"", "in", "degrees"}[l.Unit])
		e.key("limit").float(l.Value)
		e.key("set").bool(l.Set)
		e.close('}')
	}
	e.close(']')
}
