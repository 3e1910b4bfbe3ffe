package solver

import (
	"math/bits"
	"slices"
)

// apart reports whether two faces of a part can never share a section: the
// smallest part that holds both is not one (THEORY.md 5).
func (c *percolation) apart(p part, f, g int32) bool {
	return !c.peel(c.closure(p, f, g), -1)
}

// spread looks for faces, one of each section, no two of which can share one. If
// it finds as many as there are sections, there is no better plan.
func (c *percolation) spread(p part, sections []part, spent int) []int32 {
	var chosen []int32
	for _, s := range sections {
		for _, f := range s {
			if c.visited > spent {
				return chosen
			}
			ok := true
			for _, g := range chosen {
				if !c.apart(p, f, g) {
					ok = false
					break
				}
			}
			if ok {
				chosen = append(chosen, f)
				break
			}
		}
	}
	return chosen
}

// matrixSize is up to how many faces all pairs are compared for the best clique:
// one machine word a row.
const matrixSize = 64

// cliqueSteps bounds the search for the largest clique.
const cliqueSteps = 20_000

// largestClique is spread without the guidance of a plan, for small parts.
func (c *percolation) largestClique(p part) []int32 {
	apart := make([]uint64, len(p))
	for i := range p {
		for j := range i {
			if c.apart(p, p[i], p[j]) {
				apart[i] |= 1 << j
				apart[j] |= 1 << i
			}
		}
	}
	s := cliqueSearch{apart: apart, steps: cliqueSteps}
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

// A fewest is the least number of sections of a block, and how sure that is.
type fewest struct {
	sections []part
	bound    int
	proved   bool
	clique   []int32
	looked   int
}

// fewestSections divides the whole block into the fewest sections. Parts that
// fall apart by themselves are solved one by one.
func fewestSections(m *mesh, budget int) fewest {
	w := newWork(m)
	quick, c := newSearch(w, -1), newPercolation(w)
	full := newSearch(w, budget)
	out := fewest{proved: true}
	parts, tied := []part{m.all()}, []tie(nil)
	if m.convex {
		red := quick.reduce(parts[0], true)
		parts, tied = red.parts, red.tied
	}
	for _, p := range parts {
		a := quick.solve(p)
		sections, clique := quick.collect(p, nil), p[:1]
		if a.cost > 1 && m.convex {
			clique = c.spread(p, sections, full.spent)
		}
		if len(clique) < a.cost && !a.exact {
			if b := full.solve(p); b.exact || b.cost < a.cost {
				a, sections = b, full.collect(p, nil)
			}
		}
		if len(clique) < a.cost && m.convex && len(p) <= matrixSize {
			if more := c.largestClique(p); len(more) > len(clique) {
				clique = more
			}
		}
		bound := max(len(clique), min(a.cost, 2)) // no section was found that is all of p
		if a.exact {
			bound = a.cost
		}
		out.bound += bound
		out.proved = out.proved && bound == a.cost
		out.sections, out.clique = append(out.sections, sections...), append(out.clique, clique...)
	}
	out.sections = untie(out.sections, 0, tied)
	slices.Sort(out.clique)
	out.looked = w.looked
	return out
}
