package svg

import (
	"fmt"
	"strings"

	"seamwright/emit/drawing"
)

// path adds a path to the run of its look.
func (w *writer) path(p *drawing.Path) {
	fills := filled(p)
	if p.Style.Look().Width <= 0 && !fills {
		return
	}
	if attrs := w.attributes(p); fills || attrs != w.run.attrs {
		w.flush()
		w.run.attrs = attrs
	}
	w.run.data = w.chain(w.run.data, p)
}

// flush writes the run, if there is one.
func (w *writer) flush() {
	if len(w.run.data) > 0 {
		w.canvas.Path(string(w.run.data), w.run.attrs)
	}
	w.run = run{data: w.run.data[:0]}
}

// chain appends a path's data.
func (w *writer) chain(b []byte, p *drawing.Path) []byte {
	if len(p.Points) == 0 {
		w.fail("a path has no points")
		return b
	}
	var first, last point
	for i, at := range p.Points {
		x, okX := fix(at.X)
		y, okY := fix(at.Y)
		if !okX || !okY {
			w.fail("a point at %v, %v in is not on any paper", float64(at.X), float64(at.Y))
			return b
		}
		q := point{x, y}
		switch {
		case i == 0:
			first = q
			if p.Circle != 0 {
				return w.circle(b, q, p)
			}
			b = appendPoint(append(b, 'M'), q, 2)
		case q != last:
			b = appendStep(b, last, q, 2)
		}
		last = q
	}
	if p.Closed {
		return append(b, 'z')
	}
	if last == first && len(p.Points) == 2 { // a stroke shorter than the grid
		b = append(b, "h0"...)
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

// attributes returns how a path is stroked and filled. Presentation attributes,
// not a style sheet: some cutters and editors read no style sheets.
func (w *writer) attributes(p *drawing.Path) string {
	if !filled(p) {
		return w.stroke(p.Style)
	}
	return `fill="` + colour(p.Fill) + `"` + strings.TrimPrefix(w.stroke(p.Style), noFill)
}

const noFill = `fill="none"`

// filled reports whether a path has an inside that is painted.
func filled(p *drawing.Path) bool {
	return p.Fill != drawing.NoColour && (p.Closed || p.Circle > 0)
}

// stroke returns a style as attributes, each worked out once for a document.
func (w *writer) stroke(s drawing.Style) string {
	look := s.Look()
	if look.Width <= 0 {
		return noFill
	}
	if w.strokes[s] != "" {
		return w.strokes[s]
	}
	width, _ := fix(look.Width)
	on, _ := fix(look.On)
	off, _ := fix(look.Off)
	b := appendFixed([]byte(noFill+` stroke="#000" stroke-width="`), width, 2)
	b = append(b, '"')
	if off > 0 {
		b = appendNext(appendFixed(append(b, ` stroke-dasharray="`...), on, 2), off, 2)
		b = append(b, '"')
		if on == 0 {
			b = append(b, ` stroke-linecap="round"`...)
		}
	}
	w.strokes[s] = string(b)
	return w.strokes[s]
}

func colour(c drawing.Colour) string { return fmt.Sprintf("#%06x", uint32(c)&0xFFFFFF) }
