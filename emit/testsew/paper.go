package testsew

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A section is one foundation as it is read from a sheet, reversed: from the
// front, as its cloth will lie.
type section struct {
	name    string
	sheet   string // file name
	prints  int    // how often the sheet is printed for one block
	outline poly
	cut     poly // the line it is trimmed on
	extra   poly // the line further out on the block's border, if there is one
	seams   [][2]pt
	marks   []tick
	stops   []pt // where a partial seam stops at first, by the bars in the allowance
	numbers []label
	edges   []told
	words   string // all words that stand in and around it
	spaces  []space
}

// A label is a number and where it stands, or where its leader points.
type label struct {
	number int
	at     pt
	words  string // that stand with it in the space
	grain  pt     // the direction of the arrow that stands there too; zero where there is none
}

// A tick is a match mark: it begins on the outline and points out.
type tick struct{ at, out pt }

// A told is what stands in an edge's allowance about what it is sewn to.
type told struct {
	words string
	at    pt
}

// same is how near two drawn points must be to be one. Sheets are written to
// 0.01 mm, and different points of a block are at least 1/64 in apart.
const same = 0.003

// prints reads how often a sheet is printed from its head, in either language
// that sheets come in.
func prints(words string) int {
	if _, after, ok := strings.Cut(strings.ToLower(words), "je block "); ok {
		often, _, said := strings.Cut(after, " drucken")
		n, _ := strconv.Atoi(strings.TrimSuffix(often, "-mal"))
		if often == "einmal" {
			n = 1
		}
		if said {
			return n
		}
	}
	_, after, ok := strings.Cut(strings.ToLower(words), "print ")
	often, _, said := strings.Cut(after, " for one block")
	if !ok || !said {
		return 0
	}
	if often == "once" {
		return 1
	}
	n, _ := strconv.Atoi(strings.TrimSuffix(often, " times"))
	return n
}

// A sheet is what is on one page.
type sheet struct {
	page     *group // all that is on it
	prints   int    // for one block
	sections []*section
	parts    []*sheetPart
}

// readPaper reads all sections of a sheet, and parts of them.
func readPaper(file string, data []byte) (*sheet, error) {
	page, err := readSheet(data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	often := 0
	for _, head := range page.find("head") {
		often = max(often, prints(head.words))
	}
	if often == 0 {
		return nil, fmt.Errorf("%s does not say how often it is printed", file)
	}
	out := &sheet{page: page, prints: often}
	for _, g := range page.find("part") {
		p, err := readPart(file, g)
		if err != nil {
			return nil, fmt.Errorf("%s, %s: %w", file, g.id, err)
		}
		p.prints = often
		out.parts = append(out.parts, p)
	}
	for _, g := range page.find("section") {
		s := &section{name: strings.TrimPrefix(g.id, "section-"), sheet: file, prints: often, words: g.words}
		if err := s.lines(g); err != nil {
			return nil, fmt.Errorf("%s, section %s: %w", file, s.name, err)
		}
		s.labels(g)
		out.sections = append(out.sections, s)
	}
	return out, nil
}

// reversed turns a sheet over: what is printed at the left lies at the right of
// the front. Paper has y down, the front has y up.
func reversed(p pt) pt { return pt{-p.x, -p.y} }

// lines sorts the strokes of a section by how they look, as the legend tells:
// heavy, dashed, dotted, thin; and a thin one by where it lies, since match marks
// are as thin as sewing lines, but stand in the allowance.
func (s *section) lines(g *group) error {
	var thin []stroke
	var dotted []poly
	for _, k := range g.strokes {
		line := poly(k.points).mapped(reversed)
		switch {
		case k.filled || k.circle:
		case k.closed && k.dash == 0 && k.gap == 0 && k.width > 0.5:
			if s.outline != nil {
				return fmt.Errorf("it has two outlines")
			}
			s.outline = line.ccw()
		case k.closed && k.dash > 2:
			s.cut = line.ccw()
		case k.dash == 0 && k.gap > 0:
			dotted = append(dotted, line)
		case !k.closed && k.gap == 0 && k.width > 0.2 && len(line) == 2:
			thin = append(thin, stroke{points: line})
		}
	}
	if len(s.outline) < 3 {
		return fmt.Errorf("it has no outline")
	}
	for _, line := range dotted {
		if s.extra == nil {
			s.extra = s.cut
		}
		s.extra = s.extra.detour(line)
	}
	for _, k := range thin {
		a, b := k.points[0], k.points[1]
		switch at, along := s.outline.beside(a, b); {
		case s.outline.holds(a.mid(b)):
			s.seams = append(s.seams, [2]pt{a, b})
		case along:
			s.stops = append(s.stops, at)
		default:
			s.marks = append(s.marks, tick{a, b.sub(a).unit()})
		}
	}
	return nil
}

// beside returns the point of the nearest side that is opposite the middle of a
// stroke, and whether the stroke runs along that side without touching it.
func (p poly) beside(a, b pt) (at pt, along bool) {
	best, m := math.Inf(1), a.mid(b)
	for i := range p {
		q, r := p.side(i)
		if d := fromSegment(m, q, r); d < best {
			l := through(q, r)
			best, at = d, l.point(l.along(m), 0)
			along = math.Abs(l.side(a)-l.side(b)) < same && math.Abs(l.side(a)) > same
		}
	}
	return at, along
}

// detour lets the way round a polygon follow a chain outside it, from where the
// chain leaves the polygon to where it comes back; a closed chain replaces it.
func (p poly) detour(chain poly) poly {
	on := func(q pt) (side int) {
		best := math.Inf(1)
		for i := range p {
			a, b := p.side(i)
			if d := fromSegment(q, a, b); d < best {
				best, side = d, i
			}
		}
		return side
	}
	if len(chain) < 2 {
		return p
	}
	from, to := chain[0], chain[len(chain)-1]
	if from.to(to) < same || len(p) == 0 {
		return chain.ccw()
	}
	best := p
	for _, c := range [2]poly{chain, chain.backwards()} {
		i, j := on(c[len(c)-1]), on(c[0])
		out := append(poly(nil), c...)
		for k := i; k != j; k = (k + 1) % len(p) {
			out = append(out, p[(k+1)%len(p)])
		}
		if out.area() > best.area() {
			best = out
		}
	}
	return best
}

// arrow returns the direction of the arrow beside a label, which says how the cloth's
// straight grain lies: of the only long stroke there.
func (g *group) arrow() pt {
	const long = 0.2 // inches; its heads are shorter, and chains of three points
	for _, s := range g.strokes {
		if len(s.points) == 2 && !s.closed && !s.circle && s.points[0].to(s.points[1]) > long {
			return reversed(s.points[1]).sub(reversed(s.points[0])).unit()
		}
	}
	return pt{}
}

// labels finds the number of each space: it stands in the space, or, where the
// space is tiny, at the other end of a leader that points into it.
func (s *section) labels(g *group) {
	have := map[int]bool{}
	for _, sub := range g.groups {
		if sub.class == "edge" && len(sub.texts) > 0 {
			var sum pt
			for _, at := range sub.texts {
				sum = sum.add(at)
			}
			at := reversed(sum.mul(1 / float64(len(sub.texts))))
			s.edges = append(s.edges, told{strings.TrimSpace(sub.words), at})
			s.words += " " + sub.words
			continue
		}
		first, rest, _ := strings.Cut(strings.TrimSpace(sub.words), " ")
		n, err := strconv.Atoi(strings.TrimPrefix(first, s.name))
		s.words += " " + sub.words
		if err != nil || len(sub.texts) == 0 {
			continue
		}
		s.numbers = append(s.numbers, label{n, reversed(sub.texts[0]), rest, sub.arrow()})
		have[n] = true
	}
	var dots []pt
	for _, k := range g.strokes {
		if k.circle && k.filled {
			dots = append(dots, reversed(k.points[0]))
		}
	}
	before := ""
	for _, word := range strings.Fields(g.words) {
		digits, named := strings.CutPrefix(word, s.name)
		n, err := strconv.Atoi(digits)
		listed := strings.HasSuffix(before, ":") || strings.HasSuffix(before, ",") // what is sewn here, no label
		if before = word; named && err == nil && !listed && !have[n] && len(dots) > 0 {
			s.numbers = append(s.numbers, label{n, dots[0], "", pt{}})
			have[n], dots = true, dots[1:]
		}
	}
}
