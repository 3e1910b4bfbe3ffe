package eval

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A props reads the settings of one pair of braces.
type props struct {
	*run
	what string
	seen map[string]lang.Span
}

func (e *evaluator) newProps(f *file, what string) *props {
	r := e.newRun(&unit{decl: &lang.Unit{}, file: f}, false)
	return &props{run: r, what: what, seen: map[string]lang.Span{}}
}

// once reports whether a setting is new here.
func (p *props) once(s *lang.Prop) bool {
	if first, again := p.seen[s.Name.Text]; again {
		f := p.fault(SettingTwice, s.Name.Span, "`"+s.Name.Text+"` is already set on line "+strconv.Itoa(p.file.line(first)))
		f.Labels = []problem.Label{{At: p.file.place(first), Text: "the first is here"}}
		f.Help = "take one of them away"
		return false
	}
	p.seen[s.Name.Text] = s.Name.Span
	return true
}

func (p *props) unknownSetting(s *lang.Prop, known []string) {
	if s.Name.Text == "" {
		return
	}
	f := p.fault(UnknownSetting, s.Name.Span, "`"+p.what+"` has no setting `"+s.Name.Text+"`")
	if !suggest(f, s.Name, known) {
		f.Help = "it has " + list(known, "and")
	}
}

// extra says which words may stand after a value.
type extra uint8

const (
	by   extra = 1 << iota // x
	of                     // of
	turn                   // turn, reversed
)

// allowed reports whether a value has no words after it but those allowed.
func (p *props) allowed(s *lang.Prop, v *lang.PropValue, may extra) bool {
	switch {
	case v.By != nil && may&by == 0:
		p.wrong(v.By.Where(), s, "takes no `x` here", "")
	case v.Of != nil && may&of == 0:
		p.wrong(v.Of.Where(), s, "takes no `of` here", "")
	case v.Turn != nil && may&turn == 0:
		p.wrong(v.Turn.Where(), s, "takes no `turn` here", "")
	case v.Reversed && may&turn == 0:
		p.wrong(v.Where(), s, "takes no `reversed` here", "")
	default:
		return true
	}
	return false
}

// one returns the only value of a setting, or nil.
func (p *props) one(s *lang.Prop, may extra) *lang.PropValue {
	switch {
	case len(s.Values) == 0:
		return nil // told by the parser
	case len(s.Values) > 1:
		p.wrong(s.Values[1].Where(), s, "takes one value", "")
	case p.allowed(s, s.Values[0], may):
		return s.Values[0]
	}
	return nil
}

// plain returns the only value of a setting that has nothing after it, or nil.
func (p *props) plain(s *lang.Prop) lang.Expr {
	if v := p.one(s, 0); v != nil {
		return v.Value
	}
	return nil
}

func (p *props) wrong(at lang.Span, s *lang.Prop, message, help string) {
	p.fault(SettingValue, at, "`"+s.Name.Text+"` "+message).Help = help
}

// text reads a text; a plain number will do where it is one: `year 2026`.
func (p *props) text(s *lang.Prop, into *string) {
	e := p.plain(s)
	switch e := e.(type) {
	case nil:
		return
	case *lang.String:
		*into = e.Text
		p.printed(p.file, e.Text, e.Where())
		return
	case *lang.Number:
		if e.Unit == lang.Plain {
			*into = p.file.written(e)
			return
		}
	}
	if _, hole := e.(*lang.BadExpr); !hole {
		p.wrong(e.Where(), s, "takes a text in quotes, and this is `"+p.file.text(e.Where())+"`", "write \""+p.file.text(e.Where())+"\"")
	}
}

// count reads a whole number from least to most.
func (p *props) count(s *lang.Prop, least, most int64, into *int) {
	e := p.plain(s)
	if e == nil {
		return
	}
	v, ok := p.want(e, numberKind, "`"+s.Name.Text+"`")
	if !ok {
		return
	}
	n, whole := v.Num.Whole()
	if !whole || n < least || n > most {
		p.wrong(e.Where(), s, "takes a whole number from "+strconv.FormatInt(least, 10)+" to "+strconv.FormatInt(most, 10)+", and this is "+v.Num.String(), "")
		return
	}
	*into = int(n)
}

// percent reads a number from 0 to most.
func (p *props) percent(s *lang.Prop, most float64, into *float64) {
	e := p.plain(s)
	if e == nil {
		return
	}
	v, ok := p.want(e, numberKind, "`"+s.Name.Text+"`")
	if !ok {
		return
	}
	f := v.Num.Float64()
	if f < 0 || f > most {
		p.wrong(e.Where(), s, "is per cent, from 0 to "+strconv.FormatFloat(most, 'g', 4, 64)+", and this is "+strconv.FormatFloat(f, 'g', 4, 64), "")
		return
	}
	*into = f
}

// length reads a length of at least 0 and at most most inches.
func (p *props) length(s *lang.Prop, most float64, into *pattern.Length) {
	if e := p.plain(s); e != nil {
		p.lengthOf(s, e, most, into)
	}
}

func (p *props) lengthOf(s *lang.Prop, e lang.Expr, most float64, into *pattern.Length) {
	v, ok := p.want(e, lengthKind, "`"+s.Name.Text+"`")
	if !ok {
		return
	}
	if f := v.Num.Float64(); f < 0 || f > most {
		p.wrong(e.Where(), s, "lies between 0in and "+strconv.FormatFloat(most, 'g', 4, 64)+"in, and this is "+
			strconv.FormatFloat(f, 'g', 4, 64)+"in", "")
		return
	}
	*into = pattern.Length(v.Num.Float64())
}

// yes reads yes or no.
func (p *props) yes(s *lang.Prop, into *bool) {
	e := p.plain(s)
	switch e := e.(type) {
	case nil:
		return
	case *lang.Bool:
		*into = e.Value
		return
	case *lang.Name:
		if e.Text == "yes" || e.Text == "no" {
			*into = e.Text == "yes"
			return
		}
	}
	if _, hole := e.(*lang.BadExpr); !hole {
		p.wrong(e.Where(), s, "is yes or no, and this is `"+p.file.text(e.Where())+"`", "")
	}
}
