package eval

import (
	"sort"
	"strings"

	"seamwright/compiler/value"
)

// A helper is a function of the language. Which form is meant follows from the
// kinds of the arguments. Helpers take no named arguments, have no effect and see
// nothing of the unit, but for inset, which needs the unit's middle.
type helper struct {
	name  string
	does  string
	forms []form
}

// A form is one way of calling a helper. The zero kind takes any kind, the same
// for all such arguments.
type form struct {
	takes string // the arguments' names, for people
	kinds []value.Kind
	many  bool // the last argument may be repeated
	gives value.Kind
	work  func(r *run, a []value.Value) (result value.Value, fault string)
}

const (
	anyKind    = value.None
	numberKind = value.NumberKind
	lengthKind = value.LengthKind
	angleKind  = value.AngleKind
	pointKind  = value.PointKind
	lineKind   = value.LineKind
	fabricKind = value.FabricKind
	boolKind   = value.BoolKind
)

type kinds = []value.Kind

// helperTable holds every helper, by name. Angles run anticlockwise from the x
// axis, which points right. Lines go on for ever in meet, foot, inset, parallel,
// reflect and distance; mid, between, direction and distance of a line alone go
// by its two ends. Rows are literals, so that the table costs nothing at start.
var helperTable = [...]helper{
	{"abs", "x without its minus", []form{
		{"x", kinds{numberKind}, false, numberKind, absolute},
		{"x", kinds{lengthKind}, false, lengthKind, absolute},
		{"x", kinds{angleKind}, false, angleKind, absolute}}},
	{"between", "the point that lies the part t of the way from p to q, or along l: 0 is the start, 1/2 the middle, 1 the end", []form{
		{"p q t", kinds{pointKind, pointKind, numberKind}, false, pointKind, betweenPoints},
		{"l t", kinds{lineKind, numberKind}, false, pointKind, betweenEnds}}},
	{"ceil", "the least whole number that is not below x", []form{
		{"x", kinds{numberKind}, false, numberKind, ceil}}},
	{"cos", "the cosine of a", []form{
		{"a", kinds{angleKind}, false, numberKind, cos}}},
	{"direction", "the angle from p to q, or of l, from 0deg up to 360deg", []form{
		{"p q", kinds{pointKind, pointKind}, false, angleKind, directionPoints},
		{"l", kinds{lineKind}, false, angleKind, directionLine}}},
	{"distance", "how far it is from p to q, from p square to l, or from end to end of l, in grid squares", []form{
		{"p q", kinds{pointKind, pointKind}, false, numberKind, distancePoints},
		{"p l", kinds{pointKind, lineKind}, false, numberKind, distanceToLine},
		{"l", kinds{lineKind}, false, numberKind, distanceLine}}},
	{"even", "whether i is 0, 2, 4, ...", []form{
		{"i", kinds{numberKind}, false, boolKind, even}}},
	{"floor", "the greatest whole number that is not above x", []form{
		{"x", kinds{numberKind}, false, numberKind, floor}}},
	{"foot", "the point of l that is nearest to p", []form{
		{"p l", kinds{pointKind, lineKind}, false, pointKind, foot}}},
	{"inset", "l moved by d grid squares towards the unit's middle, away from it where d is below 0", []form{
		{"l d", kinds{lineKind, numberKind}, false, lineKind, inset}}},
	{"max", "the greatest", []form{
		{"x", kinds{numberKind}, true, numberKind, greatest},
		{"x", kinds{lengthKind}, true, lengthKind, greatest},
		{"x", kinds{angleKind}, true, angleKind, greatest}}},
	{"meet", "the point where l and m meet", []form{
		{"l m", kinds{lineKind, lineKind}, false, pointKind, meet}}},
	{"mid", "the point halfway from p to q, or between the ends of l", []form{
		{"p q", kinds{pointKind, pointKind}, false, pointKind, midPoints},
		{"l", kinds{lineKind}, false, pointKind, midLine}}},
	{"min", "the least", []form{
		{"x", kinds{numberKind}, true, numberKind, least},
		{"x", kinds{lengthKind}, true, lengthKind, least},
		{"x", kinds{angleKind}, true, angleKind, least}}},
	{"mod", "what is left of x when d is taken away as often as it goes; mod(-1, 4) is 3", []form{
		{"x d", kinds{numberKind, numberKind}, false, numberKind, mod},
		{"x d", kinds{lengthKind, lengthKind}, false, lengthKind, mod},
		{"x d", kinds{angleKind, angleKind}, false, angleKind, mod}}},
	{"odd", "whether i is 1, 3, 5, ...", []form{
		{"i", kinds{numberKind}, false, boolKind, odd}}},
	{"parallel", "the line through p that runs like l", []form{
		{"l p", kinds{lineKind, pointKind}, false, lineKind, parallel}}},
	{"pick", "the i-th of the values, counted from 1", []form{
		{"i value", kinds{numberKind, anyKind}, true, anyKind, pick}}},
	{"polar", "the point at the distance r from the origin, in the direction a; p + polar(r, a) goes on from p", []form{
		{"r a", kinds{numberKind, angleKind}, false, pointKind, polar}}},
	{"reflect", "p or m, reversed across l", []form{
		{"p l", kinds{pointKind, lineKind}, false, pointKind, reflectPoint},
		{"m l", kinds{lineKind, lineKind}, false, lineKind, reflectLine}}},
	{"rotate", "p or l, turned anticlockwise by a about the origin, or about q", []form{
		{"p a", kinds{pointKind, angleKind}, false, pointKind, rotatePoint},
		{"p a q", kinds{pointKind, angleKind, pointKind}, false, pointKind, rotatePoint},
		{"l a", kinds{lineKind, angleKind}, false, lineKind, rotateLine},
		{"l a q", kinds{lineKind, angleKind, pointKind}, false, lineKind, rotateLine}}},
	{"sin", "the sine of a", []form{
		{"a", kinds{angleKind}, false, numberKind, sin}}},
	{"sqrt", "the square root of x", []form{
		{"x", kinds{numberKind}, false, numberKind, squareRoot}}},
	{"tan", "the tangent of a", []form{
		{"a", kinds{angleKind}, false, numberKind, tan}}},
}

// helperNamed returns the helper of that name, or nil.
func helperNamed(name string) *helper {
	i := sort.Search(len(helperTable), func(i int) bool { return helperTable[i].name >= name })
	if i < len(helperTable) && helperTable[i].name == name {
		return &helperTable[i]
	}
	return nil
}

// A Signature describes one helper for the reference and for editors.
type Signature struct {
	Name  string
	Forms []string // "mid(p: point, q: point) -> point"
	Does  string
}

// Signatures lists the helpers by name.
func Signatures() []Signature {
	list := make([]Signature, 0, len(helperTable))
	for i := range helperTable {
		h := &helperTable[i]
		s := Signature{Name: h.name, Does: h.does}
		for j := range h.forms {
			s.Forms = append(s.Forms, h.forms[j].signature(h.name)+" -> "+kindWord(h.forms[j].gives))
		}
		list = append(list, s)
	}
	return list
}

// signature writes a form without its result: "mid(p: point, q: point)".
func (f *form) signature(name string) string {
	var b strings.Builder
	b.WriteString(name + "(")
	for i, arg := range strings.Fields(f.takes) {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(arg + ": " + kindWord(f.kinds[i]))
	}
	if f.many {
		b.WriteString(", ...")
	}
	return b.String() + ")"
}

func kindWord(k value.Kind) string {
	if k == anyKind {
		return "any"
	}
	return k.String()
}

// fits reports whether values of these kinds may be given to the form.
func (f *form) fits(a []value.Value) bool {
	if !f.fitsCount(len(a)) {
		return false
	}
	for i := range a {
		want := f.kinds[min(i, len(f.kinds)-1)]
		if want != anyKind && a[i].Kind != want && a[i].Kind != value.None {
			return false
		}
	}
	return true
}

func (f *form) fitsCount(n int) bool {
	return n == len(f.kinds) || f.many && n > len(f.kinds)
}
