package sheet

import (
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
	boats "seamwright/emit/internal/sample"
	"seamwright/lang/problem"
)

// shapes draws some convex shapes that fit a room.
func shapes(t *rapid.T, w, h length) (items []item) {
	n := rapid.IntRange(1, 24).Draw(t, "n")
	for i := range n {
		var ps []pos
		for range rapid.IntRange(3, 6).Draw(t, "corners") {
			ps = append(ps, pos{X: length(rapid.Float64Range(0, float64(w)*0.99).Draw(t, "x")), Y: length(rapid.Float64Range(0, float64(h)*0.99).Draw(t, "y"))})
		}
		line := hull(ps)
		if len(line) < 3 || area(line) < 0.01 {
			line = []pos{{}, {X: 1}, {X: 1, Y: 1}}
		}
		items = append(items, item{drawing: i, line: line, box: boxOf(line)})
	}
	return items
}

// However sections are packed: all are placed once, inside the room, at least
// 3/8 in apart; twice the same.
func TestPackingHolds(t *testing.T) {
	const w, h = 7.5, 8
	for name, run := range map[string]func([]item) [][]Place{
		"skyline":  func(is []item) [][]Place { return pack(is, pos{X: 0.5, Y: 2}, w, h, true) },
		"unturned": func(is []item) [][]Place { return pack(is, pos{X: 0.5, Y: 2}, w, h, false) },
		"nested":   func(is []item) [][]Place { return nest(is, pos{X: 0.5, Y: 2}, w, h, quarterTurns) },
		"any":      func(is []item) [][]Place { return nest(is, pos{X: 0.5, Y: 2}, w, h, anyTurns) },
	} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				items := shapes(t, w, h)
				sheets := run(items)
				if !reflect.DeepEqual(sheets, run(items)) {
					t.Fatal("two runs differ")
				}
				seen := map[int]bool{}
				for _, s := range sheets {
					var placed [][]pos
					for _, p := range s {
						if seen[p.Drawing] {
							t.Fatalf("%d is placed twice", p.Drawing)
						}
						seen[p.Drawing] = true
						shape := turnedLine(items[p.Drawing].line, p.Turn)
						for i := range shape {
							shape[i] = add(shape[i], p.Shift)
						}
						if b := boxOf(shape); b.x0 < 0.5-1e-5 || b.y0 < 2-1e-5 || b.x1 > 0.5+w+1e-5 || b.y1 > 2+h+1e-5 {
							t.Fatalf("%d lies at %v", p.Drawing, b)
						}
						for _, other := range placed {
							if g := apart(shape, other); g < sectionGap-1e-4 {
								t.Fatalf("%d is %v in from another", p.Drawing, g)
							}
						}
						placed = append(placed, shape)
					}
				}
				if len(seen) != len(items) {
					t.Fatalf("%d of %d are placed", len(seen), len(items))
				}
			})
		})
	}
}

// Two right triangles of 5 in go on one letter sheet if one is turned half
// round, but not as their boxes.
func TestTrianglesAreNested(t *testing.T) {
	tri := []pos{{}, {X: 5}, {Y: 5}}
	items := []item{{drawing: 0, line: tri, box: boxOf(tri)}, {drawing: 1, line: tri, box: boxOf(tri)}}
	if n := len(pack(items, pos{}, 7.5, 8, true)); n != 2 {
		t.Errorf("boxes take %d sheets", n)
	}
	if n := len(nest(items, pos{}, 7.5, 8, quarterTurns)); n != 1 {
		t.Errorf("nested they take %d sheets", n)
	}
}

// A strip too long for both directions lies aslant: 9 1/2 in long and 1 in wide in
// 7.5 x 8 in.
func TestLongSectionsLieAslant(t *testing.T) {
	strip := []pos{{}, {X: 9.5}, {X: 9.5, Y: 1}, {Y: 1}}
	it := item{drawing: 0, line: strip, box: boxOf(strip)}
	turn, ok := it.turnFor(7.5, 8)
	if !ok || turn == 0 || turn == 90 {
		t.Errorf("turned by %v, %v", turn, ok)
	}
	long := []pos{{}, {X: 12}, {X: 12, Y: 1}, {Y: 1}}
	if turn, ok := (&item{drawing: 0, line: long, box: boxOf(long)}).turnFor(7.5, 8); ok {
		t.Errorf("12 in fits at %v", turn)
	}
}

// Where one section of a set must lie across, all do if that costs no sheet: so edges
// that are joined are stretched alike. The boat's hull of 8 1/2 in fits letter in one
// way only; its sails fit both ways, on a sheet each.
func TestSectionsLieAlike(t *testing.T) {
	p := boats.Boat()
	letter, _ := pattern.SheetNamed("letter")
	set, problems := Lay(p, &p.Blocks[0], &p.Blocks[0].Sizes[0], letter)
	if problem.Failed(problems) {
		t.Fatal(problems)
	}
	for i := range set.Sheets {
		for _, place := range set.Sheets[i].Places {
			if math.Mod(place.Turn, 180) != 90 {
				t.Errorf("section %d is turned by %v", place.Drawing, place.Turn)
			}
		}
	}
	if len(set.Sheets) != 3 {
		t.Errorf("they take %d sheets", len(set.Sheets))
	}
	// Two rectangles, joined or not, on paper of 7.5 x 9 in: only where it helps and costs
	// nothing is the second turned with the first, which fits in one way only.
	rect := func(drawing int, w, h length) item {
		c := box{0, 0, w, h}.corners()
		return item{drawing: drawing, line: c[:], box: boxOf(c[:])}
	}
	for _, c := range []struct {
		what   string
		items  []item
		turn   float64 // of the second's copy in the block
		joined bool
		want   []float64
	}{
		{"both fit across", []item{rect(0, 8, 5), rect(1, 7, 5)}, 0, true, []float64{90, 90}},
		{"not joined", []item{rect(0, 8, 5), rect(1, 7, 5)}, 0, false, []float64{90, 0}},
		{"the second lies across in the block", []item{rect(0, 8, 5), rect(1, 7, 5)}, 90, true, []float64{90, 0}},
		{"the second fits in one way only", []item{rect(0, 8, 3), rect(1, 3, 8)}, 0, true, []float64{90, 0}},
		{"a third sheet", []item{rect(0, 8, 3), rect(1, 3, 4), rect(2, 3, 4)}, 0, true, []float64{90, 90, 90}},
		{"nothing lies across", []item{rect(0, 3, 3), rect(1, 4, 8)}, 0, true, []float64{0, 0}},
	} {
		sized := &pattern.Sized{Copies: []pattern.Copy{{Drawing: 0}, {Drawing: 1, Turn: c.turn}, {Drawing: 2}}}
		if c.joined {
			sized.Joins = []pattern.Join{{Left: []int{0}, Right: []int{1}}}
		}
		l := &layout{p: p, sized: sized}
		fs := &frames{l: l, made: []frame{{room: box{0, 0, 7.5, 9}}}, tried: ways}
		runs := []run{{print: 1, items: slices.Clone(c.items)}}
		plans := l.packRun(runs[0], fs)
		after := l.oneWay(plans, runs, fs)
		if len(after) > len(plans) {
			t.Errorf("%s: %d sheets become %d", c.what, len(plans), len(after))
		}
		for i := range after {
			for _, place := range after[i].places {
				if math.Abs(place.Turn-c.want[place.Drawing]) > 1e-9 {
					t.Errorf("%s: %d is turned by %v", c.what, place.Drawing, place.Turn)
				}
			}
		}
	}
}

// BenchmarkPack shows that the cost of a section does not grow with their number.
func BenchmarkPack(b *testing.B) {
	for _, n := range []int{500, 4000} {
		r := rand.New(rand.NewPCG(1, 2))
		var items []item
		for i := range n {
			b := box{0, 0, length(1 + 3*r.Float64()), length(1 + 3*r.Float64())}
			c := b.corners()
			items = append(items, item{drawing: i, line: c[:], box: b})
		}
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				pack(items, pos{}, 7.5, 8, true)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/section")
		})
	}
}

// The blunted corner, worked by hand. A corner of 45 degrees between a join and
// the border, allowance 1/4 in: the tip of the mitre would reach 0.65 in
// (1/4 / sin 22.5), the blunted one ends where the border's cutting line of the
// neighbour does, for the two make a square corner together: on the line that is
// 1/4 in beyond the corner (worked from the requirement; no source).
func TestBluntedCorner(t *testing.T) {
	d := &pattern.Drawing{
		Outline: []pos{{}, {X: 4}, {Y: 4}},
		Edges:   []pattern.Edge{{Kind: pattern.Border}, {Kind: pattern.Joined}, {Kind: pattern.Border}},
	}
	s := &pattern.Sized{
		Drawings: []pattern.Drawing{*d},
		Copies:   []pattern.Copy{{}},
		Joins:    []pattern.Join{{Number: 1, A: pos{X: 4}, B: pos{Y: 4}, Left: []int{0}}},
	}
	b := blunts(d, 0, func() *sewn { return newSewn(s) })
	c := offset(d.Outline, func(int) length { return 0.25 }, b)
	if box := boxOf(c.at); math.Abs(float64(box.x1-4.25)) > 1e-9 || math.Abs(float64(box.y1-4.25)) > 1e-9 || box.x0 != -0.25 {
		t.Errorf("the cutting line reaches to %v", box)
	}
}

// Where a seam ends on a longer straight join, at any angle, the raw edges of
// the two sides end together when laid right sides together, and no cloth
// is taken from within the allowance of any edge.
func TestBluntedEdgesLineUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(10, 89).Draw(t, "angle") * math.Pi / 180
		a := length(rapid.Float64Range(0.1, 0.5).Draw(t, "allowance"))
		// The long join is the x axis; the seam rises from the origin.
		top := pos{X: length(8 * math.Cos(angle)), Y: length(8 * math.Sin(angle))}
		sharp := []pos{{}, {X: 8}, add(top, pos{X: 8}), top}
		wide := []pos{{X: -8}, {}, top, sub(top, pos{X: 8})}
		first := func(edges, seam int) []blunt { // the seam is sewn first at its lower end
			out := make([]blunt, edges)
			out[(seam+1)%edges] = blunt{before: true}
			return out
		}
		by := func(int) length { return a }
		sharpCut, wideCut := offset(sharp, by, first(4, 3)), offset(wide, by, nil)
		left, right := sharpCut.corner(0), wideCut.corner(1)
		seam := unit(pos{}, top)
		// Laid right sides together, the wide side is mirrored in the seam.
		end := right[0]
		folded := mirror(end, seam)
		if dist(left[0], folded) > 1e-9 {
			t.Fatalf("the sharp side ends at %v, the wide one, folded over, at %v", left[0], folded)
		}
		// Every point within the allowance of the corner is still on cloth.
		cloth := sharpCut.at
		for k := range 64 {
			sin, cos := math.Sincos(float64(k) / 32 * math.Pi)
			if p := (pos{X: length(cos) * a * 0.999, Y: length(sin) * a * 0.999}); !inside(p, cloth) {
				t.Fatalf("cloth is missing at %v", p)
			}
		}
	})
}
