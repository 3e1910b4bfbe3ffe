package drawing

import "seamwright/compiler/pattern"

// Wide is a drawing that is shown in parts, on several pages. It knows where each
// of its items lies, so that a part takes no longer than what is in it.
type Wide struct {
	items []Item
	reach []Reach
}

// NewWide prepares items, which are not to be changed afterwards.
func NewWide(items []Item) *Wide {
	w := &Wide{items, make([]Reach, len(items))}
	for i := range items {
		w.reach[i] = ReachOf(items[i : i+1])
	}
	return w
}

// Part returns copies of the items that reach into a rectangle, moved so that its
// upper left corner comes to a place. Nothing is cut off.
func (w *Wide) Part(of Reach, to pattern.Pos) []Item {
	var out []Item
	for i, r := range w.reach {
		if r.X0 <= of.X1 && r.X1 >= of.X0 && r.Y0 <= of.Y1 && r.Y1 >= of.Y0 {
			out = append(out, Moved(w.items[i], to.X-of.X0, to.Y-of.Y0))
		}
	}
	return out
}

// Moved returns a copy of an item that lies elsewhere.
func Moved(item Item, dx, dy pattern.Length) Item {
	points := func(all []pattern.Pos) []pattern.Pos {
		if all == nil {
			return nil
		}
		out := make([]pattern.Pos, len(all))
		for i, p := range all {
			out[i] = pattern.Pos{X: p.X + dx, Y: p.Y + dy}
		}
		return out
	}
	switch item := item.(type) {
	case *Path:
		p := *item
		p.Points = points(p.Points)
		return &p
	case *Text:
		t := *item
		t.At.X, t.At.Y = t.At.X+dx, t.At.Y+dy
		return &t
	case *Image:
		i := *item
		i.At.X, i.At.Y = i.At.X+dx, i.At.Y+dy
		return &i
	case *Group:
		g := *item
		g.Shared = false // it stands elsewhere
		g.Clip = points(g.Clip)
		g.Items = make([]Item, len(item.Items))
		for i := range item.Items {
			g.Items[i] = Moved(item.Items[i], dx, dy)
		}
		return &g
	}
	return item
}
