package eval

import (
	"strconv"
	"strings"

	"seamwright/compiler/plane"
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A frame is what the compass points and sides of a unit stand on.
type frame struct {
	state  frameState
	w, h   float64     // of a box
	middle plane.Point // of the box, or the centroid of the outline
}

type frameState uint8

const (
	noFrame      frameState = iota // the size is not known yet
	boxFrame                       // a rectangle: it has compass points
	outlineFrame                   // corners: it has none
)

func boxed(w, h float64) frame {
	return frame{boxFrame, w, h, plane.Point{X: w / 2, Y: h / 2}}
}

// compassKind returns the kind of a compass name, or None for other names.
func compassKind(name string) value.Kind {
	switch name {
	case "nw", "n", "ne", "e", "se", "s", "sw", "w", "c":
		return pointKind
	case "north", "east", "south", "west":
		return lineKind
	}
	return value.None
}

func isCompass(name string) bool { return compassKind(name) != value.None }

// compass returns a point or side of a box. Sides run anticlockwise, so that the
// unit lies to their left.
func (f *frame) compass(name string) value.Value {
	w, h := f.w, f.h
	switch name {
	case "sw":
		return value.Point(0, 0)
	case "s":
		return value.Point(w/2, 0)
	case "se":
		return value.Point(w, 0)
	case "e":
		return value.Point(w, h/2)
	case "ne":
		return value.Point(w, h)
	case "n":
		return value.Point(w/2, h)
	case "nw":
		return value.Point(0, h)
	case "w":
		return value.Point(0, h/2)
	case "south":
		return value.Line(0, 0, w, 0)
	case "east":
		return value.Line(w, 0, w, h)
	case "north":
		return value.Line(w, h, 0, h)
	case "west":
		return value.Line(0, h, 0, 0)
	}
	return value.Point(w/2, h/2)
}

func (e *evaluator) taken(f *file, name lang.Ident) {
	word := "point"
	if compassKind(name.Text) == lineKind {
		word = "side"
	}
	e.report(problem.Error, TakenName, f.place(name.Span),
		"`"+name.Text+"` is already the unit's "+word+", so nothing else can have this name").Help =
		"choose another name; n ne e se s sw w nw c and north east south west are taken"
}

func (e *evaluator) twice(f *file, name lang.Ident, what string, first lang.Span) {
	p := e.report(problem.Error, NameTwice, f.place(name.Span),
		"`"+name.Text+"` is already the name of a "+what+" on line "+strconv.Itoa(f.line(first)))
	p.Labels = []problem.Label{{At: f.place(first), Text: "the first is here"}}
	p.Help = "give one of them another name"
}

// suggest adds the name that was probably meant, and the edit, and reports whether
// there is one.
func suggest(p *problem.Problem, name lang.Ident, candidates []string) bool {
	near := problem.Nearest(name.Text, candidates)
	if near == "" {
		return false
	}
	p.Help = "did you mean `" + near + "`?"
	p.Edits = []problem.Edit{{At: name.Span, New: near}}
	return true
}

// list writes names as people do: a, b and c.
func list(names []string, last string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	n := len(names) - 1
	return strings.Join(names[:n], ", ") + " " + last + " " + names[n]
}
