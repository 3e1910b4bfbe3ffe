package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A valueRange is a parameter with the values that it is to have, as written.
type valueRange struct {
	name   string
	values []string
}

// rangesOf reads `points=6,8,12` and `depth=0.3..0.6 by 0.1`.
func rangesOf(args []string) ([]valueRange, error) {
	var list []valueRange
	count := 1
	for _, arg := range args {
		name, text, ok := strings.Cut(arg, "=")
		name, text = strings.TrimSpace(name), strings.TrimSpace(text)
		if !ok || name == "" || text == "" {
			return nil, fmt.Errorf("%q is no range; write points=6,8,12 or \"depth=0.3..0.6 by 0.1\"", arg)
		}
		r := valueRange{name: name}
		if from, rest, ok := strings.Cut(text, ".."); ok {
			values, err := stepsOf(from, rest)
			if err != nil {
				return nil, fmt.Errorf("%q: %v", arg, err)
			}
			r.values = values
		} else {
			for _, v := range strings.Split(text, ",") {
				if v = strings.TrimSpace(v); v != "" {
					r.values = append(r.values, v)
				}
			}
		}
		if count *= len(r.values); count == 0 || count > mostVariants {
			return nil, fmt.Errorf("that makes %d variants; one is the least and %d are the most", count, mostVariants)
		}
		list = append(list, r)
	}
	return list, nil
}

// stepsOf lists the numbers from the first to the last, both included.
func stepsOf(from, rest string) ([]string, error) {
	to, by, stepped := strings.Cut(rest, "by")
	step := 1.0
	first, err1 := strconv.ParseFloat(strings.TrimSpace(from), 64)
	last, err2 := strconv.ParseFloat(strings.TrimSpace(to), 64)
	var err3 error
	if stepped {
		step, err3 = strconv.ParseFloat(strings.TrimSpace(by), 64)
	}
	n := (last - first) / step
	if err1 != nil || err2 != nil || err3 != nil || !(step > 0 && step <= math.MaxFloat32 && n >= 0 && n < mostVariants) {
		return nil, fmt.Errorf("a range goes up from a number to a number, by a step above 0, to at most %d values", mostVariants)
	}
	var values []string
	for i := 0.0; i <= n+1e-9; i++ { // forgives the rounding of 0.3 + 3 * 0.1
		values = append(values, strconv.FormatFloat(math.Round((first+i*step)*1e9)/1e9, 'f', -1, 64))
	}
	return values, nil
}

// A varied is a text in which values can be put in the place of others.
type varied struct {
	src    *problem.Source
	ranges []valueRange
	holes  [][]hole // of each range
}

// A hole is where a value goes: instead of a span, between two texts.
type hole struct {
	at            problem.Span
	before, after string
}

// newVaried finds where the parameters get their values: in the head of a block,
// or where a unit that takes them is placed.
func newVaried(src *problem.Source, loader compiler.Loader, ranges []valueRange) (*varied, error) {
	file, problems := lang.Parse(src)
	if problem.Failed(problems) {
		return nil, fmt.Errorf("it has mistakes in its text; see seamwright check")
	}
	v := &varied{src: src, ranges: ranges}
	units := unitsOf(file, loader)
	var known []string
	for _, r := range ranges {
		var holes []hole
		for _, d := range file.Decls {
			u, ok := d.(*lang.Unit)
			if !ok {
				continue
			}
			for _, p := range u.Params {
				if u.Block && p.Default != nil {
					known = append(known, p.Name.Text)
					if p.Name.Text == r.name {
						holes = append(holes, hole{at: p.Default.Where()})
					}
				}
			}
		}
		if len(holes) == 0 {
			eachPlace(file, func(p *lang.Place) {
				u := units[p.Unit.Text]
				if u == nil {
					return
				}
				for i, param := range u.Params {
					known = append(known, param.Name.Text)
					if param.Name.Text == r.name {
						holes = append(holes, holeIn(src.Text, p, i, r.name))
					}
				}
			})
		}
		if len(holes) == 0 {
			slices.Sort(known)
			return nil, fmt.Errorf("no block has a parameter called %s, and no unit that is placed takes one; there are: %s", r.name, strings.Join(slices.Compact(known), ", "))
		}
		v.holes = append(v.holes, holes)
	}
	return v, nil
}

// unitsOf finds the units of a file and those that it uses, by their names there.
func unitsOf(file *lang.File, loader compiler.Loader) map[string]*lang.Unit {
	units := map[string]*lang.Unit{} // for look-up only
	for _, d := range file.Decls {
		switch d := d.(type) {
		case *lang.Unit:
			units[d.Name.Text] = d
		case *lang.Use:
			other, why := loader.Load(file.Source, d.Path.Text)
			if why != "" || other == nil {
				continue
			}
			inner, _ := lang.Parse(other)
			for _, name := range d.Names {
				for _, u := range inner.Decls {
					if u, ok := u.(*lang.Unit); ok && u.Name.Text == name.Name.Text {
						here := name.Name.Text
						if name.As.Text != "" {
							here = name.As.Text
						}
						units[here] = u
					}
				}
			}
		}
	}
	return units
}

// eachPlace visits every place of a file.
func eachPlace(file *lang.File, visit func(*lang.Place)) {
	var walk func(b *lang.Body)
	walk = func(b *lang.Body) {
		if b == nil {
			return
		}
		for _, s := range b.Stmts {
			switch s := s.(type) {
			case *lang.Place:
				visit(s)
			case *lang.For:
				walk(s.Body)
			case *lang.If:
				for s != nil {
					walk(s.Then)
					other, _ := s.Else.(*lang.Body)
					walk(other)
					s, _ = s.Else.(*lang.If)
				}
			}
		}
	}
	for _, d := range file.Decls {
		if u, ok := d.(*lang.Unit); ok {
			walk(u.Body)
		}
	}
}

// holeIn is where the i-th parameter stands among the arguments of a place, or
// where it may be added.
func holeIn(text string, p *lang.Place, i int, name string) hole {
	for k, a := range p.Args {
		if a.Name.Text == name || a.Name.Text == "" && k == i {
			return hole{at: a.Value.Where()}
		}
	}
	end := p.Unit.Span.End
	switch {
	case len(p.Args) > 0:
		end = p.Args[len(p.Args)-1].Where().End
		return hole{at: problem.Span{Start: end, End: end}, before: ", " + name + ": "}
	case p.HasArgs:
		end += int32(strings.IndexByte(text[end:], '(') + 1)
		return hole{at: problem.Span{Start: end, End: end}, before: name + ": "}
	}
	return hole{at: problem.Span{Start: end, End: end}, before: "(" + name + ": ", after: ")"}
}

// all lists every choice of values, the last range changing first.
func (v *varied) all() [][]string {
	list := [][]string{nil}
	for _, r := range v.ranges {
		var longer [][]string
		for _, l := range list {
			for _, value := range r.values {
				longer = append(longer, append(slices.Clone(l), value))
			}
		}
		list = longer
	}
	return list
}

func (v *varied) title(values []string) string {
	parts := make([]string, len(values))
	for i := range values {
		parts[i] = v.ranges[i].name + " " + values[i]
	}
	return strings.Join(parts, ", ")
}

// text is the text with these values.
func (v *varied) text(values []string) string {
	type edit struct {
		at  problem.Span
		new string
	}
	var edits []edit
	for i, holes := range v.holes {
		for _, h := range holes {
			edits = append(edits, edit{h.at, h.before + values[i] + h.after})
		}
	}
	slices.SortStableFunc(edits, func(a, b edit) int { return int(b.at.Start - a.at.Start) })
	text := v.src.Text
	for _, e := range edits {
		text = text[:e.at.Start] + e.new + text[e.at.End:]
	}
	return text
}
