package eval

import (
	"path"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// defaults returns the settings of a pattern that sets nothing. A pattern that
// says nothing means a quarter inch of seam allowance; the rest is common
// practice: patches cut 1/2 in larger on every side, 1/2 in of margin.
func defaults() pattern.Settings {
	sheet, _ := pattern.SheetNamed("letter")
	return pattern.Settings{Allowance: 0.25, Ease: 0.5, Sheet: sheet}
}

// describe reads what the root file says besides units and fabrics.
func (e *evaluator) describe(root *file) {
	p := &e.out.Pattern
	p.File = baseName(root.source)
	p.Title = p.File
	p.Settings = defaults()
	var first *lang.Pattern
	for _, d := range root.tree.Decls {
		switch d := d.(type) {
		case *lang.Pattern:
			if first != nil {
				e.secondPattern(root, d, first)
				continue
			}
			first = d
			e.pattern(root, d)
		case *lang.Colorway:
			e.colorway(root, d)
		case *lang.Quilt:
			e.quilt(root, d)
		case *lang.Pad:
			e.pad(root, d)
		case *lang.Accept:
			if a, ok := e.acceptance(root, d); ok {
				e.out.Accepts = append(e.out.Accepts, a)
			}
		}
	}
}

func baseName(s *problem.Source) string {
	name := strings.TrimSuffix(path.Base(strings.ReplaceAll(s.Name, "\\", "/")), ".seam")
	if name == "-" || name == "." || name == "/" || name == "" {
		return "pattern"
	}
	return name
}

func (e *evaluator) secondPattern(f *file, d, first *lang.Pattern) {
	at := d.Where()
	at.End = min(at.End, at.Start+int32(len("pattern")))
	e.report(problem.Error, PatternTwice, f.place(at), "a file has one `pattern`, and line "+
		strconv.Itoa(f.line(first.Where()))+" has it already").Help = "move these settings into the first"
}

// A prop reads the settings of one pair of braces.
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

// one returns the only value of a setting, or nil.
func (p *props) one(s *lang.Prop) *lang.PropValue {
	switch {
	case len(s.Values) == 0:
		return nil // told by the parser
	case len(s.Values) > 1:
		p.wrong(s.Values[1].Where(), s, "takes one value", "")
		return nil
	}
	return s.Values[0]
}

// plain returns the only value of a setting that has neither `x` nor `of`, or nil.
func (p *props) plain(s *lang.Prop) lang.Expr {
	v := p.one(s)
	if v == nil {
		return nil
	}
	if extra := firstOf(v.By, v.Of); extra != nil {
		p.wrong(extra.Where(), s, "takes one value", "")
		return nil
	}
	return v.Value
}

func firstOf(a, b lang.Expr) lang.Expr {
	if a != nil {
		return a
	}
	return b
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
		return
	case *lang.Number:
		if e.Unit == "" {
			*into = e.Text
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

// maxEdition leaves room for editions counted by date, like 20260131.
const maxEdition = 99_999_999

// Largest lengths of settings, in inches. A seam allowance of more than an inch
// is a border, and margins of more than four leave no paper.
const (
	maxAllowance = 1
	maxEase      = 2
	maxMargin    = 4
	minPaper     = 4
	maxPaper     = 60
)

func (e *evaluator) pattern(f *file, d *lang.Pattern) {
	if d.Name != nil && !blank(d.Name.Text) {
		e.out.Pattern.Title = d.Name.Text
	}
	p := e.newProps(f, "pattern")
	defer e.free(p.run)
	about, set := &e.out.Pattern.About, &e.out.Pattern.Settings
	for _, s := range d.Props {
		if s.Name.Text == "note" {
			p.notes(s)
			continue
		}
		if !p.once(s) {
			continue
		}
		switch s.Name.Text {
		case "edition":
			p.count(s, 1, maxEdition, &about.Edition)
		case "author":
			p.text(s, &about.Author)
		case "year":
			p.text(s, &about.Year)
		case "rights":
			p.text(s, &about.Rights)
		case "contact":
			p.text(s, &about.Contact)
		case "corrections":
			p.text(s, &about.Corrections)
		case "allowance":
			p.length(s, maxAllowance, &set.Allowance)
		case "extra":
			p.length(s, maxEase, &set.Extra)
		case "ease":
			p.length(s, maxEase, &set.Ease)
		case "margin":
			p.length(s, maxMargin, &set.Sheet.Margin)
		case "sheet":
			p.sheet(s, &set.Sheet)
		case "miniature":
			p.yes(s, &set.Miniature)
		case "metric":
			p.yes(s, &set.Metric)
		case "tint":
			p.yes(s, &set.Tint)
		default:
			p.unknownSetting(s, []string{"edition", "author", "year", "rights", "contact", "corrections", "note",
				"allowance", "extra", "ease", "sheet", "margin", "miniature", "metric", "tint"})
		}
	}
}

// notes reads any number of notes.
func (p *props) notes(s *lang.Prop) {
	for _, v := range s.Values {
		t, ok := v.Value.(*lang.String)
		if !ok || v.By != nil || v.Of != nil {
			p.wrong(v.Where(), s, "takes texts in quotes", "")
			continue
		}
		p.out.Pattern.About.Notes = append(p.out.Pattern.About.Notes, t.Text)
	}
}

// sheet reads the name of a paper, or its width and height; the margin stays.
func (p *props) sheet(s *lang.Prop, into *pattern.Sheet) {
	v := p.one(s)
	if v == nil {
		return
	}
	if v.Of != nil {
		p.wrong(v.Of.Where(), s, "takes no `of`", "")
		return
	}
	margin := into.Margin
	defer func() { into.Margin = margin }()
	if v.By != nil {
		size := pattern.Size{}
		p.lengthOf(s, v.Value, maxPaper, &size.W)
		p.lengthOf(s, v.By, maxPaper, &size.H)
		if p.failed {
			return
		}
		if min(size.W, size.H) < minPaper {
			p.wrong(v.Where(), s, "is "+strconv.Itoa(minPaper)+"in wide and high at least", "")
			return
		}
		*into = pattern.Sheet{Name: p.file.text(v.Where()), Paper: size}
		return
	}
	name, ok := v.Value.(*lang.Name)
	if !ok {
		if _, hole := v.Value.(*lang.BadExpr); !hole {
			p.wrong(v.Where(), s, "is the name of a paper, or its width and height", "write a4, or 210mm x 297mm")
		}
		return
	}
	sheet, known := pattern.SheetNamed(name.Text)
	if !known {
		f := p.fault(SettingValue, name.Where(), "`sheet` knows no paper called `"+name.Text+"`")
		if !suggest(f, lang.Ident{Span: name.Where(), Text: name.Text}, pattern.SheetNames()) {
			f.Help = "it is " + list(pattern.SheetNames(), "or") + ", or a width and height: 210mm x 297mm"
		}
		return
	}
	*into = sheet
}
