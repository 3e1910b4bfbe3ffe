package svg

import (
	"seamwright/emit/drawing"
)

// path adds a path to the element of its look: strokes of one look that follow
// each other are one element.
func (w *writer) path(p *drawing.Path) {
	fills := filled(p)
	if p.Style.Look().Width <= 0 && !fills {
		return
	}
	if look := w.look(p.Style, p.Fill, fills); fills || look != w.run {
		w.flush()
		w.put("<path")
		w.put(look)
		w.put(` d="`)
		w.run = look
	}
	w.out = w.chain(w.out, p)
}

// flush ends the path element that is open, if there is one.
func (w *writer) flush() {
	if w.run != "" {
		w.put("\"/>\n")
		w.run = ""
	}
}

// chain appends a path's data.
func (w *writer) chain(b []byte, p *drawing.Path) []byte {
	if len(p.Points) == 0 {
		w.fail("a path has no points")
		return b
	}
	var first, last point
	single := p.Pairs || len(p.Points) == 2 && !p.Closed // strokes
	for i, at := range p.Points {
		x, okX := fix(at.X)
		y, okY := fix(at.Y)
		if !okX || !okY {
			w.fail("a point at %v, %v in is not on any paper", float64(at.X), float64(at.Y))
			return b
		}
		q := point{x, y}
		switch {
		case i == 0 || p.Pairs && i%2 == 0:
			first = q
			if p.Circle != 0 {
				return w.circle(b, q, p)
			}
			b = appendPoint(append(b, 'M'), q, 2)
		case q != last:
			b = appendStep(b, last, q, 2)
		}
		last = q
		if single && i%2 == 1 && q == first { // it is shorter than the grid
			b = append(b, "h0"...)
		}
	}
	if p.Closed {
		return append(b, 'z')
	}
	return b
}

// circle appends a circle as two arcs.
func (w *writer) circle(b []byte, centre point, p *drawing.Path) []byte {
	r, ok := fix(p.Circle)
	if !ok || r <= 0 {
		w.fail("a circle has a radius of %v in", float64(p.Circle))
		return b
	}
	b = appendPoint(append(b, 'M'), point{centre.x - r, centre.y}, 2)
	for _, dx := range [2]int64{2 * r, -2 * r} {
		b = appendPoint(append(b, 'a'), point{r, r}, 2)
		b = append(appendNext(append(b, " 0 1 0"...), dx, 2), " 0"...)
	}
	return append(b, 'z')
}

// filled reports whether a path has an inside that is painted.
func filled(p *drawing.Path) bool {
	return p.Fill != drawing.NoColour && (p.Closed || p.Circle > 0)
}

// looks keeps the attributes of paths, each made when it is first asked for.
type looks struct {
	strokes [drawing.Styles]string
	fills   map[fill]string
}

type fill struct {
	style  drawing.Style
	colour drawing.Colour
}

// look returns how a path is stroked and filled. Presentation attributes, not a
// style sheet: some cutters and editors read no style sheets.
func (w *writer) look(s drawing.Style, c drawing.Colour, fills bool) string {
	l := &w.looks
	if !fills {
		if l.strokes[s] == "" {
			l.strokes[s] = ` fill="none"` + stroke(s)
		}
		return l.strokes[s]
	}
	of := fill{s, c}
	if l.fills[of] == "" {
		if l.fills == nil {
			l.fills = map[fill]string{}
		}
		l.fills[of] = ` fill="` + colour(c) + `"` + stroke(s)
	}
	return l.fills[of]
}

// stroke returns how a style is stroked, as attributes.
func stroke(s drawing.Style) string {
	look := s.Look()
	if look.Width <= 0 {
		return ""
	}
	width, _ := fix(look.Width)
	on, _ := fix(look.On)
	off, _ := fix(look.Off)
	b := appendFixed([]byte(` stroke="#000" stroke-width="`), width, 2)
	b = append(b, '"')
	if off > 0 {
		b = appendNext(appendFixed(append(b, ` stroke-dasharray="`...), on, 2), off, 2)
		b = append(b, '"')
		if on == 0 {
			b = append(b, ` stroke-linecap="round"`...)
		}
	}
	return string(b)
}

// colour writes a colour as "#d9892f".
func colour(c drawing.Colour) string {
	const hex = "0123456789abcdef"
	b := []byte("#")
	for shift := 20; shift >= 0; shift -= 4 {
		b = append(b, hex[c>>shift&15])
	}
	return string(b)
}
