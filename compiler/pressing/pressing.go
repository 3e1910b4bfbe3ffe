package pressing

import "seamwright/compiler/pattern"

// crowd is how many seams at a point are pressed open: a teacher of the trade
// opens seams where more than 4 meet (Pressing, ajpadilla.com). Five is a seam
// that ends in the crossing of two, which still lies flat to one side; hence 6.
const crowd = 6

// Press chooses the pressing of every join of every block and size.
func Press(p *pattern.Pattern) {
	for b := range p.Blocks {
		for s := range p.Blocks[b].Sizes {
			press(&p.Blocks[b].Sizes[s])
		}
	}
}

func press(s *pattern.Sized) {
	if len(s.Joins) == 0 {
		return
	}
	g := graphOf(s, nil)
	g.solve()
	s.Firsts = firsts(s, g)
	for i := range s.Joins {
		j, n := &s.Joins[i], &g.nodes[i]
		j.Meet = n.meet
		switch {
		case n.meet >= crowd:
			j.Press, j.Why = pattern.PressOpen, pattern.ManyMeet
		case n.sameWay:
			j.Press, j.Why = pattern.PressOpen, pattern.SameWay
		case n.clash:
			j.Press, j.Why = pattern.PressOpen, pattern.BothWays
		default:
			j.Press, j.Why = pattern.PressLeft, pattern.EitherSide
			if n.sign < 0 {
				j.Press = pattern.PressRight
			}
			switch {
			case len(n.edges) > 0 || n.wish[0]+n.wish[1] > 0:
				j.Why = pattern.Nests
			case n.bulk[0] != n.bulk[1]:
				j.Why = pattern.FewerSeams
			}
		}
	}
	for i := range s.Joins {
		if s.Joins[i].Begins > 0 {
			asOne(&s.Joins[i], &s.Joins[s.Joins[i].Begins-1])
		}
	}
}

// asOne presses both parts of a partial seam alike: open if one has to be.
func asOne(first, rest *pattern.Join) {
	if first.Press == pattern.PressOpen && rest.Press != pattern.PressOpen {
		rest.Press, rest.Why = first.Press, first.Why
		rest.Meet = max(rest.Meet, first.Meet)
		return
	}
	first.Press, first.Why = rest.Press, rest.Why
	if rest.Press == pattern.PressOpen {
		first.Meet = max(rest.Meet, first.Meet)
	} else if alike(first, rest) < 0 {
		first.Press = pattern.PressLeft + pattern.PressRight - rest.Press
	}
}
