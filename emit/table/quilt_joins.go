package table

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
)

// A joinRow is one line of the list of a quilt's joins: those that are alike.
type joinRow struct {
	step   pattern.Step
	what   string // "block to sash"
	points int
	press  string
	why    string
	of     []int // rows or borders, each once
	count  int
}

// joinRows merges the joins of a quilt that are told alike, in sewing order.
func joinRows(l *pattern.Layout) (rows []joinRow) {
	ways := oneWay(l)
	for i := range l.Joins {
		j := &l.Joins[i]
		r := joinRow{step: j.Step, points: len(j.Points), why: j.Why.Words(j.Meet)}
		r.what, r.press = sidesOf(l, j)
		if j.Step == pattern.InRow && ways[j.Of] != "" {
			r.what, r.press = "its parts, one way", ways[j.Of]
		}
		at := slices.IndexFunc(rows, func(o joinRow) bool {
			return o.step == r.step && o.what == r.what && o.points == r.points && o.press == r.press && o.why == r.why
		})
		if at < 0 {
			at = len(rows)
			rows = append(rows, r)
		}
		rows[at].count++
		if of := rows[at].of; len(of) == 0 || of[len(of)-1] != j.Of {
			rows[at].of = append(of, j.Of)
		}
	}
	slices.SortStableFunc(rows, func(a, b joinRow) int { return cmp.Compare(order(a.step), order(b.step)) })
	return rows
}

// oneWay returns for the rows whose joins are all pressed one way, which that is.
func oneWay(l *pattern.Layout) map[int]string {
	ways, several := map[int]string{}, map[int]bool{}
	for i := range l.Joins {
		if j := &l.Joins[i]; j.Step == pattern.InRow {
			way := ""
			if j.Press != pattern.PressOpen {
				way = wayOf(j)
			}
			before, known := ways[j.Of]
			ways[j.Of] = way
			several[j.Of] = several[j.Of] || known && before != way
		}
	}
	for row := range several {
		if several[row] {
			delete(ways, row)
		}
	}
	return ways
}

// order puts both kinds of joins of borders together.
func order(s pattern.Step) pattern.Step { return min(s, pattern.InBorder) }

// sidesOf says what lies on both sides of a join, and toward what it is pressed: by
// name where the sides differ, else by the way on the picture.
func sidesOf(l *pattern.Layout, j *pattern.QuiltJoin) (what, press string) {
	left, right := sideOf(l, j, j.Left), sideOf(l, j, j.Right)
	what = left + " to " + right
	if left > right { // whichever comes first
		what = right + " to " + left
	}
	switch {
	case j.Press == pattern.PressOpen:
		return what, "open"
	case left == right:
		return what, wayOf(j)
	case j.Press == pattern.PressLeft:
		return what, "toward " + the(left)
	}
	return what, "toward " + the(right)
}

// the puts an article before what has no number of its own.
func the(side string) string {
	if last := side[len(side)-1]; last >= '0' && last <= '9' || side == "sashing" {
		return side
	}
	return "the " + side
}

// sideOf names what lies on one side of a join.
func sideOf(l *pattern.Layout, j *pattern.QuiltJoin, parts []pattern.Part) string {
	if j.Step == pattern.OfRows {
		for _, r := range [2]int{j.Of - 1, j.Of} {
			if row := &l.Rows[r]; slices.Contains(row.Parts, parts[len(parts)/2]) {
				if row.Sashing {
					return "sashing"
				}
				return "row"
			}
		}
	}
	if j.Step != pattern.InRow && len(parts) > 1 {
		for _, part := range parts { // a strip with squares at its ends is a border
			if i, ok := part.Area(); !ok || !strings.Contains(l.Areas[i].For, "border") {
				return "what it surrounds"
			}
		}
	}
	if i, ok := parts[len(parts)/2].Area(); ok {
		return l.Areas[i].For
	}
	return "block"
}

// wayOf says to which side a join is pressed, as it is seen on the picture.
func wayOf(j *pattern.QuiltJoin) string {
	x, y := float64(j.A.Y-j.B.Y), float64(j.B.X-j.A.X) // the left
	if j.Press == pattern.PressRight {
		x, y = -x, -y
	}
	ways := [8]string{"to the right", "to the upper right", "up", "to the upper left", "to the left", "to the lower left", "down", "to the lower right"}
	eighth := int(math.Round(math.Atan2(y, x) / (math.Pi / 4)))
	return ways[(eighth+8)%8]
}

// joining lists the joins of a quilt, and which seams of neighboring blocks meet.
func (w *writer) joining(q *pattern.Quilt) {
	l := q.Layout
	if len(l.Joins) == 0 {
		return
	}
	w.text("\n## Joining\n\nSew each row first, then row to row")
	if q.OnPoint {
		w.text(", then the corner triangles")
	}
	if len(q.Borders) > 0 {
		w.text(", then the borders, from the inside out")
	}
	w.text(". Rows are counted from the ")
	if q.OnPoint {
		w.text("upper left corner and run up to the right")
	} else {
		w.text("top")
	}
	w.text(", rows of sashing too; the picture \"pressing\" beside this file shows them, with an arrow for every join. A point to match is where seams of both sides meet: pin through it.\n")
	w.text("\n| Joins | Where | What | Points to match in each | Press | Why |\n|---:|---|---|---:|---|---|\n")
	points, open := 0, 0
	for _, r := range joinRows(l) {
		w.text("| ").count(r.count).text(" | ").text(whereOf(&r)).text(" | ").author(r.what).text(" | ").number(r.points).text(" | ").author(r.press).text(" | ").text(r.why).text(" |\n")
		points += r.count * r.points
		if r.press == "open" {
			open += r.count
		}
	}
	w.text("\nIn all ").number(len(l.Joins)).text(" joins with ").number(points).text(" points to match")
	if open == 1 {
		w.text("; one join is pressed open")
	} else if open > 1 {
		w.text("; ").number(open).text(" joins are pressed open")
	}
	w.text(".\n")
	w.twoWays(l)
	w.meetings(l)
}

// whereOf tells the rows or borders of some joins.
func whereOf(r *joinRow) string {
	switch r.step {
	case pattern.InRow:
		return "within row" + numbers(r.of)
	case pattern.OfRows:
		return "below row" + numbers(r.of)
	case pattern.AtCorner:
		return "corners"
	}
	return "border" + numbers(r.of)
}

// numbers lists numbers, "s 1, 3, 5 to 8".
func numbers(all []int) string {
	text := " "
	if len(all) > 1 {
		text = "s "
	}
	for i := 0; i < len(all); {
		end := i
		for end+1 < len(all) && all[end+1] == all[end]+1 {
			end++
		}
		if i > 0 {
			text += ", "
		}
		text += strconv.Itoa(all[i])
		switch {
		case end == i+1:
			text += ", " + strconv.Itoa(all[end])
		case end > i:
			text += " to " + strconv.Itoa(all[end])
		}
		i = end + 1
	}
	return text
}

// twoWays tells which blocks are pressed otherwise than their own pages say.
func (w *writer) twoWays(l *pattern.Layout) {
	for _, two := range l.Two {
		n := 0
		for i := range l.Placed {
			if at := &l.Placed[i]; at.OtherWay && at.Block == two.Block && at.Size == two.Size {
				n++
			}
		}
		b := &w.p.Blocks[two.Block]
		joins := make([]int, len(two.Joins))
		for i, j := range two.Joins {
			joins[i] = b.Sizes[two.Size].Joins[j].Number
		}
		w.text("\nIn ").count(n).text(" of the blocks ").author(b.Title).text(", gray in that picture, press join").text(numbers(joins)).
			text(" of the block to the other side than its own pages say: then seams nest with those of the neighbors.\n")
	}
}

// meetings lists which seams of blocks meet those of their neighbors.
func (w *writer) meetings(l *pattern.Layout) {
	type pair struct{ a, b string }
	var list []pair
	count := map[pair]int{}
	for i := range l.Joins {
		ends := l.Joins[i].Ends
		for k := range ends {
			for n := k + 1; n < len(ends) && ends[n].Along-ends[k].Along < sameEnd; n++ {
				if ends[n].Left == ends[k].Left || ends[n].Kind == pattern.OfQuilt || ends[k].Kind == pattern.OfQuilt {
					continue
				}
				p := pair{SeamName(w.p, l, &ends[k]), SeamName(w.p, l, &ends[n])}
				if p.a > p.b {
					p.a, p.b = p.b, p.a
				}
				if count[p]++; count[p] == 1 {
					list = append(list, p)
				}
			}
		}
	}
	if len(list) == 0 {
		return
	}
	w.text("\nSeams of neighboring blocks that must meet:\n\n| Times | Seam | meets seam |\n|---:|---|---|\n")
	for _, p := range list {
		w.text("| ").count(count[p]).text(" | ").author(p.a).text(" | ").author(p.b).text(" |\n")
	}
}

// sameEnd is how far apart seams may be computed to end and still meet: less than a
// thread.
const sameEnd pattern.Length = 1e-4

// SeamName names a seam that ends on a join of a quilt: "B3 of Harbour Boat".
func SeamName(p *pattern.Pattern, l *pattern.Layout, e *pattern.QuiltEnd) string {
	at, ok := e.Part.Placed()
	if !ok || e.Kind == pattern.OfQuilt {
		return "join " + strconv.Itoa(e.Index+1)
	}
	b := &p.Blocks[l.Placed[at].Block]
	s := &b.Sizes[l.Placed[at].Size]
	if e.Kind == pattern.OfBlock {
		return "join " + strconv.Itoa(s.Joins[e.Index].Number) + " of " + b.Title
	}
	return s.Drawings[s.Copies[e.Copy].Drawing].Label(e.Index) + " of " + b.Title
}
