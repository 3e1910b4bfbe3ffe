package table

import (
	"slices"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
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

// VarietyWords tells how many different cloths a block may take, in the words of a
// catalogue; "" where no fabric is scrappy.
func VarietyWords(p *pattern.Pattern, s *pattern.Sized, said *words.Catalogue) string {
	return varietyWords(p, s, said, func(value string) string { return value })
}

// varietyWords has the author's own values written by a function.
func varietyWords(p *pattern.Pattern, s *pattern.Sized, said *words.Catalogue, own func(string) string) string {
	scrappy := false
	for f := range p.Fabrics {
		scrappy = scrappy || p.Fabrics[f].Scrappy != "" && changes(&p.Fabrics[f], f, s) > 0
	}
	if !scrappy {
		return ""
	}
	v := Different(p, s)
	values := ""
	for i, value := range v.Values {
		if i > 0 {
			values += ", "
		}
		one := own(value)
		if said.Has(value) {
			one = said.Say(value)
		}
		values += said.Say("variety_one", "value", one)
	}
	return said.Say("variety_most", "most", strconv.Itoa(v.Most), "least", strconv.Itoa(v.Least), "values", values) + " " + said.Say("variety_apart")
}

// variety writes it.
func (w *writer) variety() {
	if text := varietyWords(w.p, w.s, w.said, escaped); text != "" {
		w.text("\n## ").say("variety").text("\n\n").text(text).text("\n")
	}
}
