package testsew

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// examples are the patterns whose files are damaged: one section and many,
// copies, reversed sections, letters on edges, extra on the border.
func mutable(t *testing.T) map[string][]File {
	t.Helper()
	all := map[string][]File{}
	for _, name := range []string{"harbour_boat", "homing_geese", "guiding_star", "lighthouse_lens", "signal_pennants", "keepers_hearth", "harbour_compass"} {
		all[name] = example(t, name)
	}
	return all
}

func example(t *testing.T, name string) []File {
	t.Helper()
	file := filepath.Join("..", "..", "examples", name+".seam")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return build(t, file, string(text))
}

// A mutant is a build with one fault in it.
type mutant struct {
	name  string
	files []File
}

// verdicts sews mutants and counts those in which nothing was found.
func verdicts(t *testing.T, mutants []mutant, want string) {
	t.Helper()
	found := 0
	for _, m := range mutants {
		r, err := Sew(m.files)
		if err != nil {
			found++ // it can't even be sewn
			continue
		}
		said := regexp.MustCompile(want)
		ok := false
		for _, b := range r.Blocks {
			ok = ok || slices.ContainsFunc(b.Findings, said.MatchString)
		}
		if ok {
			found++
		} else {
			t.Errorf("%s: not found; said %q", m.name, findings(r))
		}
	}
	t.Logf("%d of %d found", found, len(mutants))
	if len(mutants) == 0 {
		t.Error("there was nothing to find")
	}
}

func findings(r *Report) (all []string) {
	for _, b := range r.Blocks {
		all = append(all, b.Findings...)
	}
	return all
}

// changed returns the files with one of them replaced.
func changed(files []File, name string, data []byte) []File {
	out := slices.Clone(files)
	for i := range out {
		if out[i].Path == name {
			out[i].Data = data
		}
	}
	return out
}

func named(files []File, pattern string) (out []File) {
	for _, f := range files {
		if ok, _ := path.Match(pattern, path.Base(f.Path)); ok {
			out = append(out, f)
		}
	}
	return out
}

// A sound build has no findings, and neither has one in which something changed
// that is no fault: larger patches in both tables, another title, blank lines.
func TestControl(t *testing.T) {
	for name, files := range mutable(t) {
		if r, err := Sew(files); err != nil || r.Failed() {
			t.Errorf("%s: %v %v", name, err, findings(r))
		}
		for _, f := range files {
			data := f.Data
			switch path.Ext(f.Path) {
			case ".svg":
				data = bytes.ReplaceAll(data, []byte("<title>"), []byte("\n\n<title>Other "))
				data = bytes.ReplaceAll(data, []byte(`stroke="#000"`), []byte(`stroke="#00f"`))
			case ".csv":
				data = regexp.MustCompile(`\d+( \d/\d)? in\b`).ReplaceAllFunc(data, func(b []byte) []byte { return append([]byte("1"), b...) })
			}
			files = changed(files, f.Path, data)
		}
		if r, err := Sew(files); err != nil || r.Failed() {
			t.Errorf("%s, changed without fault: %v %v", name, err, findings(r))
		}
	}
}

// halfLoses is how much more a square must shrink for its half to lose as much on
// every side as a rectangle does: from its sides d, from its height d and d times
// the root of 2, from the square's side the root of 2 times that.
const halfLoses = (2 + math.Sqrt2) / 2

// csvLine writes the cells of one line of a table.
func csvLine(cells []string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	w.Write(cells)
	w.Flush()
	return b.Bytes()
}

// Every patch of the table, shrunk by 3/4 in both ways, comes short of what the
// table promises; by 1 1/4 in, it covers no more. (One that is larger for the sake
// of a sharp tip has more than 1/2 in to give before it breaks a promise.)
func TestShrunkPatch(t *testing.T) {
	for _, c := range []struct {
		by   float64
		want string
	}{{0.75, "the patch of .* larger than its space|the patch of .* too small|in of cloth|are bare"}, {1.25, "the patch of .* too small|are bare"}} {
		var mutants []mutant
		for name, files := range mutable(t) {
			for _, f := range named(files, sectionTable) {
				lines := bytes.SplitAfter(f.Data, []byte("\r\n"))
				for i := 1; i < len(lines) && len(lines[i]) > 0; i++ {
					cells, err := csv.NewReader(bytes.NewReader(lines[i])).Read()
					if err != nil {
						t.Fatal(err)
					}
					w, h, err := readSize(cells[6])
					if err != nil {
						t.Fatal(err)
					}
					by := c.by
					if strings.Contains(cells[5], "cut once") && cells[4] != "exact" {
						by *= halfLoses
					}
					cells[6] = fmt.Sprintf("%v in x %v in", max(w-by, 0.125), max(h-by, 0.125))
					data := bytes.Join(slices.Concat(lines[:i:i], [][]byte{csvLine(cells)}, lines[i+1:]), nil)
					mutants = append(mutants, mutant{name + " " + f.Path + " " + cells[2], changed(files, f.Path, data)})
				}
			}
		}
		verdicts(t, mutants, c.want)
	}
}

// Two spaces whose numbers, and what stands with them, change places. What is not
// a fault: two spaces of one cloth, the first two, which are the same seam either
// way; or two that don't touch, and may be sewn in either order.
func TestSwappedOrder(t *testing.T) {
	var mutants []mutant
	for name, files := range mutable(t) {
		r, err := Sew(files)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range named(files, "sheet-*.svg") {
			read, err := readPaper(f.Path, f.Data)
			if err != nil {
				t.Fatal(err)
			}
			for _, s := range read.sections {
				for _, sewn := range r.Blocks[blockOf(files, f.Path)].table.placed {
					if sewn.name == s.name {
						s = sewn.sewn.section
					}
				}
				for k := 1; k < len(s.spaces); k++ {
					a, b := &s.spaces[k-1], &s.spaces[k]
					if a.fabric == b.fabric && (k == 1 || !s.share(k-1, k)) {
						continue
					}
					one, two := fmt.Sprintf("<desc>%s ", s.space(k)), fmt.Sprintf("<desc>%s ", s.space(k+1))
					data := bytes.Replace(f.Data, []byte(one), []byte("<desc>#"), 1)
					data = bytes.Replace(data, []byte(two), []byte(one), 1)
					data = bytes.Replace(data, []byte("<desc>#"), []byte(two), 1)
					if !bytes.Equal(data, f.Data) && bytes.Contains(f.Data, []byte(one)) && bytes.Contains(f.Data, []byte(two)) {
						mutants = append(mutants, mutant{fmt.Sprint(name, " ", f.Path, " ", s.space(k)), changed(files, f.Path, data)})
					}
				}
			}
		}
	}
	verdicts(t, mutants, "can't be sewn in turn|no line parts it|front is not|are bare|too small|of cloth")
}

func blockOf(files []File, sheet string) int {
	for i, f := range named(files, sectionTable) {
		if path.Dir(f.Path) == path.Dir(sheet) {
			return i
		}
	}
	return -1
}

// share reports whether two spaces have a side in common.
func (s *section) share(j, k int) bool {
	for i := range s.spaces[k].area {
		a, b := s.spaces[k].area.side(i)
		for m := range s.spaces[j].area {
			c, d := s.spaces[j].area.side(m)
			if a.to(b) > same && fromSegment(a.mid(b), c, d) < same {
				return true
			}
		}
	}
	return false
}

// A sheet that is printed as the front is seen, not reversed. It is no fault if
// each of its sections is its own mirror image.
func TestUnreversedSheet(t *testing.T) {
	var mutants []mutant
	for name, files := range mutable(t) {
		r, err := Sew(files)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range named(files, "sheet-*.svg") {
			read, err := readPaper(f.Path, f.Data)
			if err != nil {
				t.Fatal(err)
			}
			symmetric := true
			for _, s := range read.sections {
				for _, p := range r.Blocks[blockOf(files, f.Path)].table.placed {
					symmetric = symmetric && (p.name != s.name || p.sewn.section.symmetric())
				}
			}
			if symmetric {
				t.Logf("%s %s: every section is its own mirror image", name, f.Path)
				continue
			}
			mutants = append(mutants, mutant{name + " " + f.Path, changed(files, f.Path, []byte(mirrored(string(f.Data))))})
		}
	}
	verdicts(t, mutants, "does not fit its place|front is not|seams are not|join ")
}

// symmetric reports whether a section's picture is its own mirror image.
func (s *section) symmetric() bool {
	from := s.outline.corners()
	to := from.mapped(func(p pt) pt { return pt{-p.x, p.y} }).ccw()
	for turn := range from {
		move, miss := fit(to, from, turn)
		if miss > fits {
			continue
		}
		all := true
		for i := range s.spaces {
			m := s.spaces[i].area.middle()
			m = move(pt{-m.x, m.y})
			all = all && slices.ContainsFunc(s.spaces, func(o space) bool { return o.fabric == s.spaces[i].fabric && o.area.middle().to(m) < fits })
		}
		if all {
			return true
		}
	}
	return false
}

// mirrored turns a sheet's drawing over: x becomes -x everywhere.
func mirrored(svg string) string {
	number := `(-?\d*\.?\d+)`
	svg = regexp.MustCompile(` d="([^"]*)"`).ReplaceAllStringFunc(svg, func(d string) string {
		var out strings.Builder
		out.WriteString(` d="`)
		for _, c := range regexp.MustCompile(`[A-Za-z][^A-Za-z"]*`).FindAllString(strings.TrimPrefix(d, ` d="`), -1) {
			out.WriteByte(c[0])
			var args []float64
			for _, n := range regexp.MustCompile(number).FindAllString(c[1:], -1) {
				f, _ := strconv.ParseFloat(n, 64)
				args = append(args, f)
			}
			for i := range args {
				flip := strings.ContainsRune("MmLl", rune(c[0])) && i%2 == 0 || strings.ContainsRune("Hh", rune(c[0])) || c[0] == 'a' && i%7 == 5
				if flip {
					args[i] = -args[i]
				}
				fmt.Fprintf(&out, " %v", args[i])
			}
		}
		return out.String() + `"`
	})
	flip := func(m []string) string {
		f, _ := strconv.ParseFloat(m[2], 64)
		return m[1] + strconv.FormatFloat(-f, 'f', -1, 64)
	}
	for _, form := range []string{`(<use x=")` + number, `(transform="translate\()` + number} {
		re := regexp.MustCompile(form)
		svg = re.ReplaceAllStringFunc(svg, func(s string) string { return flip(re.FindStringSubmatch(s)) })
	}
	return svg
}

// One match mark, 1 mm from where it should be.
func TestShiftedMark(t *testing.T) {
	re := regexp.MustCompile(`M(-?[\d.]+) (-?[\d.]+)([hvl])([^M"]*)`)
	var mutants []mutant
	for name, files := range mutable(t) {
		for _, f := range named(files, "sheet-*.svg") {
			at := 0
			for line := range strings.SplitAfterSeq(string(f.Data), "\n") {
				if strings.Contains(line, "a.8 .8 0 1 0") && strings.Contains(line, `stroke-width=".25"`) && strings.Count(line, "M") > 3 {
					for _, m := range re.FindAllStringSubmatchIndex(line, -1) {
						x, _ := strconv.ParseFloat(line[m[2]:m[3]], 64)
						y, _ := strconv.ParseFloat(line[m[4]:m[5]], 64)
						var dx, dy float64
						if line[m[6]:m[7]] != "l" {
							dx, dy = 1, 1 // along whichever way the edge runs
						} else {
							fmt.Sscanf(line[m[8]:m[9]], "%f%f", &dy, &dx)
							dx = -dx
							n := pt{dx, dy}.len()
							dx, dy = dx/n, dy/n
						}
						if line[m[6]:m[7]] == "h" {
							dx = 0
						}
						if line[m[6]:m[7]] == "v" {
							dy = 0
						}
						moved := line[:m[0]] + fmt.Sprintf("M%.2f %.2f", x+dx, y+dy) + line[m[6]:]
						data := string(f.Data)[:at] + moved + string(f.Data)[at+len(line):]
						mutants = append(mutants, mutant{fmt.Sprintf("%s %s mark at %v %v", name, f.Path, x, y), changed(files, f.Path, []byte(data))})
					}
				}
				at += len(line)
			}
		}
	}
	verdicts(t, mutants, "match mark")
}

// A cutting line with one side 1 mm too near.
func TestNarrowAllowance(t *testing.T) {
	var mutants []mutant
	for name, files := range mutable(t) {
		for _, f := range named(files, "sheet-*.svg") {
			page, err := readSheet(f.Data)
			if err != nil {
				t.Fatal(err)
			}
			for _, g := range page.find("section") {
				for _, k := range g.strokes {
					if k.dash < 2 || !k.closed {
						continue
					}
					line := poly(k.points).mapped(func(p pt) pt { return p.mul(25.4) }).ccw()
					for i := range line {
						a, b := line.side(i)
						if a.to(b) < 15 { // a blunted tip is longer than it must be
							continue
						}
						near := line.clip(through(a, b).moved(1))
						d := ""
						for j, p := range near {
							d += fmt.Sprintf("%c%.2f %.2f", "ML"[min(j, 1)], p.x, p.y)
						}
						mutants = append(mutants, mutant{fmt.Sprint(name, " ", f.Path, " ", g.id, " side ", i), changed(files, f.Path, recut(t, f.Data, g.id, d))})
					}
				}
			}
		}
	}
	verdicts(t, mutants, "there is only 0.21")
}

// recut replaces the cutting line of a section.
func recut(t *testing.T, data []byte, id, d string) []byte {
	from := bytes.Index(data, []byte(`id="`+id+`"`))
	re := regexp.MustCompile(`<path( fill="none" stroke="#000" stroke-width="\.3" stroke-dasharray="3 1\.5") d="[^"]*"/>`)
	m := re.FindSubmatchIndex(data[from:])
	if from < 0 || m == nil {
		t.Fatalf("%s has no cutting line", id)
	}
	line := `<path` + string(data[from+m[2]:from+m[3]]) + ` d="` + d + `z"/>`
	return slices.Concat(data[:from+m[0]], []byte(line), data[from+m[1]:])
}

// Halves of squares are laid over first spaces too: two serve four quarters. If they are
// an eighth of an inch too small for the cloth that they must cover, that is found.
func TestFirstHalfSquares(t *testing.T) {
	files := build(t, "windmill.seam", `pattern "Windmill" { edition 1 }
fabric vane "vane" dark #25525e
fabric sky "sky" light #dfeaf0
unit quarter 2 x 2 {
  section A {
    1 vane at (0.5, 0.5)
    2 sky along se -- nw
  }
}
block windmill 4 x 4 finished 6in {
  join w -- c, c -- e
  join n -- s
  for i in 0..3 { place quarter at c turn 90deg * i }
}
`)
	r, err := Sew(files)
	if err != nil || r.Failed() {
		t.Fatal(err, findings(r))
	}
	table := named(files, sectionTable)[0]
	line := regexp.MustCompile(`A1,vane,[^\n]*"square, cut once on the diagonal",([^,]*) in,`).FindSubmatchIndex(table.Data)
	if line == nil {
		t.Fatalf("A1 is not half a square:\n%s", table.Data)
	}
	size, err := readLength(string(table.Data[line[2]:line[3]]) + " in")
	if err != nil {
		t.Fatal(err)
	}
	margin := math.Inf(1)
	for _, m := range r.Blocks[0].Margins {
		if m.Space == "A1" {
			margin = m.By
		}
	}
	less := (margin + 0.125) * (1 + math.Sqrt2) * math.Sqrt2 // of a side, for so much all round
	data := slices.Concat(table.Data[:line[2]], []byte(strconv.FormatFloat(size-less, 'f', 3, 64)), table.Data[line[3]:])
	verdicts(t, []mutant{{"A1 smaller", changed(files, table.Path, data)}}, "the patch of A1 is .* too small")
}
