package compiler

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/compiler/value"
	"seamwright/lang"
)

// A writer writes the joins and sections of one unit.
type writer struct {
	unit    *lang.Unit
	pattern *pattern.Pattern
}

// A variant is a unit with the values of its parameters, fabrics aside: they
// change no seam.
type variant struct {
	uses []*eval.Body
	cond string
}

// text writes a unit as it was sewn for each use, or says why that can't be.
func (w *writer) text(uses []*eval.Body) (text, why string) {
	if len(uses) == 0 {
		return "", "nothing uses it, so there is nothing to find its sections for"
	}
	variants := w.variants(uses)
	var t strings.Builder
	for i := range variants {
		v := &variants[i]
		switch {
		case v.cond == "":
		case len(variants) == 1:
			t.WriteString("check " + v.cond + " " + quoted(w.unit.Name.Text+" has its sections for "+strings.ReplaceAll(v.cond, " == ", " ")+" alone") + "\n")
		case i == 0:
			t.WriteString("if " + v.cond + " {\n")
		default:
			t.WriteString("} else if " + v.cond + " {\n")
		}
		if why := w.body(&t, v.uses); why != "" {
			return "", why
		}
	}
	if len(variants) > 1 {
		t.WriteString("} else {\ncheck false " + quoted(w.unit.Name.Text+" has no sections for these values yet") + "\n}\n")
	}
	return t.String(), ""
}

func quoted(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}

// variants puts uses together that differ in nothing but fabrics.
func (w *writer) variants(uses []*eval.Body) []variant {
	var list []variant
	of := map[string]int{} // index into list by condition, for look-up only
	for _, u := range uses {
		var parts []string
		for _, a := range u.Args {
			if a.Value.Kind != value.FabricKind {
				parts = append(parts, a.Name+" == "+valueText(a.Value))
			}
		}
		cond := strings.Join(parts, " and ")
		i, known := of[cond]
		if !known {
			i = len(list)
			of[cond] = i
			list = append(list, variant{cond: cond})
		}
		list[i].uses = append(list[i].uses, u)
	}
	return list
}

// body writes joins and sections that are the same in all uses, but for fabrics.
func (w *writer) body(t *strings.Builder, uses []*eval.Body) (why string) {
	b := uses[0]
	for _, other := range uses[1:] {
		if !sameSeams(b, other) {
			return "it is used at sizes that are divided in different ways; " +
				"place it in one block, or draw a unit for each size"
		}
	}
	for _, j := range b.Joins {
		t.WriteString("join " + lineText(j.Line))
		if j.Partial {
			t.WriteString(" partial")
		}
		t.WriteString("\n")
	}
	for i := range b.Sections {
		t.WriteString("section " + b.Sections[i].Name + " {\n")
		for k := range b.Sections[i].Pieces {
			piece := &b.Sections[i].Pieces[k]
			fabric := w.fabric(uses, i, k)
			if fabric == "" {
				return "its fabrics are chosen by conditions on its parameters; name a parameter at every piece"
			}
			t.WriteString(strconv.Itoa(k+1) + " " + fabric)
			if k > 0 {
				t.WriteString(" along " + lineText(piece.Line))
			}
			for _, q := range piece.Points {
				t.WriteString(" at " + pointText(q))
			}
			t.WriteString("\n")
		}
		t.WriteString("}\n")
	}
	return ""
}

func sameSeams(a, b *eval.Body) bool {
	if len(a.Joins) != len(b.Joins) || len(a.Sections) != len(b.Sections) {
		return false
	}
	for i := range a.Joins {
		if a.Joins[i].Line != b.Joins[i].Line || a.Joins[i].Partial != b.Joins[i].Partial {
			return false
		}
	}
	for i := range a.Sections {
		p, q := a.Sections[i].Pieces, b.Sections[i].Pieces
		if len(p) != len(q) {
			return false
		}
		for k := range p {
			if p[k].Line != q[k].Line {
				return false
			}
		}
	}
	return true
}

// fabric names a piece's fabric so that it is true of all uses: by the parameter
// that the drawing names, by another that has the same value in all, or by the
// fabric itself; "" if none is.
func (w *writer) fabric(uses []*eval.Body, section, piece int) string {
	at := func(u *eval.Body) *eval.Piece { return &u.Sections[section].Pieces[piece] }
	if name := at(uses[0]).Param; name != "" {
		return name
	}
	name := w.pattern.Fabrics[at(uses[0]).Fabric].Name
	same := true
	for _, u := range uses[1:] {
		same = same && at(u).Fabric == at(uses[0]).Fabric
	}
	for i, a := range uses[0].Args {
		same = same && a.Name != name // hidden by a parameter
		fits := a.Value.Kind == value.FabricKind
		for _, u := range uses {
			fits = fits && u.Args[i].Value.Index() == at(u).Fabric
		}
		if fits {
			return a.Name
		}
	}
	if same {
		return name
	}
	return ""
}

// valueText writes a value so that it may stand behind ==.
func valueText(v value.Value) string {
	n := func() string { return numberText(v.Num.Float64()) }
	switch v.Kind {
	case value.LengthKind:
		return n() + "in"
	case value.AngleKind:
		return n() + "deg"
	case value.PointKind:
		return pointText(plane.Point{X: v.X, Y: v.Y})
	case value.LineKind:
		return "(" + lineText(plane.Line{A: plane.Point{X: v.X, Y: v.Y}, B: plane.Point{X: v.X2, Y: v.Y2}}) + ")"
	case value.TextKind:
		return quoted(v.Text)
	case value.BoolKind:
		return strconv.FormatBool(v.True())
	}
	return n()
}

func lineText(l plane.Line) string { return pointText(l.A) + " -- " + pointText(l.B) }

func pointText(p plane.Point) string { return "(" + numberText(p.X) + ", " + numberText(p.Y) + ")" }

const (
	// mostParts is the largest denominator that is written as a fraction.
	mostParts = 64

	// exact is how near a number must be to a fraction to be written as one: a
	// ten-thousandth of what points may differ by.
	exact = 1e-10

	// mostDigits is how many digits a number may have in a text.
	mostDigits = 12
)

// numberText writes a number as a person would: whole, as a mixed number with a
// small denominator, else in decimals.
func numberText(x float64) string {
	for d := 1.0; d <= mostParts; d++ {
		n := math.Round(x * d)
		if math.Abs(x-n/d) > exact {
			continue
		}
		whole, part := math.Trunc(n/d), math.Abs(math.Mod(n, d))
		s := ""
		switch {
		case part == 0:
			return strconv.FormatFloat(whole+0, 'f', -1, 64)
		case whole != 0:
			s = strconv.FormatFloat(whole, 'f', -1, 64) + " "
		case n < 0:
			s = "-"
		}
		return s + strconv.FormatFloat(part, 'f', -1, 64) + "/" + strconv.FormatFloat(d, 'f', -1, 64)
	}
	digits := len(strconv.Itoa(int(math.Abs(x))))
	s := strconv.FormatFloat(x, 'f', max(0, mostDigits-digits), 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}
