package table

import (
	"slices"
	"strconv"

	"seamwright/compiler/pattern"
)

// A Variety is how many different cloths may go into one block.
type Variety struct {
	Most   int      // a new one wherever the pattern allows it
	Least  int      // one for each of Values
	Values []string // light, medium and dark, those that the block has
}

// Different counts the different cloths of a block. At the most, every fabric that
// is scrappy changes as often as it may, by piece, section, placed unit or block,
// and every other is one cloth. At the least, all fabrics of one value are one
// cloth: light, medium and dark still make the picture.
func Different(p *pattern.Pattern, s *pattern.Sized) Variety {
	v := Variety{}
	for f := range p.Fabrics {
		n := changes(&p.Fabrics[f], f, s)
		if n == 0 {
			continue
		}
		v.Most += n
		if !slices.Contains(v.Values, p.Fabrics[f].Value) {
			v.Values = append(v.Values, p.Fabrics[f].Value)
		}
	}
	v.Least = len(v.Values)
	return v
}

// changes counts the different cloths of one fabric in a block, 0 where it has none.
func changes(fabric *pattern.Fabric, index int, s *pattern.Sized) int {
	pieces, sections := 0, 0
	var units []string
	for c := range s.Copies {
		n := 0
		for i := range s.Drawings[s.Copies[c].Drawing].Pieces {
			if s.Drawings[s.Copies[c].Drawing].Pieces[i].Fabric == index {
				n++
			}
		}
		if n == 0 {
			continue
		}
		pieces += n
		sections++
		if !slices.Contains(units, s.Copies[c].Of) {
			units = append(units, s.Copies[c].Of)
		}
	}
	switch fabric.Scrappy {
	case "piece":
		return pieces
	case "section":
		return sections
	case "unit":
		return len(units)
	}
	return min(pieces, 1)
}

// variety writes it, where any fabric is scrappy.
func (w *writer) variety() {
	scrappy := false
	for f := range w.p.Fabrics {
		scrappy = scrappy || w.p.Fabrics[f].Scrappy != "" && changes(&w.p.Fabrics[f], f, w.s) > 0
	}
	if !scrappy {
		return
	}
	v := Different(w.p, w.s)
	values := ""
	for i, value := range v.Values {
		if i > 0 {
			values += ", "
		}
		one := escaped(value)
		if w.said.Has(value) {
			one = w.said.Say(value)
		}
		values += w.said.Say("variety_one", "value", one)
	}
	w.text("\n## ").say("variety").text("\n\n").say("variety_most", "most", strconv.Itoa(v.Most), "least", strconv.Itoa(v.Least), "values", values).text("\n")
}
