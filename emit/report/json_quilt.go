package report

import (
	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
	"seamwright/emit/table"
)

// quilts writes those that are laid out.
func (e *encoder) quilts(p *pattern.Pattern, cloth [][][]table.Cloth) {
	e.key("quilts").open('[')
	for i := range p.Quilts {
		if p.Quilts[i].Layout != nil {
			e.quilt(p, &p.Quilts[i], cloth[i])
		}
	}
	e.close(']')
}

func (e *encoder) quilt(p *pattern.Pattern, q *pattern.Quilt, cloth [][]table.Cloth) {
	l := q.Layout
	e.line()
	e.key("title").string(q.Title)
	e.key("size").size(l.Size)
	e.key("backing").size(l.Backing)
	e.key("batting").size(l.Batting)
	e.key("placed").open('[')
	for i := range l.Placed {
		at := &l.Placed[i]
		e.line()
		e.key("block").string(p.Blocks[at.Block].Name)
		e.key("finished").size(p.Blocks[at.Block].Sizes[at.Size].Finished)
		e.key("reversed").bool(at.Reversed)
		e.key("turn").float(at.Turn)
		e.key("shift").point(at.Shift)
		e.key("row").int(at.Row)
		e.key("place").int(at.In)
		e.key("other_way").bool(at.OtherWay)
		e.close('}')
	}
	e.close(']')
	e.key("areas").open('[')
	for i := range l.Areas {
		e.line()
		e.key("for").string(l.Areas[i].For)
		e.key("fabric").string(p.Fabrics[l.Areas[i].Fabric].Name)
		e.key("polygon").points(l.Areas[i].Polygon)
		e.close('}')
	}
	e.close(']')
	e.quiltJoins(p, l)
	e.key("cutting").open('[')
	for i := range l.Cuts {
		c := &l.Cuts[i]
		e.line()
		e.key("for").string(c.For)
		e.key("fabric").string(p.Fabrics[c.Fabric].Name)
		e.key("shape").string(shapeName(c.Shape))
		e.key("size").size(c.Size)
		e.key("patches").int(c.Count)
		e.close('}')
	}
	e.close(']')
	e.key("strips").open('[')
	for i := range l.Runs {
		r := &l.Runs[i]
		e.line()
		e.key("for").string(r.For)
		e.key("fabric").string(p.Fabrics[r.Fabric].Name)
		e.key("width").length(r.Height)
		e.key("bias").bool(r.Bias)
		e.key("lengths").open('[')
		for _, length := range r.Lengths {
			e.length(length)
		}
		e.close(']')
		e.close('}')
	}
	e.close(']')
	e.quiltCloth(p, cloth)
	e.close('}')
}

// quiltCloth writes what is bought for the whole, for each colorway.
func (e *encoder) quiltCloth(p *pattern.Pattern, cloth [][]table.Cloth) {
	e.key("cloth").open('[')
	for i := range p.Colorway {
		for _, c := range cloth[i] {
			e.line()
			e.key("colorway").string(p.Colorway[i].Name)
			e.key("words").string(c.Dress.Words)
			e.bought(&c.Bought)
			e.close('}')
		}
	}
	e.close(']')
}

// bought writes what is bought of one cloth, and how good the plan of its strips is.
func (e *encoder) bought(c *cutting.Cloth) {
	e.key("taken").length(c.Need)
	e.key("buy").length(c.Buy)
	e.key("strips_take").length(c.Inches)
	e.key("least").length(c.Least)
	e.key("left_over").float(c.Waste)
}
