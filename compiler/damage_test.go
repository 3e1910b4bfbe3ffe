package compiler

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"testing"

	"seamwright/lang"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

// Of single characters deleted, inserted or exchanged in the statements of the
// examples, in so far as they break the parse, so many must be told where they
// are and nowhere else: no sound statement is blamed, by any stage.
const blamedNowhereElse = 0.99

// A damage is a text with one wrong character, and the line that it is on.
type damage struct {
	text, what string
	line       int32
}

// damageOf draws one damage of a statement; ok is false where it changes nothing.
func damageOf(text string, places []int, random *rand.Rand) (d damage, ok bool) {
	const inserted = `abenstwx019 .,;:(){}"-+*/=<>#_@é`
	signs := []rune(inserted)
	at := places[random.IntN(len(places))]
	switch random.IntN(3) {
	case 0:
		d = damage{text: text[:at] + text[at+1:], what: "delete"}
	case 1:
		d = damage{text: text[:at] + string(signs[random.IntN(len(signs))]) + text[at:], what: "insert"}
	default:
		if at+1 >= len(text) || text[at+1] == '\n' {
			return d, false
		}
		d = damage{text: text[:at] + text[at+1:at+2] + text[at:at+1] + text[at+2:], what: "swap"}
	}
	d.line = int32(1 + strings.Count(text[:at], "\n"))
	d.what = fmt.Sprintf("%s at %d", d.what, at)
	return d, d.text != text
}

// statements lists the bytes of a text that belong to statements: its tokens and
// the blanks between those of one line.
func statements(text string) (places []int) {
	tokens, _ := lang.Tokens(text)
	end := 0
	for _, t := range tokens {
		from := int(t.At.Start)
		if end > 0 && !strings.Contains(text[end:from], "\n") {
			from = end
		}
		end = int(t.At.End)
		for i := from; i < end; i++ {
			if text[i] < 0x80 {
				places = append(places, i)
			}
		}
	}
	return places
}

// shipped loads families, and the files of the examples.
type shipped struct{}

func (shipped) Load(_ *problem.Source, path string) (*problem.Source, string) {
	if text, ok := families.Source(strings.TrimPrefix(path, "std/")); ok {
		return &problem.Source{Name: path, Text: text}, ""
	}
	name := filepath.Join("../examples", path+".seam")
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err.Error()
	}
	return &problem.Source{Name: name, Text: string(data)}, ""
}

// SHOW_DAMAGE=1 prints those that blame another line.
func TestNoSoundStatementIsBlamed(t *testing.T) {
	paths, err := filepath.Glob("../examples/*.seam")
	if err != nil || len(paths) < 8 {
		t.Fatalf("%d examples found: %v", len(paths), err)
	}
	sort.Strings(paths)
	random := rand.New(rand.NewPCG(3, 4))
	const each = 600
	broken, right := 0, 0
	codes := map[problem.Code]int{}
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		places := statements(text)
		for range each {
			d, ok := damageOf(text, places, random)
			if !ok {
				continue
			}
			src := &problem.Source{Name: path, Text: d.text}
			if _, parsed := lang.Parse(src); !problem.Failed(parsed) {
				continue // what it means now is for others to say
			}
			broken++
			_, problems := Compile(src, shipped{})
			elsewhere := false
			for _, p := range problems {
				if p.Severity == problem.Note {
					continue // nothing to do, so nobody is blamed
				}
				if line := p.At.Source.Position(p.At.Span.Start).Line; p.At.Source != src || int32(line) != d.line {
					elsewhere = true
					codes[p.Code]++
				}
			}
			if !elsewhere {
				right++
				continue
			}
			if os.Getenv("SHOW_DAMAGE") != "" {
				line, _ := src.Line(int(d.line))
				fmt.Printf("%s:%d %s: %s\n", path, d.line, d.what, line)
				for _, p := range problems {
					fmt.Printf("    %d: %s %s\n", p.At.Source.Position(p.At.Span.Start).Line, p.Code, p.Message)
				}
			}
		}
	}
	share := float64(right) / float64(broken)
	t.Logf("%d damages break the parse, of which %.2f %% are told on their line alone; others blame by %v", broken, 100*share, codes)
	if share < blamedNowhereElse {
		t.Errorf("%.2f %% is less than %.0f %%", 100*share, 100*blamedNowhereElse)
	}
}

// What does not follow from what could not be read is told in the same run.
func TestWhatFollowsFromMistakes(t *testing.T) {
	const start = "fabric sail \"sail\" light #f3ecdd\nfabric hull \"hull\" dark #33312e\n"
	for _, c := range []struct{ name, text, codes string }{
		{"declared there", `fabric su@n "sun" light #f2dca0
block b 4 x 4 finished 4in {
  section A {
    1 sail at (1, 1)
    2 sun along n -- s
  }
}`, "L103 L217"},
		{"unknown all the same", `fabric su@n "sun" light #f2dca0
block b 4 x 4 finished 4in {
  section A {
    1 sail at (1, 1)
    2 gull along n -- s
  }
}`, "L103 L201 L217"},
		{"used there, or order unknown", `block b 4 x 4 finished 4in {
  section A {
    1 sail a@t (1, 1)
    2 hull along n -- s
    4 sail along w -- e
  }
}`, "L103"},
		{"order of another section", `block b 4 x 4 finished 4in {
  join n -- s
  section A {
    1 sail a@t (1, 1)
  }
  section B {
    1 sail at (3, 1)
    3 hull along (3, 0) -- (3, 4)
  }
}`, "L103 L250"},
		{"geometry of another block", `block b 4 x 4 finished 4in {
  section A { 1 sail a@t (1, 1) }
}
block c 4 x 4 finished 4in {
  join n -- (2, 3)
  section A { 1 hull at (1, 1) }
}`, "G102 L103"},
		{"how many pieces is not known", `block b 4 x 4 finished 4in {
  let m = 1 +
  section A {
    for i in 1..m { piece sail at (1, 1) }
    piece hull along n -- s
  }
}`, "L114"},
	} {
		src := &problem.Source{Name: "test.seam", Text: start + c.text + "\n"}
		var codes []string
		_, problems := Compile(src, nil)
		for _, p := range problems {
			codes = append(codes, string(p.Code))
		}
		slices.Sort(codes)
		if got := strings.Join(slices.Compact(codes), " "); got != c.codes {
			t.Errorf("%s: told are %s, not %s", c.name, got, c.codes)
		}
	}
}
