package eval

import (
	"seamwright/compiler/pattern"
	"seamwright/compiler/value"
	"seamwright/lang"
)

// limit reads the name of a rule's threshold and the pattern's own value for it.
// Which there are is known only to the rules.
func (p *props) limit(s *lang.Prop) {
	const help = "write it so: limit near_miss, 3/8in"
	if len(s.Values) != 2 {
		if len(s.Values) > 0 {
			p.wrong(s.Values[0].Where(), s, "takes the name of a limit, a comma, and its value", help)
		}
		return
	}
	name, v := s.Values[0], s.Values[1]
	if !p.allowed(s, name, 0) || !p.allowed(s, v, 0) {
		return
	}
	n, named := name.Value.(*lang.Name)
	if !named {
		p.wrong(name.Where(), s, "begins with the name of a limit", help)
		return
	}
	set := &p.out.Pattern.Settings
	for i := range set.Limits {
		if set.Limits[i].Name == n.Text {
			p.wrong(n.Where(), s, "has set "+n.Text+" before", "take one of them away")
			return
		}
	}
	x := p.expr(v.Value)
	l := pattern.Limit{Name: n.Text, Value: x.Num.Float64(), Set: true, Source: p.file.modelSource(n.Where())}
	switch x.Kind {
	case value.None:
		return
	case value.NumberKind, value.CountKind:
		l.Unit = pattern.Count
	case value.LengthKind:
		l.Unit = pattern.InInches
	case value.AngleKind:
		l.Unit = pattern.InDegrees
	default:
		p.wrong(v.Where(), s, "takes a length, an angle or a number", help)
		return
	}
	if l.Value < 0 {
		p.wrong(v.Where(), s, "is not below 0", "")
		return
	}
	set.Limits = append(set.Limits, l)
}
