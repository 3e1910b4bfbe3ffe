package testsew

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const breakwater = `pattern "Breakwater" { edition 1  tile yes }
fabric sky "evening sky" light #dfeaf0
fabric sea "sea" dark #25525e
fabric sand "wet sand" medium #c9b48a
block breakwater 16 x 12 finished 16in {
  accept R102 "the sand"
  section A {
    1 sky at (6, 9)
    2 sea along (0, 5) -- (16, 9)
    3 sand along (0, 3) -- (8, 0)
    4 sea along (11, 12) -- (16, 6)
    5 sky along (0, 10) -- (3, 12)
  }
}
`

// inParts are builds with sections in two parts and in several rows and columns.
func inParts(t *testing.T) map[string][]File {
	return map[string][]File{"long_beam": example(t, "long_beam"), "breakwater": build(t, "breakwater.seam", breakwater)}
}

// A group as it stands in a file.
var (
	linesGroup = regexp.MustCompile(`(?s)<g[^>]* class="lines">.*?</g>`)
	glueGroup  = regexp.MustCompile(`(?s)<g class="glue">.*?</g>`)
	moveTo     = regexp.MustCompile(`M(-?[\d.]+) ?(-?[\d.]+)`)
	useAt      = regexp.MustCompile(`<use x="(-?[\d.]+)" y="(-?[\d.]+)"`)
)

// shifted moves chains by millimetres: each begins at a place of the page and goes on
// from there. A circle goes with it.
func shifted(data []byte, where *regexp.Regexp, dx, dy float64) []byte {
	return where.ReplaceAllFunc(data, func(m []byte) []byte {
		parts := moveTo.FindSubmatch(m)
		lead := "M"
		if parts == nil {
			parts, lead = useAt.FindSubmatch(m), ""
		}
		x, _ := strconv.ParseFloat(string(parts[1]), 64)
		y, _ := strconv.ParseFloat(string(parts[2]), 64)
		if lead == "" {
			return []byte(fmt.Sprintf(`<use x="%.2f" y="%.2f"`, x+dx, y+dy))
		}
		return []byte(fmt.Sprintf("M%.2f %.2f", x+dx, y+dy))
	})
}

// in changes one kind of group of a file alone.
func in(data []byte, group *regexp.Regexp, change func([]byte) []byte) []byte {
	return group.ReplaceAllFunc(data, change)
}

func partSheets(files []File) []File {
	return slices.DeleteFunc(named(files, "sheet-*.svg"), func(f File) bool { return !bytes.Contains(f.Data, []byte(`class="part"`)) })
}

// Sections in parts are sewn from their sheets; wherever a part stands on its page,
// with all that belongs to it, it is the same part.
func TestParts(t *testing.T) {
	for name, files := range inParts(t) {
		if r, err := Sew(files); err != nil || r.Failed() {
			t.Errorf("%s: %v %v", name, err, findings(r))
		}
		for i, f := range partSheets(files) {
			data := shifted(f.Data, moveTo, 2*float64(i), 3.5)
			files = changed(files, f.Path, shifted(data, useAt, 2*float64(i), 3.5))
		}
		r, err := Sew(files)
		if err != nil || r.Failed() {
			t.Errorf("%s, elsewhere on the paper: %v %v", name, err, findings(r))
		}
	}
}

// A part that does not fit its neighbours is found, whatever of it is wrong: half a
// millimetre is less than a maker's hand, but would be in every print.
func TestPartsThatDontFit(t *testing.T) {
	const wrong = "glued from its parts|does not fit its place|is on no sheet|has no cutting line|is printed"
	var mutants []mutant
	for name, files := range inParts(t) {
		for _, f := range partSheets(files) {
			add := func(what string, data []byte) {
				if bytes.Equal(data, f.Data) {
					t.Errorf("%s %s: %s changed nothing", name, f.Path, what)
				}
				mutants = append(mutants, mutant{name + " " + f.Path + " " + what, changed(files, f.Path, data)})
			}
			for _, by := range [][2]float64{{0.5, 0}, {0, 0.5}, {-1, 0}, {0, -3}} {
				add(fmt.Sprint("lines shifted by ", by), in(f.Data, linesGroup, func(g []byte) []byte { return shifted(g, moveTo, by[0], by[1]) }))
				add(fmt.Sprint("marks shifted by ", by), in(f.Data, glueGroup, func(g []byte) []byte { return shifted(g, moveTo, by[0], by[1]) }))
			}
			add("mirrored", in(f.Data, linesGroup, func(g []byte) []byte { return []byte(mirrored(string(g))) }))
			add("a line missing", in(f.Data, linesGroup, func(g []byte) []byte {
				at := bytes.Index(g, []byte(`stroke-width=".55"`))
				end := at + bytes.IndexByte(g[at:], '\n')
				start := bytes.LastIndexByte(g[:at], '\n')
				return slices.Concat(g[:start], g[end:])
			}))
			add("printed twice", bytes.ReplaceAll(f.Data, []byte("rint once for one block"), []byte("rint 2 times for one block")))
			other := slices.DeleteFunc(slices.Clone(files), func(g File) bool { return g.Path == f.Path })
			mutants = append(mutants, mutant{name + " " + f.Path + " missing", other})
			text := string(f.Data)
			for _, swap := range [][2]string{{"row 1, column", "row 3, column"}, {"row 2, column", "row 1, column"}} {
				if strings.Contains(text, swap[0]) {
					add("told as "+swap[1], []byte(strings.ReplaceAll(text, swap[0], swap[1])))
				}
			}
		}
	}
	verdicts(t, mutants, wrong)
}
