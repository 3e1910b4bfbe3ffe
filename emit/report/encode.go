package report

import (
	"math"
	"strconv"
	"unicode/utf8"

	"seamwright/compiler/pattern"
)

// An encoder appends JSON (RFC 8259) to a buffer. It is written by hand because
// reflection would take most of the time of a large pattern; a test reads its
// work back with encoding/json.
type encoder struct {
	b     []byte
	comma bool   // the next value of the open object or array needs one before it
	home  string // the pattern's own file
}

// open begins an object or an array.
func (e *encoder) open(c byte) {
	e.separate()
	e.b, e.comma = append(e.b, c), false
}

// line begins an object on a line of its own, so that texts can be compared.
func (e *encoder) line() {
	e.separate()
	e.b, e.comma = append(e.b, '\n', '{'), false
}

func (e *encoder) close(c byte) { e.b, e.comma = append(e.b, c), true }

func (e *encoder) separate() {
	if e.comma {
		e.b = append(e.b, ',')
	}
	e.comma = true
}

// key begins a member; its value follows. Keys are ours and need no escapes.
func (e *encoder) key(k string) *encoder {
	e.separate()
	e.b = append(append(append(e.b, '"'), k...), '"', ':')
	e.comma = false
	return e
}

func (e *encoder) int(n int) {
	e.separate()
	e.b = strconv.AppendInt(e.b, int64(n), 10)
}

func (e *encoder) bool(v bool) {
	e.separate()
	e.b = strconv.AppendBool(e.b, v)
}

// perUnit is the precision of numbers: a millionth of an inch.
const perUnit = 1e6

func (e *encoder) length(l pattern.Length) { e.float(float64(l)) }

// float appends a number to the millionth; one that is none becomes null.
func (e *encoder) float(f float64) {
	e.separate()
	switch scaled := math.Round(f * perUnit); {
	case math.IsNaN(f) || math.IsInf(f, 0):
		e.b = append(e.b, "null"...)
	case math.Abs(scaled) > 1<<53:
		e.b = strconv.AppendFloat(e.b, f, 'g', -1, 64)
	default:
		e.b = appendScaled(e.b, int64(scaled))
	}
}

func appendScaled(b []byte, n int64) []byte {
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/perUnit, 10)
	rest := n % perUnit
	if rest == 0 {
		return b
	}
	b = append(b, '.')
	for digit := int64(perUnit / 10); rest > 0; digit /= 10 {
		b = append(b, byte('0'+rest/digit))
		rest %= digit
	}
	return b
}

func (e *encoder) point(p pattern.Pos) {
	e.open('[')
	e.length(p.X)
	e.length(p.Y)
	e.close(']')
}

func (e *encoder) points(ps []pattern.Pos) {
	e.open('[')
	for _, p := range ps {
		e.point(p)
	}
	e.close(']')
}

func (e *encoder) size(s pattern.Size) { e.point(pattern.Pos{X: s.W, Y: s.H}) }

func (e *encoder) ints(ns []int) {
	e.open('[')
	for _, n := range ns {
		e.int(n)
	}
	e.close(']')
}

const hex = "0123456789abcdef"

// string appends a text. Besides what JSON asks, it escapes what would come
// alive in a page the text is pasted into, and the characters that turn the
// direction of writing; damaged UTF-8 becomes U+FFFD.
func (e *encoder) string(s string) {
	e.separate()
	b := append(e.b, '"')
	for i := 0; i < len(s); {
		c := s[i]
		if c < utf8.RuneSelf {
			switch {
			case c == '"' || c == '\\':
				b = append(b, '\\', c)
			case c < ' ' || c == '<' || c == '>' || c == '&' || c == 0x7f:
				b = append(b, '\\', 'u', '0', '0', hex[c>>4], hex[c&15])
			default:
				b = append(b, c)
			}
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		if r == utf8.RuneError && n == 1 || r == 0x61c || r >= 0x200b && r <= 0x200f || r >= 0x2028 && r <= 0x202e || r >= 0x2060 && r <= 0x206f {
			b = append(b, '\\', 'u', hex[r>>12&15], hex[r>>8&15], hex[r>>4&15], hex[r&15])
		} else {
			b = append(b, s[i:i+n]...)
		}
		i += n
	}
	e.b = append(b, '"')
}
