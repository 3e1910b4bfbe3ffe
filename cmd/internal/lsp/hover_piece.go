package lsp

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/lang"
)

// mostShown is how many of the pieces that one statement makes are told of.
const mostShown = 3

// pieceFacts tells what a piece's statement became.
func (s *server) pieceFacts(d *document, p *lang.Piece) string {
	all := s.ofShown(d.pieces(p))
	var parts []string
	for _, m := range all[:min(len(all), mostShown)] {
		parts = append(parts, s.onePiece(d, m))
	}
	if more := len(all) - mostShown; more > 0 {
		parts = append(parts, "and "+strconv.Itoa(more)+" more, to "+all[len(all)-1].label())
	}
	return strings.Join(parts, "\n\n")
}

func (m *made) label() string { return m.drawing.Label(m.piece) }

func (s *server) onePiece(d *document, m made) string {
	metric := d.good.pattern.Settings.Metric
	p := &m.drawing.Pieces[m.piece]
	lies := func(at pattern.Pos) pattern.Pos { return at }
	if m.copy != nil {
		lies = m.copy.Motion()
	}
	low, high := box(p.Polygon, lies)
	size := pattern.Size{W: high.X - low.X, H: high.Y - low.Y}
	var b strings.Builder
	b.WriteString("**" + m.label() + "**, " + d.good.pattern.Fabrics[p.Fabric].Words)
	if m.drawing.Make > 1 {
		b.WriteString(", made " + strconv.Itoa(m.drawing.Make) + " times")
	}
	b.WriteString("; " + m.block.Name + " at " + m.size.Finished.Exact() + "\n")
	b.WriteString("- finished: fills " + inBoth(size, metric, 16) + "\n")
	b.WriteString("- cut: " + patch(&p.Patch, metric) + "\n")
	if p.Number > 1 {
		a, z := lies(p.Seam[0]), lies(p.Seam[1])
		long := pattern.Length(math.Hypot(float64(z.X-a.X), float64(z.Y-a.Y)))
		b.WriteString("- seam: " + long.Words(metric, 16) + " long, from " + m.place(a, metric) + " to " + m.place(z, metric) + "\n")
	}
	return b.String()
}

// place writes a point of the block in lengths from its lower left corner, and in
// grid squares.
func (m *made) place(p pattern.Pos, metric bool) string {
	x, y := p.X.In(16), p.Y.In(16)
	if metric {
		x, y = p.X.Cm(), p.Y.Cm()
	}
	squares := m.block.Grid[0] / float64(m.size.Finished.W)
	return x + " right, " + y + " up (" + square(float64(p.X)*squares) + ", " + square(float64(p.Y)*squares) + ")"
}

func inBoth(s pattern.Size, metric bool, to int) string {
	if metric {
		return s.Cm() + " (" + s.In(to) + ")"
	}
	return s.In(to) + " (" + s.Cm() + ")"
}

func patch(p *pattern.Patch, metric bool) string {
	const eighths = 8 // the finest marks of a ruler for cutting
	size := inBoth(p.Size, metric, eighths)
	square := p.Size.W.Words(metric, eighths)
	switch p.Shape {
	case pattern.Square:
		return "a square of " + square
	case pattern.HalfSquare:
		return "half of a square of " + square + ", cut once on the diagonal"
	case pattern.QuarterSquare:
		return "a quarter of a square of " + square + ", cut twice on the diagonals"
	case pattern.HalfRectangle:
		return "half of a rectangle of " + size + ", cut once on the diagonal"
	case pattern.TemplatePatch:
		return "round a template, from cloth of " + size
	}
	return "a rectangle of " + size
}

func box(ps []pattern.Pos, lies func(pattern.Pos) pattern.Pos) (low, high pattern.Pos) {
	for i, p := range ps {
		if p = lies(p); i == 0 {
			low, high = p, p
		}
		low = pattern.Pos{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
		high = pattern.Pos{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
	}
	return low, high
}

// joinFacts tells when a join is sewn, and how long it is.
func (s *server) joinFacts(d *document, j *lang.Join) string {
	follow := d.follow()
	if follow == nil {
		return ""
	}
	var lines []string
	for _, e := range j.Lines {
		at, ok := follow(e.Where().Start)
		if !ok {
			continue
		}
		all := s.ofShown(d.good.joins[at])
		for _, m := range all[:min(len(all), mostShown)] {
			a, z := m.join.A, m.join.B
			long := pattern.Length(math.Hypot(float64(z.X-a.X), float64(z.Y-a.Y)))
			metric := d.good.pattern.Settings.Metric
			lines = append(lines, "**Join "+strconv.Itoa(m.join.Number)+"** of "+strconv.Itoa(len(m.size.Joins))+", "+m.block.Name+" at "+m.size.Finished.Exact()+
				": "+long.Words(metric, 16)+" long, "+count(len(m.join.Points), "point")+" to match")
		}
	}
	return strings.Join(lines, "\n\n")
}
