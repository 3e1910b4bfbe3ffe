package trace

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/plane"
)

// Read reads an SVG file. The error says why there is no drawing in it.
func Read(svg []byte) (*Drawing, error) {
	dec := xml.NewDecoder(bytes.NewReader(svg))
	dec.CharsetReader = func(label string, in io.Reader) (io.Reader, error) {
		return nil, errors.New("it is written in " + label + "; save it as UTF-8")
	}
	r := &reader{svg: svg, dec: dec}
	r.look()
	for {
		t, err := dec.Token()
		if err == io.EOF {
			return nil, errors.New("there is no <svg> in it")
		}
		if err != nil {
			return nil, err
		}
		if e, ok := t.(xml.StartElement); ok {
			if e.Name.Local != "svg" {
				return nil, fmt.Errorf("it holds <%s>, not <svg>", e.Name.Local)
			}
			r.page(r.attributes(e.Attr))
			if err := r.children(state{m: identity(), fill: "black", stroke: "none"}, 0); err != nil {
				return nil, err
			}
			return &r.d, r.enough()
		}
	}
}

// page notes the page: the view box, or else the size if it is told in plain units.
func (r *reader) page(a attrs) {
	v := strings.FieldsFunc(a["viewBox"], func(c rune) bool { return c == ' ' || c == ',' || c == '\n' || c == '\t' })
	if len(v) != 4 {
		v = []string{"0", "0", strings.TrimSuffix(a["width"], "px"), strings.TrimSuffix(a["height"], "px")}
	}
	var n [4]float64
	for i := range v {
		f, err := strconv.ParseFloat(v[i], 64)
		if err != nil || math.IsInf(f, 0) || math.IsNaN(f) || math.Abs(f) > 1e9 {
			return
		}
		n[i] = f
	}
	if n[2] > 0 && n[3] > 0 {
		r.d.Page = &[2]plane.Point{{X: n[0], Y: n[1]}, {X: n[0] + n[2], Y: n[1] + n[3]}}
	}
}

func (r *reader) enough() error {
	sides := 0
	for i := range r.d.Shapes {
		sides += len(r.d.Shapes[i].Points)
	}
	switch {
	case sides > maxSides:
		return fmt.Errorf("it has %d lines; %d are the most", sides, maxSides)
	case sides == 0:
		return errors.New("there are no straight lines in it")
	}
	return nil
}

// A reader walks the elements.
type reader struct {
	svg     []byte
	dec     *xml.Decoder
	d       Drawing
	id      string           // of the element that is read
	at      map[string]int64 // where elements with an id begin; for look-up only
	classes map[string]attrs // what style sheets say of classes; for look-up only
	inClone int              // how deep
	cloned  int64            // bytes read for clones
	sides   int
}

// A state is what elements inherit.
type state struct {
	m            matrix
	fill, stroke string
	hidden       bool
}

func (r *reader) children(s state, depth int) error {
	if depth > maxDepth {
		return fmt.Errorf("groups lie in each other more than %d deep", maxDepth)
	}
	for {
		t, err := r.dec.Token()
		if err != nil {
			if err == io.EOF {
				err = errors.New("it ends in the middle")
			}
			return err
		}
		switch t := t.(type) {
		case xml.EndElement:
			return nil
		case xml.StartElement:
			if err := r.element(t, s, depth); err != nil {
				return err
			}
		}
	}
}

func (r *reader) element(e xml.StartElement, s state, depth int) error {
	line, _ := r.dec.InputPos()
	a := r.attributes(e.Attr)
	if r.inClone == 0 {
		r.id = nameOf(e, a, line)
	}
	if r.sides > maxSides {
		return r.enough()
	}
	own, err := s.with(a)
	if err != nil {
		r.leave(err.Error(), e, a, line)
		return r.dec.Skip()
	}
	switch e.Name.Local {
	case "g", "a":
		return r.children(own, depth+1)
	case "defs", "metadata", "title", "desc", "namedview", "symbol", "script", "clipPath", "mask", "marker":
		return r.dec.Skip()
	}
	if own.hidden {
		return r.dec.Skip()
	}
	what := ""
	switch e.Name.Local {
	case "line":
		r.add(own, []plane.Point{{X: a.number("x1"), Y: a.number("y1")}, {X: a.number("x2"), Y: a.number("y2")}}, false)
	case "polyline", "polygon":
		points, ok := pairs(a["points"])
		if !ok {
			what = "a list of points that can't be read"
		}
		r.add(own, points, e.Name.Local == "polygon")
	case "rect":
		x, y, w, h := a.number("x"), a.number("y"), a.number("width"), a.number("height")
		if a.number("rx") > 0 || a.number("ry") > 0 {
			what = "a rectangle with round corners"
			break
		}
		r.add(own, []plane.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}, true)
	case "path":
		chains, curved := path(a["d"])
		if what = curved; what == "" {
			for _, c := range chains {
				r.add(own, c.points, c.closed)
			}
		}
	case "use":
		if what, err = r.clone(own, a, depth); err != nil {
			return err
		}
	case "text":
		what = "text"
	case "image":
		what = "a picture"
	case "circle", "ellipse":
		what = "a curve"
	case "style": // see look
	default:
		what = "an element <" + e.Name.Local + ">"
	}
	if what != "" {
		r.leave(what, e, a, line)
	}
	return r.dec.Skip()
}

func (r *reader) leave(what string, e xml.StartElement, a attrs, line int) {
	name := nameOf(e, a, line)
	if r.inClone > 0 {
		name = r.id
	}
	r.d.LeftOut = append(r.d.LeftOut, LeftOut{what, name})
}

// nameOf is how an element is spoken of.
func nameOf(e xml.StartElement, a attrs, line int) string {
	if id := a["id"]; id != "" {
		return id
	}
	return e.Name.Local + " on line " + strconv.Itoa(line)
}

func (r *reader) add(s state, points []plane.Point, closed bool) {
	if len(points) < 2 {
		return
	}
	r.sides += len(points)
	moved := make([]plane.Point, len(points))
	for i, p := range points {
		moved[i] = s.m.apply(p)
		if math.IsNaN(moved[i].X-moved[i].Y) || math.IsInf(moved[i].X-moved[i].Y, 0) {
			return
		}
	}
	shape := Shape{Points: moved, Closed: closed, ID: r.id}
	if len(points) > 2 {
		shape.Fill, shape.Filled = rgb(s.fill)
	}
	_, stroked := rgb(s.stroke)
	if shape.Drawn = stroked || shape.Filled; shape.Drawn {
		r.d.Shapes = append(r.d.Shapes, shape)
	}
}

func (a attrs) number(name string) float64 {
	v := strings.TrimSuffix(strings.TrimSpace(a[name]), "px")
	f, _ := strconv.ParseFloat(v, 64)
	return f
}

// with returns what an element hands on.
func (s state) with(a attrs) (state, error) {
	if t := a["transform"]; t != "" {
		m, ok := transform(t)
		if !ok {
			return s, errors.New("a transform that can't be read")
		}
		s.m = s.m.times(m)
	}
	for _, x := range [...]struct {
		name string
		to   *string
	}{{"fill", &s.fill}, {"stroke", &s.stroke}} {
		if v := a[x.name]; v != "" && v != "inherit" {
			*x.to = v
		}
	}
	if a["display"] == "none" || a["visibility"] == "hidden" {
		s.hidden = true
	}
	return s, nil
}
