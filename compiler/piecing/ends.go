package piecing

import (
	"slices"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/compiler/solver"
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

// FromOtherEnds pieces the pattern again, with those sections last piece first that
// pressing named in OtherEnd: sections that were found, and of which nobody asked
// which piece is first. Where there are none, it returns nil and changes nothing.
func (m *Made) FromOtherEnds() (*Made, []problem.Problem) {
	w := m.work
	turn := map[*eval.Section]bool{} // for look-up only
	if len(w.sewnList) == 0 {
		return nil, nil
	}
	held := w.heldSections()
	for _, b := range m.blocks {
		for i, s := range w.result.Pattern.Blocks[b.index].Sizes {
			b.bySize[i].mark(&s, held, turn)
		}
	}
	if len(turn) == 0 {
		return nil, nil
	}
	again := newWork(w.result)
	again.was, again.turn = w, turn
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

// mark notes the sections of all drawings that are to be turned and may be: with a
// drawing and its reversed twin all sections that look like it, or none.
func (a *assembly) mark(s *pattern.Sized, held, turn map[*eval.Section]bool) {
	if len(s.OtherEnd) == 0 {
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
		if d := s.Copies[i].Drawing; !fixed[d] && slices.Contains(s.OtherEnd, d) {
			turn[a.copies[i].section.src] = true
		}
	}
}

// again writes a drawn unit once more as it was divided, some sections last piece
// first, and tells again what was told of it.
func (k *sketch) again(w *work, was *eval.Body) *eval.Body {
	for i := range k.told {
		w.tell(k.told[i])
	}
	plan := k.plan
	plan.Sections = slices.Clone(plan.Sections)
	for i := range plan.Sections {
		if w.turn[&was.Sections[i]] {
			plan.Sections[i] = fromOtherEnd(plan.Sections[i])
		}
	}
	made := k.write(&plan)
	k.sectionNames(made, &plan) // told nothing before, and tells nothing now
	return made
}

// fromOtherEnd returns a section last piece first. Every seam of it parts one piece
// from the next.
func fromOtherEnd(s solver.Section) solver.Section {
	n := len(s.Patches)
	patches, seams := make([]int, n), make([]plane.Line, n)
	for i := range patches {
		patches[i] = s.Patches[n-1-i]
		if i > 0 {
			l := s.Seams[n-i]
			seams[i] = plane.Line{A: l.B, B: l.A}
		}
	}
	s.Patches, s.Seams = patches, seams
	return s
}
