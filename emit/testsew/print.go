package testsew

import (
	"fmt"
	"math"
	"slices"
)

// What a maker prints is not the sheets that are sewn here, but one file with all of
// them. So every line of the one has to be in the other, where it is there, as broad and
// broken as it is there. Texts are not compared: what the sheets say is judged on them.

// asPrinted is how far apart, in inches, a line may lie in both: each is written to a
// hundredth of its unit, of a millimetre and of a point.
const asPrinted = 0.001

// A mark is a straight stretch of a line, or the middle of a circle, and what is seen
// of it: all for nil.
type mark struct {
	width, dash, gap float64
	filled, circle   bool
	a, b             pt
	window           *box
}

// marks lists what is drawn in a group and those in it, seen in a window.
func (g *group) marks(window *box) (all []mark) {
	strokes := g.strokes
	if g.window != nil {
		strokes, window = g.whole, g.window
	}
	for _, s := range strokes {
		look := mark{width: s.width, dash: s.dash, gap: s.gap, filled: s.filled, circle: s.circle, window: window}
		if s.circle {
			look.a, look.b = s.points[0], s.points[0]
			all = append(all, look)
			continue
		}
		points := s.points
		if s.closed {
			points = append(slices.Clone(points), points[0])
		}
		for i := 1; i < len(points); i++ {
			look.a, look.b = points[i-1], points[i]
			all = append(all, look)
		}
	}
	for _, sub := range g.groups {
		all = append(all, sub.marks(window)...)
	}
	return all
}

// is reports whether both are the same mark.
func (m *mark) is(n *mark) bool {
	const width = 0.01 // mm
	near := func(a, b float64) bool { return math.Abs(a-b) < width }
	if m.filled != n.filled || m.circle != n.circle || !near(m.width, n.width) || !near(m.dash, n.dash) || !near(m.gap, n.gap) {
		return false
	}
	if (m.window == nil) != (n.window == nil) || m.window != nil && !m.window.is(*n.window) {
		return false
	}
	return m.a.to(n.a) < asPrinted && m.b.to(n.b) < asPrinted || m.a.to(n.b) < asPrinted && m.b.to(n.a) < asPrinted
}

func (a box) is(b box) bool {
	return max(math.Abs(a.x0-b.x0), math.Abs(a.y0-b.y0), math.Abs(a.x1-b.x1), math.Abs(a.y1-b.y1)) < asPrinted
}

func (m *mark) String() string {
	at := func(p pt) string { return fmt.Sprintf("%.2f, %.2f in", p.x, p.y) }
	if m.circle {
		return "a circle about " + at(m.a)
	}
	return "a line from " + at(m.a) + " to " + at(m.b)
}

// lacking returns the marks of which another list has none left, but for lines too short
// to be written in both.
func lacking(marks, of []mark) (out []mark) {
	cell := func(m *mark) [2]int {
		const per = 20 // an inch
		return [2]int{int(math.Round((m.a.x + m.b.x) / 2 * per)), int(math.Round((m.a.y + m.b.y) / 2 * per))}
	}
	in := map[[2]int][]int{}
	for i := range of {
		in[cell(&of[i])] = append(in[cell(&of[i])], i)
	}
	taken := make([]bool, len(of))
next:
	for i := range marks {
		c := cell(&marks[i])
		for k := range 9 {
			for _, n := range in[[2]int{c[0] + k%3 - 1, c[1] + k/3 - 1}] {
				if !taken[n] && marks[i].is(&of[n]) {
					taken[n] = true
					continue next
				}
			}
		}
		if marks[i].circle || marks[i].a.to(marks[i].b) > 2*asPrinted {
			out = append(out, marks[i])
		}
	}
	return out
}

// printed compares the file to print with the sheets, page by page.
func (w *work) printed(sheets []*group, data []byte) error {
	pages, err := readPDF(data)
	if err != nil {
		return fmt.Errorf("%s: %w", printFile, err)
	}
	if len(pages) != len(sheets) {
		w.find(fmt.Sprintf("%s has %s, and there are %s", printFile, plural(len(pages), "page"), plural(len(sheets), "sheet")))
		return nil
	}
	for i := range pages {
		drawn, page := sheets[i].marks(nil), pages[i].marks(nil)
		w.b.Printed += len(drawn)
		for k, list := range [2][]mark{lacking(drawn, page), lacking(page, drawn)} {
			if len(list) > 0 {
				w.find(fmt.Sprintf("%s is only on %s, as are %d more", list[0].String(), [2]string{fmt.Sprintf("sheet %d and not on its page of %s", i+1, printFile), fmt.Sprintf("page %d of %s and not on its sheet", i+1, printFile)}[k], len(list)-1))
			}
		}
	}
	return nil
}
