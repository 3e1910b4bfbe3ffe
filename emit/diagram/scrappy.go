package diagram

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// Varied is the block with another cloth wherever a scrappy fabric may change: tones
// of its color.
func Varied(p *pattern.Pattern, s *pattern.Sized) *Figure {
	return dressed(s, func() func(c, piece int) drawing.Colour {
		seen := make([]map[string]int, len(p.Fabrics)) // of each fabric: what it changes with, in order
		return func(c, piece int) drawing.Colour {
			place := &s.Copies[c]
			index := s.Drawings[place.Drawing].Pieces[piece].Fabric
			fabric, key := &p.Fabrics[index], ""
			switch fabric.Scrappy {
			case "piece":
				key = strconv.Itoa(c) + " " + strconv.Itoa(piece)
			case "section":
				key = strconv.Itoa(c)
			case "unit":
				key = place.Of
			}
			if seen[index] == nil {
				seen[index] = map[string]int{}
			}
			n, known := seen[index][key]
			if !known {
				n = len(seen[index])
				seen[index][key] = n
			}
			return tone(drawing.Colour(fabric.Colour), n)
		}
	})
}

// Fewest is the block in one cloth for each value: the first fabric of it.
func Fewest(p *pattern.Pattern, s *pattern.Sized) *Figure {
	first := map[string]drawing.Colour{}
	for _, i := range usedFabrics(p, s) {
		if _, ok := first[p.Fabrics[i].Value]; !ok {
			first[p.Fabrics[i].Value] = drawing.Colour(p.Fabrics[i].Colour)
		}
	}
	return dressed(s, func() func(c, piece int) drawing.Colour {
		return func(c, piece int) drawing.Colour {
			return first[p.Fabrics[s.Drawings[s.Copies[c].Drawing].Pieces[piece].Fabric].Value]
		}
	})
}

// dressed draws every piece of every copy in a color; each drawing asks for a function
// of its own.
func dressed(s *pattern.Sized, colors func() func(c, piece int) drawing.Colour) *Figure {
	style := lines(s)
	return &Figure{bounds: boxOf(s.Outline), draw: func(f frame) (items []drawing.Item) {
		pen, of := f.mine(), colors()
		for c := range s.Copies {
			place := &s.Copies[c]
			move := place.Motion()
			for i := range s.Drawings[place.Drawing].Pieces {
				from := s.Drawings[place.Drawing].Pieces[i].Polygon
				polygon := pen.Points(len(from))
				for k, q := range from {
					polygon[k] = move(q)
				}
				items = append(items, pen.Outline(style, f.onPage(polygon), of(c, i)))
			}
		}
		return items
	}}
}

// tone is the nth of the tones of a color: itself, then lighter and darker ones by
// turns, which differ enough to be seen in gray.
func tone(c drawing.Colour, n int) drawing.Colour {
	steps := [...]drawing.Colour{0, 22, -18, 38, -34, 11, -9, 30, -26, 46, -42, 16} // hundredths of the way to white, or to black
	step := steps[n%len(steps)]
	mixed := drawing.Colour(0)
	for shift := 16; shift >= 0; shift -= 8 {
		v := c >> shift & 0xFF
		if step > 0 {
			v += (0xFF - v) * step / 100
		} else {
			v += v * step / 100
		}
		mixed |= v << shift
	}
	return mixed
}
