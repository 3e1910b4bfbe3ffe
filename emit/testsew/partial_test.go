package testsew

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A winder draws a rectangle cut up by lines and, now and then, into four
// rectangles wound about a fifth: straight joins alone can't sew those.
type winder struct {
	t      *rapid.T
	lines  strings.Builder
	pieces strings.Builder
	wound  int
}

// least is how broad a patch is drawn, in squares.
const least = 0.75

func (w *winder) cut(x0, y0, x1, y1 float64, depth int) {
	at := func(from, to float64, name string) float64 {
		return from + float64(rapid.IntRange(0, int((to-from)*4)).Draw(w.t, name))/4
	}
	line := func(ax, ay, bx, by float64) {
		fmt.Fprintf(&w.lines, "  line (%g, %g) -- (%g, %g) partial\n", ax, ay, bx, by)
	}
	way := rapid.IntRange(0, 4).Draw(w.t, "way")
	switch wide, high := x1-x0, y1-y0; {
	case depth == 0 || way == 0:
	case way < 4 && wide >= 3*least && high >= 3*least:
		a := at(x0+least, x1-2*least, "a")
		b := at(a+least, x1-least, "b")
		c := at(y0+least, y1-2*least, "c")
		d := at(c+least, y1-least, "d")
		w.wound++
		w.cut(a, c, b, d, depth-1)
		if way < 3 {
			line(a, y0, a, d)
			line(x0, d, b, d)
			line(b, y1, b, c)
			line(x1, c, a, c)
			w.cut(x0, y0, a, d, depth-1)
			w.cut(x0, d, b, y1, depth-1)
			w.cut(b, c, x1, y1, depth-1)
			w.cut(a, y0, x1, c, depth-1)
		} else {
			line(a, y1, a, c)
			line(x0, c, b, c)
			line(b, y0, b, d)
			line(x1, d, a, d)
			w.cut(x0, c, a, y1, depth-1)
			w.cut(x0, y0, b, c, depth-1)
			w.cut(b, y0, x1, d, depth-1)
			w.cut(a, d, x1, y1, depth-1)
		}
		return
	case wide >= 2*least && wide >= high:
		a := at(x0+least, x1-least, "a")
		line(a, y0, a, y1)
		w.cut(x0, y0, a, y1, depth-1)
		w.cut(a, y0, x1, y1, depth-1)
		return
	case high >= 2*least:
		c := at(y0+least, y1-least, "c")
		line(x0, c, x1, c)
		w.cut(x0, y0, x1, c, depth-1)
		w.cut(x0, c, x1, y1, depth-1)
		return
	}
	fabric := rapid.SampledFrom([]string{"sky", "sea", "sand"}).Draw(w.t, "fabric")
	fmt.Fprintf(&w.pieces, "  piece %s at (%g, %g)\n", fabric, (x0+x1)/2, (y0+y1)/2)
}

// Whatever is wound about whatever, with partial seams it is sewn from its sheets.
func TestWoundBlocksAreSewn(t *testing.T) {
	partial, stuck, other := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		w := &winder{t: t}
		turn := rapid.SampledFrom([]string{"", " turn 90deg", " reversed"}).Draw(t, "turn")
		w.cut(0, 0, 8, 8, 2)
		files, text := built("pattern \"Eddy\" {\n  edition 1\n  sheet a3\n}\nfabric sky \"sky\" light #bcd4df\nfabric sea \"sea\" medium #3c7d8c\n" +
			"fabric sand \"sand\" dark #6b4a2f\nunit eddy 8 x 8 {\n" + w.lines.String() + w.pieces.String() + "}\nblock drift 8 x 8 finished 8in {\n  place eddy by c at c" + turn + "\n}\n")
		if files == nil {
			// One opening is looked for at a time, so that of squares wound into each other some are left.
			switch {
			case strings.Contains(text, "G154"):
				stuck++
			case strings.Contains(text, "{R1"): // too narrow
				other++
			default:
				t.Fatal(text)
			}
			return
		}
		r, err := Sew(files)
		if err != nil || r.Failed() {
			t.Fatalf("%v %v\n%s", err, findings(r), text)
		}
		partial += w.wound
	})
	t.Logf("%d wound squares were sewn; %d blocks were refused, %d for other reasons", partial, stuck, other)
	if partial < 5*stuck {
		t.Errorf("only %d squares were sewn, and %d blocks refused", partial, stuck)
	}
}

// A partial seam that is sewn too far, or all of it, or finished too early; one
// that no mark tells of; a seam that is not said to be one.
func TestWrongPartialSeam(t *testing.T) {
	files := example(t, "turning_basin")
	var mutants []mutant
	sizes := 0
	joinsOf(t, files, func(joins []any, remade func() []File) {
		sizes++
		first, last := joins[0].(map[string]any), joins[len(joins)-1].(map[string]any)
		from, to := first["from"].([]any), first["to"].([]any)
		along := func(part float64) []any {
			out := make([]any, 2)
			for i := range out {
				a, b := from[i].(float64), to[i].(float64)
				out[i] = a + part*(b-a)
			}
			return out
		}
		for _, part := range []float64{0.5, 1.5, 2, 2.5} { // at 2 another join ends
			if sizes == 3 && part < 2 {
				continue // the patches of the second block are plain: no mark says how far, and it sews as well
			}
			first["to"] = along(part)
			mutants = append(mutants, mutant{fmt.Sprint("sewn as far as ", part), remade()})
		}
		first["to"] = to
		first["from"] = along(0.2)
		mutants = append(mutants, mutant{"begun elsewhere", remade()})
		first["from"] = from
		delete(first, "begins")
		mutants = append(mutants, mutant{"not said to be partial", remade()})
		first["begins"] = last["number"]
		delete(last, "begun")
		mutants = append(mutants, mutant{"not said to finish", remade()})
		last["begun"] = first["number"]
		n := len(joins)
		joins[n-1], joins[n-2] = joins[n-2], joins[n-1]
		mutants = append(mutants, mutant{"finished too early", remade()})
		joins[n-1], joins[n-2] = joins[n-2], joins[n-1]
	})
	verdicts(t, mutants, "join")
}
