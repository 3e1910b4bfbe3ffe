package lang

import (
	"math/rand/v2"
	"reflect"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"

	"seamwright/lang/problem"
)

// A text that is read by two is what it is when read by one, sound or damaged.
func TestHalvesAreAsOne(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	text := longText(2000)
	if toks, _ := scanHalves(text); runtime.GOMAXPROCS(0) > 1 && len(toks) < largeBody {
		t.Fatalf("%d bytes, %d tokens are not read by two", len(text), len(toks))
	}
	read := func(text string, processors int) (*File, []problem.Problem) {
		runtime.GOMAXPROCS(processors)
		f, problems := parse(text)
		f.Source = nil
		for i := range problems {
			problems[i].At.Source = nil
			for k := range problems[i].Labels {
				problems[i].Labels[k].At.Source = nil
			}
		}
		return f, problems
	}
	rounds := 30
	if testing.Short() {
		rounds = 6
	}
	for seed := range rounds {
		rng := rand.New(rand.NewPCG(uint64(seed), 8))
		damaged := text
		if seed > 0 { // first as it is
			at := rng.IntN(len(text))
			if seed%3 == 0 {
				at = len(text)/2 - 100 + rng.IntN(300) // where the halves meet
			}
			with := []string{"", "{", "}", "\"", "é", "for\n", "section", "/*", ";", "1/2 "}[rng.IntN(10)]
			damaged = text[:at] + with + text[at+rng.IntN(2):]
		}
		one, alone := read(damaged, 1)
		two, both := read(damaged, 2)
		if d := cmp.Diff(alone, both); d != "" {
			t.Fatalf("seed %d: other problems:\n%s", seed, d)
		}
		if !reflect.DeepEqual(one, two) {
			t.Fatalf("seed %d: another tree", seed)
		}
		if seed == 0 && len(alone) > 0 {
			t.Fatal(alone[0].Message)
		}
	}
}
