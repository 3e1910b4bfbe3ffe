package sheet

import (
	"math"
	"testing"

	"seamwright/emit/drawing"
	"seamwright/lang/problem"
)

func placed(items []drawing.Item) (lines [][2]pos) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			if item.Style == drawing.PlaceLine {
				lines = append(lines, [2]pos{item.Points[0], item.Points[1]})
			}
		case *drawing.Group:
			lines = append(lines, placed(item.Items)...)
		}
	}
	return lines
}

// Every placement line lies an allowance from a sewing line of its section, beside
// it, within the cutting line, and through no text. Nothing else on the sheet
// moves for it, and without the wish there is none.
func TestPlacementLines(t *testing.T) {
	found := 0
	for _, l := range all(t) {
		p := *l.p
		p.Settings.Placement = true
		block := &p.Blocks[0]
		for b := range p.Blocks {
			for s := range p.Blocks[b].Sizes {
				if &p.Blocks[b].Sizes[s] == l.sized {
					block = &p.Blocks[b]
				}
			}
		}
		set, problems := Lay(&p, block, l.sized, l.paper)
		if problem.Failed(problems) {
			continue
		}
		for i := range set.Sheets {
			sheet := &set.Sheets[i]
			for _, place := range sheet.Places {
				d := &l.sized.Drawings[place.Drawing]
				g := group(sheet.Page.Items, "section-"+identity(d, place.Drawing))
				if g == nil {
					t.Fatalf("%s: no section %s", l.name, d.Name)
				}
				var texts []drawing.Reach
				collect(g.Items, &texts)
				for _, line := range placed(g.Items) {
					found++
					beside := false
					for k := 1; k < len(d.Pieces); k++ {
						a, b := place.Motion()(d.Pieces[k].Seam[0]), place.Motion()(d.Pieces[k].Seam[1])
						if a == b {
							continue
						}
						u := unit(a, b)
						h0, h1 := dot(sub(line[0], a), right(u)), dot(sub(line[1], a), right(u))
						beside = beside || math.Abs(math.Abs(float64(h0))-float64(p.Settings.Allowance)) < 1e-6 && math.Abs(float64(h0-h1)) < 1e-6
					}
					if !beside {
						t.Errorf("%s: a line of %s is not an allowance from any seam", l.name, d.Name)
					}
					m := mid(line[0], line[1])
					for _, r := range texts {
						for _, q := range []pos{line[0], m, line[1]} {
							if q.X > r.X0 && q.X < r.X1 && q.Y > r.Y0 && q.Y < r.Y1 {
								t.Errorf("%s: a line of %s runs through a text", l.name, d.Name)
							}
						}
					}
				}
			}
		}
		if n := len(placed(l.set.Sheets[0].Page.Items)); n > 0 && !l.p.Settings.Placement {
			t.Errorf("%s: %d lines without the wish", l.name, n)
		}
	}
	if found < 100 {
		t.Errorf("only %d lines", found)
	}
}

func group(items []drawing.Item, id string) *drawing.Group {
	for _, item := range items {
		if g, ok := item.(*drawing.Group); ok {
			if g.ID == id {
				return g
			}
			if in := group(g.Items, id); in != nil {
				return in
			}
		}
	}
	return nil
}
