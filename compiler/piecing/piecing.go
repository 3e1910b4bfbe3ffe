package piecing

import (
	"cmp"
	"slices"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// Piece fills in the sizes of every block of the pattern. Blocks with faults
// keep none; the problems say why.
func Piece(r *eval.Result) []problem.Problem {
	_, problems := Make(r)
	return problems
}

// all does the work, and returns the blocks without faults.
func (w *work) all() []*block {
	r := w.result
	w.scaled()
	var parts []*block
	for i, b := range r.Blocks {
		if i >= len(r.Pattern.Blocks) || b == nil {
			continue
		}
		if made := w.block(b); made != nil {
			made.index = i
			parts = append(parts, made)
		}
	}
	for _, u := range r.Units { // faults are told before a unit is placed
		if sound(u, map[*eval.Body]bool{}) {
			w.shape(u, 0)
		}
	}
	w.name(parts)
	for _, b := range parts {
		if of := reversedBy(b, parts); of != nil && sameSheets(b, of) {
			continue // it needs no sheets of its own
		}
		r.Pattern.Blocks[b.index].Sizes = b.sizes(&r.Pattern)
	}
	return parts
}

// A work is one run of Piece.
type work struct {
	result   *eval.Result
	shapes   map[shapeKey]*shape
	told     map[toldKey]bool
	problems []problem.Problem
	effort   effort
	bench    plane.Bench

	scale    map[*eval.Body]scales
	drawings map[*eval.Body]*eval.Body // drawn units, as they are sewn; nil where there are faults
	sewnList []Sewn                    // the same, in the order in which they were met
	sketches map[*eval.Body]*sketch    // of drawn units

	was   *work                         // an earlier run, of which these sections
	first map[*eval.Section]*eval.Piece // now begin with these pieces of theirs
}

func newWork(r *eval.Result) *work {
	return &work{result: r, shapes: map[shapeKey]*shape{}, told: map[toldKey]bool{}, effort: maxEffort,
		scale: map[*eval.Body]scales{}, drawings: map[*eval.Body]*eval.Body{}, sketches: map[*eval.Body]*sketch{}}
}

const (
	// maxRegions is how many regions the joins of one unit may make: far more
	// than anybody sews, and few enough for ten or twenty megabytes.
	maxRegions = 25_000

	// maxEffort is how many corners and joins may be looked at for one file. A
	// block of 10,000 pieces takes five or ten million; this many take a second
	// or two. Lines that all cross each other need it, and nothing sensible does.
	maxEffort effort = 200_000_000

	// effortOfCut is what one cut counts for, since it also takes memory.
	effortOfCut = 1000
)

// An effort counts down to where it is no use to go on.
type effort int

func (e *effort) spend(n int) bool {
	*e -= effort(n)
	return *e >= 0
}

// A shapeKey is a body under a number of joins `from` some size.
type shapeKey struct {
	body *eval.Body
	size pattern.Length // the largest `from` that acts; 0 if none
}

type toldKey struct {
	code problem.Code
	at   problem.Place
	text string
}

// tell reports a problem, once.
func (w *work) tell(p problem.Problem) {
	key := toldKey{p.Code, p.At, p.Message}
	if !w.told[key] {
		w.told[key] = true
		w.problems = append(w.problems, p)
	}
}

// A block is cut once for each set of joins that act at its sizes.
type block struct {
	*eval.Block
	index  int
	made   []*assembly // from the fewest joins to the most
	bySize []*assembly // as Finished
	scale  []float64   // inches a grid square, as Finished
}

// block cuts a block for all its sizes; nil where it has faults.
func (w *work) block(b *eval.Block) *block {
	if !sound(b.Body, map[*eval.Body]bool{}) {
		return nil
	}
	low, high := b.Outline.Box()
	width := high.X - low.X
	if width <= plane.Tol || len(b.Finished) == 0 {
		return nil
	}
	out := &block{Block: b, bySize: make([]*assembly, len(b.Finished)), scale: make([]float64, len(b.Finished))}
	order := make([]int, len(b.Finished))
	for i, f := range b.Finished {
		order[i] = i
		out.scale[i] = float64(f.W) / width
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(b.Finished[i].W, b.Finished[j].W) })
	froms := thresholds(b.Body, nil)
	bySet := map[pattern.Length]*assembly{}
	for _, i := range order {
		acting := acting(froms, b.Finished[i].W)
		if _, ok := bySet[acting]; !ok {
			a := w.assemble(b, acting, out.scale[i])
			if a == nil {
				return nil
			}
			bySet[acting] = a
			out.made = append(out.made, a)
		}
		out.bySize[i] = bySet[acting]
	}
	return out
}

// sound reports whether a body and all that is placed in it came through
// evaluation without faults.
func sound(b *eval.Body, seen map[*eval.Body]bool) bool {
	if b == nil || b.Failed || len(b.Outline) < 3 {
		return false
	}
	if seen[b] {
		return true
	}
	seen[b] = true
	for i := range b.Places {
		if !sound(b.Places[i].Body, seen) {
			return false
		}
	}
	return true
}

// sizeSlack forgives the rounding of sizes written in other units: a join
// `from 30cm` acts at 30 cm. Far below anything that paper can show.
const sizeSlack pattern.Length = 1e-9

// thresholds lists the sizes from which joins act, in a body and all that is
// placed in it, ascending.
func thresholds(b *eval.Body, seen map[*eval.Body]bool) []pattern.Length {
	if seen == nil {
		seen = map[*eval.Body]bool{}
	}
	if seen[b] {
		return nil
	}
	seen[b] = true
	var froms []pattern.Length
	for i := range b.Joins {
		if f := b.Joins[i].From; f > 0 {
			froms = append(froms, f)
		}
	}
	for i := range b.Places {
		froms = append(froms, thresholds(b.Places[i].Body, seen)...)
	}
	slices.Sort(froms)
	return slices.Compact(froms)
}

// acting returns the largest threshold that a size reaches, 0 if none.
func acting(froms []pattern.Length, size pattern.Length) pattern.Length {
	least := pattern.Length(0)
	for _, f := range froms {
		if f <= size+sizeSlack {
			least = f
		}
	}
	return least
}
