package testsew

import (
	"math"
	"slices"
	"strings"
)

// A partner is what an edge's words say: its own letter, the other edge's
// letter, and the sections it is sewn to. Each may be missing.
type partner struct {
	own, other string
	names      []string
	next       bool // the next copy of the same unit
}

// readPartner reads "joins B, C", "edge a joins edge b of C", "a joins b",
// "edge a joins edge b of the next wedge", "a", "B", and the same in German.
func readPartner(words string) (p partner) {
	words = inEnglish(words)
	own, to, joins := strings.Cut(words, "joins ")
	if !joins {
		if words == strings.ToLower(words) {
			p.own = words
		} else {
			p.names = strings.Split(words, ", ")
		}
		return p
	}
	p.own = strings.TrimSpace(strings.TrimPrefix(own, "edge "))
	to = strings.TrimPrefix(to, "edge ")
	letter, name, of := strings.Cut(to, " of ")
	switch {
	case of && strings.HasPrefix(name, "the next"):
		p.other, p.next = letter, true
	case of:
		p.other, p.names = letter, strings.Split(name, " or ")
	case to == strings.ToLower(to):
		p.other = to
	default:
		p.names = strings.Split(to, ", ")
	}
	return p
}

// inEnglish returns the words along an edge of a German sheet in English.
func inEnglish(words string) string {
	words = strings.ReplaceAll(words, "der nächsten Einheit", "the next")
	parts := strings.Split(words, " ")
	for i, part := range parts {
		switch part {
		case "Kante":
			parts[i] = "edge"
		case "an":
			parts[i] = "joins"
		case "von":
			parts[i] = "of"
		case "oder":
			parts[i] = "or"
		}
	}
	return strings.Join(parts, " ")
}

// partners holds what stands along the edges of a join to what is sewn there.
func (t *table) partners(name string, j *joint) {
	l := through(j.a, j.b)
	sides := [2][]stretch{t.stretches(j.left, l), t.opposite(j, l)}
	for side := range sides {
		for _, s := range sides[side] {
			t.partner(name, l, s, sides[1-side])
		}
	}
}

// partner checks the words along one stretch of a join.
func (t *table) partner(name string, l line, s stretch, opposite []stretch) {
	p := &t.placed[s.copy]
	for _, e := range p.edges {
		at, out := l.along(e.at), math.Abs(l.side(e.at))
		if p.nearest(e.at) != s.edge || out > t.in.allowance || at < s.from || at > s.to {
			continue
		}
		said := readPartner(e.words)
		var facing []string
		var here *placed
		for _, o := range opposite {
			if o.to > s.from+near && o.from < s.to-near {
				facing = append(facing, t.placed[o.copy].name)
				if o.from <= at && at <= o.to {
					here = &t.placed[o.copy]
				}
			}
		}
		if here == nil {
			continue
		}
		wrong := len(said.names) > 0 && !slices.Contains(said.names, here.name)
		for _, other := range said.names { // with letters, what is true of other copies stands there too
			wrong = wrong || said.other == "" && !slices.Contains(facing, other)
		}
		if wrong {
			t.fault(name + ": an edge of section " + p.name + " says \"" + e.words + "\", but it lies against " + and(facing))
			continue
		}
		if said.other == "" {
			continue
		}
		for _, o := range here.edges {
			answer := readPartner(o.words)
			if math.Abs(l.side(o.at)) < t.in.allowance && math.Abs(l.along(o.at)-at) < s.to-s.from && facesLine(here, o.at, l) &&
				answer.own != "" && answer.own != said.other {
				t.fault(name + ": an edge of section " + p.name + " says \"" + e.words + "\", but the other edge is " + answer.own)
			}
		}
	}
}

// misread counts the words along a section's edges that name nothing on the other side
// of any join there.
func (w *work) misread(p *placed) (n int) {
	for _, e := range p.edges {
		names := readPartner(e.words).names
		known := len(names) == 0
		for i := range w.in.joins {
			j := &w.in.joins[i]
			if known || !facesLine(p, e.at, through(j.a, j.b)) {
				continue
			}
			for _, sides := range [2][2][]int{{j.left, j.right}, {j.right, j.left}} {
				named := func(c int) bool { return slices.Contains(names, w.in.shapes[w.in.copies[c].shape].name) }
				own := func(c int) bool { return w.in.shapes[w.in.copies[c].shape].name == p.name }
				known = known || slices.ContainsFunc(sides[0], own) && slices.ContainsFunc(sides[1], named)
			}
		}
		if !known {
			n++
		}
	}
	return n
}

// facesLine reports whether the edge that words stand on lies along a line.
func facesLine(p *placed, at pt, l line) bool {
	a, b := p.outline.side(p.nearest(at))
	return math.Abs(l.side(a)) < 2*fits && math.Abs(l.side(b)) < 2*fits
}

// nearest returns the edge of a section that a point in its allowance is next to.
func (p *placed) nearest(at pt) (edge int) {
	best := math.Inf(1)
	for i := range p.outline {
		a, b := p.outline.side(i)
		if d := fromSegment(at, a, b); d < best {
			best, edge = d, i
		}
	}
	return edge
}
