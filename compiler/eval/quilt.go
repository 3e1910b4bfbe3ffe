package eval

import (
	"math"
	"slices"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/compiler/value"
	"seamwright/lang"
)

// usualBinding is what strips of a binding are cut to where a pattern names only
// their fabric: folded double, they make 1/4 in on either side (common practice, no
// source; 2 1/2 in is as usual).
const usualBinding = 2.25

// maxWidth is the widest sashing, border or binding in inches: wider than any cloth.
const maxWidth = 60

// quilt reads a quilt's settings. What they come to is worked out when the blocks
// are known.
func (e *evaluator) quilt(f *file, d *lang.Quilt) {
	p := e.newProps(f, "quilt")
	defer e.free(p.run)
	none := pattern.Band{Fabric: pattern.NoFabric}
	q := pattern.Quilt{Title: "Quilt", Source: f.modelSource(d.Where()),
		Triangles: pattern.NoFabric, Cornerstones: pattern.NoFabric, Sashing: none, Binding: none, Backing: none}
	if d.Name != nil && !blank(d.Name.Text) {
		q.Title = d.Name.Text
	}
	var alike blocks
	for _, s := range d.Props {
		switch s.Name.Text {
		case "row": // one each, from the top down
			p.row(s, &q)
			continue
		case "border": // one round each, from the inside out
			p.border(s, &q)
			continue
		}
		if known := []string{"blocks", "row", "on_point", "sashing", "cornerstones", "border", "binding", "backing", "batting"}; !slices.Contains(known, s.Name.Text) {
			p.unknownSetting(s, known)
			continue
		}
		if !p.once(s) {
			continue
		}
		switch s.Name.Text {
		case "blocks":
			alike = p.blocks(s, &q)
		case "on_point":
			q.OnPoint = true
			if e := p.plain(s); e != nil {
				p.stripFabric(s, e, &q.Triangles)
			}
		case "cornerstones":
			if e := p.plain(s); e != nil {
				p.stripFabric(s, e, &q.Cornerstones)
			}
		case "sashing":
			q.Around = p.strip(s, &q.Sashing, "around")
		case "binding":
			q.Bias = p.strip(s, &q.Binding, "bias")
			if q.Binding.Width == 0 && q.Binding.Fabric != pattern.NoFabric {
				q.Binding.Width = usualBinding
			}
		case "backing":
			p.strip(s, &q.Backing, "")
		case "batting":
			p.length(s, maxWidth, &q.Batting)
		}
	}
	q.Rows = append(alike.rows(q.OnPoint), q.Rows...)
	if q.Block != "" && q.OnPoint {
		q.Blocks += max(0, alike.across-1) * max(0, alike.down-1)
	}
	e.out.Pattern.Quilts = append(e.out.Pattern.Quilts, q)
}

// blocks reads `blocks boat, 5 x 6, 8in`: blocks, how many across and down, and
// the finished size, the last two in either order. Several blocks alternate.
func (p *props) blocks(s *lang.Prop, q *pattern.Quilt) (b blocks) {
	for _, v := range s.Values {
		n, isName := v.Value.(*lang.Name)
		switch {
		case !p.allowed(s, v, by):
		case isName && v.By == nil:
			b.cells = append(b.cells, p.cell(n))
		case v.By != nil:
			b.across, b.down = p.positive(s, v.Value), p.positive(s, v.By)
		default:
			p.lengthOf(s, v.Value, maxFinished, &q.Finished)
		}
	}
	if len(b.cells) == 0 && b.across+b.down > 0 {
		p.wrong(s.Name.Span, s, "needs the name of a block", "write the blocks, how many across and down, and their size: blocks boat, 5 x 6, 8in")
	}
	if b.across*b.down > mostBlocks {
		p.wrong(s.Name.Span, s, "makes "+strconv.Itoa(b.across*b.down)+" blocks, and a quilt has at most "+strconv.Itoa(mostBlocks), "")
		return blocks{}
	}
	if len(b.cells) == 1 && b.cells[0].Block != "" {
		q.Block, q.Blocks = b.cells[0].Block, b.across*b.down
	}
	return b
}

// A blocks is a setting in which the blocks that are named alternate.
type blocks struct {
	cells        []pattern.Cell
	across, down int
}

// rows lays them out. On point a row of one block less stands between two rows;
// there the blocks alternate by rows.
func (b *blocks) rows(onPoint bool) (rows [][]pattern.Cell) {
	n, step := b.down, 1
	if onPoint {
		n, step = 2*b.down-1, 0
	}
	for i := 0; i < n && len(b.cells) > 0 && b.across > 0; i++ {
		row := make([]pattern.Cell, b.across-(1-step)*(i%2))
		for k := range row {
			row[k] = b.cells[(i+step*k)%len(b.cells)]
		}
		rows = append(rows, row)
	}
	return rows
}

// row reads `row boat, star turn 90deg, sky`: one row of blocks and plain squares.
func (p *props) row(s *lang.Prop, q *pattern.Quilt) {
	var row []pattern.Cell
	for _, v := range s.Values {
		if !p.allowed(s, v, turn) {
			continue
		}
		cell := pattern.Cell{}
		switch n := v.Value.(type) {
		case *lang.Name:
			cell = p.cell(n)
		case *lang.BadExpr:
		default:
			p.wrong(v.Where(), s, "takes the names of blocks, or of fabrics for plain squares", "")
		}
		cell.Reversed = v.Reversed
		if v.Turn != nil {
			cell.Turn = p.quarters(s, v.Turn)
		}
		row = append(row, cell)
	}
	if q.Rows = append(q.Rows, row); len(q.Rows)*len(row) > mostBlocks {
		p.wrong(s.Name.Span, s, "makes more than "+strconv.Itoa(mostBlocks)+" blocks", "")
	}
}

// mostBlocks is the largest number of blocks in a quilt: more than fit on the
// largest bed, and few enough to be drawn.
const mostBlocks = 10_000

// quarters reads a turn by whole quarters: blocks are square to each other.
func (p *props) quarters(s *lang.Prop, e lang.Expr) int {
	v, ok := p.want(e, angleKind, "`turn`")
	if !ok {
		return 0
	}
	n, whole := v.Num.Div(value.Int(90)).Whole()
	if !whole {
		p.wrong(e.Where(), s, "turns blocks by quarters: 90deg, 180deg or 270deg", "")
	}
	return int((n%4 + 4) % 4)
}

// cell reads the name of a block, or else of a fabric for a plain square.
func (p *props) cell(n *lang.Name) (c pattern.Cell) {
	c.Source = p.file.modelSource(n.Where())
	if p.file.unit[n.Text] == nil && p.file.fabric[n.Text] != nil {
		p.stripFabric(nil, n, &c.Fabric)
		return c
	}
	p.block(n)
	c.Block = n.Text
	return c
}

func (p *props) block(n *lang.Name) {
	name := p.file.unit[n.Text]
	if name != nil && (name.unit == nil || name.unit.decl.Block) {
		name.used = true
		return
	}
	if n.Text == "" || p.file.inHole(n.Text) {
		return
	}
	f := p.fault(UnknownBlock, n.Where(), "there is no block called `"+n.Text+"`")
	var names []string
	for _, u := range p.file.units {
		if u.decl.Block {
			names = append(names, u.decl.Name.Text)
		}
	}
	if !suggest(f, lang.Ident{Span: n.Where(), Text: n.Text}, names) && name != nil {
		f.Help = "`" + n.Text + "` is a unit without finished sizes; a quilt is made of blocks"
	}
}

// positive reads a number of blocks; 0 where it is none.
func (p *props) positive(s *lang.Prop, e lang.Expr) int {
	v, ok := p.want(e, numberKind, "`"+s.Name.Text+"`")
	if !ok {
		return 0
	}
	n, whole := v.Num.Whole()
	if !whole || n < 1 || n > math.MaxInt16 {
		p.wrong(e.Where(), s, "counts blocks from 1 up, and this is "+v.Num.String(), "")
		return 0
	}
	return int(n)
}

// strip reads `sashing 1in of sky, around`: a width, a fabric and perhaps one word
// more; it reports whether the word is there.
func (p *props) strip(s *lang.Prop, into *pattern.Band, word string) (said bool) {
	if len(s.Values) == 2 && word != "" {
		n, isName := s.Values[1].Value.(*lang.Name)
		if said = isName && n.Text == word && p.allowed(s, s.Values[1], 0); !said {
			p.wrong(s.Values[1].Where(), s, "takes a width, a fabric, and perhaps the word "+word, "")
		}
		rest := *s
		rest.Values = s.Values[:1]
		s = &rest
	}
	if v := p.one(s, of); v != nil {
		p.band(s, v, into)
	}
	return said
}

func (p *props) band(s *lang.Prop, v *lang.PropValue, into *pattern.Band) {
	into.Fabric = pattern.NoFabric
	if n, isName := v.Value.(*lang.Name); isName && v.Of == nil && s.Name.Text == "binding" && p.file.fabric[n.Text] != nil {
		p.stripFabric(s, n, &into.Fabric)
		return
	}
	p.lengthOf(s, v.Value, maxWidth, &into.Width)
	p.stripFabric(s, v.Of, &into.Fabric)
}

// border reads `border 3in of deep`, with `mitred` or the fabric of the squares in
// its corners behind a comma.
func (p *props) border(s *lang.Prop, q *pattern.Quilt) {
	b := pattern.BorderStrip{Stones: pattern.NoFabric}
	if len(s.Values) == 2 {
		switch n, isName := s.Values[1].Value.(*lang.Name); {
		case isName && n.Text == "mitred" && p.allowed(s, s.Values[1], 0):
			b.Corner = pattern.MitredCorner
		case isName && p.allowed(s, s.Values[1], 0):
			b.Corner = pattern.StoneCorner
			p.stripFabric(s, n, &b.Stones)
		case !isName:
			p.wrong(s.Values[1].Where(), s, "has after its fabric the word mitred, or the fabric of the squares in its corners", "write border 3in of sea, mitred or border 3in of sea, sky")
		}
		rest := *s
		rest.Values = s.Values[:1]
		s = &rest
	}
	if v := p.one(s, of); v != nil {
		p.band(s, v, &b.Band)
		if b.Width > 0 {
			q.Borders = append(q.Borders, b)
		}
	}
}

// stripFabric reads a fabric: its place among the fabrics of all files, until
// those of the pattern are counted.
func (p *props) stripFabric(s *lang.Prop, e lang.Expr, into *int) {
	switch n := e.(type) {
	case nil:
	case *lang.BadExpr:
	case *lang.Name:
		if f := p.fabricNamed(p.file, lang.Ident{Span: n.Where(), Text: n.Text}); f != nil {
			f.kept = true
			*into = f.id
		}
	default:
		p.wrong(e.Where(), s, "takes the name of a fabric after `of`", "")
	}
}

// eachFabric calls do with every fabric that a quilt names.
func eachFabric(q *pattern.Quilt, do func(*int)) {
	named := func(i *int) {
		if *i != pattern.NoFabric {
			do(i)
		}
	}
	for _, row := range q.Rows {
		for i := range row {
			if row[i].Block == "" {
				named(&row[i].Fabric)
			}
		}
	}
	for i := range q.Borders {
		named(&q.Borders[i].Fabric)
		named(&q.Borders[i].Stones)
	}
	for _, i := range [...]*int{&q.Triangles, &q.Cornerstones, &q.Sashing.Fabric, &q.Binding.Fabric, &q.Backing.Fabric} {
		named(i)
	}
}
