package piecing

import (
	"cmp"
	"slices"
	"strconv"

	"seamwright/lang/problem"
)

// name gives every drawing its letter. Letters run once through the pattern.
// First those that were written are kept where they are free, then all others
// get the next free ones, in the order in which their sections are written.
func (w *work) name(blocks []*block) {
	n := namer{work: w, taken: map[string]bool{}, kept: map[uint64]string{}}
	for _, b := range blocks {
		for _, a := range b.made {
			if b.Reverses > 0 {
				break
			}
			for i := range a.drawings {
				n.keep(b, a, &a.drawings[i])
			}
		}
	}
	for _, b := range blocks { // mirror images come after what they reverse
		for k, a := range b.made {
			a.twins()
			if of := reversedBy(b, blocks); of != nil && k < len(of.made) {
				n.mirror(b, a, of.made[k])
			}
			for _, reversed := range [2]bool{false, true} {
				for i := range a.drawings {
					if d := &a.drawings[i]; (d.twin >= 0) == reversed {
						n.fill(b, a, d)
					}
				}
			}
			a.sort()
		}
	}
}

type namer struct {
	*work
	taken map[string]bool
	kept  map[uint64]string // the name of a section in a block, so that all sizes have the same
	next  int
}

// identity tells a section of one block in all its sizes.
func identity(b *block, c *copied) uint64 { return mix(c.origin, b.index, 1) }

// keep gives a drawing the name that was written, if it is free.
func (n *namer) keep(b *block, a *assembly, d *drawing) {
	c := &a.copies[d.first]
	id := identity(b, c)
	if name, ok := n.kept[id]; ok {
		d.name = name
		return
	}
	written := c.section.src.Name
	if written == "" || c.section.half > 0 || c.as == "" && c.shape != a.top {
		return
	}
	written = c.as + written
	if !n.taken[written] {
		n.taken[written], n.kept[id] = true, written
		d.name = written
		return
	}
	d.wished = written
}

// fill gives a drawing without a name the next free one, or that of the drawing
// it reverses with an r.
func (n *namer) fill(b *block, a *assembly, d *drawing) {
	if d.name != "" {
		return
	}
	c := &a.copies[d.first]
	id := identity(b, c)
	if name, ok := n.kept[id]; ok {
		d.name = name
		return
	}
	if d.twin >= 0 && a.drawings[d.twin].name != "" && !n.taken[a.drawings[d.twin].name+"r"] {
		d.name = a.drawings[d.twin].name + "r"
	}
	for d.name == "" {
		if name := letters(n.next); !n.taken[name] {
			d.name = name
		} else {
			n.next++
		}
	}
	n.taken[d.name] = true
	if _, ok := n.kept[id]; !ok {
		n.kept[id] = d.name
	}
	if d.wished == "" {
		return
	}
	n.tell(problem.Problem{
		Code: Renamed, Severity: problem.Note, At: c.section.src.At,
		Message: "the letter " + d.wished + " is taken in this pattern, so this section of " + b.Name +
			" is printed as " + d.name,
		Help: "letters run once through the whole pattern; to choose it yourself, write a letter that is free",
	})
}

// letters returns A, B, ..., Z, AA, AB, ...
func letters(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return letters(i/26-1) + string(rune('A'+i%26))
}

// twins finds for each drawing of a reversed section the one that it reverses:
// of two, the one that stands in the block as it was written, else the earlier.
// The kth drawing of a class goes with the kth of the class that it reverses.
func (a *assembly) twins() {
	byClass := make([][]int32, len(a.classes))
	for i := range a.drawings {
		class := a.drawings[i].class
		byClass[class] = append(byClass[class], int32(i))
	}
	for class, list := range byClass {
		twin := a.classes[class].twin
		if int(twin) < class {
			continue
		}
		for k := range min(len(list), len(byClass[twin])) {
			d, e := list[k], byClass[twin][k]
			if e < d {
				d, e = e, d
			}
			if a.asReversed(d) && !a.asReversed(e) {
				d, e = e, d
			}
			a.drawings[e].twin = d
		}
	}
}

// asReversed reports whether a drawing's first copy was placed reversed.
func (a *assembly) asReversed(drawing int32) bool {
	return a.copies[a.drawings[drawing].first].motion.Reversed
}

// sort lists drawings by name: A to Z, then AA; a reversed one after its own.
func (a *assembly) sort() {
	a.order = make([]int32, len(a.drawings))
	for i := range a.order {
		a.order[i] = int32(i)
	}
	base := func(name string) (string, bool) {
		if n := len(name) - 1; n > 0 && name[n] == 'r' {
			return name[:n], true
		}
		return name, false
	}
	slices.SortFunc(a.order, func(i, j int32) int {
		x, xr := base(a.drawings[i].name)
		y, yr := base(a.drawings[j].name)
		order := cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(x, y))
		switch {
		case order != 0:
			return order
		case xr == yr:
			return cmp.Compare(i, j)
		case yr:
			return -1
		}
		return 1
	})
}

// path tells the placed units that a copy stands in: "quarter 2, wedge".
func (u *within) path() string {
	if u == nil {
		return ""
	}
	if u.text == "" {
		u.text = u.name
		if u.of > 1 {
			u.text += " " + strconv.Itoa(u.number)
		}
		if up := u.up.path(); up != "" {
			u.text = up + ", " + u.text
		}
	}
	return u.text
}
