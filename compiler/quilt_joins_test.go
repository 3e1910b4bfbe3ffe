package compiler_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// fleet compiles a quilt of blocks with sections, joins and plain cloth.
func fleet(t interface {
	Helper()
	Fatalf(string, ...any)
}, quilt string) (*pattern.Pattern, *pattern.Quilt, []problem.Problem) {
	t.Helper()
	text := `fabric sky "sky" light #dfeaf0
fabric sea "sea" dark #25525e
block half 4 x 4 finished 4in {
  section A { 1 sky at (3, 0.5)  2 sea along (0, 1) -- (4, 1) }
}
block rail 4 x 4 finished 4in {
  section B { 1 sky at (1, 3) }
  section C { 1 sea at (1, 1) }
  join w -- e
}
block mixed 4 x 4 finished 4in {
  section D { 1 sky at (1, 3)  2 sea along (2, 2) -- (2, 4) }
  section E { 1 sea at (1, 1)  2 sky along (3, 0) -- (3, 2) }
  join w -- e
}
block diagonal 4 x 4 finished 4in {
  section F { 1 sky at (3, 1)  2 sea along sw -- ne }
}
block tile 4 x 4 finished 4in { section G { 1 sea at c } }
quilt "Fleet" {
` + quilt + "\n}\n"
	p, ps := compiler.Compile(&problem.Source{Name: "fleet.seam", Text: text}, nil)
	if p == nil {
		t.Fatalf("%v\n%s", ps, text)
	}
	if p.Quilts[0].Layout == nil {
		t.Fatalf("%s\n%s", p.Quilts[0].Why, text)
	}
	return p, &p.Quilts[0], ps
}

// drawn makes a quilt at random: rows of blocks in any turn, or on point, with or
// without sashing and borders.
func drawn(t *rapid.T) string {
	n, m := rapid.IntRange(1, 4).Draw(t, "across"), rapid.IntRange(1, 4).Draw(t, "down")
	var b strings.Builder
	onPoint := rapid.Bool().Draw(t, "on point")
	if onPoint {
		m = 2*m - 1
	}
	for i := range m {
		across := n
		if onPoint && i%2 == 1 {
			across--
		}
		if across == 0 {
			return "blocks half, 1 x 1\n on_point sky"
		}
		b.WriteString("row ")
		for k := range across {
			if k > 0 {
				b.WriteString(", ")
			}
			b.WriteString(rapid.SampledFrom([]string{"half", "rail", "mixed", "diagonal", "sky"}).Draw(t, "block"))
			b.WriteString(rapid.SampledFrom([]string{"", " turn 90deg", " turn 180deg", " turn 270deg"}).Draw(t, "turn"))
		}
		b.WriteByte('\n')
	}
	if !strings.ContainsAny(strings.ReplaceAll(b.String(), "deg", ""), "hmd") { // no block
		return "blocks half, 1 x 1"
	}
	if onPoint {
		b.WriteString("on_point sea\n")
	}
	b.WriteString(rapid.SampledFrom([]string{"", "sashing 1in of sky\n", "sashing 1in of sky\n cornerstones sea\n", "sashing 1in of sky, around\n cornerstones sea\n"}).Draw(t, "sashing"))
	b.WriteString(rapid.SampledFrom([]string{"", "border 1in of sea\n", "border 1in of sea, sky\n border 2in of sky\n", "border 1in of sea, mitred\n"}).Draw(t, "border"))
	return b.String()
}

// pieces lists the corners of everything in a part, as it lies in the quilt.
func pieces(p *pattern.Pattern, l *pattern.Layout, part pattern.Part) (all [][]pattern.Pos) {
	if i, ok := part.Area(); ok {
		return [][]pattern.Pos{l.Areas[i].Polygon}
	}
	at := &l.Placed[part]
	s, move := &p.Blocks[at.Block].Sizes[at.Size], at.Motion()
	for i := range s.Copies {
		lay := s.Copies[i].Motion()
		for _, piece := range s.Drawings[s.Copies[i].Drawing].Pieces {
			var polygon []pattern.Pos
			for _, q := range piece.Polygon {
				polygon = append(polygon, move(lay(q)))
			}
			all = append(all, polygon)
		}
	}
	return all
}

// The points to match of a quilt are those where corners of pieces lie on both sides
// of a join, and no others.
func TestQuiltPointsAreCornersOfBothSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := drawn(t)
		p, q, _ := fleet(t, text)
		l := q.Layout
		for i := range l.Joins {
			j := &l.Joins[i]
			along := func(at pattern.Pos) (float64, float64) {
				dx, dy := float64(j.B.X-j.A.X), float64(j.B.Y-j.A.Y)
				x, y := float64(at.X-j.A.X), float64(at.Y-j.A.Y)
				long := math.Hypot(dx, dy)
				return (x*dx + y*dy) / long, (x*dy - y*dx) / long
			}
			var sides [2][]float64
			for side, parts := range [2][]pattern.Part{j.Left, j.Right} {
				for _, part := range parts {
					for _, polygon := range pieces(p, l, part) {
						for _, c := range polygon {
							if at, off := along(c); math.Abs(off) < 1e-6 && at > 1e-6 && at < float64(j.Length())-1e-6 {
								sides[side] = append(sides[side], at)
							}
						}
					}
				}
			}
			var want []float64
			slices.Sort(sides[0])
			for _, at := range sides[0] {
				both := slices.ContainsFunc(sides[1], func(o float64) bool { return math.Abs(o-at) < 1e-6 })
				if both && (len(want) == 0 || at-want[len(want)-1] > 1e-6) {
					want = append(want, at)
				}
			}
			if len(want) != len(j.Points) {
				t.Fatalf("%s: join %d from %v to %v matches at %v, want %v", text, i, j.A, j.B, j.Points, want)
			}
			for k, at := range want {
				if math.Abs(at-float64(j.Points[k])) > 1e-6 {
					t.Fatalf("%s: join %d matches at %v, want %v", text, i, j.Points, want)
				}
			}
		}
	})
}

// final tells which way a seam lies along a join when all is pressed, from where the
// newer piece lies and from what is said of joins: 1 toward B, -1 toward A, 0 open.
func final(p *pattern.Pattern, l *pattern.Layout, j *pattern.QuiltJoin, e *pattern.QuiltEnd) int {
	dir := pattern.Pos{X: j.B.X - j.A.X, Y: j.B.Y - j.A.Y}
	sided := func(a, b pattern.Pos, press pattern.Press) int {
		left := pattern.Pos{X: a.Y - b.Y, Y: b.X - a.X}
		dot := left.X*dir.X + left.Y*dir.Y
		switch {
		case press == pattern.PressOpen:
			return 0
		case (press == pattern.PressLeft) == (dot > 0):
			return 1
		}
		return -1
	}
	if e.Kind == pattern.OfQuilt {
		o := &l.Joins[e.Index]
		return sided(o.A, o.B, o.Press)
	}
	at := &l.Placed[e.Part]
	s, move := &p.Blocks[at.Block].Sizes[at.Size], at.Motion()
	if e.Kind == pattern.OfBlock {
		o := s.Joins[e.Index]
		for _, two := range l.Two {
			if at.OtherWay && two.Block == at.Block && slices.Contains(two.Joins, e.Index) {
				o.Press = map[pattern.Press]pattern.Press{pattern.PressLeft: pattern.PressRight, pattern.PressRight: pattern.PressLeft}[o.Press]
			}
		}
		return sided(move(o.A), move(o.B), o.Press)
	}
	lay := s.Copies[e.Copy].Motion()
	piece := &s.Drawings[s.Copies[e.Copy].Drawing].Pieces[e.Index]
	a, b := move(lay(piece.Seam[0])), move(lay(piece.Seam[1]))
	var middle pattern.Pos
	for _, c := range piece.Polygon {
		c = move(lay(c))
		middle = pattern.Pos{X: middle.X + c.X/pattern.Length(len(piece.Polygon)), Y: middle.Y + c.Y/pattern.Length(len(piece.Polygon))}
	}
	press := pattern.PressLeft
	if (b.X-a.X)*(middle.Y-a.Y) < (b.Y-a.Y)*(middle.X-a.X) {
		press = pattern.PressRight
	}
	return sided(a, b, press)
}

// Wherever two seams meet across a join of a quilt they lie opposite ways, or one of
// the three is open.
func TestQuiltSeamsNestOrAreOpen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := drawn(t)
		p, q, _ := fleet(t, text)
		l := q.Layout
		for i := range l.Joins {
			j := &l.Joins[i]
			if j.Press == pattern.Unpressed || j.Why == pattern.NoReason {
				t.Fatalf("%s: join %d is not pressed", text, i)
			}
			if j.Press == pattern.PressOpen {
				continue
			}
			for a := range j.Ends {
				for b := range j.Ends {
					x, y := &j.Ends[a], &j.Ends[b]
					if !x.Left || y.Left || math.Abs(float64(x.Along-y.Along)) > 1e-6 {
						continue
					}
					if d, e := final(p, l, j, x), final(p, l, j, y); d == e && d != 0 {
						t.Fatalf("%s: at join %d from %v to %v, %v along, %+v and %+v both lie %d", text, i, j.A, j.B, x.Along, x, y, d)
					}
				}
			}
		}
	})
}

// Rows of plain squares are pressed by turns to the left and to the right, so that
// nothing is pressed open ("nest" is opposite directions on meeting rows:
// coffeeandmaking.co.uk, 2020; kristamoser.com, 2023).
func TestRowsArePressedByTurns(t *testing.T) {
	_, q, _ := fleet(t, "blocks tile, 5 x 4")
	way := map[int]pattern.Press{}
	for i := range q.Layout.Joins {
		j := &q.Layout.Joins[i]
		if j.Press == pattern.PressOpen {
			t.Errorf("join %d is open: %v", i, j.Why.Code())
		}
		if j.Step != pattern.InRow {
			continue
		}
		if before, known := way[j.Of]; known && before != j.Press {
			t.Errorf("row %d is pressed two ways", j.Of)
		}
		way[j.Of] = j.Press
	}
	for row := 2; row <= 4; row++ {
		if way[row] == way[row-1] {
			t.Errorf("rows %d and %d are pressed alike", row-1, row)
		}
	}
}

// Sashed rows are pressed toward the sashes, which have no seams, and rows of
// sashing away from the cornerstones: then all nests (common practice, no source).
func TestSashesTakeTheSeams(t *testing.T) {
	for _, setting := range []string{"blocks mixed, 3 x 3\n sashing 1in of sky, around\n cornerstones sea", "blocks mixed, 3 x 3\n on_point sky\n sashing 1in of sky, around\n cornerstones sea"} {
		_, q, _ := fleet(t, setting)
		for i := range q.Layout.Joins {
			j := &q.Layout.Joins[i]
			side := j.Left
			if j.Press == pattern.PressRight {
				side = j.Right
			}
			if a, ok := side[0].Area(); j.Step == pattern.InRow && (!ok || q.Layout.Areas[a].For != "sash" || j.Press == pattern.PressOpen) {
				t.Errorf("%s: join %d of row %d is pressed %v", setting, i, j.Of, j.Press)
			}
		}
	}
}

// A block whose join runs into the same join of its neighbor is pressed the other way
// in every second place: then the two nest.
func TestEverySecondBlockIsPressedTheOtherWay(t *testing.T) {
	p, q, _ := fleet(t, "blocks rail, 4 x 3")
	l := q.Layout
	if len(l.Two) != 1 || p.Blocks[l.Two[0].Block].Name != "rail" || len(l.Two[0].Joins) != 1 {
		t.Fatalf("%+v", l.Two)
	}
	for i := range l.Placed {
		if k := i % 4; k > 0 && l.Placed[i].OtherWay == l.Placed[i-1].OtherWay {
			t.Errorf("blocks %d and %d of row %d are pressed alike", k, k+1, l.Placed[i].Row)
		}
	}
	// Turned by a half, the neighbor's join lies the other way anyway.
	_, q, _ = fleet(t, "row rail, rail turn 180deg, rail\n row rail, rail turn 180deg, rail")
	if len(q.Layout.Two) != 0 {
		t.Errorf("%+v", q.Layout.Two)
	}
}

// Eight seams at the corner of four blocks are pressed open (Pressing,
// ajpadilla.com, opens a windmill's center of eight).
func TestEightSeamsAtACornerArePressedOpen(t *testing.T) {
	_, q, _ := fleet(t, "row diagonal turn 90deg, diagonal\n row diagonal, diagonal turn 90deg")
	for i := range q.Layout.Joins {
		if j := &q.Layout.Joins[i]; j.Step == pattern.OfRows && (j.Press != pattern.PressOpen || j.Why != pattern.ManyMeet || j.Meet != 8) {
			t.Errorf("%v, %v, %d", j.Press, j.Why.Code(), j.Meet)
		}
	}
}

// The near-miss is told at the block's name in its row, with the labels of both
// seams and how far apart they are.
func TestQuiltMissIsToldAtItsBlock(t *testing.T) {
	_, _, ps := fleet(t, "row half, half turn 180deg") // seams at 1 and at 3 in: 2 in apart
	for _, p := range ps {
		if p.Code == "R119" {
			t.Errorf("told: %s", p.Message)
		}
	}
	text := `fabric sky "sky" light #dfeaf0
fabric sea "sea" dark #25525e
block half 4 x 4 finished 4in {
  section A { 1 sky at (3, 1)  2 sea along (0, 1.875) -- (4, 1.875) }
}
quilt "Fleet" {
  row half, sky, half
  row half, half turn 180deg, half
}
`
	p, ps := compiler.Compile(&problem.Source{Name: "fleet.seam", Text: text}, nil)
	if p == nil {
		t.Fatal(ps)
	}
	told := 0
	for _, x := range ps {
		if x.Code != "R119" {
			continue
		}
		told++
		where := x.At.Source.Position(x.At.Span.Start)
		if !strings.Contains(x.Message, "A2 in `half`, block 1 of row 2, and the seam of A2 in `half`, block 2 of row 2, end 1/4 in apart") && !strings.Contains(x.Message, "block 3 of row 2") || where.Line != 8 {
			t.Errorf("line %d: %s", where.Line, x.Message)
		}
	}
	if told != 2 {
		t.Errorf("told %d times: %s", told, fmt.Sprint(ps))
	}
}

// Hundreds of blocks that lie at random can be pressed in more ways than are tried, and
// the quilt says so; of a few all are.
func TestPressedWithoutProof(t *testing.T) {
	blocks := `fabric hull "hull" dark #33312e
fabric sail "sail" light #f3ecdd
block a 4 x 4 finished 4in {
  section { 1 hull at (1, 1) }
  section { 1 sail at (3, 1) }
  section { 1 sail at (1, 3) }
  section { 1 hull at (3, 3) }
  join s -- c
  join c -- n
  join w -- e
}
block b 4 x 4 finished 4in {
  section { 1 hull at (1, 1) }
  section { 1 sail at (3, 1)  2 hull along (2, 2) -- (4, 2) }
  join s -- n
}
block c 4 x 4 finished 4in {
  section { 1 hull at (0.5, 1) }
  section { 1 sail at (1.5, 1) }
  section { 1 sail at (3, 1) }
  join (1, 0) -- (1, 4)
  join s -- n
}
quilt "Q" {
`
	for _, n := range []int{4, 20} {
		rows, at := "", uint32(1)
		for range n {
			var row []string
			for range n {
				at = at*1664525 + 1013904223
				row = append(row, string("abc"[at>>16%3])+" turn "+[]string{"0", "90", "180", "270"}[at>>20%4]+"deg")
			}
			rows += "  row " + strings.Join(row, ", ") + "\n"
		}
		p, ps := compile(blocks + rows + "}\n")
		if p == nil || p.Quilts[0].Layout == nil {
			t.Fatal(show(ps))
		}
		if l := p.Quilts[0].Layout; l.Untried != (n > 4) {
			t.Errorf("%d x %d blocks: untried %v", n, n, l.Untried)
		}
	}
}
