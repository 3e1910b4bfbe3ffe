package drawing

import "seamwright/compiler/pattern"

// A Look is how a [Style] is stroked.
type Look struct {
	Width pattern.Length
	On    pattern.Length // length of a dash; 0 with Off > 0: a round dot
	Off   pattern.Length // gap after it; 0 for a solid line
}

const mm = pattern.Millimetre

// looks are told apart without colour, in grey and after a photocopy: by
// pattern first (solid, long dashes, dots), then by weights that differ twofold.
// Weights and dashes are common practice, no source.
var looks = [Styles]Look{
	SewingLine:  {Width: 0.25 * mm},
	OutlineLine: {Width: 0.55 * mm},
	CuttingLine: {Width: 0.3 * mm, On: 3 * mm, Off: 1.5 * mm},
	ExtraLine:   {Width: 0.45 * mm, Off: 1.3 * mm},
	RunOnLine:   {Width: 0.13 * mm},
	MarkLine:    {Width: 0.25 * mm},
	RuleLine:    {Width: 0.2 * mm},
	FrameLine:   {Width: 0.15 * mm},
	LeaderLine:  {Width: 0.13 * mm, On: 0.7 * mm, Off: 0.7 * mm},
	PatchLine:   {Width: 0.2 * mm},
	PlaceLine:   {Width: 0.13 * mm, On: 0.4 * mm, Off: 1.8 * mm},
	GlueLine:    {Width: 0.18 * mm, On: 9 * mm, Off: 1.5 * mm},
}

// Look returns how the style is stroked; of NoLine, nothing.
func (s Style) Look() Look {
	if s < 0 || s >= Styles {
		return Look{}
	}
	return looks[s]
}
