package eval

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/lang"
)

// Limits of a pad: a thousand blocks are ten reams, and paper that is not printed
// on for more than two inches is not paid for.
const (
	maxPad     = 1000
	maxPadEdge = 2
)

// pad reads a pad's settings.
func (e *evaluator) pad(f *file, d *lang.Pad) {
	p := e.newProps(f, "pad")
	defer e.free(p.run)
	pad := pattern.Pad{Copies: 1, Source: f.modelSource(d.Where()),
		Glue: pattern.PadGlue, Gripper: pattern.PadGripper, Bleed: pattern.PadBleed}
	collated := true
	for _, s := range d.Props {
		if !p.once(s) {
			continue
		}
		switch s.Name.Text {
		case "size":
			p.length(s, maxWidth, &pad.Finished)
		case "copies":
			p.copies(s, &pad)
		case "spare":
			p.count(s, 0, maxPad, &pad.Spare)
		case "collated":
			p.yes(s, &collated)
		case "glue":
			p.length(s, maxPadEdge, &pad.Glue)
		case "gripper":
			p.length(s, maxPadEdge, &pad.Gripper)
		case "bleed":
			p.length(s, maxPadEdge, &pad.Bleed)
		default:
			p.unknownSetting(s, []string{"copies", "size", "spare", "collated", "glue", "gripper", "bleed"})
		}
	}
	pad.Loose = !collated
	e.out.Pattern.Pads = append(e.out.Pattern.Pads, pad)
}

// copies reads how many blocks a pad is for, and of which: `copies 10 of boat`.
func (p *props) copies(s *lang.Prop, pad *pattern.Pad) {
	v := p.one(s, of)
	if v == nil {
		return
	}
	if n := p.positive(s, v.Value); n > maxPad {
		p.wrong(v.Value.Where(), s, "is at most "+strconv.Itoa(maxPad), "")
	} else if n > 0 {
		pad.Copies = n
	}
	switch n := v.Of.(type) {
	case nil, *lang.BadExpr:
	case *lang.Name:
		p.block(n)
		pad.Block = n.Text
	default:
		p.wrong(v.Of.Where(), s, "takes the name of a block after `of`", "write copies 10 of boat")
	}
}
