package trace

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/plane"
)

// A matrix moves points: x' = a x + c y + e, y' = b x + d y + f.
type matrix struct{ a, b, c, d, e, f float64 }

func identity() matrix { return matrix{a: 1, d: 1} }

func (m matrix) apply(p plane.Point) plane.Point {
	return plane.Point{X: m.a*p.X + m.c*p.Y + m.e, Y: m.b*p.X + m.d*p.Y + m.f}
}

// times is n first, then m.
func (m matrix) times(n matrix) matrix {
	return matrix{
		m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b,
		m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d,
		m.a*n.e + m.c*n.f + m.e, m.b*n.e + m.d*n.f + m.f,
	}
}

// transform reads the attribute (SVG 1.1, 7.6).
func transform(text string) (matrix, bool) {
	m := identity()
	for rest := strings.Trim(text, " \t\r\n,"); rest != ""; {
		name, after, ok := strings.Cut(rest, "(")
		list, next, closed := strings.Cut(after, ")")
		if !ok || !closed {
			return m, false
		}
		var n []float64
		for s := (scanner{list}); s.blank() != ""; {
			f, ok := s.number()
			if !ok {
				return m, false
			}
			n = append(n, f)
		}
		one, ok := single(strings.TrimSpace(name), n)
		if !ok {
			return m, false
		}
		m = m.times(one)
		rest = strings.TrimLeft(next, " \t\r\n,")
	}
	return m, true
}

func single(name string, n []float64) (matrix, bool) {
	switch {
	case name == "matrix" && len(n) == 6:
		return matrix{n[0], n[1], n[2], n[3], n[4], n[5]}, true
	case name == "translate" && len(n) == 1:
		return matrix{a: 1, d: 1, e: n[0]}, true
	case name == "translate" && len(n) == 2:
		return matrix{a: 1, d: 1, e: n[0], f: n[1]}, true
	case name == "scale" && len(n) == 1:
		return matrix{a: n[0], d: n[0]}, true
	case name == "scale" && len(n) == 2:
		return matrix{a: n[0], d: n[1]}, true
	case name == "rotate" && len(n) == 1:
		return turned(n[0]), true
	case name == "rotate" && len(n) == 3:
		there, back := matrix{a: 1, d: 1, e: n[1], f: n[2]}, matrix{a: 1, d: 1, e: -n[1], f: -n[2]}
		return there.times(turned(n[0])).times(back), true
	case name == "skewX" && len(n) == 1:
		return matrix{a: 1, c: math.Tan(n[0] * math.Pi / 180), d: 1}, true
	case name == "skewY" && len(n) == 1:
		return matrix{a: 1, b: math.Tan(n[0] * math.Pi / 180), d: 1}, true
	}
	return identity(), false
}

func turned(degrees float64) matrix {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return matrix{a: cos, b: sin, c: -sin, d: cos}
}

// rgb reads a color: #rgb, #rrggbb, rgb() or one of the names of HTML 4. Anything
// else that is not none counts as grey, so that it is some fabric.
func rgb(text string) (color uint32, some bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	switch {
	case text == "none" || text == "transparent" || text == "":
		return 0, false
	case strings.HasPrefix(text, "#") && len(text) == 4:
		v, err := strconv.ParseUint(text[1:], 16, 16)
		r, g, b := uint32(v>>8), uint32(v>>4&15), uint32(v&15)
		return r*17<<16 | g*17<<8 | b*17, err == nil
	case strings.HasPrefix(text, "#") && len(text) == 7:
		v, err := strconv.ParseUint(text[1:], 16, 32)
		return uint32(v), err == nil
	case strings.HasPrefix(text, "rgb("):
		return parts(strings.TrimSuffix(text[4:], ")"))
	}
	for _, n := range [...]struct {
		name string
		rgb  uint32
	}{
		{"black", 0}, {"silver", 0xc0c0c0}, {"gray", 0x808080}, {"white", 0xffffff}, {"maroon", 0x800000}, {"red", 0xff0000},
		{"purple", 0x800080}, {"fuchsia", 0xff00ff}, {"green", 0x008000}, {"lime", 0x00ff00}, {"olive", 0x808000},
		{"yellow", 0xffff00}, {"navy", 0x000080}, {"blue", 0x0000ff}, {"teal", 0x008080}, {"aqua", 0x00ffff},
	} {
		if n.name == text {
			return n.rgb, true
		}
	}
	return 0x808080, true
}

// parts reads what stands in rgb( ).
func parts(text string) (uint32, bool) {
	color := uint32(0)
	list := strings.Split(text, ",")
	for _, p := range list {
		p = strings.TrimSpace(p)
		f, err := strconv.ParseFloat(strings.TrimSuffix(p, "%"), 64)
		if strings.HasSuffix(p, "%") {
			f *= 2.55
		}
		if err != nil || len(list) != 3 {
			return 0x808080, true
		}
		color = color<<8 | uint32(max(0, min(255, math.Round(f))))
	}
	return color, true
}
