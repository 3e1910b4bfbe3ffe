package eval

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A colorway dresses some of the root file's fabrics in other cloths.
type colorway struct {
	name, words string
	dress       map[*fabric]dressed
}

// dressed is a new cloth, or the fabric whose cloth is taken.
type dressed struct {
	cloth pattern.Cloth
	as    *fabric
}

func (f *fabric) cloth() pattern.Cloth {
	return pattern.Cloth{Words: f.Words, Value: f.Value, Colour: f.Colour}
}

// colorway reads one colorway.
func (e *evaluator) colorway(f *file, d *lang.Colorway) {
	c := colorway{name: d.Name.Text, words: d.Name.Text, dress: map[*fabric]dressed{}}
	if d.Words != nil {
		c.words = d.Words.Text
		e.printed(f, d.Words.Text, d.Words.Where())
	}
	for _, o := range e.colorways {
		if o.name == c.name && c.name != "" {
			e.report(problem.Error, NameTwice, f.place(d.Name.Span), "`"+c.name+"` is already the name of a colorway").Help =
				"give one of them another name"
		}
	}
	first := map[*fabric]lang.Span{}
	for _, s := range d.Recolour {
		fab := e.fabricNamed(f, s.Name)
		as := e.fabricNamed(f, s.As)
		if fab == nil || s.As.Text != "" && as == nil {
			continue
		}
		if at, again := first[fab]; again {
			p := e.report(problem.Error, RecolourTwice, f.place(s.Name.Span),
				"`"+fab.Name+"` already has another cloth here, on line "+strconv.Itoa(f.line(at)))
			p.Labels = []problem.Label{{At: f.place(at), Text: "the first is here"}}
			p.Help = "take one of them away"
			continue
		}
		first[fab] = s.Name.Span
		c.dress[fab] = e.recoloured(f, s, fab, as)
		fab.kept = true
	}
	e.colorways = append(e.colorways, c)
}

func (e *evaluator) recoloured(f *file, s *lang.Recolour, fab, as *fabric) dressed {
	if as != nil {
		return dressed{as: as}
	}
	cloth := fab.cloth()
	if s.Words != nil {
		cloth.Words = s.Words.Text
		e.printed(f, s.Words.Text, s.Words.Where())
	}
	if s.Value.Text != "" {
		cloth.Value = e.fabricValue(f, s.Value)
	}
	if s.Colour != nil {
		cloth.Colour = s.Colour.RGB
	}
	return dressed{cloth: cloth}
}

// fabricNamed finds a fabric of the file where only a fabric can stand.
func (e *evaluator) fabricNamed(f *file, name lang.Ident) *fabric {
	if name.Text == "" {
		return nil
	}
	if fab := f.fabric[name.Text]; fab != nil {
		fab.used = true
		return fab
	}
	if f.inHole(name.Text) {
		return nil
	}
	p := e.report(problem.Error, UnknownFabric, f.place(name.Span), "there is no fabric called `"+name.Text+"`")
	names := make([]string, 0, len(f.fabrics))
	for _, fab := range f.fabrics {
		names = append(names, fab.Name)
	}
	if !suggest(p, name, names) {
		p.Help = "write `fabric " + name.Text + " \"" + name.Text + "\" light #e0e0e0` first"
	}
	return nil
}

// dress fills in the colorways: the pattern's own cloths first. A fabric set `as`
// another one takes the cloth that the other has in this colorway, where that is
// described there, otherwise the other's own; so two fabrics may change places.
func (e *evaluator) dress() {
	p := &e.out.Pattern
	own := pattern.Colorway{}
	for _, f := range e.fabrics {
		if f.kept {
			own.Dress = append(own.Dress, f.cloth())
		}
	}
	p.Colorway = append(p.Colorway, own)
	for _, c := range e.colorways {
		way := pattern.Colorway{Name: c.name, Words: c.words}
		for _, f := range e.fabrics {
			if f.kept {
				way.Dress = append(way.Dress, c.of(f))
			}
		}
		p.Colorway = append(p.Colorway, way)
	}
}

func (c *colorway) of(f *fabric) pattern.Cloth {
	d, changed := c.dress[f]
	switch {
	case !changed:
		return f.cloth()
	case d.as == nil:
		return d.cloth
	}
	if other := c.dress[d.as]; other != (dressed{}) && other.as == nil {
		return other.cloth
	}
	return d.as.cloth()
}
