package sheet

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// grid is how far a coordinate of an emitted file may be from the true one: a
// hundredth of a millimetre, rounded, in both directions.
const grid = 0.01 / 25.4

func near2(a, b pos) bool { return dist(a, b) < 2*grid }

func TestEverySectionIsPrintedOnceAsOftenAsItIsMade(t *testing.T) {
	for _, l := range all(t) {
		seen := map[int]int{}
		for _, s := range l.set.Sheets {
			for _, p := range s.Places {
				seen[p.Drawing]++
				if d := &l.sized.Drawings[p.Drawing]; d.Make != s.Print {
					t.Errorf("%s: %s is made %d times and printed %d times", l.name, d.Name, d.Make, s.Print)
				}
			}
		}
		for i := range l.sized.Drawings {
			want := 1
			if d := &l.sized.Drawings[i]; d.Plain && d.Pieces[0].Patch.Shape != pattern.TemplatePatch {
				want = 0
			}
			if seen[i] != want {
				t.Errorf("%s: %s is on %d sheets, want %d", l.name, l.sized.Drawings[i].Name, seen[i], want)
			}
		}
		// Sections on sheets x copies = sections of the block that need paper.
		printed, needed := 0, 0
		for _, s := range l.set.Sheets {
			printed += len(s.Places) * s.Print
		}
		for _, c := range l.sized.Copies {
			if seen[c.Drawing] > 0 {
				needed++
			}
		}
		if printed != needed {
			t.Errorf("%s: %d sections are printed for %d places", l.name, printed, needed)
		}
	}
}

// The printed outline is the reverse of the front view: all distances are kept,
// and wherever the front turns left the print turns right.
func TestPrintedSectionsAreReversed(t *testing.T) {
	for _, l := range all(t) {
		for i := range l.set.Sheets {
			paths, _ := read(t, file(t, &l.set.Sheets[i]))
			for _, place := range l.set.Sheets[i].Places {
				d := &l.sized.Drawings[place.Drawing]
				outline := of(paths, d.Name, outlineWidth, false)
				if len(outline) != 1 || len(outline[0].points) != len(d.Outline) {
					t.Fatalf("%s: section %s has %d outlines", l.name, d.Name, len(outline))
				}
				front, print := d.Outline, outline[0].points
				for a := range front {
					for b := range a {
						if math.Abs(float64(dist(front[a], front[b])-dist(print[a], print[b]))) > 2*grid {
							t.Fatalf("%s: section %s: corners %d and %d: %v in, printed %v in",
								l.name, d.Name, a, b, dist(front[a], front[b]), dist(print[a], print[b]))
						}
						for c := range b {
							left := cross(sub(front[b], front[a]), sub(front[c], front[a]))
							turn := cross(sub(print[b], print[a]), sub(print[c], print[a])) // y down: left is negative
							if math.Abs(float64(left)) > 0.01 && (left > 0) != (turn > 0) {
								t.Fatalf("%s: section %s is not reversed", l.name, d.Name)
							}
						}
					}
				}
			}
		}
	}
}

// Every seam of the model is a sewing line on paper, and there is no other.
func TestSewingLinesAreTheSeams(t *testing.T) {
	for _, l := range all(t) {
		for i := range l.set.Sheets {
			paths, _ := read(t, file(t, &l.set.Sheets[i]))
			for _, place := range l.set.Sheets[i].Places {
				d := &l.sized.Drawings[place.Drawing]
				move := place.Motion()
				var want [][2]pos
				for k := range d.Pieces {
					if k > 0 {
						want = append(want, [2]pos{move(d.Pieces[k].Seam[0]), move(d.Pieces[k].Seam[1])})
					}
				}
				outline := of(paths, d.Name, outlineWidth, false)[0].points
				lines := of(paths, d.Name, seamWidth, false)
				lines = slices.DeleteFunc(lines, func(p drawn) bool { return p.radius > 0 || tick(p, outline) })
				stops := 0 // where a partial seam stops its mark has a bar
				for _, e := range d.Edges {
					for _, m := range e.Marks {
						if m.Kind == pattern.Stop {
							stops++
						}
					}
				}
				bar := func(p drawn) bool { return math.Abs(float64(dist(p.points[0], p.points[1])-2*stopHalf)) < 2*grid }
				before := len(lines)
				if stops > 0 {
					lines = slices.DeleteFunc(lines, bar)
				}
				if before-len(lines) != stops {
					t.Fatalf("%s: section %s has %d bars for %d stops", l.name, d.Name, before-len(lines), stops)
				}
				if len(lines) != len(want) {
					t.Fatalf("%s: section %s has %d sewing lines for %d seams", l.name, d.Name, len(lines), len(want))
				}
				for k, w := range want {
					if p := lines[k].points; !near2(p[0], w[0]) || !near2(p[1], w[1]) {
						t.Errorf("%s: section %s: seam %d is drawn from %v to %v, want %v", l.name, d.Name, k, p[0], p[1], w)
					}
				}
			}
		}
	}
}

// tick reports whether a stroke begins on an outline and leaves the section at a
// right angle: a match mark.
func tick(p drawn, outline []pos) bool {
	if len(p.points) != 2 {
		return false
	}
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		d := sub(p.points[1], p.points[0])
		square := math.Abs(float64(dot(d, unit(a, b)))) < 3*grid
		if square && segmentDist(p.points[0], a, b) < 2*grid && dot(d, right(unit(a, b))) > 0 {
			return true
		}
	}
	return false
}

// Sewn edges carry their marks at equal distances, from the emitted files: ticks
// of joined edges fall on each other within 1/128 in, laid right sides together.
func TestMarksOfJoinedEdgesMeet(t *testing.T) {
	const thread = 1.0 / 128
	joined := 0
	for _, l := range all(t) {
		marks := map[[2]int][]length{} // of an edge, from its start
		long := map[[2]int]length{}
		for i := range l.set.Sheets {
			paths, _ := read(t, file(t, &l.set.Sheets[i]))
			for _, place := range l.set.Sheets[i].Places {
				d := &l.sized.Drawings[place.Drawing]
				outline := of(paths, d.Name, outlineWidth, false)[0].points
				for e, a := range outline {
					b := outline[(e+1)%len(outline)]
					key := [2]int{place.Drawing, e}
					long[key] = dist(a, b)
					for _, p := range of(paths, d.Name, seamWidth, false) {
						if tick(p, outline) && segmentDist(p.points[0], a, b) < 2*grid && math.Abs(float64(dot(sub(p.points[1], p.points[0]), unit(a, b)))) < 3*grid {
							marks[key] = append(marks[key], dot(sub(p.points[0], a), unit(a, b)))
						}
					}
					slices.Sort(marks[key])
				}
			}
		}
		for i := range l.sized.Drawings {
			for e := range l.sized.Drawings[i].Edges {
				ps := l.sized.Drawings[i].Edges[e].Partners
				mine := [2]int{i, e}
				if len(ps) != 1 || long[mine] == 0 {
					continue
				}
				other := [2]int{ps[0].Drawing, ps[0].Edge}
				if long[other] == 0 || len(l.sized.Drawings[other[0]].Edges[other[1]].Partners) != 1 {
					continue
				}
				joined++
				if math.Abs(float64(long[mine]-long[other])) > thread || len(marks[mine]) != len(marks[other]) || len(marks[mine]) < 2 {
					t.Errorf("%s: edges %v and %v: %v and %v in, %d and %d marks", l.name, mine, other, long[mine], long[other], len(marks[mine]), len(marks[other]))
					continue
				}
				for k, m := range marks[mine] {
					n := long[other] - marks[other][len(marks[other])-1-k]
					if math.Abs(float64(m-n)) > thread {
						t.Errorf("%s: edges %v and %v: mark %d at %v and %v in", l.name, mine, other, k, m, n)
					}
				}
			}
		}
	}
	if joined < 100 {
		t.Errorf("only %d edges were compared", joined)
	}
}

// Nothing of a section is printed beyond the margin; nothing at all within a
// quarter of an inch of the paper's edge; sections lie 3/8 in apart.
func TestEverythingIsInsideThePrintableArea(t *testing.T) {
	for _, l := range all(t) {
		for i := range l.set.Sheets {
			s := &l.set.Sheets[i]
			paths, _ := read(t, file(t, s))
			var lines [][]pos
			for _, p := range paths {
				margin := length(0.25)
				if strings.HasPrefix(p.group, "section-") || strings.HasPrefix(p.group, "space-") {
					margin = l.paper.Margin
				}
				b := boxOf(p.points).grown(p.radius)
				if b.x0 < margin-2*grid || b.y0 < margin-2*grid || b.x1 > l.paper.Paper.W-margin+2*grid || b.y1 > l.paper.Paper.H-margin+2*grid {
					t.Errorf("%s sheet %d: a path of %s at %v is beyond the margin", l.name, i+1, p.group, b)
				}
			}
			for _, place := range s.Places {
				d := &l.sized.Drawings[place.Drawing]
				line := of(paths, d.Name, cuttingWidth, true)[0].points
				for _, p := range of(paths, d.Name, 0.45, true) {
					line = append(line, p.points...)
				}
				lines = append(lines, line)
			}
			for a := range lines {
				for b := range a {
					if g := apart(hull(lines[a]), hull(lines[b])); g < sectionGap-2*grid {
						t.Errorf("%s sheet %d: two sections are %v in apart", l.name, i+1, g)
					}
				}
			}
		}
	}
}

// apart returns the distance of two convex polygons that do not meet, else 0.
func apart(a, b []pos) length {
	best := length(math.Inf(1))
	for _, pair := range [2][2][]pos{{a, b}, {b, a}} {
		for i, p := range pair[0] {
			if inside(p, pair[1]) {
				return 0
			}
			for k, q := range pair[1] {
				best = min(best, segmentDist(p, q, pair[1][(k+1)%len(pair[1])]))
			}
			next := pair[0][(i+1)%len(pair[0])]
			for k, q := range pair[1] {
				r := pair[1][(k+1)%len(pair[1])]
				if cross(sub(next, p), sub(q, p)) > 0 != (cross(sub(next, p), sub(r, p)) > 0) && cross(sub(r, q), sub(p, q)) > 0 != (cross(sub(r, q), sub(next, q)) > 0) {
					return 0
				}
			}
		}
	}
	return best
}

// The length that a sheet names is the length of the line in its file.
func TestTheNamedEdgeIsAsLongAsItSays(t *testing.T) {
	for _, l := range all(t) {
		for i := range l.set.Sheets {
			paths, words := read(t, file(t, &l.set.Sheets[i]))
			_, check, ok := strings.Cut(words, "Check: section ")
			name, rest, _ := strings.Cut(check, ",")
			if !ok {
				t.Fatalf("%s: no edge is named", l.name)
			}
			flat := strings.Join(strings.Fields(rest), " ")
			line := of(paths, name, outlineWidth, false)[0].points
			if strings.Contains(flat, "dashed corner to") {
				line = of(paths, name, cuttingWidth, true)[0].points
			}
			found := false
			for k, a := range line {
				n := dist(a, line[(k+1)%len(line)])
				found = found || strings.Contains(flat, ": "+n.Words(l.p.Settings.Metric, 16))
			}
			if !found {
				t.Errorf("%s sheet %d: no line of section %s is as long as said: %.120s", l.name, i+1, name, flat)
			}
		}
	}
}

func TestSameSheetsAndMarkEveryTime(t *testing.T) {
	for _, l := range all(t)[:8] {
		b := slices.IndexFunc(l.p.Blocks, func(b pattern.Block) bool { return &b.Sizes[0] == l.sized || strings.HasPrefix(l.name, b.Name+" ") })
		again, _ := Lay(l.p, &l.p.Blocks[b], l.sized, l.paper)
		if again.Mark != l.set.Mark || !reflect.DeepEqual(again.Sheets, l.set.Sheets) {
			t.Errorf("%s: two runs differ", l.name)
		}
	}
}

const small4 = `
pattern "Tide" { edition 1 }
fabric sky "sky" light #dfeaf0
fabric sea "sea" dark #25525e
block tide 4 x 4 finished 4in {
  section A {
    1 sky at n + (0, -1)
    2 sea along w -- (4, 1.5)
  }
}`

// The version mark follows what is printed: words, lines, copies; not comments,
// names in the text, or the order of what is not printed.
func TestTheMarkFollowsThePrint(t *testing.T) {
	mark := func(text string) string {
		p := compile(t, text)
		set, problems := Lay(p, &p.Blocks[0], &p.Blocks[0].Sizes[0], p.Settings.Sheet)
		if problem.Failed(problems) {
			t.Fatal(problems)
		}
		return set.Mark
	}
	base := mark(small4)
	for what, text := range map[string]string{
		"a comment":       "// corrected\n" + small4,
		"a fabric's name": strings.ReplaceAll(small4, " sea ", " water "),
		"a color":         strings.Replace(small4, "#25525e", "#000000", 1),
	} {
		if got := mark(text); got != base {
			t.Errorf("%s changes the mark from %s to %s", what, base, got)
		}
	}
	for what, text := range map[string]string{
		"a word":    strings.Replace(small4, `"sea"`, `"deep sea"`, 1),
		"a line":    strings.Replace(small4, "(4, 1.5)", "(4, 1.51)", 1),
		"edition":   strings.Replace(small4, "edition 1", "edition 2", 1),
		"the size":  strings.Replace(small4, "finished 4in", "finished 5in", 1),
		"the sheet": strings.Replace(small4, "edition 1", "edition 1  sheet a4", 1),
	} {
		if mark(text) == base {
			t.Errorf("%s does not change the mark", what)
		}
	}
}

// Text from the pattern stays text, on every page.
func TestHostileTextsOnSheets(t *testing.T) {
	const evil = "\"><script>alert(1)</script>'&\x01\u202E]]>\n\u05d0\u05d1<!--"
	p := compile(t, small4)
	p.Title, p.Fabrics[0].Words, p.Fabrics[1].Words = evil, evil, evil
	p.About = pattern.About{Author: evil, Year: evil, Rights: strings.Repeat(evil, 20), Contact: evil, Corrections: evil}
	p.Blocks[0].Title = evil
	set, problems := Lay(p, &p.Blocks[0], &p.Blocks[0].Sizes[0], p.Settings.Sheet)
	if problem.Failed(problems) {
		t.Fatal(problems)
	}
	data := file(t, &set.Sheets[0])
	paths, words := read(t, data)
	if strings.Contains(string(data), "<script") || strings.Contains(string(data), "\u202E") || len(paths) == 0 {
		t.Error("a script or an override is in the file")
	}
	if !strings.Contains(words, "<script>") {
		t.Error("the author's words are not kept for readers")
	}
	valid(t, data)
}

func TestEveryCodeIsExplained(t *testing.T) {
	for _, info := range Codes() {
		for text, want := range map[string]problem.Code{info.Example: info.Code, info.Cured: ""} {
			p := compile(t, text)
			_, problems := Lay(p, &p.Blocks[0], &p.Blocks[0].Sizes[0], p.Settings.Sheet)
			problems = append(problems, CheckTexts(p)...)
			if want == "" && len(problems) > 0 || want != "" && (len(problems) != 1 || problems[0].Code != want) {
				t.Errorf("%s: want %q, got %v", info.Code, want, problems)
			}
		}
	}
}

// A plain patch that is no rectangle or right triangle is printed as a template.
func TestTemplates(t *testing.T) {
	p := compile(t, small4)
	d := &p.Blocks[0].Sizes[0].Drawings[0]
	odd := []pos{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 3, Y: 4}, {X: 1, Y: 4}}
	d.Plain, d.Outline, d.Pieces, d.Edges = true, odd, d.Pieces[:1], make([]pattern.Edge, 4)
	d.Pieces[0].Polygon = odd
	for shape, want := range map[pattern.Shape]int{pattern.TemplatePatch: 1, pattern.Rectangle: 0} {
		d.Pieces[0].Patch.Shape = shape
		set, _ := Lay(p, &p.Blocks[0], &p.Blocks[0].Sizes[0], p.Settings.Sheet)
		if len(set.Sheets) != want {
			t.Fatalf("shape %d: %d sheets", shape, len(set.Sheets))
		}
		if want == 1 {
			if _, words := read(t, file(t, &set.Sheets[0])); !strings.Contains(words, "template") {
				t.Error("the template does not say that it is one")
			}
		}
	}
}
