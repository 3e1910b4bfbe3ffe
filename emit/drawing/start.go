package drawing

import (
	"math"

	"seamwright/compiler/pattern"
)

// Level reports whether the text runs straight to the right, but for noise in its
// direction that a metre of it would not show.
func (t *Text) Level() bool { return math.Abs(t.Turn) < 1e-5 }

// Start returns where the text's first glyph begins, on its baseline.
func (t *Text) Start() pattern.Pos {
	if t.Anchor == Start {
		return t.At
	}
	shift := float64(t.shift(Measure(t.Text, t.Size, t.Bold).Width))
	sin, cos := math.Sincos(t.Turn * math.Pi / 180)
	return pattern.Pos{X: t.At.X + pattern.Length(shift*cos), Y: t.At.Y - pattern.Length(shift*sin)}
}
