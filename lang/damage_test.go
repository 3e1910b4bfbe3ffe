package lang

import (
	"fmt"
	"math/rand/v2"
	"os"
	"sort"
	"strings"
	"testing"
)

// A damage is one character of a statement deleted, inserted, or exchanged
// with its neighbor.
type damage struct {
	text string
	line int
	what string
}

// damages makes all of a text but those that change nothing, one random
// character being inserted at each place. Comments and what stands outside
// statements are spared.
func damages(text string, random *rand.Rand) (all []damage) {
	const inserted = `abenstwx019 .,;:(){}"-+*/=<>#_@é`
	signs := []rune(inserted)
	s := newScanner(text)
	seen := map[int]bool{} // places in statements, token by token and the gaps on a line
	last, lastLine := 0, 0
	for {
		var tok token
		s.next(&tok)
		if tok.kind == tEOF {
			break
		}
		from := int(tok.start)
		if int(tok.line) == lastLine {
			from = last
		}
		last, lastLine = int(tok.end), int(tok.line)
		for i := from; i < last; i++ {
			seen[i] = true
		}
	}
	line := 1
	for i := range len(text) {
		if text[i] == '\n' {
			line++
			continue
		}
		if !seen[i] {
			continue
		}
		add := func(kind, damaged string) {
			if damaged != text {
				all = append(all, damage{damaged, line, fmt.Sprintf("%s at %d", kind, i)})
			}
		}
		add("delete", text[:i]+text[i+1:])
		add("insert", text[:i]+string(signs[random.IntN(len(signs))])+text[i:])
		if seen[i+1] {
			add("swap", text[:i]+text[i+1:i+2]+text[i:i+1]+text[i+2:])
		}
	}
	return all
}

// Of the damages that break the parse, atLeast must be told where they are, and
// only there; atMost may be told there more than once.
const (
	atLeast = 0.99
	atMost  = 0.01
)

// SHOW_DAMAGE=1 prints those that are not told once, on their own line.
func TestDamage(t *testing.T) {
	all := samples(t)
	var paths []string
	for path := range all {
		paths = append(paths, path)
	}
	sort.Strings(paths)
	broken, right, missed, blamed, several := 0, 0, 0, 0, 0
	random := rand.New(rand.NewPCG(1, 2))
	show := os.Getenv("SHOW_DAMAGE") != ""
	for _, path := range paths {
		for _, d := range damages(all[path], random) {
			_, problems := parse(d.text)
			if len(problems) == 0 {
				continue // it still parses; what it means is for others
			}
			broken++
			here, elsewhere := 0, 0
			for _, p := range problems {
				if p.At.Source.Position(p.At.Span.Start).Line == d.line {
					here++
				} else {
					elsewhere++
				}
			}
			switch {
			case elsewhere > 0:
				blamed++
			case here == 0:
				missed++
			default:
				right++
				if here == 1 {
					continue
				}
				several++
			}
			if show {
				line := strings.Split(d.text, "\n")[d.line-1]
				fmt.Printf("%s:%d %s: %s\n", path, d.line, d.what, line)
				for i := range problems {
					fmt.Println("   ", strings.Split(render(&problems[i]), "\n")[0])
				}
			}
		}
	}
	share := float64(right) / float64(broken)
	t.Logf("%d damages break the parse: %d told on their line alone (%.2f %%; %d of them more than once), %d blame another line, %d say nothing",
		broken, right, 100*share, several, blamed, missed)
	if share < atLeast {
		t.Errorf("%.2f %% is less than %.0f %%", 100*share, 100*atLeast)
	}
	if float64(several) > atMost*float64(broken) {
		t.Errorf("%d are told more than once", several)
	}
}
