package cutting

import (
	"math"

	"seamwright/compiler/pattern"
)

// worths returns what patches are worth when strips are filled: their area, and with
// a bias above 1 large ones more than that, since small ones fill gaps later.
func worths(needs []Need, bias float64) []float64 {
	out := make([]float64, len(needs))
	for i, n := range needs {
		out[i] = math.Pow(float64(n.Size.W*n.Size.H), bias)
	}
	return out
}

// filled cuts strip after strip, each the one that is worth most for its cloth.
func filled(left []Need, width, step pattern.Length, worth []float64) (all []Strip) {
	marks := int(math.Floor(float64(width/step) + noise))
	ways := items(left, step)
	for i := range ways {
		size := left[ways[i].index/2].Size
		if ways[i].index%2 == 1 {
			size.W = size.H
		}
		ways[i].width = int(math.Ceil(float64(size.W/step) - noise))
	}
	f := &filling{left: left, worth: worth, value: make([]float64, marks+1)}
	for {
		height, fullest := pattern.Length(0), 0.0
		f.empty(false)
		for k := range ways {
			f.let(&ways[k])
			if k+1 < len(ways) && ways[k+1].height <= ways[k].height+noise {
				continue
			}
			if full := f.value[marks] / float64(ways[k].height); full > fullest+1e-9 {
				height, fullest = ways[k].height, full
			}
		}
		if fullest == 0 {
			return all
		}
		f.empty(true)
		for k := 0; k < len(ways) && ways[k].height <= height+noise; k++ {
			f.let(&ways[k])
		}
		counts := f.counts()
		times := math.MaxInt
		for k, n := range counts {
			if n > 0 {
				times = min(times, max(1, left[k/2].Count/n))
			}
		}
		s, ok := cutOut(left, height, counts, times, width)
		if !ok {
			return append(all, rest(left, width)...)
		}
		all = append(all, s)
	}
}

// rest cuts what is left by first fit.
func rest(left []Need, width pattern.Length) []Strip {
	var open []Need
	for _, n := range left {
		if n.Count > 0 {
			open = append(open, n)
		}
	}
	plain, _ := unmixed(open, width)
	return mixed(plain, width)
}

// A filling finds the most valuable strip of at most so many marks, no patch more
// often than it is needed.
type filling struct {
	left  []Need
	worth []float64
	value []float64 // of the best strip up to each mark
	parts []part
	kept  bool // parts are kept, to go back over
}

// A part is so many patches of one item, and where taking them paid.
type part struct {
	item  *item
	count int
	taken []bool
}

func (f *filling) empty(keep bool) {
	clear(f.value)
	f.parts, f.kept = f.parts[:0], keep
}

// part returns a new part, in the room of one that was given up.
func (f *filling) part(it *item, count int) *part {
	if len(f.parts) < cap(f.parts) {
		f.parts = f.parts[:len(f.parts)+1]
	} else {
		f.parts = append(f.parts, part{})
	}
	p := &f.parts[len(f.parts)-1]
	p.item, p.count = it, count
	if p.taken == nil {
		p.taken = make([]bool, len(f.value))
	}
	clear(p.taken)
	return p
}

// let adds an item: 1, 2, 4, ... of it, and what is over.
func (f *filling) let(it *item) {
	n := f.left[it.index/2]
	most := 0
	if it.width > 0 {
		most = min(n.Count, (len(f.value)-1)/it.width)
	}
	for step := 1; most > 0; step *= 2 {
		count := min(step, most)
		most -= count
		w, v := it.width*count, f.worth[it.index/2]*float64(count)
		if !f.kept {
			for at := len(f.value) - 1; at >= w; at-- {
				f.value[at] = max(f.value[at], f.value[at-w]+v)
			}
			continue
		}
		p := f.part(it, count)
		for at := len(f.value) - 1; at >= w; at-- {
			if with := f.value[at-w] + v; with > f.value[at]+1e-12 {
				f.value[at], p.taken[at] = with, true
			}
		}
	}
}

// counts goes back over the parts; what both ways round of a patch take together
// is no more than is needed.
func (f *filling) counts() []int {
	out := make([]int, 2*len(f.left))
	at := len(f.value) - 1
	for i := len(f.parts) - 1; i >= 0; i-- {
		if p := &f.parts[i]; p.taken[at] {
			at -= p.item.width * p.count
			other := out[p.item.index^1]
			out[p.item.index] += min(p.count, f.left[p.item.index/2].Count-out[p.item.index]-other)
		}
	}
	return out
}
