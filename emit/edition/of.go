package edition

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/sheet"
)

// A Made is what was laid out for one block at one size. Everything but the
// marks is made as for edition 1, so that a new number alone changes nothing.
type Made struct {
	Sheets  sheet.Set
	Marks   []Word          // by paper: the version mark with the edition's own number
	Cloth   []Word          // by fabric's name: how much is bought
	Table   string          // the cutting table
	Booklet []*drawing.Page // without the sheets
	Chapter []string        // for each page of the booklet, the one that begins on it, or ""
}

// Of records a pattern. Made has one entry for each size of each block, quilts one
// for each quilt.
func Of(p *pattern.Pattern, made [][]Made, quilts []MadeQuilt) *Record {
	r := &Record{Edition: p.About.Edition}
	r.about(p)
	r.settings(p)
	for i := range p.Fabrics {
		f := &p.Fabrics[i]
		r.Fabrics = append(r.Fabrics, Fabric{Name: f.Name, Words: f.Words, Value: f.Value, Color: color(f.Colour), Varied: f.Scrappy, At: f.Source})
	}
	for i := range p.Colorway {
		c := &p.Colorway[i]
		if c.Name == "" {
			continue // the fabrics themselves
		}
		way := Colorway{Name: c.Name, Words: c.Words, Cloths: map[string]Fabric{}}
		for k, cloth := range c.Dress {
			way.Cloths[p.Fabrics[k].Name] = Fabric{Words: cloth.Words, Value: cloth.Value, Color: color(cloth.Colour)}
		}
		r.Colorways = append(r.Colorways, way)
	}
	for i := range p.Quilts {
		q := &p.Quilts[i]
		of := ""
		if q.Block != "" {
			of = fmt.Sprintf("%d x %s, %s", q.Blocks, q.Block, q.Finished.Exact())
		}
		r.Quilts, r.Told = append(r.Quilts, Word{strconv.Itoa(i+1) + " " + q.Title, of}), true
		if q.Layout != nil {
			r.Layouts = append(r.Layouts, layout(p, q, &quilts[i]))
		}
	}
	for b := range p.Blocks {
		r.Blocks = append(r.Blocks, block(p, &p.Blocks[b], made[b]))
	}
	return r
}

func color(rgb uint32) string { return fmt.Sprintf("#%06x", rgb) }

// about keeps the author's own words, those that are given.
func (r *Record) about(p *pattern.Pattern) {
	a := &p.About
	add := func(name, text string) {
		if text != "" {
			r.Words = append(r.Words, Word{name, text})
		}
	}
	add("title", p.Title)
	if p.Title == "" {
		add("file", p.File) // is printed in its place
	}
	add("author", a.Author)
	add("year", a.Year)
	add("rights", a.Rights)
	add("contact", a.Contact)
	add("corrections", a.Corrections)
	for i, n := range a.Notes {
		add("note "+strconv.Itoa(i+1), n)
	}
	for i, picture := range a.Pictures {
		add("picture "+strconv.Itoa(i+1), strings.TrimSpace(picture.File+" "+picture.Words))
	}
	for i := range a.Pictures {
		add("picture "+a.Pictures[i].File, strings.TrimSpace(a.Pictures[i].Words+" ("+sum(a.Pictures[i].Data)+")"))
	}
	for _, s := range a.Sayings {
		how := "before: "
		if s.Instead {
			how = "instead: "
		}
		add("sentence "+s.Name, how+s.Text)
	}
}

// settings keeps what the whole pattern was made with.
func (r *Record) settings(p *pattern.Pattern) {
	s := &p.Settings
	add := func(name, text string) { r.Settings = append(r.Settings, Word{name, text}) }
	add("allowance", s.Allowance.Exact())
	add("extra", s.Extra.Exact())
	add("ease", s.Ease.Exact())
	add("paper", s.Sheet.Name+", margin "+s.Sheet.Margin.Exact())
	measures := "inches first"
	if s.Metric {
		measures = "metric first"
	}
	add("measures", measures)
	add("tint", strconv.FormatBool(s.Tint))
	if s.Placement {
		add("placement", "true")
	}
	if s.Tile {
		add("tile", "true")
	}
	if s.Language != "" {
		add("language", s.Language)
	}
	for i := range p.Pads {
		pad := &p.Pads[i]
		how := "block by block"
		if pad.Loose {
			how = "all sheets of a kind together"
		}
		add("pad "+strconv.Itoa(i+1), fmt.Sprintf("%d blocks, %d sheets to spare, %s, %s for the glue, %s for the press",
			pad.Copies, pad.Spare, how, pad.Glue.Exact(), pad.Gripper.Exact()))
	}
}

func block(p *pattern.Pattern, b *pattern.Block, made []Made) Block {
	out := Block{Name: b.Name, Title: b.Title, At: b.Source}
	taken := map[string]bool{}
	for i := range b.Sizes {
		s := size(p, &b.Sizes[i], &made[i])
		for n := 2; taken[s.Name]; n++ {
			s.Name = SizeName(b.Sizes[i].Finished) + "-" + strconv.Itoa(n)
		}
		taken[s.Name] = true
		out.Sizes = append(out.Sizes, s)
	}
	return out
}

func size(p *pattern.Pattern, s *pattern.Sized, made *Made) Size {
	out := Size{Name: SizeName(s.Finished), Finished: pair(pattern.Pos{X: s.Finished.W, Y: s.Finished.H}), Cloth: made.Cloth, Marks: made.Marks}
	for d := range s.Drawings {
		out.Sections = append(out.Sections, section(p, s, &s.Drawings[d]))
	}
	for i := range s.Copies {
		c := &s.Copies[i]
		out.Copies = append(out.Copies, Copy{s.Drawings[c.Drawing].Name, round(c.Turn), pair(c.Shift)})
	}
	for i := range s.Joins {
		j := &s.Joins[i]
		out.Joins = append(out.Joins, Join{pair(j.A), pair(j.B), press(s, j), j.Begins, j.Begun, j.Source})
	}
	for i := range made.Sheets.Sheets {
		out.Sheets = append(out.Sheets, page(s, &made.Sheets.Sheets[i], made.Sheets.Mark))
	}
	out.Texts = append(chapters(made), Word{"cutting table", sum(made.Table)})
	return out
}

// press says toward which sections a join is pressed.
func press(s *pattern.Sized, j *pattern.Join) string {
	side := j.Left
	switch j.Press {
	case pattern.PressOpen:
		return "open"
	case pattern.PressRight:
		side = j.Right
	case pattern.Unpressed:
		return ""
	}
	var names []string
	for _, c := range side {
		if n := s.Drawings[s.Copies[c].Drawing].Name; len(names) == 0 || names[len(names)-1] != n {
			names = append(names, n)
		}
	}
	return strings.Join(names, " ")
}

func section(p *pattern.Pattern, s *pattern.Sized, d *pattern.Drawing) Section {
	out := Section{Name: d.Name, Make: d.Make, Unit: d.Unit, Plain: d.Plain, Outline: pairs(d.Outline), Edges: []string{}, Marks: []Mark{}, At: d.Source}
	if d.Reversed >= 0 {
		out.Reverses = s.Drawings[d.Reversed].Name
	}
	for i := range d.Edges {
		e := &d.Edges[i]
		out.Edges = append(out.Edges, partners(s, e))
		for _, m := range e.Marks {
			out.Marks = append(out.Marks, Mark{pair(m.At), m.Letter, m.Match})
		}
	}
	for i := range d.Pieces {
		piece := &d.Pieces[i]
		patch := &piece.Patch
		out.Spaces = append(out.Spaces, Space{
			Number: piece.Number, Fabric: p.Fabrics[piece.Fabric].Name, Polygon: pairs(piece.Polygon),
			Cut: shapes()[patch.Shape], Size: pair(pattern.Pos{X: patch.Size.W, Y: patch.Size.H}),
			Exact: patch.Plain, Other: patch.Reversed, Slant: !patch.Along && !patch.Plain && i > 0, At: piece.Source,
		})
	}
	return out
}

// shapes are the words for pattern.Shape.
func shapes() []string {
	return []string{"", "rectangle", "square", "square cut once on the diagonal", "square cut twice on the diagonals",
		"rectangle cut once on the diagonal", "round the template"}
}

// partners says what stands on an edge: what it is joined to.
func partners(s *pattern.Sized, e *pattern.Edge) string {
	if e.Kind == pattern.Border {
		return "border"
	}
	var to []string
	for _, p := range e.Partners {
		if p.Letter != "" {
			to = append(to, p.Letter)
		} else {
			to = append(to, s.Drawings[p.Drawing].Name)
		}
	}
	text := strings.Join(to, " ")
	if e.Letter != "" {
		text = e.Letter + " to " + text
	}
	return text
}

// grain is the fineness of a record, a ten-thousandth of an inch: a quarter of
// that of the sheets.
const grain = 1e4

func round(f float64) float64 { return math.Round(f*grain+tip)/grain + 0 } // no negative zero

func pair(p pattern.Pos) [2]float64 { return [2]float64{round(float64(p.X)), round(float64(p.Y))} }

func pairs(ps []pattern.Pos) [][2]float64 {
	out := make([][2]float64, len(ps))
	for i, p := range ps {
		out[i] = pair(p)
	}
	return out
}
