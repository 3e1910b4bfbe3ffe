package eval

import (
	"path"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// defaults returns the settings of a pattern that sets nothing. A pattern that
// says nothing means a quarter inch of seam allowance; the rest is common
// practice: patches cut 1/2 in larger on every side, 1/2 in of margin. Of cloth
// that is sold 42 to 45 in wide one plans on 40 (How to figure yardage,
// featheredstar.wordpress.com).
func defaults() pattern.Settings {
	sheet, _ := pattern.SheetNamed("letter")
	return pattern.Settings{Allowance: 0.25, Ease: 0.5, Sheet: sheet, Buying: pattern.Buying{Usable: 40, Straighten: pattern.UsualStraighten(false)}}
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

// Limits of how cloth is reckoned: from a fat eighth to the widest backing; a
// cloth that loses more than a quarter in washing is not for quilts.
const (
	minCloth      = 9
	maxCloth      = 120
	maxStraighten = 9
	maxShrinkage  = 25
	maxSpare      = 100
)

func (e *evaluator) pattern(f *file, d *lang.Pattern) {
	if d.Name != nil && !blank(d.Name.Text) {
		e.out.Pattern.Title = d.Name.Text
		e.printed(f, d.Name.Text, d.Name.Where())
	}
	p := e.newProps(f, "pattern")
	defer e.free(p.run)
	about, set := &e.out.Pattern.About, &e.out.Pattern.Settings
	if d.Braces.End > d.Braces.Start {
		set.BraceAt = f.modelSource(d.Braces)
	}
	straightened := false
	for _, s := range d.Props {
		switch s.Name.Text {
		case "note":
			p.notes(s)
			continue
		case "before", "instead":
			p.saying(s)
			continue
		case "picture":
			p.picture(s)
			continue
		case "limit":
			p.limit(s)
			continue
		case "scrap":
			p.scraps(s, &set.Buying.Scraps)
			continue
		case "grain":
			p.grain(s, &set.Grain)
			continue
		}
		if !p.once(s) {
			continue
		}
		switch s.Name.Text {
		case "edition":
			p.count(s, 1, maxEdition, &about.Edition)
			about.EditionAt = f.modelSource(s.Where())
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
			set.AllowanceAt = f.modelSource(s.Where())
		case "extra":
			p.length(s, maxEase, &set.Extra)
		case "ease":
			p.length(s, maxEase, &set.Ease)
			set.EaseAt = f.modelSource(s.Where())
		case "margin":
			p.length(s, maxMargin, &set.Sheet.Margin)
		case "sheet":
			p.sheet(s, &set.Sheet)
		case "cloth_width":
			p.length(s, maxCloth, &set.Buying.Usable)
			if set.Buying.Usable < minCloth {
				p.wrong(s.Name.Span, s, "is at least "+strconv.Itoa(minCloth)+"in", "say how wide the cloth is without its selvages: cloth_width 40in")
			}
		case "straighten":
			p.length(s, maxStraighten, &set.Buying.Straighten)
			straightened = true
		case "shrinkage":
			p.percent(s, maxShrinkage, &set.Buying.Shrinkage)
		case "spare_strips":
			p.count(s, 0, maxSpare, &set.Buying.Spare)
		case "cut_from":
			p.cutFrom(s, &set.Buying.From)
		case "miniature":
			p.yes(s, &set.Miniature)
		case "metric":
			p.yes(s, &set.Metric)
		case "tint":
			p.yes(s, &set.Tint)
		case "placement":
			p.yes(s, &set.Placement)
		case "tile":
			p.yes(s, &set.Tile)
		case "language":
			p.language(s, &set.Language)
		default:
			p.unknownSetting(s, []string{"edition", "author", "year", "rights", "contact", "corrections", "note", "picture",
				"allowance", "extra", "ease", "sheet", "margin", "cloth_width", "straighten", "shrinkage", "spare_strips", "cut_from", "scrap", "grain", "miniature", "metric", "tint", "placement", "tile", "language", "limit", "before", "instead"})
		}
	}
	if set.Metric && !straightened {
		set.Buying.Straighten = pattern.UsualStraighten(true)
	}
}

// cutFrom reads the sizes of cloths that may serve instead of yardage.
func (p *props) cutFrom(s *lang.Prop, into *[]pattern.Size) {
	for _, v := range s.Values {
		if !p.allowed(s, v, by) {
			continue
		}
		size := pattern.Size{}
		p.lengthOf(s, v.Value, maxCloth, &size.W)
		if v.By == nil {
			p.wrong(v.Where(), s, "takes the width and the height of a cloth", "write cut_from 18in x 21in for fat quarters, or 10in x 10in for pre-cut squares")
			continue
		}
		p.lengthOf(s, v.By, maxCloth, &size.H)
		if min(size.W, size.H) < minSource {
			p.wrong(v.Where(), s, "is "+strconv.Itoa(minSource)+"in wide and high at least", "")
			continue
		}
		*into = append(*into, size)
	}
}

// scraps reads `scrap 5in x 7in of sky, 4in x 4in`: sizes of cloth that is there.
func (p *props) scraps(s *lang.Prop, into *[]pattern.Scrap) {
	for _, v := range s.Values {
		if !p.allowed(s, v, by|of) {
			continue
		}
		scrap := pattern.Scrap{Fabric: pattern.NoFabric}
		p.lengthOf(s, v.Value, maxCloth, &scrap.Size.W)
		if v.By == nil {
			p.wrong(v.Where(), s, "takes the width and the height of a scrap", "write scrap 5in x 7in of sky")
			continue
		}
		p.lengthOf(s, v.By, maxCloth, &scrap.Size.H)
		p.stripFabric(s, v.Of, &scrap.Fabric)
		if len(*into) < maxSpare {
			*into = append(*into, scrap)
		}
	}
}

// grain reads the fabrics whose grain goes before the line that a patch is laid along.
func (p *props) grain(s *lang.Prop, into *[]int) {
	for _, v := range s.Values {
		if !p.allowed(s, v, 0) {
			continue
		}
		switch n := v.Value.(type) {
		case *lang.BadExpr:
		case *lang.Name:
			if f := p.fabricNamed(p.file, lang.Ident{Span: n.Where(), Text: n.Text}); f != nil && !slices.Contains(*into, f.id) {
				f.kept = true
				*into = append(*into, f.id)
			}
		default:
			p.wrong(v.Where(), s, "takes names of fabrics", "write grain sky, sea")
		}
	}
}

// minSource is the smallest side of a cloth to cut from, in inches: pre-cut strips
// of 1 1/2 in are the narrowest (4-H Quilt Quest fair book, extension.unl.edu).
const minSource = 1

// notes reads any number of notes.
func (p *props) notes(s *lang.Prop) {
	for _, v := range s.Values {
		t, ok := v.Value.(*lang.String)
		_, hole := v.Value.(*lang.BadExpr)
		if !ok && !hole {
			p.wrong(v.Where(), s, "takes texts in quotes", "")
		}
		if !ok || !p.allowed(s, v, 0) {
			continue
		}
		p.out.Pattern.About.Notes = append(p.out.Pattern.About.Notes, t.Text)
		p.printed(p.file, t.Text, t.Where())
	}
}

// saying reads the name of a message and the author's text for it. Which
// messages there are is known only to what prints them.
func (p *props) saying(s *lang.Prop) {
	const help = "write it so: before trim_how, \"Breathe.\""
	if len(s.Values) != 2 {
		if len(s.Values) > 0 {
			p.wrong(s.Values[0].Where(), s, "takes the name of a message, a comma, and a text in quotes", help)
		}
		return
	}
	name, text := s.Values[0], s.Values[1]
	if !p.allowed(s, name, 0) || !p.allowed(s, text, 0) {
		return
	}
	n, named := name.Value.(*lang.Name)
	t, told := text.Value.(*lang.String)
	switch {
	case !named:
		p.wrong(name.Where(), s, "begins with the name of a message", help)
	case !told:
		p.wrong(text.Where(), s, "ends with a text in quotes", help)
	default:
		about := &p.out.Pattern.About
		p.printed(p.file, t.Text, t.Where())
		about.Sayings = append(about.Sayings, pattern.Saying{Name: n.Text, Text: t.Text, Instead: s.Name.Text == "instead", At: p.file.place(name.Where())})
	}
}

// language reads the short name of a language.
func (p *props) language(s *lang.Prop, into *string) {
	e := p.plain(s)
	if name, ok := e.(*lang.Name); ok {
		*into = name.Text
		p.out.Pattern.About.LanguageAt = p.file.place(name.Where())
		return
	}
	if _, hole := e.(*lang.BadExpr); e != nil && !hole {
		p.wrong(e.Where(), s, "is the short name of a language", "write language en")
	}
}

// sheet reads the name of a paper, or its width and height; the margin stays.
func (p *props) sheet(s *lang.Prop, into *pattern.Sheet) {
	v := p.one(s, by)
	if v == nil {
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
