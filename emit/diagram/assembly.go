package diagram

import "seamwright/compiler/pattern"

// An assembly knows which copies are already sewn to each other. next links the
// copies of one part in a circle.
type assembly struct {
	part []int // the name of the part each copy is in
	next []int
}

func newAssembly(copies int) *assembly {
	a := &assembly{make([]int, copies), make([]int, copies)}
	for i := range copies {
		a.part[i], a.next[i] = i, i
	}
	return a
}

// with returns all copies of the parts that the given ones are in.
func (a *assembly) with(copies []int) []int {
	var all []int
	told := map[int]bool{}
	for _, c := range copies {
		if told[a.part[c]] {
			continue
		}
		told[a.part[c]] = true
		all = append(all, c)
		for n := a.next[c]; n != c; n = a.next[n] {
			all = append(all, n)
		}
	}
	return all
}

// join sews the parts on both sides of a join together.
func (a *assembly) join(j *pattern.Join) {
	first := -1
	for _, side := range [2][]int{j.Left, j.Right} {
		for _, c := range side {
			switch {
			case first < 0:
				first = c
			case a.part[c] != a.part[first]:
				a.merge(first, c)
			}
		}
	}
}

func (a *assembly) merge(b, c int) {
	name := a.part[b]
	a.part[c] = name
	for n := a.next[c]; n != c; n = a.next[n] {
		a.part[n] = name
	}
	a.next[b], a.next[c] = a.next[c], a.next[b]
}
