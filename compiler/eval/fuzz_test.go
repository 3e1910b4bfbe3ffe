package eval

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

// Any text is evaluated without a panic, in bounded time, to the same result twice.
func FuzzEvaluate(f *testing.F) {
	for _, c := range Codes() {
		if len(c.Example) < 2000 && c.Code != TooManySteps && c.Code != TooManyPieces {
			f.Add(c.Example)
			f.Add(c.Cured)
		}
	}
	for _, glob := range []string{"../../examples/*.seam", "../../lang/families/*.seam"} {
		names, _ := filepath.Glob(glob)
		for _, name := range names {
			if text, err := os.ReadFile(name); err == nil {
				f.Add(string(text))
			}
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		began := time.Now()
		r := evaluate(text, texts{"families/wave": wave, "self": text})
		if took := time.Since(began); took > 20*time.Second {
			t.Errorf("took %v", took)
		}
		if len(r.Blocks) != len(r.Pattern.Blocks) {
			t.Errorf("%d blocks, %d in the pattern", len(r.Blocks), len(r.Pattern.Blocks))
		}
		for _, b := range r.Blocks {
			checkBody(t, b.Body, len(r.Pattern.Fabrics), map[*Body]bool{})
		}
		for _, p := range r.Problems {
			if p.At.Source == nil || p.At.Span.Start < 0 || p.At.Span.End < p.At.Span.Start || int(p.At.Span.End) > len(p.At.Source.Text) {
				t.Errorf("%s: %q stands at %v", p.Code, p.Message, p.At.Span)
			}
		}
		if again := evaluate(text, texts{"families/wave": wave, "self": text}); show(again.Problems) != show(r.Problems) {
			t.Errorf("two runs differ:\n%s\n%s", show(r.Problems), show(again.Problems))
		}
	})
}

// checkBody holds what piecing relies on.
func checkBody(t *testing.T, b *Body, fabrics int, seen map[*Body]bool) {
	if b.Failed || seen[b] {
		return
	}
	seen[b] = true
	if len(b.Outline) < 3 || b.Outline.Area() <= 0 {
		t.Errorf("%s has the outline %v", b.Name, b.Outline)
	}
	for _, s := range b.Sections {
		for i, p := range s.Pieces {
			if p.Fabric < 0 || p.Fabric >= fabrics {
				t.Errorf("%s: fabric %d of %d", b.Name, p.Fabric, fabrics)
			}
			if len(p.Points) != len(p.PointAt) {
				t.Errorf("%s: %d points, %d places", b.Name, len(p.Points), len(p.PointAt))
			}
			if i > 0 && p.Line.A == p.Line.B {
				t.Errorf("%s: piece %d has no line", b.Name, i+1)
			}
		}
		if len(s.Pieces) == 0 || len(s.Pieces[0].Points) == 0 {
			t.Errorf("%s: section %q has no first piece", b.Name, s.Name)
		}
	}
	for _, p := range b.Places {
		if p.Body.Failed {
			t.Errorf("%s places %s, which has failed", b.Name, p.Body.Name)
		}
		checkBody(t, p.Body, fabrics, seen)
	}
}
