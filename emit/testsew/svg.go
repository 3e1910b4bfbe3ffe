package testsew

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// A group is a g element of a sheet with what is drawn in it, in inches of the
// paper: x to the right, y down.
type group struct {
	id, class, words string
	strokes          []stroke
	texts            []pt // where its texts begin
	groups           []*group
	window           *box     // what is seen of its strokes; nil for all
	whole            []stroke // then its strokes before they are cut to that
}

// A stroke is one chain of straight lines, or a circle.
type stroke struct {
	width, dash, gap float64 // in millimetres, as drawn
	points           []pt
	closed           bool
	circle           bool // points[0] is its centre
	filled           bool
}

// readSheet reads an SVG drawing: its groups, chains and where texts stand.
func readSheet(data []byte) (*group, error) {
	d := xml.NewDecoder(bytes.NewReader(data))
	root := &group{}
	open := []*group{root}
	windows := map[string]box{}
	var words, inside bool
	for {
		token, err := d.Token()
		if err == io.EOF {
			return root, nil
		}
		if err != nil {
			return nil, err
		}
		top := open[len(open)-1]
		switch t := token.(type) {
		case xml.StartElement:
			switch t.Name.Local {
			case "defs":
				if err := d.Skip(); err != nil {
					return nil, err
				}
			case "g":
				g := &group{id: attr(t, "id"), class: attr(t, "class")}
				if clip := attr(t, "clip-path"); clip != "" {
					window, ok := windows[strings.TrimSuffix(strings.TrimPrefix(clip, "url(#"), ")")]
					if !ok {
						return nil, fmt.Errorf("there is no clip path %q", clip)
					}
					g.window = &window
				}
				if move := attr(t, "transform"); move != "" { // a text, set glyph by glyph
					if at, ok := moved(move); ok {
						top.texts = append(top.texts, at)
					}
					if err := d.Skip(); err != nil {
						return nil, err
					}
					continue
				}
				top.groups = append(top.groups, g)
				open = append(open, g)
			case "clipPath":
				id := attr(t, "id")
				if windows[id], err = window(d); err != nil {
					return nil, fmt.Errorf("clip path %q: %w", id, err)
				}
			case "use":
				x, _ := strconv.ParseFloat(attr(t, "x"), 64)
				y, _ := strconv.ParseFloat(attr(t, "y"), 64)
				top.texts = append(top.texts, pt{x, y}.mul(inch))
			case "path":
				strokes, err := chains(t)
				if err != nil {
					return nil, err
				}
				top.strokes = append(top.strokes, strokes...)
			}
			words = t.Name.Local == "desc"
			inside = inside || words
		case xml.CharData:
			if words && inside {
				top.words += string(t)
			}
		case xml.EndElement:
			if t.Name.Local == "g" && len(open) > 1 {
				if top.window != nil {
					top.whole = top.strokes
					top.strokes = seen(top.strokes, *top.window)
				}
				open = open[:len(open)-1]
			}
			words, inside = false, false
		}
	}
}

const inch = 1 / 25.4 // of the millimetres in which sheets are written

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func moved(transform string) (pt, bool) {
	var at pt
	if n, _ := fmt.Sscanf(transform, "translate(%f %f)", &at.x, &at.y); n == 2 {
		return at.mul(inch), true
	}
	return pt{}, false
}

// chains reads the chains of one path element.
func chains(e xml.StartElement) ([]stroke, error) {
	look := stroke{filled: attr(e, "fill") != "none"}
	look.width, _ = strconv.ParseFloat(attr(e, "stroke-width"), 64)
	if dashes := strings.Fields(attr(e, "stroke-dasharray")); len(dashes) == 2 {
		look.dash, _ = strconv.ParseFloat(dashes[0], 64)
		look.gap, _ = strconv.ParseFloat(dashes[1], 64)
	}
	s := pathScanner{rest: attr(e, "d")}
	var out []stroke
	var at pt
	for {
		command, ok := s.command()
		if !ok {
			return out, s.err
		}
		if command != 'M' && command != 'm' && len(out) == 0 {
			return nil, fmt.Errorf("a path begins with %q", command)
		}
		last := len(out) - 1
		switch command {
		case 'M', 'm':
			at = s.pair(command == 'm', at)
			next := look
			next.points = []pt{at.mul(inch)}
			out = append(out, next)
			continue
		case 'Z', 'z':
			out[last].closed = true
			at = out[last].points[0].mul(1 / inch)
			continue
		case 'A', 'a':
			radius := s.number()
			for range 4 {
				s.number()
			}
			at = s.pair(command == 'a', at)
			if !out[last].circle {
				out[last].points[0] = out[last].points[0].add(pt{radius * inch, 0})
			}
			out[last].circle = true
			continue
		case 'L', 'l':
			at = s.pair(command == 'l', at)
		case 'H', 'h':
			at.x = s.number() + at.x*relative(command)
		case 'V', 'v':
			at.y = s.number() + at.y*relative(command)
		default:
			return nil, fmt.Errorf("a path has the command %q", command)
		}
		out[last].points = append(out[last].points, at.mul(inch))
	}
}

func relative(command byte) float64 {
	if command >= 'a' {
		return 1
	}
	return 0
}

// A pathScanner reads path data (SVG 1.1, section 8.3).
type pathScanner struct {
	rest string
	last byte
	err  error
}

// command returns the next command; one that is not repeated in the text is the
// last one again.
func (s *pathScanner) command() (byte, bool) {
	s.rest = strings.TrimLeft(s.rest, " ,\n\t\r")
	if s.rest == "" || s.err != nil {
		return 0, false
	}
	if c := s.rest[0]; c >= 'A' && c <= 'z' {
		s.rest, s.last = s.rest[1:], c
		if c == 'M' || c == 'm' {
			s.last -= 'M' - 'L' // further pairs are lines
		}
		return c, true
	}
	if s.last == 'z' || s.last == 'Z' || s.last == 0 {
		s.err = fmt.Errorf("path data %.20q", s.rest)
		return 0, false
	}
	return s.last, true
}

func (s *pathScanner) number() float64 {
	s.rest = strings.TrimLeft(s.rest, " ,\n\t\r")
	end := 0
	dot := false
	for end < len(s.rest) {
		c := s.rest[end]
		switch {
		case c >= '0' && c <= '9', (c == '-' || c == '+') && end == 0:
		case c == '.' && !dot:
			dot = true
		default:
			c = 0
		}
		if c == 0 {
			break
		}
		end++
	}
	f, err := strconv.ParseFloat(s.rest[:end], 64)
	if err != nil || math.IsInf(f, 0) {
		s.err = fmt.Errorf("path data %.20q has no number", s.rest)
		s.rest = ""
		return 0
	}
	s.rest = s.rest[end:]
	return f
}

func (s *pathScanner) pair(relative bool, at pt) pt {
	x := s.number()
	p := pt{x, s.number()}
	if relative {
		return at.add(p)
	}
	return p
}

// find returns the groups below this one with a class, in order.
func (g *group) find(class string) (found []*group) {
	for _, sub := range g.groups {
		if sub.class == class {
			found = append(found, sub)
		}
		found = append(found, sub.find(class)...)
	}
	return found
}
