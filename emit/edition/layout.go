package edition

import (
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// A Layout is a quilt as it is laid out. Places are inches from its lower left
// corner, y up.
type Layout struct {
	Title   string     `json:"title"`
	Size    [2]float64 `json:"size"`    // finished, without the binding
	Backing [2]float64 `json:"backing"` // of the whole; zero for none
	Batting [2]float64 `json:"batting"`
	Two     []string   `json:"two_ways,omitempty"` // blocks that are pressed in two ways, and which of their joins: "boat 8in: 1 3"
	Placed  []Placed   `json:"-"`
	Areas   []Word     `json:"-"` // what else is seen, by what it is: how many, and a sum of where they lie
	Joins   []Seam     `json:"-"`
	Cuts    []Cut      `json:"-"` // between and around the blocks
	Runs    []Run      `json:"-"` // long strips
	Cloth   []Word     `json:"-"` // what is bought for all of it, by colorway and cloth
	Texts   []Word     `json:"-"` // sums of the program's sentences: pages of the booklet, the table

	At pattern.Source `json:"-"`
}

// A Placed is a block in its place in a quilt, or one turned over.
type Placed struct {
	Block    string     `json:"block"`
	Size     string     `json:"size"` // its name
	Row      int        `json:"row"`  // from 1
	In       int        `json:"in"`   // the how many-eth of its row, from 1
	Turn     float64    `json:"turn"` // degrees, anticlockwise
	Reversed bool       `json:"reversed,omitempty"`
	OtherWay bool       `json:"other_way,omitempty"` // pressed so, see Layout.Two
	Shift    [2]float64 `json:"shift"`

	At pattern.Source `json:"-"`
}

// A Seam is one join of a quilt, in sewing order.
type Seam struct {
	Step   string     `json:"step"` // what it belongs to
	Of     int        `json:"of"`   // which row or border
	From   [2]float64 `json:"from"`
	To     [2]float64 `json:"to"`
	Points []float64  `json:"points"` // to match: how far from From
	Press  string     `json:"press"`  // "left" or "right" of the line, "open"
}

// A Cut is how often one patch is cut.
type Cut struct {
	For    string     `json:"for"` // what it is: "sashes"
	Fabric string     `json:"fabric"`
	Cut    string     `json:"cut"` // as in Space
	Size   [2]float64 `json:"size"`
	Count  int        `json:"count"` // of patches
}

// A Run is a strip of which so much is needed.
type Run struct {
	For     string    `json:"for"`
	Fabric  string    `json:"fabric"`
	Width   float64   `json:"width"`
	Lengths []float64 `json:"lengths"`
	Bias    bool      `json:"bias,omitempty"`
}

// A MadeQuilt is what was made for a quilt; nothing where it is not laid out.
type MadeQuilt struct {
	Cloth []Word // by colorway and cloth: how much is bought
	Table string // the quilt's table
	Pages []*drawing.Page
}

func layout(p *pattern.Pattern, q *pattern.Quilt, made *MadeQuilt) Layout {
	l := q.Layout
	size := func(s pattern.Size) [2]float64 { return pair(pattern.Pos{X: s.W, Y: s.H}) }
	out := Layout{Title: q.Title, Size: size(l.Size), Backing: size(l.Backing), Batting: size(l.Batting), Cloth: made.Cloth, At: q.Source}
	named := func(block, size int) (string, string) {
		return p.Blocks[block].Name, SizeName(p.Blocks[block].Sizes[size].Finished)
	}
	for i := range l.Two {
		two := &l.Two[i]
		block, size := named(two.Block, two.Size)
		words := block + " " + size + ":"
		for _, j := range two.Joins {
			words += " " + strconv.Itoa(j+1)
		}
		out.Two = append(out.Two, words)
	}
	for i := range l.Placed {
		at := &l.Placed[i]
		block, size := named(at.Block, at.Size)
		out.Placed = append(out.Placed, Placed{Block: block, Size: size, Row: at.Row, In: at.In, Turn: round(at.Turn), Reversed: at.Reversed,
			OtherWay: at.OtherWay, Shift: pair(at.Shift), At: at.Source})
	}
	out.Areas = areas(p, l.Areas)
	for i := range l.Joins {
		out.Joins = append(out.Joins, seam(&l.Joins[i]))
	}
	for i := range l.Cuts {
		c := &l.Cuts[i]
		out.Cuts = append(out.Cuts, Cut{c.For, cloth(p, c.Fabric), shapes()[c.Shape], size(c.Size), c.Count})
	}
	for i := range l.Runs {
		r := &l.Runs[i]
		run := Run{For: r.For, Fabric: cloth(p, r.Fabric), Width: round(float64(r.Height)), Lengths: []float64{}, Bias: r.Bias}
		for _, length := range r.Lengths {
			run.Lengths = append(run.Lengths, round(float64(length)))
		}
		out.Runs = append(out.Runs, run)
	}
	said := &strings.Builder{}
	for _, page := range made.Pages {
		texts(said, page.Items)
	}
	out.Texts = []Word{{"booklet", sum(said.String())}, {"table", sum(made.Table)}}
	return out
}

// cloth is the name of a fabric; "" where none is named.
func cloth(p *pattern.Pattern, fabric int) string {
	if fabric < 0 {
		return ""
	}
	return p.Fabrics[fabric].Name
}

// areas sums where everything lies that is no block.
func areas(p *pattern.Pattern, all []pattern.Area) (out []Word) {
	count := map[string]int{}
	lies := map[string]*part{}
	for i := range all {
		a := &all[i]
		if lies[a.For] == nil {
			lies[a.For] = &part{}
			out = append(out, Word{Name: a.For})
		}
		count[a.For]++
		to := lies[a.For]
		to.words = append(to.words, cloth(p, a.Fabric))
		to.number(float64(len(a.Polygon)))
		for _, at := range a.Polygon {
			to.length(at.X)
			to.length(at.Y)
		}
	}
	for i := range out {
		name := out[i].Name
		out[i].Text = strconv.Itoa(count[name]) + ", " + sum(string(lies[name].lines)+strings.Join(lies[name].words, "\n"))
	}
	return out
}

func seam(j *pattern.QuiltJoin) Seam {
	out := Seam{Step: steps()[j.Step], Of: j.Of, From: pair(j.A), To: pair(j.B), Points: []float64{}}
	for _, at := range j.Points {
		out.Points = append(out.Points, round(float64(at)))
	}
	switch j.Press {
	case pattern.PressLeft:
		out.Press = "left"
	case pattern.PressRight:
		out.Press = "right"
	case pattern.PressOpen:
		out.Press = "open"
	}
	return out
}

// steps are the words for pattern.Step.
func steps() []string { return []string{"row", "rows", "corner", "strips of border", "border"} }

// layout lists the facts of a quilt.
func (f *facter) layout(l *Layout, n int) {
	at := func(kind string, i int) []string {
		return []string{"layout", strconv.Itoa(n), kind, strconv.Itoa(i + 1)}
	}
	f.add(l, "layout", strconv.Itoa(n))
	for i := range l.Placed {
		f.add(&l.Placed[i], at("block", i)...)
	}
	for i := range l.Joins {
		f.add(&l.Joins[i], at("join", i)...)
	}
	for i := range l.Cuts {
		f.add(&l.Cuts[i], at("cut", i)...)
	}
	for i := range l.Runs {
		f.add(&l.Runs[i], at("strip", i)...)
	}
	f.words(l.Areas, "layout", strconv.Itoa(n), "area")
	f.words(l.Cloth, "layout", strconv.Itoa(n), "cloth")
	f.words(l.Texts, "layout", strconv.Itoa(n), "text")
}

// layout reads a fact of a quilt. Facts that are known by a number are counted, so
// that none is missed.
func (b *builder) layout(key []string, into func(any) error) error {
	if len(key) == 2 {
		b.counted["layout"]++
		return numbered(&b.r.Layouts, key[1], into)
	}
	var l *Layout
	if err := numbered(&b.r.Layouts, key[1], func(at any) error { l = at.(*Layout); return nil }); err != nil {
		return err
	}
	if len(key) < 4 {
		return unknown()
	}
	name := strings.Join(key[3:], "/")
	word := func(to *[]Word) error {
		*to = append(*to, Word{Name: name})
		return into(&(*to)[len(*to)-1].Text)
	}
	switch key[2] {
	case "area":
		return word(&l.Areas)
	case "cloth":
		return word(&l.Cloth)
	case "text":
		return word(&l.Texts)
	}
	b.counted["layout/"+key[1]]++
	switch key[2] {
	case "block":
		return numbered(&l.Placed, name, into)
	case "join":
		return numbered(&l.Joins, name, into)
	case "cut":
		return numbered(&l.Cuts, name, into)
	case "strip":
		return numbered(&l.Runs, name, into)
	}
	return unknown()
}

// missing is a fact of a quilt that is not there, though it must be.
func (b *builder) missing() (string, bool) {
	if n := len(b.r.Layouts); n != b.counted["layout"] || b.r.Told && n != b.layouts || !b.r.Told && n > 0 {
		return "the layout of a quilt", true
	}
	for i := range b.r.Layouts {
		l := &b.r.Layouts[i]
		if n := strconv.Itoa(i + 1); len(l.Placed)+len(l.Joins)+len(l.Cuts)+len(l.Runs) != b.counted["layout/"+n] {
			return "layout/" + n + ": a block, join, cut or strip", true
		}
	}
	return "", false
}
