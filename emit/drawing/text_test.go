package drawing

import (
	"math"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
)

// The figures below were read from the font file's own tables by a separate
// script: hmtx A 1260, space 585; glyf box of H up to 1493, of g down to -426,
// of l up to 1556;
// 2048 units to the em.
func TestMeasureAgreesWithTheFontsTables(t *testing.T) {
	size := pattern.Length(2048)
	if w := Measure("A A", size, false).Width; math.Abs(float64(w)-(2*1260+585)) > 0.01 {
		t.Errorf("A A advances %v", w)
	}
	if top := -Measure("H", size, false).Ink.Y0; math.Abs(top-CapHeight*2048) > 2 {
		t.Errorf("H is %v high", top)
	}
	if top := -Measure("bdfhkl", size, false).Ink.Y0; math.Abs(top-Ascent*2048) > 2 {
		t.Errorf("bdfhkl are %v high", top)
	}
	if low := Measure("gjpqy", size, false).Ink.Y1; math.Abs(low-Descent*2048) > 2 {
		t.Errorf("gjpqy reach %v below", low)
	}
}

func TestHarmless(t *testing.T) {
	for in, want := range map[string]string{
		"plain":                      "plain",
		"  a\tb\r\n c ":              "a b c",
		"a\x00b\x1bc":                "a b c",
		"pay\u202Eload\u2066x\u200b": "payloadx",
		"\xff\xfe":                   "\uFFFD\uFFFD",
		"a\uFFFEb":                   "ab",
	} {
		if got := Clean(in); got != want {
			t.Errorf("Clean(%q) = %q, want %q", in, got, want)
		}
	}
	if got, want := Visual("sail \u05d0\u05d1 \u05d2!"), "sail \u05d2 \u05d1\u05d0!"; got != want {
		t.Errorf("Visual gives %q, want %q", got, want)
	}
	if m := Missing("ab\u3042\u3042é"); string(m) != "\u3042" {
		t.Errorf("missing: %q", string(m))
	}
	if Measure("\u3042", 1, false).Ink.Empty() {
		t.Error("a missing character paints nothing")
	}
}

func TestCleanHoldsForAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "text")
		c := Clean(s)
		if Clean(c) != c {
			t.Fatalf("not idempotent: %q, %q", c, Clean(c))
		}
		for _, r := range c {
			if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
				t.Fatalf("%q keeps %U", c, r)
			}
		}
		width := pattern.Length(rapid.Float64Range(0.5, 5).Draw(t, "width"))
		for _, l := range Wrap(s, 0.2, false, width) {
			if Measure(l, 0.2, false).Width > width+1e-9 {
				t.Fatalf("line %q is too wide", l)
			}
		}
	})
}

func TestWrapLosesNoWord(t *testing.T) {
	text := "This side up while you sew. Cloth goes on the other side."
	lines := Wrap(text, 0.1, false, 1.5)
	if strings.Join(lines, " ") != text || len(lines) < 2 {
		t.Errorf("%q", lines)
	}
}

// Every two styles must differ by dashes or by twice the weight, or one of them
// is told by its place and shape alone.
func TestStylesAreToldApart(t *testing.T) {
	lines := []Style{SewingLine, OutlineLine, CuttingLine, ExtraLine, RunOnLine, LeaderLine}
	for i, a := range lines {
		for _, b := range lines[:i] {
			x, y := a.Look(), b.Look()
			sameDash := (x.Off > 0) == (y.Off > 0) && (x.On > 0) == (y.On > 0) && max(x.On, y.On) < 3*min(x.On, y.On)+mm
			ratio := float64(max(x.Width, y.Width) / min(x.Width, y.Width))
			if sameDash && ratio < 1.9 {
				t.Errorf("styles %d and %d look alike", a, b)
			}
		}
	}
}
