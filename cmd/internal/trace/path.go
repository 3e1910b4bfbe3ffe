package trace

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/plane"
)

// A chain is one part of a path.
type chain struct {
	points []plane.Point
	closed bool
}

// path reads path data (SVG 1.1, 8.3). A curve that runs straight is a line; any
// other makes all of the path unusable, and curved says so.
func path(d string) (chains []chain, curved string) {
	s := scanner{d}
	var at, start plane.Point
	var now chain
	end := func() {
		if len(now.points) > 1 {
			chains = append(chains, now)
		}
		now = chain{}
	}
	to := func(p plane.Point) {
		if len(now.points) == 0 {
			now.points = append(now.points, at)
		}
		at = p
		now.points = append(now.points, p)
	}
	command := byte(0)
	for {
		if c, ok := s.letter(); ok {
			command = c
		} else if s.blank() == "" {
			end()
			return chains, ""
		} else if command == 'Z' || command == 'z' || command == 0 {
			return nil, "path data that can't be read"
		}
		n, ok := s.numbers(counts(command))
		if !ok {
			return nil, "path data that can't be read"
		}
		from := plane.Point{}
		if command >= 'a' {
			from = at
		}
		switch command | 0x20 {
		case 'm':
			end()
			at = from.Add(plane.Point{X: n[0], Y: n[1]})
			start = at
			command = command - 'm' + 'l' // what follows are lines
		case 'l':
			to(from.Add(plane.Point{X: n[0], Y: n[1]}))
		case 'h':
			to(plane.Point{X: from.X + n[0], Y: at.Y})
		case 'v':
			to(plane.Point{X: at.X, Y: from.Y + n[0]})
		case 'z':
			now.closed = true
			if k := len(now.points); k > 1 && now.points[0].Dist(now.points[k-1]) == 0 {
				now.points = now.points[:k-1]
			}
			end()
			at = start
		case 'c', 'q':
			last := from.Add(plane.Point{X: n[len(n)-2], Y: n[len(n)-1]})
			for i := 0; i < len(n)-2; i += 2 {
				if !straight(at, last, from.Add(plane.Point{X: n[i], Y: n[i+1]})) {
					return nil, "a curve"
				}
			}
			to(last)
		default: // s, t and a, which have no straight form that a program writes
			return nil, "a curve"
		}
	}
}

// counts is how many numbers a command takes; -1 for what is none.
func counts(command byte) int {
	switch command | 0x20 {
	case 'm', 'l', 't':
		return 2
	case 'h', 'v':
		return 1
	case 'c':
		return 6
	case 's', 'q':
		return 4
	case 'a':
		return 7
	case 'z':
		return 0
	}
	return -1
}

// bent is how far a control point may lie beside the line of its curve, as a part
// of its length: what rounding to the few digits in a file makes.
const bent = 1e-4

// straight reports whether a control point lies on the way from a to b.
func straight(a, b, control plane.Point) bool {
	l := plane.Line{A: a, B: b}
	if l.Len() == 0 {
		return control == a
	}
	return l.Nearest(control).Dist(control) <= bent*l.Len()
}

// A scanner reads letters and numbers.
type scanner struct{ rest string }

func (s *scanner) blank() string {
	s.rest = strings.TrimLeft(s.rest, " \t\r\n,")
	return s.rest
}

func (s *scanner) letter() (byte, bool) {
	if r := s.blank(); r != "" && (r[0] >= 'a' && r[0] <= 'z' || r[0] >= 'A' && r[0] <= 'Z') {
		s.rest = r[1:]
		return r[0], true
	}
	return 0, false
}

func (s *scanner) numbers(n int) ([]float64, bool) {
	if n < 0 {
		return nil, false
	}
	list := make([]float64, n)
	for i := range list {
		f, ok := s.number()
		if !ok {
			return nil, false
		}
		list[i] = f
	}
	return list, true
}

// number reads the longest number that stands here: `1-2.5.5` are three.
func (s *scanner) number() (float64, bool) {
	r := s.blank()
	i, dot, digit := 0, false, false
	if i < len(r) && (r[i] == '-' || r[i] == '+') {
		i++
	}
	for ; i < len(r); i++ {
		switch c := r[i]; {
		case c >= '0' && c <= '9':
			digit = true
			continue
		case c == '.' && !dot:
			dot = true
			continue
		case (c == 'e' || c == 'E') && digit:
			j := i + 1
			if j < len(r) && (r[j] == '-' || r[j] == '+') {
				j++
			}
			k := j
			for k < len(r) && r[k] >= '0' && r[k] <= '9' {
				k++
			}
			if k > j {
				i = k
			}
		}
		break
	}
	f, err := strconv.ParseFloat(r[:i], 64)
	s.rest = r[i:]
	return f, err == nil && !math.IsInf(f, 0)
}

// pairs reads the points of a polygon.
func pairs(text string) (points []plane.Point, ok bool) {
	s := scanner{text}
	for s.blank() != "" {
		n, ok := s.numbers(2)
		if !ok {
			return nil, false
		}
		points = append(points, plane.Point{X: n[0], Y: n[1]})
	}
	return points, true
}
