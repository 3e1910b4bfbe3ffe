package diagram

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

const (
	// mediumStep and darkStep part the lines of hatching. Dark is crossed, so
	// that the two differ in kind as well as in density.
	mediumStep = 1.8 * pattern.Millimetre
	darkStep   = 1.1 * pattern.Millimetre
)

// A hatcher fills areas with slanting lines. The lines of neighbours of one
// value run on into each other, as on cloth.
type hatcher struct {
	grey bool         // fill with greys instead
	pen  *drawing.Pen // the page's; nil: one of its own
	cuts []length
	ends []pos // of the strokes of the area at work
}

// fill appends the hatching of a value: none for light.
func (h *hatcher) fill(items []drawing.Item, polygon []pos, value string) []drawing.Item {
	if h.grey {
		if shade := grey(value); shade != drawing.NoColour {
			items = append(items, h.with().Outline(drawing.NoLine, polygon, shade))
		}
		return items
	}
	switch value {
	case "medium":
		items = h.hatch(items, polygon, mediumStep, 1)
	case "dark":
		items = h.hatch(items, polygon, darkStep, 1)
		items = h.hatch(items, polygon, darkStep, -1)
	}
	return items
}

// hatch appends the parts of the lines y = slope*x + c, a step apart, that lie
// in a polygon. Slope is 1 or -1.
func (h *hatcher) hatch(items []drawing.Item, polygon []pos, step, slope length) []drawing.Item {
	h.ends = h.ends[:0]
	step *= math.Sqrt2 // from line to line along y
	height := func(p pos) length { return p.Y - slope*p.X }
	low, high := length(math.Inf(1)), length(math.Inf(-1))
	for _, p := range polygon {
		low, high = min(low, height(p)), max(high, height(p))
	}
	for n := math.Ceil(float64(low / step)); n <= float64(high/step); n++ {
		c := length(n) * step
		h.cuts = h.cuts[:0]
		for i, p := range polygon {
			q := polygon[(i+1)%len(polygon)]
			hp, hq := height(p)-c, height(q)-c
			if (hp < 0) != (hq < 0) {
				h.cuts = append(h.cuts, p.X+(q.X-p.X)*hp/(hp-hq))
			}
		}
		slices.Sort(h.cuts)
		for i := 0; i+1 < len(h.cuts); i += 2 {
			a, b := h.cuts[i], h.cuts[i+1]
			h.ends = append(h.ends, pos{X: a, Y: slope*a + c}, pos{X: b, Y: slope*b + c})
		}
	}
	if len(h.ends) == 0 {
		return items
	}
	return append(items, h.with().Pairs(drawing.RunOnLine, h.ends))
}

func (h *hatcher) with() *drawing.Pen {
	if h.pen == nil {
		h.pen = &drawing.Pen{}
	}
	return h.pen
}

// grey returns the shade of a value.
func grey(value string) drawing.Colour {
	switch value {
	case "medium":
		return 0xb8b8b8
	case "dark":
		return 0x707070
	}
	return drawing.NoColour
}
