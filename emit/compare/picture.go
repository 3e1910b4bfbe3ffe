package compare

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/edition"
)

type pos = pattern.Pos
type length = pattern.Length

const (
	// picked fills what changed, light enough to read black on it, dark enough to
	// be seen in a copy (common practice, no source).
	picked = drawing.Colour(0xd4d4d4)
	// Labels are at most this high; where less than the least fits they are left
	// out, for nobody reads them.
	labelMost  = 11 * pattern.Point
	labelLeast = 4.5 * pattern.Point
)

// changed reports whether patch i of the new is otherwise than the old.
func (m *matching) changed(i int) bool {
	k := m.from[i]
	if k < 0 {
		return true
	}
	was, is := &m.was[k], &m.is[i]
	old, new := &m.old.Sections[was.section].Spaces[was.space], &m.new.Sections[is.section].Spaces[is.space]
	return was.label != is.label || m.moved(i) || cut(old) != cut(new) || old.Fabric != new.Fabric
}

// moved reports whether patch i of the new has another shape or place.
func (m *matching) moved(i int) bool {
	k := m.from[i]
	return k < 0 || apart(m.was[k].polygon, m.is[i].polygon) > same
}

// signs tells at which labels something changed, for sizes that change alike.
func (m *matching) signs() string {
	var b strings.Builder
	for i := range m.is {
		if m.changed(i) {
			b.WriteString(m.is[i].label + " ")
		}
	}
	for _, k := range m.lost() {
		b.WriteString("-" + m.was[k].label + " ")
	}
	return b.String()
}

// lost are the patches of the old that are nowhere in the new.
func (m *matching) lost() []int {
	found := make([]bool, len(m.was))
	for _, k := range m.from {
		if k >= 0 {
			found[k] = true
		}
	}
	var out []int
	for k := range found {
		if !found[k] {
			out = append(out, k)
		}
	}
	return out
}

// A canvas takes places of the block to a part of a page.
type canvas struct {
	at    pos
	scale length
	high  length // of the block
}

// fitting lays a block into a part of a page, in its middle at the top.
func fitting(finished point, at pos, size pattern.Size) canvas {
	w, h := length(max(finished[0], 1e-6)), length(max(finished[1], 1e-6))
	scale := min(size.W/w, size.H/h)
	return canvas{pos{X: at.X + (size.W-w*scale)/2, Y: at.Y}, scale, h}
}

func (c canvas) points(ps []point) []pos {
	out := make([]pos, len(ps))
	for i, p := range ps {
		out[i] = pos{X: c.at.X + length(p[0])*c.scale, Y: c.at.Y + (c.high-length(p[1]))*c.scale}
	}
	return out
}

func (c canvas) outline(style drawing.Style, ps []point, fill drawing.Colour) drawing.Item {
	return &drawing.Path{Style: style, Points: c.points(ps), Closed: true, Fill: fill}
}

// overlay draws the new in thin lines, what changed filled and with heavy lines,
// and over it the old of what moved, dashed.
func (m *matching) overlay(at pos, size pattern.Size) []drawing.Item {
	c := fitting(m.new.Finished, at, size)
	var items, top []drawing.Item
	for i := range m.is {
		p := &m.is[i]
		if !m.changed(i) {
			items = append(items, c.outline(drawing.PatchLine, p.polygon, drawing.NoColour))
			top = append(top, c.label(p.polygon, p.label, "")...)
			continue
		}
		items = append(items, c.outline(drawing.NoLine, p.polygon, picked))
		top = append(top, c.outline(drawing.OutlineLine, p.polygon, drawing.NoColour))
		was := ""
		if k := m.from[i]; k >= 0 && m.was[k].label != p.label {
			was = "was " + m.was[k].label
		}
		top = append(top, c.label(p.polygon, p.label, was)...)
	}
	return append(append(items, top...), m.before(c)...)
}

// before draws the lines of the old where none is now, each once: dashes that lie
// over each other would look like a line.
func (m *matching) before(c canvas) []drawing.Item {
	gone := m.lost()
	for i, k := range m.from {
		if k >= 0 && m.moved(i) {
			gone = append(gone, k)
		}
	}
	var lines [][2]point
	for _, k := range gone {
		ps := m.was[k].polygon
		for i, a := range ps {
			if b := ps[(i+1)%len(ps)]; !m.drawn(a, b) {
				lines = append(lines, [2]point{a, b})
			}
		}
	}
	slices.SortStableFunc(lines, func(a, b [2]point) int { return cmp.Compare(reachOf(b), reachOf(a)) })
	var items []drawing.Item
	var done [][2]point
	for _, l := range lines {
		if slices.ContainsFunc(done, func(d [2]point) bool {
			return fromSegment(l[0], d[0], d[1]) <= same && fromSegment(l[1], d[0], d[1]) <= same
		}) {
			continue
		}
		done = append(done, l)
		items = append(items, &drawing.Path{Style: drawing.CuttingLine, Points: c.points(l[:]), Fill: drawing.NoColour})
	}
	return items
}

func reachOf(l [2]point) float64 { return math.Hypot(l[1][0]-l[0][0], l[1][1]-l[0][1]) }

// drawn reports whether a line of the old lies on lines of the new: as far as a
// look at some of its points tells.
func (m *matching) drawn(a, b point) bool {
	const looks = 8
	for n := range looks {
		t := (float64(n) + 0.5) / looks
		p := point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
		if !slices.ContainsFunc(m.is, func(o patch) bool { return onEdge(p, o.polygon) }) {
			return false
		}
	}
	return true
}

func onEdge(p point, polygon []point) bool {
	for i, a := range polygon {
		if fromSegment(p, a, polygon[(i+1)%len(polygon)]) <= same {
			return true
		}
	}
	return false
}

// colored draws a version in its cloths, with labels.
func colored(r *edition.Record, s *edition.Size, all []patch, at pos, size pattern.Size) []drawing.Item {
	c := fitting(s.Finished, at, size)
	var items []drawing.Item
	for i := range all {
		p := &all[i]
		fill := fabricColor(r, s.Sections[p.section].Spaces[p.space].Fabric)
		items = append(items, c.outline(drawing.PatchLine, p.polygon, fill))
	}
	return items
}

func fabricColor(r *edition.Record, name string) drawing.Colour {
	for i := range r.Fabrics {
		if f := &r.Fabrics[i]; f.Name == name {
			if rgb, err := strconv.ParseUint(strings.TrimPrefix(f.Color, "#"), 16, 24); err == nil {
				return drawing.Colour(rgb)
			}
		}
	}
	return drawing.NoColour
}

// label writes a label about the middle of a space, with a line below it, as
// large as fits.
func (c canvas) label(polygon []point, text, below string) []drawing.Item {
	if len(polygon) < 3 {
		return nil
	}
	m := centroid(polygon)
	room := math.Inf(1)
	for i, p := range polygon {
		room = min(room, fromSegment(m, p, polygon[(i+1)%len(polygon)]))
	}
	lines := []string{text}
	if below != "" {
		lines = append(lines, below)
	}
	wide := length(0)
	for _, l := range lines {
		wide = max(wide, drawing.Measure(l, 1, true).Width)
	}
	high := 1.15 * length(len(lines))
	half := length(math.Hypot(float64(wide/2), float64(high/2)))
	size := min(labelMost, length(room)*c.scale/half)
	if size < labelLeast {
		return nil
	}
	at := c.points([]point{m})[0]
	var items []drawing.Item
	for i, l := range lines {
		y := at.Y + size*(length(i)*1.15-high/2+1.15/2+drawing.CapHeight/2)
		items = append(items, &drawing.Text{Text: l, At: pos{X: at.X, Y: y}, Size: size, Anchor: drawing.Middle, Bold: i == 0})
	}
	return items
}

// centroid is the middle of a polygon's area.
func centroid(ps []point) point {
	var x, y, sum float64
	for i, p := range ps {
		q := ps[(i+1)%len(ps)]
		cross := p[0]*q[1] - q[0]*p[1]
		x, y, sum = x+(p[0]+q[0])*cross, y+(p[1]+q[1])*cross, sum+cross
	}
	if math.Abs(sum) < 1e-12 {
		return middle(ps)
	}
	return point{x / (3 * sum), y / (3 * sum)}
}
