package piecing

import (
	"slices"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// A Made is what one run made. The drawn units of it can be sewn otherwise.
type Made struct {
	work   *work
	blocks []*block
}

// Make does the work of [Piece] and returns what it was done with.
func Make(r *eval.Result) (*Made, []problem.Problem) {
	w := newWork(r)
	m := &Made{w, w.all()}
	return m, w.problems
}

// Drawings returns the drawn units, each with the joins and sections that were found
// for it, in the order in which they were met.
func (m *Made) Drawings() []Sewn { return m.work.sewnList }

// Begin pieces the pattern again, with those sections begun otherwise of which
// pressing says so in Firsts: sections that were found, and of which nobody asked
// which piece is first. Where there are none, it returns nil and changes nothing.
func (m *Made) Begin() (*Made, []problem.Problem) {
	w := m.work
	first := map[*eval.Section]*eval.Piece{} // for look-up only
	if len(w.sewnList) == 0 {
		return nil, nil
	}
	held := w.heldSections()
	for _, b := range m.blocks {
		for i, s := range w.result.Pattern.Blocks[b.index].Sizes {
			b.bySize[i].mark(&s, held, first)
		}
	}
	if len(first) == 0 {
		return nil, nil
	}
	again := newWork(w.result)
	again.was, again.first = w, first
	made := &Made{again, again.all()}
	return made, again.problems
}

// heldSections tells of the sections found whether their author asked for the first
// piece of them. Those that were written are not among them.
func (w *work) heldSections() map[*eval.Section]bool {
	held := map[*eval.Section]bool{} // for look-up only
	for _, made := range w.sewnList {
		k := w.sketches[made.Drawn]
		for i := range made.Sewn.Sections {
			asked := func(f wish) bool { return slices.Contains(k.plan.Sections[i].Patches, f.patches[0]) }
			held[&made.Sewn.Sections[i]] = slices.ContainsFunc(k.first, asked)
		}
	}
	return held
}

// mark notes the first pieces of sections of all drawings that are to be begun
// otherwise and may be: with a drawing and its reversed twin of all sections that look
// like it, or of none.
func (a *assembly) mark(s *pattern.Sized, held map[*eval.Section]bool, first map[*eval.Section]*eval.Piece) {
	if len(s.Firsts) == 0 {
		return
	}
	fixed := make([]bool, len(s.Drawings))
	for i := range a.copies {
		if is, found := held[a.copies[i].section.src]; is || !found {
			d := s.Copies[i].Drawing
			fixed[d] = true
			if twin := s.Drawings[d].Reversed; twin >= 0 {
				fixed[twin] = true
			}
		}
	}
	for i := range a.copies {
		d, c := s.Copies[i].Drawing, a.copies[i].section
		k := slices.IndexFunc(s.Firsts, func(f pattern.First) bool { return f.Drawing == d })
		if k >= 0 && !fixed[d] && first[c.src] == nil {
			first[c.src] = c.pieces[s.Firsts[k].Piece].src
		}
	}
}

// again writes a drawn unit once more as it was divided, some sections begun with
// another piece, and tells again what was told of it.
func (k *sketch) again(w *work, was *eval.Body) *eval.Body {
	for i := range k.told {
		w.tell(k.told[i])
	}
	first := map[int]int{} // for look-up only
	for i := range was.Sections {
		pieces := was.Sections[i].Pieces
		for n := range pieces {
			if w.first[&was.Sections[i]] == &pieces[n] {
				first[i] = k.plan.Sections[i].Patches[n]
			}
		}
	}
	plan := k.plan
	plan.Sections = k.part.Begin(plan.Sections, first)
	now := *k // it may be asked again
	now.work, now.plan = w, plan
	w.sketches[k.body] = &now
	made := now.write(&plan)
	now.sectionNames(made, &plan) // told nothing before, and tells nothing now
	return made
}
