package eval

import (
	"math"

	"seamwright/compiler/pattern"
	"seamwright/compiler/value"
	"seamwright/lang"
)

// maxWidth is the widest sashing, border or binding in inches: wider than any cloth.
const maxWidth = 60

// quilt checks a quilt's settings: the names must exist and the kinds be right.
func (e *evaluator) quilt(f *file, d *lang.Quilt) {
	p := e.newProps(f, "quilt")
	defer e.free(p.run)
	q := pattern.Quilt{Title: "Quilt", Source: f.modelSource(d.Where())}
	if d.Name != nil && !blank(d.Name.Text) {
		q.Title = d.Name.Text
	}
	for _, s := range d.Props {
		switch s.Name.Text {
		case "blocks":
			if p.once(s) {
				p.blocks(s, &q)
			}
		case "row": // one each, from the top down
			p.row(s)
		case "border": // one round each, from the inside out
			p.strip(s)
		case "sashing", "cornerstones", "binding":
			if p.once(s) {
				p.strip(s)
			}
		default:
			p.unknownSetting(s, []string{"blocks", "row", "sashing", "cornerstones", "border", "binding"})
		}
	}
	e.out.Pattern.Quilts = append(e.out.Pattern.Quilts, q)
}

// blocks reads `blocks boat, 5 x 6, 8in`: blocks, how many across and down, and
// the finished size, the last two in either order.
func (p *props) blocks(s *lang.Prop, q *pattern.Quilt) {
	named := 0
	for _, v := range s.Values {
		n, isName := v.Value.(*lang.Name)
		if isName {
			named++
		}
		switch {
		case !p.allowed(s, v, by):
		case isName && v.By == nil:
			p.block(n)
			q.Block = n.Text
		case v.By != nil:
			q.Blocks = p.positive(s, v.Value) * p.positive(s, v.By)
		default:
			p.lengthOf(s, v.Value, maxFinished, &q.Finished)
		}
	}
	if named != 1 {
		q.Block = ""
	}
	if named == 0 && len(s.Values) > 0 {
		p.wrong(s.Name.Span, s, "needs the name of a block", "write the blocks, how many across and down, and their size: blocks boat, 5 x 6, 8in")
	}
}

// row reads `row boat, star turn 90deg, boat reversed`: one row of blocks.
func (p *props) row(s *lang.Prop) {
	for _, v := range s.Values {
		if !p.allowed(s, v, turn) {
			continue
		}
		switch n := v.Value.(type) {
		case *lang.Name:
			p.block(n)
		case *lang.BadExpr:
		default:
			p.wrong(v.Where(), s, "takes the names of blocks", "")
		}
		if v.Turn != nil {
			p.quarters(s, v.Turn)
		}
	}
}

// quarters reads a turn by whole quarters: blocks are square to each other.
func (p *props) quarters(s *lang.Prop, e lang.Expr) {
	v, ok := p.want(e, angleKind, "`turn`")
	if !ok {
		return
	}
	if _, whole := v.Num.Div(value.Int(90)).Whole(); !whole {
		p.wrong(e.Where(), s, "turns blocks by quarters: 90deg, 180deg or 270deg", "")
	}
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

// strip reads `border 3in of deep`.
func (p *props) strip(s *lang.Prop) {
	if s.Name.Text == "cornerstones" {
		if e := p.plain(s); e != nil {
			p.stripFabric(s, e)
		}
		return
	}
	if v := p.one(s, of); v != nil {
		var width pattern.Length
		p.lengthOf(s, v.Value, maxWidth, &width)
		p.stripFabric(s, v.Of)
	}
}

func (p *props) stripFabric(s *lang.Prop, e lang.Expr) {
	switch n := e.(type) {
	case nil:
	case *lang.BadExpr:
	case *lang.Name:
		if f := p.fabricNamed(p.file, lang.Ident{Span: n.Where(), Text: n.Text}); f != nil {
			f.kept = true
		}
	default:
		p.wrong(e.Where(), s, "takes the name of a fabric after `of`", "")
	}
}
