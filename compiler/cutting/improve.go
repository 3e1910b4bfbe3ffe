package cutting

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"seamwright/compiler/pattern"
)

const (
	// work is how many patches of different size are cut anew in all, when strips of
	// a plan are taken back again and again: hundreds of tries for a few sizes, fewer
	// for many. More gained nothing worth its time.
	work = 2000

	// mostBack is how many strips are taken back at once, at the most.
	mostBack = 8

	// fewStrips is from where on a plan is left as it is: a strip too many is then
	// less than two in a hundred.
	fewStrips = 60
)

// improved takes a few strips back, cuts their patches anew, and keeps what takes no
// more cloth; again and again. Chance is seeded alike every time, so that the same
// order has the same plan.
func improved(plan []Strip, bound, width, step pattern.Length) []Strip {
	single := apart(plan)
	if len(single) > fewStrips || len(single) < 2 {
		return plan
	}
	r := rand.New(rand.NewPCG(1, 2))
	for done := 0; done < work; {
		if total(single) < bound+noise {
			break
		}
		back := min(2+r.IntN(mostBack-1), len(single))
		r.Shuffle(len(single), func(i, j int) { single[i], single[j] = single[j], single[i] })
		var left []Need
		for i := range back {
			for _, c := range single[i].Cuts {
				left = together(left, c)
			}
		}
		done += len(left) + 1
		worth := worths(left, 0.9+0.4*r.Float64())
		for i := range worth {
			worth[i] *= 0.7 + 0.6*r.Float64()
		}
		anew := apart(filled(left, width, step, worth))
		if total(anew) <= total(single[:back])+noise {
			single = append(anew, single[back:]...)
		}
	}
	if total(single) > total(plan)-noise {
		return plan
	}
	return alike(single)
}

// together adds patches to those of the same size.
func together(all []Need, n Need) []Need {
	n.Size = pattern.Size{W: max(n.Size.W, n.Size.H), H: min(n.Size.W, n.Size.H)}
	for i := range all {
		if all[i].Size == n.Size {
			all[i].Count += n.Count
			return all
		}
	}
	return append(all, n)
}

// apart lists strips one by one. Of strips that are cut alike the last has what is
// left over.
func apart(all []Strip) (single []Strip) {
	for _, s := range all {
		left := slices.Clone(s.Cuts)
		for range s.Times {
			one := Strip{Height: s.Height, Times: 1}
			for i, c := range s.Cuts {
				if n := min(left[i].Count, (c.Count+s.Times-1)/s.Times); n > 0 {
					one.Cuts = append(one.Cuts, Need{c.Size, n})
					left[i].Count -= n
				}
			}
			if len(one.Cuts) > 0 {
				single = append(single, one)
			}
		}
	}
	return single
}

func compareSizes(a, b pattern.Size) int {
	return -cmp.Or(cmp.Compare(a.H, b.H), cmp.Compare(a.W, b.W))
}

// alike counts equal strips together.
func alike(single []Strip) (all []Strip) {
	var first [][]Need
	for _, s := range single {
		slices.SortFunc(s.Cuts, func(a, b Need) int { return compareSizes(a.Size, b.Size) })
		at := slices.IndexFunc(first, func(cuts []Need) bool { return slices.Equal(cuts, s.Cuts) })
		if at < 0 || all[at].Height != s.Height {
			all, first = append(all, s), append(first, slices.Clone(s.Cuts))
			continue
		}
		all[at].Times++
		for i := range all[at].Cuts {
			all[at].Cuts[i].Count += s.Cuts[i].Count
		}
	}
	return all
}
