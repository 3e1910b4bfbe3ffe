package table

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
)

var (
	lengthWords = regexp.MustCompile(`(\d+(?: \d+/\d+|\.\d+)?|\d+/\d+) (?:in|cm)`)
	stripWords  = regexp.MustCompile(`^\((\d+)\) (?:strips?|lengths?) of (\S+(?: \S+)?) (?:in|cm),`)
)

// read takes a length as it is printed, "3 1/4" or "8.3".
func read(t *rapid.T, text string) float64 {
	sum := 0.0
	for _, part := range strings.Fields(text) {
		n, d, _ := strings.Cut(part, "/")
		v, err := strconv.ParseFloat(n, 64)
		if err != nil {
			t.Fatalf("%q is no length", text)
		}
		if d != "" {
			of, _ := strconv.ParseFloat(d, 64)
			v /= of
		}
		sum += v
	}
	return sum
}

// Whoever adds up what is printed comes to what is printed: the strips to the sum of
// strips, that and the rest to what is needed.
func TestPrintedSumsAddUp(t *testing.T) {
	said := words.InTables(words.Default)
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string, most float64) pattern.Length {
			return pattern.Length(rapid.Float64Range(0.5, most).Draw(t, name))
		}
		p := &pattern.Pattern{Settings: pattern.Settings{Metric: rapid.Bool().Draw(t, "metric"), Allowance: 0.25,
			Buying: pattern.Buying{Usable: 40, Straighten: side("straighten", 3), Spare: rapid.IntRange(0, 2).Draw(t, "spare")}}}
		var needs []cutting.Need
		for range rapid.IntRange(1, 4).Draw(t, "sizes") {
			needs = append(needs, cutting.Need{Size: pattern.Size{W: side("w", 20), H: side("h", 20)}, Count: rapid.IntRange(1, 40).Draw(t, "n")})
		}
		runs := []pattern.Run{{For: "border", Height: side("border", 9), Lengths: []pattern.Length{side("a", 90), side("b", 90)}},
			{For: "backing", Height: side("backing", 90), Lengths: []pattern.Length{40, 40}, Lengthy: true}}
		bought := newWriter(p, nil, said).bought(cutting.Buy(needs, runs, &p.Settings), needs, runs)
		strips := 0.0
		for _, line := range bought.Sum {
			if m := stripWords.FindStringSubmatch(line); m != nil {
				n, _ := strconv.Atoi(m[1])
				strips += float64(n) * read(t, m[2])
			}
			if !strings.HasPrefix(line, "Sum: ") {
				continue
			}
			line, _, _ = strings.Cut(line, ";")
			all := lengthWords.FindAllStringSubmatch(line, -1)
			parts := 0.0
			for _, m := range all[:len(all)-1] {
				parts += read(t, m[1])
			}
			if first := read(t, all[0][1]); math.Abs(first-strips) > 1e-9 {
				t.Fatalf("strips of %v are told as %v in %q", strips, first, bought.Sum)
			}
			if need := read(t, all[len(all)-1][1]); math.Abs(need-parts) > 1e-9 {
				t.Fatalf("%v is told for %v in %q", need, parts, line)
			}
			return
		}
		t.Fatalf("no sum in %q", bought.Sum)
	})
}
