package table

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
)

// A JoinRow is one line of the list of a quilt's joins, in words: those that are
// alike.
type JoinRow struct {
	Count  int
	Where  string // "within rows 1, 3"
	What   string // "block to sash"
	Points int    // to match in each
	Press  string // "toward sash", "open"
	Why    string // of Press
	Open   bool   // pressed open
}

// A joinRow is the same under way.
type joinRow struct {
	JoinRow
	step pattern.Step
	of   []int // rows or borders, each once
}

// JoinRows merges the joins of a quilt that are told alike, in sewing order.
func JoinRows(l *pattern.Layout, said *words.Catalogue) []JoinRow {
	rows := joinRows(l, said)
	out := make([]JoinRow, len(rows))
	for i := range rows {
		out[i] = rows[i].JoinRow
		out[i].Where = whereOf(&rows[i], said)
	}
	return out
}

func joinRows(l *pattern.Layout, said *words.Catalogue) (rows []joinRow) {
	ways := oneWay(l)
	for i := range l.Joins {
		j := &l.Joins[i]
		r := joinRow{step: j.Step, JoinRow: JoinRow{Points: len(j.Points), Why: WhyWords(said, j.Why, j.Meet), Open: j.Press == pattern.PressOpen}}
		r.What, r.Press = sidesOf(l, j, said)
		if way := ways[j.Of]; j.Step == pattern.InRow && way != "" {
			r.What, r.Press = said.Say("joins_one_way"), said.Say(way)
		}
		at := slices.IndexFunc(rows, func(o joinRow) bool {
			return o.step == r.step && o.What == r.What && o.Points == r.Points && o.Press == r.Press && o.Why == r.Why
		})
		if at < 0 {
			at = len(rows)
			rows = append(rows, r)
		}
		rows[at].Count++
		if of := rows[at].of; len(of) == 0 || of[len(of)-1] != j.Of {
			rows[at].of = append(of, j.Of)
		}
	}
	slices.SortStableFunc(rows, func(a, b joinRow) int { return cmp.Compare(order(a.step), order(b.step)) })
	return rows
}

// WhyWords says why a join is pressed as it is; meet is its Meet.
func WhyWords(said *words.Catalogue, why pattern.PressReason, meet int) string {
	switch why {
	case pattern.Nests:
		return said.Say("why_nests")
	case pattern.FewerSeams:
		return said.Say("why_fewer")
	case pattern.EitherSide:
		return said.Say("why_either")
	case pattern.ManyMeet:
		return said.Say("why_many", "n", strconv.Itoa(meet))
	case pattern.SameWay:
		return said.Say("why_same")
	case pattern.BothWays:
		return said.Say("why_both")
	case pattern.PlainSide:
		return said.Say("why_plain")
	case pattern.Mitred:
		return said.Say("why_mitre")
	}
	return ""
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
func sidesOf(l *pattern.Layout, j *pattern.QuiltJoin, said *words.Catalogue) (what, press string) {
	left, right := sideOf(l, j, j.Left), sideOf(l, j, j.Right)
	a, b := sideWords(said, min(left, right)), sideWords(said, max(left, right)) // whichever comes first
	what = said.Say("joins_sides", "a", a, "b", b)
	switch {
	case j.Press == pattern.PressOpen:
		return what, said.Say("joins_open")
	case left == right:
		return what, said.Say(wayOf(j))
	case j.Press == pattern.PressLeft:
		return what, said.Say("joins_toward", "side", sideWords(said, left))
	}
	return what, said.Say("joins_toward", "side", sideWords(said, right))
}

// sideWords is the name of what lies on a side, in the words of a catalogue.
func sideWords(said *words.Catalogue, name string) string { return numbered(said, "side_", name) }

// sideOf names what lies on one side of a join, as the model does.
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
				return "inside"
			}
		}
	}
	if i, ok := parts[len(parts)/2].Area(); ok {
		return l.Areas[i].For
	}
	return "block"
}

// wayOf says to which side a join is pressed, as it is seen on the picture: the name
// of a message.
func wayOf(j *pattern.QuiltJoin) string {
	x, y := float64(j.A.Y-j.B.Y), float64(j.B.X-j.A.X) // the left
	if j.Press == pattern.PressRight {
		x, y = -x, -y
	}
	ways := [8]string{"way_right", "way_upper_right", "way_up", "way_upper_left", "way_left", "way_lower_left", "way_down", "way_lower_right"}
	eighth := int(math.Round(math.Atan2(y, x) / (math.Pi / 4)))
	return ways[(eighth+8)%8]
}

// JoiningWords tell in which order the parts of a quilt are joined.
func JoiningWords(q *pattern.Quilt, said *words.Catalogue) string {
	text := []string{said.Say("joins_rows")}
	if q.OnPoint {
		text[0] = said.Say("joins_rows_on_point")
	}
	if slices.ContainsFunc(q.Layout.Rows, func(r pattern.Row) bool { return r.Sashing }) {
		text = append(text, said.Say("joins_sashing"))
	}
	if len(q.Borders) > 0 {
		text = append(text, said.Say("joins_borders"))
	}
	return strings.Join(append(text, said.Say("joins_points")), " ")
}

// JoinSums tell how many joins there are in all, and how many points to match.
func JoinSums(l *pattern.Layout, rows []JoinRow, said *words.Catalogue) string {
	joins, points, open := 0, 0, 0
	for i := range rows {
		joins, points = joins+rows[i].Count, points+rows[i].Count*rows[i].Points
		if rows[i].Open {
			open += rows[i].Count
		}
	}
	text := said.Say("joins_all", "joins", said.Count("joins_n", joins), "points", said.Count("points_n", points))
	if open > 0 {
		text += " " + said.Count("joins_all_open", open)
		if l.Untried {
			text += " " + said.Say("joins_untried")
		}
	}
	return text
}

// TwoWays tell which blocks are pressed otherwise than their own pages say.
func TwoWays(p *pattern.Pattern, l *pattern.Layout, said *words.Catalogue) (all []string) {
	for _, two := range l.Two {
		n := 0
		for i := range l.Placed {
			if at := &l.Placed[i]; at.OtherWay && at.Block == two.Block && at.Size == two.Size {
				n++
			}
		}
		b := &p.Blocks[two.Block]
		joins := make([]int, len(two.Joins))
		for i, j := range two.Joins {
			joins[i] = b.Sizes[two.Size].Joins[j].Number
		}
		all = append(all, said.Say("joins_two_ways", "n", strconv.Itoa(n), "block", b.Title, "joins", numbers(joins, said)))
	}
	return all
}

// A Meeting is two seams of neighboring blocks that must meet, so many times.
type Meeting struct {
	Times int
	A, B  string
}

// Meetings lists which seams of blocks meet those of their neighbors.
func Meetings(p *pattern.Pattern, l *pattern.Layout, said *words.Catalogue) (list []Meeting) {
	for i := range l.Joins {
		ends := l.Joins[i].Ends
		for k := range ends {
			for n := k + 1; n < len(ends) && ends[n].Along-ends[k].Along < sameEnd; n++ {
				if ends[n].Left == ends[k].Left || ends[n].Kind == pattern.OfQuilt || ends[k].Kind == pattern.OfQuilt {
					continue
				}
				a, b := seamWords(p, l, &ends[k], said), seamWords(p, l, &ends[n], said)
				a, b = min(a, b), max(a, b)
				at := slices.IndexFunc(list, func(m Meeting) bool { return m.A == a && m.B == b })
				if at < 0 {
					at = len(list)
					list = append(list, Meeting{A: a, B: b})
				}
				list[at].Times++
			}
		}
	}
	return list
}

// sameEnd is how far apart seams may be computed to end and still meet: less than a
// thread.
const sameEnd pattern.Length = 1e-4

// joining writes the joins of a quilt, and which seams of neighboring blocks meet.
func (w *writer) joining(q *pattern.Quilt) {
	l := q.Layout
	if len(l.Joins) == 0 {
		return
	}
	w.text("\n## ").say("joins").text("\n\n").text(JoiningWords(q, w.said)).text(" ").say("joins_picture").text("\n\n| ").
		say("joins_head").text(" | ").say("joins_where").text(" | ").say("joins_what").text(" | ").say("joins_match").text(" | ").
		say("joins_press").text(" | ").say("joins_why").text(" |\n|---:|---|---|---:|---|---|\n")
	rows := JoinRows(l, w.said)
	for _, r := range rows {
		w.text("| ").count(r.Count).text(" | ").text(r.Where).text(" | ").author(r.What).text(" | ").number(r.Points).text(" | ").author(r.Press).text(" | ").text(r.Why).text(" |\n")
	}
	w.text("\n").text(JoinSums(l, rows, w.said)).text("\n")
	if q.OnPoint && q.Sashing.Width > 0 && (!q.Around || q.Cornerstones == pattern.NoFabric) {
		w.text("\n").say("joins_trim").text("\n")
	}
	for _, text := range TwoWays(w.p, l, w.said) {
		w.text("\n").author(text).text("\n")
	}
	if met := Meetings(w.p, l, w.said); len(met) > 0 {
		w.text("\n").say("meet").text("\n\n| ").say("meet_times").text(" | ").say("meet_seam").text(" | ").say("meet_with").text(" |\n|---:|---|---|\n")
		for _, m := range met {
			w.text("| ").count(m.Times).text(" | ").author(m.A).text(" | ").author(m.B).text(" |\n")
		}
	}
}

// whereOf tells the rows or borders of some joins.
func whereOf(r *joinRow, said *words.Catalogue) string {
	n := numbers(r.of, said)
	switch r.step {
	case pattern.InRow:
		return said.Count("joins_within", len(r.of), "rows", n)
	case pattern.OfRows:
		return said.Count("joins_below", len(r.of), "rows", n)
	case pattern.AtCorner:
		return said.Say("joins_corners")
	}
	return said.Count("joins_border", len(r.of), "borders", n)
}

// fewSecond is from how many steps on every second number is told as such: shorter
// lists are read faster.
const fewSecond = 6

// numbers lists numbers, "1, 3, 5 to 8".
func numbers(all []int, said *words.Catalogue) (text string) {
	for i := 0; i < len(all); {
		end := i
		for end+1 < len(all) && all[end+1] == all[end]+1 {
			end++
		}
		if i > 0 {
			text += ", "
		}
		second := i
		for second+1 < len(all) && all[second+1] == all[second]+2 {
			second++
		}
		switch {
		case second-i >= fewSecond:
			text += said.Say("numbers_second", "from", strconv.Itoa(all[i]), "to", strconv.Itoa(all[second]))
			end = second
		case end == i:
			text += strconv.Itoa(all[i])
		case end == i+1:
			text += strconv.Itoa(all[i]) + ", " + strconv.Itoa(all[end])
		default:
			text += said.Say("numbers", "from", strconv.Itoa(all[i]), "to", strconv.Itoa(all[end]))
		}
		i = end + 1
	}
	return text
}

// SeamName names a seam that ends on a join of a quilt, for programs: "B3 of Harbour
// Boat".
func SeamName(p *pattern.Pattern, l *pattern.Layout, e *pattern.QuiltEnd) string {
	seam, block := seamOf(p, l, e)
	if e.Kind != pattern.OfSection {
		seam = "join " + seam
	}
	if block != "" {
		seam += " of " + block
	}
	return seam
}

func seamWords(p *pattern.Pattern, l *pattern.Layout, e *pattern.QuiltEnd, said *words.Catalogue) string {
	seam, block := seamOf(p, l, e)
	if e.Kind != pattern.OfSection {
		return said.Say("seam_join", "n", seam, "block", block)
	}
	return said.Say("seam_piece", "space", seam, "block", block)
}

// seamOf is the number of a join or the label of a piece, and the title of its block.
func seamOf(p *pattern.Pattern, l *pattern.Layout, e *pattern.QuiltEnd) (seam, block string) {
	at, ok := e.Part.Placed()
	if !ok || e.Kind == pattern.OfQuilt {
		return strconv.Itoa(e.Index + 1), ""
	}
	b := &p.Blocks[l.Placed[at].Block]
	s := &b.Sizes[l.Placed[at].Size]
	if e.Kind == pattern.OfBlock {
		return strconv.Itoa(s.Joins[e.Index].Number), b.Title
	}
	return s.Drawings[s.Copies[e.Copy].Drawing].Label(e.Index), b.Title
}
