package sheet

import (
	"math"
	"slices"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/tiling"
)

// A slab is the ink of one text on a page: a rectangle that may be turned.
type slab struct {
	text    string
	group   string
	corners [4]pos
}

// slabs returns the ink of every text of a page.
func slabs(items []drawing.Item, group string) (out []slab) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Group:
			out = append(out, slabs(item.Items, item.ID)...)
		case *drawing.Text:
			sin, cos := math.Sincos(item.Turn * math.Pi / 180)
			s := slab{text: item.Text, group: group}
			ink := item.Extent().Ink
			for i, c := range (box{length(ink.X0), length(ink.Y0), length(ink.X1), length(ink.Y1)}).corners() {
				s.corners[i] = add(item.At, pos{X: c.X*length(cos) + c.Y*length(sin), Y: c.Y*length(cos) - c.X*length(sin)})
			}
			out = append(out, s)
		}
	}
	return out
}

// strokes calls f with every stroked path of a page, strokes that share one each by
// itself.
func strokes(items []drawing.Item, f func(p *drawing.Path)) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Group:
			if item.Clip == nil {
				strokes(item.Items, f)
				continue
			}
			b := boxOf(item.Clip)
			strokes(item.Items, func(p *drawing.Path) {
				if p.Circle > 0 {
					if b.holds(p.Points[0]) {
						f(p)
					}
					return
				}
				for i, a := range p.Points { // what is seen of it, side by side
					q := p.Points[(i+1)%len(p.Points)]
					if i+1 == len(p.Points) && !p.Closed {
						break
					}
					if part := tiling.Clip([]pos{a, q}, drawing.Reach{X0: b.x0, Y0: b.y0, X1: b.x1, Y1: b.y1}); len(part) >= 2 {
						side := *p
						side.Closed, side.Points = false, part[:2]
						f(&side)
					}
				}
			})
		case *drawing.Path:
			switch {
			case item.Style == drawing.NoLine:
			case item.Pairs:
				for ends := range slices.Chunk(item.Points, 2) {
					f(&drawing.Path{Style: item.Style, Points: ends, Fill: drawing.NoColour})
				}
			default:
				f(item)
			}
		}
	}
}

// gap returns the distance of a stroke's middle line from a slab, 0 where they
// meet.
func (s *slab) gap(a, b pos) length {
	if inside(a, s.corners[:]) || inside(b, s.corners[:]) {
		return 0
	}
	best := length(math.Inf(1))
	for i, p := range s.corners {
		q := s.corners[(i+1)%4]
		if x, ok := meet(ray{a, unit(a, b)}, ray{p, unit(p, q)}); ok && segmentDist(x, a, b) < near && segmentDist(x, p, q) < near {
			return 0
		}
		best = min(best, segmentDist(p, a, b), segmentDist(a, p, q), segmentDist(b, p, q))
	}
	return best
}

// No text touches a line, the paper's furniture included, and no two texts touch
// each other. Letters of the front view stand on grey and are left out.
func TestTextsTouchNothing(t *testing.T) {
	for _, l := range all(t) {
		touchNothing(t, &l)
	}
}

func touchNothing(t interface{ Errorf(string, ...any) }, l *laid) {
	for i := range l.set.Sheets {
		page := &l.set.Sheets[i].Page
		all := slabs(page.Items, "")
		for a := range all {
			for b := range a {
				if apart(all[a].corners[:], all[b].corners[:]) <= 0 {
					t.Errorf("%s sheet %d: %q (%s) touches %q (%s)", l.name, i+1, all[a].text, all[a].group, all[b].text, all[b].group)
				}
			}
		}
		strokes(page.Items, func(p *drawing.Path) {
			half := p.Style.Look().Width / 2
			if p.Circle > 0 {
				for k := range all {
					if g := ringGap(&all[k], p.Points[0], p.Circle); g <= half {
						t.Errorf("%s sheet %d: %q (%s) touches a ring", l.name, i+1, all[k].text, all[k].group)
					}
				}
				return
			}
			n := len(p.Points)
			for k, a := range p.Points {
				if k == n-1 && !p.Closed {
					break
				}
				b := p.Points[(k+1)%n]
				for m := range all {
					if all[m].gap(a, b) <= half {
						t.Errorf("%s sheet %d: %q (%s) touches a line of style %d from %v to %v", l.name, i+1, all[m].text, all[m].group, p.Style, a, b)
					}
				}
			}
		})
	}
}

// ringGap is the distance of a slab from a circle's line: it may stand inside.
func ringGap(s *slab, mid pos, radius length) length {
	far, closest := length(0), length(math.Inf(1))
	for i, c := range s.corners {
		far = max(far, dist(c, mid))
		closest = min(closest, segmentDist(mid, c, s.corners[(i+1)%4]))
	}
	if inside(mid, s.corners[:]) {
		closest = 0
	}
	return max(radius-far, closest-radius)
}

// Every label stands wholly in its own space, upright, at a size that is read,
// the number with its section's letter; every space is labelled somewhere.
func TestLabelsStandInTheirSpaces(t *testing.T) {
	seen := 0
	for _, l := range all(t) {
		for i := range l.set.Sheets {
			s := &l.set.Sheets[i]
			texts := slabs(s.Page.Items, "")
			for _, place := range s.Places {
				d := &l.sized.Drawings[place.Drawing]
				move := place.Motion()
				for k := range d.Pieces {
					space := make([]pos, 0, 8)
					for _, p := range d.Pieces[k].Polygon {
						space = append(space, move(p))
					}
					label, found := d.Label(k), false
					for _, x := range texts {
						if x.group != "space-"+identity(d, place.Drawing)+label[len(d.Name):] {
							continue
						}
						seen++
						found = found || x.text == label
						for c, p := range x.corners {
							if !inside(p, space) {
								t.Errorf("%s: %q leaves space %s", l.name, x.text, label)
							}
							if c == 1 && math.Abs(float64(p.Y-x.corners[0].Y)) > near {
								t.Errorf("%s: %q in space %s is not upright", l.name, x.text, label)
							}
						}
						cap := -math.Inf(1)
						for _, c := range x.corners {
							cap = math.Max(cap, float64(x.corners[2].Y-c.Y))
						}
						if x.text == label && cap < 2/25.4-grid {
							t.Errorf("%s: the number %s is %v mm high", l.name, label, cap*25.4)
						}
					}
					for _, x := range texts { // led to from the allowance
						found = found || x.group == "section-"+identity(d, place.Drawing) && (x.text == label || len(x.text) > len(label) && x.text[:len(label)+1] == label+" ")
					}
					if !found {
						t.Errorf("%s: space %s has no label", l.name, label)
					}
				}
			}
		}
	}
	if seen < 1000 {
		t.Errorf("only %d texts stand in spaces", seen)
	}
}

// A label goes where it fits and nowhere else: the largest rectangle in a right
// triangle with legs 4 and 3 in is 2 x 1 1/2 in (half of each leg), and it
// stands halfway along the longest side.
func TestFitFindsTheOnlyPlace(t *testing.T) {
	sp := &space{polygon: []pos{{}, {X: 4}, {Y: 3}}, outer: make([]bool, 3)}
	sides := sidesOf(nil, sp)
	rect := func(w, h length) *label { return &label{lines: []line{{ink: box{-w / 2, -h / 2, w / 2, h / 2}}}} }
	if at, ok := fit(sp, sides, rect(1.999, 1.499), 0, nil); !ok || dist(at, pos{X: 1, Y: 0.75}) > 0.01 {
		t.Errorf("%v, %v", at, ok)
	}
	if _, ok := fit(sp, sides, rect(2.001, 1.501), 0, nil); ok {
		t.Error("a rectangle that is too large fits")
	}
	if _, ok := fit(sp, sides, rect(1.9, 1.4), 0.1*pattern.Inch, nil); ok {
		t.Error("the room round a label is not kept")
	}
}
