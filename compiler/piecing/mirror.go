package piecing

import "strings"

// reversedBy returns the block that a block is the mirror image of, or nil.
func reversedBy(b *block, blocks []*block) *block {
	for _, of := range blocks {
		if b.Reverses == of.index+1 {
			return of
		}
	}
	return nil
}

// mirror names the sections of a block that is another's mirror image after those of
// that block: Ar for A; A for what reverses Ar; and where a section is its own mirror
// image the same, for one print serves both. What finds no name so gets the next free
// one, like any other.
func (n *namer) mirror(b *block, a, of *assembly) {
	if len(a.copies) != len(of.copies) {
		return
	}
	used := map[string]bool{}
	for i := range a.drawings {
		d := &a.drawings[i]
		name, known := of.mirrored(of.copies[d.first].drawing)
		if used[name] || !known && n.taken[name] && n.kept[identity(b, &a.copies[d.first])] != name {
			continue
		}
		used[name], n.taken[name] = true, true
		d.name = name
		n.kept[identity(b, &a.copies[d.first])] = name
	}
}

// mirrored returns the name of the mirror image of a drawing, and whether that is a
// drawing of the same block.
func (a *assembly) mirrored(drawing int32) (name string, known bool) {
	d := &a.drawings[drawing]
	if a.classes[d.class].symmetric() {
		return d.name, true
	}
	if short, ok := strings.CutSuffix(d.name, "r"); ok && d.twin >= 0 && a.drawings[d.twin].name == short {
		return short, true
	}
	for i := range a.drawings {
		if e := &a.drawings[i]; e.twin == drawing && e.name == d.name+"r" {
			return e.name, true
		}
	}
	return d.name + "r", false
}

// symmetric reports whether a class is its own mirror image: its sheet is too.
func (c *class) symmetric() bool {
	r := c.look.reverse()
	for o := range r.outline {
		if r.matches(&c.look, o) {
			return true
		}
	}
	return false
}

// sameSheets reports whether a block that is another's mirror image is sewn from the
// same sections, each as often.
func sameSheets(b, of *block) bool {
	if len(b.made) != len(of.made) {
		return false
	}
	for k, a := range b.made {
		makes := map[string]int{}
		for i := range of.made[k].drawings {
			makes[of.made[k].drawings[i].name] = of.made[k].drawings[i].make
		}
		for i := range a.drawings {
			if makes[a.drawings[i].name] != a.drawings[i].make {
				return false
			}
		}
		if len(a.drawings) != len(makes) {
			return false
		}
	}
	return true
}
