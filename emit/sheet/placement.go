package sheet

import (
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// placements draws, where the pattern wants it, where the raw edge of each next
// patch lies when it is laid: an allowance past its sewing line, on the side of its
// own space, as far as the cutting line. Items are what the section has already;
// no line runs through their texts.
func (l *layout) placements(s *section, items []drawing.Item) (lines []drawing.Item) {
	if !l.p.Settings.Placement {
		return nil
	}
	var texts []drawing.Reach
	collect(items, &texts)
	for i := range s.d.Pieces {
		seam := s.d.Pieces[i].Seam
		if i == 0 || seam[0] == seam[1] {
			continue
		}
		a, b := s.move(seam[0]), s.move(seam[1])
		u := unit(a, b)
		side := right(u)
		if dot(sub(middle(s.spaces[i].polygon), a), side) < 0 {
			side = mul(side, -1)
		}
		from := along(a, side, s.allowance)
		for _, g := range within(s.cut.at, from, u, -s.allowance, dist(a, b)+s.allowance) {
			for _, free := range besides(from, u, g, texts) {
				lines = append(lines, s.pen.Stroke(drawing.PlaceLine, along(from, u, free.from), along(from, u, free.to)))
			}
		}
	}
	return lines
}

// middle is the mean of a polygon's corners.
func middle(polygon []pos) (m pos) {
	for _, p := range polygon {
		m.X, m.Y = m.X+p.X/length(len(polygon)), m.Y+p.Y/length(len(polygon))
	}
	return m
}

// within returns the stretches of a line, from one length along it to another,
// that lie in a polygon.
func within(polygon []pos, at, dir pos, from, to length) (out []gap) {
	cuts := []length{from, to}
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		hp, hq := dot(sub(p, at), right(dir)), dot(sub(q, at), right(dir))
		if (hp < 0) != (hq < 0) {
			x := pos{X: p.X + (q.X-p.X)*hp/(hp-hq), Y: p.Y + (q.Y-p.Y)*hp/(hp-hq)}
			if t := dot(sub(x, at), dir); t > from && t < to {
				cuts = append(cuts, t)
			}
		}
	}
	slices.Sort(cuts)
	for i := 0; i+1 < len(cuts); i++ {
		if inside(along(at, dir, (cuts[i]+cuts[i+1])/2), polygon) {
			out = append(out, gap{cuts[i], cuts[i+1]})
		}
	}
	return out
}

// textClear is kept free between a placement line and a text.
const textClear = 0.4 * pattern.Millimetre

// leastPlacement is the shortest line worth drawing: three dashes.
const leastPlacement = 5 * pattern.Millimetre

// besides takes the stretches that run through texts out of one.
func besides(at, dir pos, g gap, texts []drawing.Reach) []gap {
	out := []gap{g}
	for _, r := range texts {
		box := []pos{{X: r.X0 - textClear, Y: r.Y0 - textClear}, {X: r.X1 + textClear, Y: r.Y0 - textClear},
			{X: r.X1 + textClear, Y: r.Y1 + textClear}, {X: r.X0 - textClear, Y: r.Y1 + textClear}}
		for _, hit := range within(box, at, dir, g.from, g.to) {
			var next []gap
			for _, o := range out {
				if hit.from > o.from {
					next = append(next, gap{o.from, min(o.to, hit.from)})
				}
				if hit.to < o.to {
					next = append(next, gap{max(o.from, hit.to), o.to})
				}
			}
			out = next
		}
	}
	return slices.DeleteFunc(out, func(g gap) bool { return g.to-g.from < leastPlacement })
}

// collect lists where texts and what belongs to them, such as rings, lie.
func collect(items []drawing.Item, to *[]drawing.Reach) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Text:
			*to = append(*to, drawing.ReachOf([]drawing.Item{item}))
		case *drawing.Path:
			if item.Circle > 0 {
				*to = append(*to, drawing.ReachOf([]drawing.Item{item}))
			}
		case *drawing.Group:
			collect(item.Items, to)
		}
	}
}
