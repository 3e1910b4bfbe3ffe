package eval

import (
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// Told is told that a name was given a value. Of a name that is only checked,
// because nothing leads to it or its unit's parameters are open, worked is false and
// the value has a kind alone. A fabric's Text is its name.
type Told func(at problem.Place, v value.Value, worked bool)

// Values works a file out as [Evaluate] does and tells what each parameter, `let`
// and loop came to, every time that it did.
func Values(f *lang.File, load Loader, told Told) { evaluateTelling(f, load, told) }

func (r *run) tell(name lang.Ident, v value.Value) {
	if i := v.Index(); v.Kind == fabricKind && !r.checking && i < len(r.fabrics) {
		v.Text = r.fabrics[i].Name
	}
	r.told(r.file.place(name.Span), v, !r.checking)
}
