package solver

import (
	"math/bits"
	"slices"
)

// A spreader looks for faces, one of each section, no two of which can share one.
// If it finds as many as there are sections, there is no better plan.
type spreader struct {
	*grower
	sections []part
	choice   []int32 // of a section: the face chosen, or -1
	asked    []int   // of a section: the round in which another choice was asked of it
	round    int
	left     int // pairs that may be compared yet
}

// How many pairs may be compared for each face of a part, and in any case.
const (
	spreadEffort = 20
	spreadStart  = 10_000
)

// clique returns faces of a part no two of which can share a section, given its
// sections: hopefully as many.
func (g *grower) clique(p part, sections []part) []int32 {
	best := g.spread(sections)
	if len(best) < len(sections) && len(p) <= cliqueFaces {
		if more := g.largestClique(p); len(more) > len(best) {
			return more
		}
	}
	return best
}

// spread returns such faces, as many as it finds. Where a section has no face
// that goes with all those chosen, another section is asked to choose again, and
// so on, each once.
func (g *grower) spread(sections []part) []int32 {
	n := spreadStart
	for _, x := range sections {
		n += spreadEffort * len(x)
	}
	s := &spreader{grower: g, sections: sections, left: n, choice: make([]int32, len(sections)), asked: make([]int, len(sections))}
	for k := range s.choice {
		s.choice[k] = -1
	}
	if len(sections) > nearSections {
		if g.home == nil {
			g.home, g.visits = make([]int32, g.faces()), make([]int32, g.faces())
		}
		for k, x := range sections {
			for _, f := range x {
				g.home[f] = int32(k)
			}
		}
	}
	for k := range sections {
		s.round++
		s.choose(k)
	}
	return slices.DeleteFunc(s.choice, func(f int32) bool { return f < 0 })
}

// choose finds a face for a section that has none, and reports whether it did.
func (s *spreader) choose(k int) bool {
	s.asked[k] = s.round
	var rivals []int // sections that stand in the way of each face alone
	for _, f := range s.sections[k] {
		if s.left < 0 {
			return false
		}
		rival, many := s.rival(f)
		if rival < 0 {
			s.choice[k] = f
			return true
		}
		if many {
			rival = -1
		}
		rivals = append(rivals, rival)
	}
	for i, r := range rivals {
		if r < 0 || s.asked[r] == s.round {
			continue
		}
		old := s.choice[r]
		s.choice[k], s.choice[r] = s.sections[k][i], -1
		if s.choose(r) {
			return true
		}
		s.choice[k], s.choice[r] = -1, old
	}
	return false
}

// rival returns a section whose choice can share a section with f, or -1, and
// whether there are more.
func (s *spreader) rival(f int32) (rival int, many bool) {
	if len(s.sections) > nearSections {
		if rival, many, ok := s.rivalNear(f); ok {
			return rival, many
		}
	}
	rival = -1
	for k, g := range s.choice {
		if s.left--; g >= 0 && s.share(f, g) {
			if rival >= 0 {
				return rival, true
			}
			rival = k
		}
	}
	return rival, false
}

// nearSections is up to how many sections' choices are all compared.
const nearSections = 64

// rivalNear is rival where there are many sections. With two faces a section holds
// the faces on the way between them, so what can share a section with f hangs
// together with it. If that is much, it gives up.
func (s *spreader) rivalNear(f int32) (rival int, many, ok bool) {
	s.visit++
	s.reached = append(s.reached[:0], f)
	s.visits[f] = s.visit
	rival = -1
	for i := 0; i < len(s.reached); i++ {
		if len(s.reached) > nearSections {
			return 0, false, false
		}
		for _, h := range s.halves(s.reached[i]) {
			g := s.other(h)
			if s.visits[g] == s.visit || s.always[h>>1] {
				continue
			}
			s.visits[g] = s.visit
			if s.left--; !s.share(f, g) {
				continue
			}
			s.reached = append(s.reached, g)
			// Faces of other pieces have other sections' numbers.
			if k := s.home[g]; int(k) >= len(s.choice) || s.choice[k] != g {
				continue
			} else if rival >= 0 {
				return rival, true, true
			} else {
				rival = int(k)
			}
		}
	}
	return rival, false, true
}

// cliqueFaces is up to how many faces all pairs are compared: one machine word a
// row.
const cliqueFaces = 64

// cliqueSteps bounds the search for the largest clique.
const cliqueSteps = 10_000

// largestClique is spread without a plan to go by, for small parts: it returns the
// most faces that it finds no two of which can share a section.
func (g *grower) largestClique(p part) []int32 {
	s := cliqueSearch{apart: make([]uint64, len(p)), steps: cliqueSteps}
	for i := range p {
		for j := range i {
			if !g.share(p[i], p[j]) {
				s.apart[i] |= 1 << j
				s.apart[j] |= 1 << i
			}
		}
	}
	s.grow(0, ^uint64(0)>>(64-len(p)))
	var best []int32
	for set := s.best; set != 0; set &= set - 1 {
		best = append(best, p[bits.TrailingZeros64(set)])
	}
	return best
}

type cliqueSearch struct {
	apart []uint64
	best  uint64
	steps int
}

// grow extends the clique have by members of among, which all fit it.
func (s *cliqueSearch) grow(have, among uint64) {
	s.steps--
	if bits.OnesCount64(have) > bits.OnesCount64(s.best) {
		s.best = have
	}
	for among != 0 && s.steps > 0 && bits.OnesCount64(have)+bits.OnesCount64(among) > bits.OnesCount64(s.best) {
		i := bits.TrailingZeros64(among)
		among &^= 1 << i
		s.grow(have|1<<i, among&s.apart[i])
	}
}
