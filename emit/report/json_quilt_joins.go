package report

import (
	"seamwright/compiler/pattern"
	"seamwright/emit/table"
)

// quiltJoins writes the rows of a quilt, its joins in sewing order, and which blocks
// are pressed in two ways.
func (e *encoder) quiltJoins(p *pattern.Pattern, l *pattern.Layout) {
	e.key("rows").open('[')
	for i := range l.Rows {
		e.line()
		e.key("sashing").bool(l.Rows[i].Sashing)
		e.parts("parts", l.Rows[i].Parts)
		e.close('}')
	}
	e.close(']')
	e.key("joins").open('[')
	for i := range l.Joins {
		j := &l.Joins[i]
		e.line()
		e.key("step").string([...]string{"in row", "rows", "corner", "in border", "border"}[j.Step])
		e.key("step_of").int(j.Of)
		e.key("from").point(j.A)
		e.key("to").point(j.B)
		e.parts("left", j.Left)
		e.parts("right", j.Right)
		e.key("match").open('[')
		for _, at := range j.Points {
			e.point(j.At(at))
		}
		e.close(']')
		e.key("ends").open('[')
		for k := range j.Ends {
			end := &j.Ends[k]
			e.line()
			e.key("at").point(j.At(end.Along))
			e.key("on_left").bool(end.Left)
			e.key("seam_of").string(table.SeamName(p, l, end))
			e.close('}')
		}
		e.close(']')
		e.key("press").string([...]string{"", "left", "right", "open"}[j.Press])
		e.key("press_reason").string(j.Why.Code())
		e.key("most_meeting").int(j.Meet)
		e.close('}')
	}
	e.close(']')
	e.key("pressing_untried").bool(l.Untried)
	e.key("two_ways").open('[')
	for _, two := range l.Two {
		b := &p.Blocks[two.Block]
		e.line()
		e.key("block").string(b.Name)
		e.key("finished").size(b.Sizes[two.Size].Finished)
		e.key("press_other").open('[')
		for _, k := range two.Joins {
			e.int(b.Sizes[two.Size].Joins[k].Number)
		}
		e.close(']')
		e.close('}')
	}
	e.close(']')
}

// parts writes blocks as indices from 0, and areas as -1 less their indices.
func (e *encoder) parts(key string, parts []pattern.Part) {
	e.key(key).open('[')
	for _, part := range parts {
		e.int(int(part))
	}
	e.close(']')
}
