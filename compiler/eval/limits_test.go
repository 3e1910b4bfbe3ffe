package eval

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// Whatever a text asks for, the answer comes soon. The bound is generous: a slow
// machine under load needs a second for maxSteps.
func TestEndlessTextsEnd(t *testing.T) {
	nest := func(n int, inner string) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "for a%d in 1..1000 { check a%d > 0 \"\" ", i, i)
		}
		return b.String() + inner + strings.Repeat("}", n)
	}
	double := sky // u0 places two different u1, each places two u2, ...
	for i := range 40 {
		double += fmt.Sprintf("unit u%d(k: number) 4 x 4 {\n  place u%d(2 * k) at sw\n  place u%d(2 * k + 1) at sw\n}\n", i, i+1, i+1)
	}
	double += "unit u40(k: number) 4 x 4 { section { 1 sky at c + (k, 0) - (k, 0) } }\nblock b 4 x 4 finished 4in { place u0(1) at sw }"
	tenfold := sky // shared bodies, 10^12 pieces
	for i := range 12 {
		tenfold += fmt.Sprintf("unit u%d 4 x 4 { for i in 1..10 { place u%d at (i, 0) } }\n", i, i+1)
	}
	tenfold += "unit u12 4 x 4 { section { 1 sky at c } }\nblock b 4 x 4 finished 4in { place u0 at sw }"
	self := sky + "unit u(k: count) 4 x 4 { if k > 0 { place u(k - 1) at sw } }\nblock b 4 x 4 finished 4in { place u(5) at sw }"
	for name, c := range map[string]struct{ text, code string }{
		"a long range":                       {inUnit("for i in 1..1000000000 { join (0, i) -- (4, i) }"), "L280"},
		"a range up to what a number can be": {inUnit("for i in 1..999999999999 { join (0, i) -- (4, i) }"), "L280"},
		"a range beyond 64 bits":             {inUnit("for i in 1..999999999999 * 999999999999 { join (0, i) -- (4, i) }"), "L224"},
		"loops in loops":                     {inUnit(nest(5, "")), "L281"},
		"pieces without end":                 {inUnit("section {\n1 sky at c\nfor i in 1..1000 { for j in 1..1000 { piece sky along (0, i) -- (4, j) } }\n}"), "L284"},
		"units doubling":                     {double, "L281"},
		"units tenfold":                      {tenfold, "L284"},
		"a unit in itself":                   {self, "L257"},
		"numbers growing":                    {inUnit("let a = 999999999999\nlet b1 = a * a * a * a * a * a * a * a * a * a * a * a * a * a * a\nlet d = b1 * b1 * b1\nsection { 1 sky at (d, 1) }"), "L242"},
	} {
		t.Run(name, func(t *testing.T) {
			began := time.Now()
			r := evaluate(c.text, nil)
			if took := time.Since(began); took > 10*time.Second {
				t.Errorf("took %v", took)
			}
			if len(r.Problems) != 1 || string(r.Problems[0].Code) != c.code {
				t.Errorf("want %s, got\n%s", c.code, show(r.Problems))
			}
		})
	}
}

// A limit is told, not met by accident: one below it is fine.
func TestJustBelowTheLimits(t *testing.T) {
	for name, text := range map[string]string{
		"depth": sky + chain(maxDepth-1) + "block b 4 x 4 finished 4in { place u1 at sw }",
		"range": inUnit(fmt.Sprintf("for i in 1..%d { check i > 0 \"\" }\nsection { 1 sky at c }", maxRange)),
		"sizes": sky + "block b 4 x 4 finished " + sizes(maxSizes) + " {\n  section A { 1 sky at c }\n}\n",
		"grid":  sky + fmt.Sprintf("block b %d x %d finished 4in {\n  section A { 1 sky at ne - (1, 1) }\n}\n", maxGrid, maxGrid),
	} {
		if r := evaluate(text, nil); len(r.Problems) > 0 {
			t.Errorf("%s:\n%s", name, show(r.Problems))
		}
	}
}

// After one unit has used up the steps, the problem is told once, in the right place.
func TestStepsAreTheFilesTogether(t *testing.T) {
	r := evaluate(sky+"unit a 4 x 4 {\n  for i in 1..100000 { for j in 1..100 { check i + j > 0 \"\" } }\n  section { 1 sky at c }\n}\nblock b 4 x 4 finished 4in { place a at sw }\nblock d 4 x 4 finished 4in { section { 1 sky at c } }", nil)
	if len(r.Problems) != 1 || r.Problems[0].Code != TooManySteps {
		t.Fatal(show(r.Problems))
	}
	for _, b := range r.Blocks {
		if !b.Failed {
			t.Errorf("%s was worked out without steps left", b.Name)
		}
	}
}
