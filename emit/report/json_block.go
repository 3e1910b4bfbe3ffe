package report

import (
	"path/filepath"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
)

func (e *encoder) block(p *pattern.Pattern, b *pattern.Block, made []Made) {
	e.home = b.Source.File
	e.line()
	e.key("name").string(b.Name)
	e.key("title").string(b.Title)
	e.key("grid").open('[')
	e.float(b.Grid[0])
	e.float(b.Grid[1])
	e.close(']')
	e.key("reversed_of").string(b.Reverses)
	e.key("sizes").open('[')
	for i := range b.Sizes {
		e.sized(p, b, &b.Sizes[i], &made[i])
	}
	e.close(']')
	e.close('}')
}

func (e *encoder) sized(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, m *Made) {
	e.line()
	e.key("finished").size(s.Finished)
	e.key("unfinished").size(unfinished(p, s))
	e.key("outline").points(s.Outline)
	e.key("sections").open('[')
	printed := bySection(s, m)
	for d := range s.Drawings {
		e.section(p, s, d, m, printed[d])
	}
	e.close(']')
	e.copies(s)
	e.joins(s)
	e.cuts(p, b, s, m)
	e.sheets(m)
	e.checks(s)
	e.close('}')
}

// An onSheet is a place and the index of its sheet.
type onSheet struct {
	Printed
	sheet int
}

// bySection lists for every drawing where it is printed.
func bySection(s *pattern.Sized, m *Made) [][]onSheet {
	places := make([][]onSheet, len(s.Drawings))
	for i := range m.Sheets {
		for _, at := range m.Sheets[i].Sections {
			places[at.Drawing] = append(places[at.Drawing], onSheet{at, i})
		}
	}
	return places
}

func (e *encoder) section(p *pattern.Pattern, s *pattern.Sized, index int, m *Made, printed []onSheet) {
	d := &s.Drawings[index]
	e.line()
	e.key("name").string(d.Name)
	e.source(d.Source)
	e.key("unit").string(d.Unit)
	e.key("make").int(d.Make)
	e.key("reversed_of").string(nameOf(s, d.Reversed))
	e.key("plain").bool(d.Plain)
	e.key("outline").points(d.Outline)
	e.key("edges").open('[')
	for i := range d.Edges {
		e.edge(s, &d.Edges[i])
	}
	e.close(']')
	e.key("printed").open('[')
	for _, at := range printed {
		e.open('{')
		e.key("sheet").int(m.Sheets[at.sheet].Number)
		e.key("turn").float(at.Turn)
		e.key("shift").point(at.Shift)
		e.part(at.Part)
		e.close('}')
	}
	e.close(']')
	e.key("pieces").open('[')
	for i := range d.Pieces {
		e.piece(p, d, i)
	}
	e.close(']')
	e.close('}')
}

// part tells which part of a section is printed; nothing where all of it is.
func (e *encoder) part(p *PartOf) {
	if p == nil {
		return
	}
	e.key("part").open('{')
	e.key("number").int(p.Number)
	e.key("parts").int(p.Of)
	e.key("row").int(p.Row)
	e.key("column").int(p.Column)
	e.key("own").points([]pattern.Pos{p.Lower, p.Higher})
	e.close('}')
}

func nameOf(s *pattern.Sized, drawing int) string {
	if drawing < 0 || drawing >= len(s.Drawings) {
		return ""
	}
	return s.Drawings[drawing].Name
}

func (e *encoder) edge(s *pattern.Sized, edge *pattern.Edge) {
	e.open('{')
	e.key("kind").string([...]string{"joined", "border"}[edge.Kind])
	e.key("letter").string(edge.Letter)
	e.key("partners").open('[')
	for _, partner := range edge.Partners {
		e.open('{')
		e.key("section").string(nameOf(s, partner.Drawing))
		e.key("edge").int(partner.Edge)
		e.key("letter").string(partner.Letter)
		e.close('}')
	}
	e.close(']')
	e.key("marks").open('[')
	for _, mark := range edge.Marks {
		e.open('{')
		e.key("at").point(mark.At)
		e.key("kind").string([...]string{"join end", "seam end", "between", "stop"}[mark.Kind])
		e.key("match").bool(mark.Match)
		e.key("letter").string(mark.Letter)
		e.close('}')
	}
	e.close(']')
	e.close('}')
}

func (e *encoder) piece(p *pattern.Pattern, d *pattern.Drawing, i int) {
	piece := &d.Pieces[i]
	e.line()
	e.key("space").label(d, i)
	e.key("number").int(piece.Number)
	e.source(piece.Source)
	e.key("fabric").string(p.Fabrics[piece.Fabric].Name)
	e.key("polygon").points(piece.Polygon)
	if piece.Seam[0] != piece.Seam[1] {
		e.key("seam").points(piece.Seam[:])
	}
	patch := &piece.Patch
	e.key("cut").open('{')
	e.key("shape").string(shapeName(patch.Shape))
	e.key("size").size(patch.Size)
	e.key("need").size(patch.Exact)
	e.key("margin").length(patch.Margin)
	e.key("exact").bool(patch.Plain)
	e.key("along_seam").bool(patch.Along)
	e.key("reversed").bool(patch.Reversed)
	e.close('}')
	e.close('}')
}

// source tells where something is written. The file is told where it is another
// than the pattern itself.
func (e *encoder) source(s pattern.Source) {
	e.key("line").int(s.Line)
	if s.File != e.home && s.File != "" {
		e.key("file").string(PathFrom(e.home, s.File))
	}
}

// PathFrom is how a file is told in pattern.json: by its path from the folder of
// the pattern, the same on every machine, or as std/NAME.
func PathFrom(home, file string) string {
	if strings.HasPrefix(file, "std/") {
		return file
	}
	if rel, err := filepath.Rel(filepath.Dir(home), file); err == nil {
		return filepath.ToSlash(rel)
	}
	return filepath.Base(file)
}

func shapeName(s pattern.Shape) string {
	return [...]string{"none", "rectangle", "square", "half square", "quarter square", "half rectangle", "template"}[s]
}

// label appends what is printed in a space. Names of sections are letters.
func (e *encoder) label(d *pattern.Drawing, i int) {
	e.separate()
	e.b = append(append(e.b, '"'), d.Name...)
	e.b = append(strconv.AppendInt(e.b, int64(d.Pieces[i].Number), 10), '"')
}

func (e *encoder) copies(s *pattern.Sized) {
	e.key("copies").open('[')
	for i := range s.Copies {
		c := &s.Copies[i]
		e.line()
		e.key("section").string(nameOf(s, c.Drawing))
		e.key("turn").float(c.Turn)
		e.key("shift").point(c.Shift)
		e.key("of").string(c.Of)
		e.source(c.Source)
		if len(c.Pieces) > 0 {
			e.key("pieces").open('[')
			for _, at := range c.Pieces {
				e.open('{')
				e.source(at)
				e.close('}')
			}
			e.close(']')
		}
		e.close('}')
	}
	e.close(']')
}

func (e *encoder) joins(s *pattern.Sized) {
	e.key("joins").open('[')
	for i := range s.Joins {
		j := &s.Joins[i]
		e.line()
		e.key("number").int(j.Number)
		e.source(j.Source)
		e.key("from").point(j.A)
		e.key("to").point(j.B)
		e.key("left").ints(j.Left)
		e.key("right").ints(j.Right)
		e.key("match").points(j.Points)
		e.key("press").string([...]string{"", "left", "right", "open"}[j.Press])
		e.key("press_reason").string(j.Why.Code())
		e.key("most_meeting").int(j.Meet)
		if j.Begins > 0 {
			e.key("begins").int(j.Begins)
		}
		if j.Begun > 0 {
			e.key("begun").int(j.Begun)
		}
		e.close('}')
	}
	e.close(']')
}

func (e *encoder) cuts(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, m *Made) {
	e.key("cutting").open('[')
	for i := range m.Cuts.Rows {
		r := &m.Cuts.Rows[i]
		cloth, reversed := r.Cloth()
		e.line()
		e.key("fabric").string(p.Fabrics[r.Fabric].Name)
		e.key("shape").string(shapeName(r.Shape))
		e.key("size").size(r.Size)
		e.key("exact").bool(r.Plain)
		e.key("count").int(cloth)
		e.key("count_reversed").int(reversed)
		e.key("patches").int(r.Patches)
		e.key("patches_reversed").int(r.Reversed)
		e.key("spaces").open('[')
		for _, at := range r.Spaces {
			e.label(&s.Drawings[at.Drawing], at.Piece)
		}
		e.close(']')
		e.close('}')
	}
	e.close(']')
	e.key("cloth").open('[')
	for _, c := range m.Cuts.Cloth(p, b, s) {
		e.line()
		e.key("fabric").string(p.Fabrics[c.Fabric].Name)
		e.bought(&c.Cloth)
		e.key("scrap").size(c.Scrap)
		e.close('}')
	}
	e.close(']')
}

func (e *encoder) sheets(m *Made) {
	e.key("sheets").open('[')
	for i := range m.Sheets {
		sheet := &m.Sheets[i]
		e.line()
		e.key("number").int(sheet.Number)
		e.key("file").string(sheet.File)
		e.key("copies").int(sheet.Copies)
		e.close('}')
	}
	e.close(']')
	e.key("pads").open('[')
	for i := range m.Pads {
		p := &m.Pads[i]
		e.line()
		e.key("blocks").int(p.Blocks)
		e.key("each").int(p.Each)
		e.key("spare").int(p.Spare)
		e.key("total").int(p.Sheets)
		e.key("collated").bool(p.Collated)
		e.close('}')
	}
	e.close(']')
}

func (e *encoder) checks(s *pattern.Sized) {
	f := &s.Figures
	margin, at := leastMargin(s)
	e.key("checks").open('{')
	e.key("sections").int(f.Sections)
	e.key("pieces").int(f.Pieces)
	e.key("seams").int(f.Seams)
	e.key("drawings").int(f.Drawings)
	e.key("plain_drawings").int(f.PlainDrawings)
	e.key("points_to_match").int(f.Points)
	e.key("most_seams_at_a_point").int(f.MostSeams)
	e.key("most_layers_at_a_point").int(f.MostLayers)
	e.key("narrowest").length(f.Narrowest)
	e.key("narrowest_piece").string(f.NarrowestPiece)
	e.key("nearest_points").length(f.NearestPoints)
	e.key("area_error").length(f.AreaError)
	e.key("least_margin").length(margin)
	e.key("least_margin_piece").string(at)
	e.close('}')
}
