package value

// A Kind says what a value is a quantity of.
type Kind uint8

// Kinds. None is the kind of a value that could not be worked out; what is done
// with it says nothing more. Count is asked for by parameters; what they get is a
// Number that is whole and not negative.
const (
	None Kind = iota
	NumberKind
	CountKind
	LengthKind
	AngleKind
	PointKind
	LineKind
	FabricKind
	TextKind
	BoolKind
)

var names = [...]string{"", "number", "count", "length", "angle", "point", "line", "fabric", "text", "bool"}

// String returns the kind as it is written in a parameter: "length".
func (k Kind) String() string { return names[k] }

var phrases = [...]string{"nothing", "a number", "a count", "a length", "an angle", "a point", "a line", "a fabric", "a text", "true or false"}

// Phrase returns the kind as a sentence needs it: "a length".
func (k Kind) Phrase() string { return phrases[k] }

var examples = [...]string{LengthKind: " (like 2in)", AngleKind: " (like 90deg)", PointKind: " (like (1, 2))", LineKind: " (like nw -- se)", BoolKind: ""}

// Wanted returns the kind as a sentence needs it that asks for one, with an
// example: "a length (like 2in)".
func (k Kind) Wanted() string {
	if int(k) < len(examples) {
		return phrases[k] + examples[k]
	}
	return phrases[k]
}

// KindNamed returns the kind of that name, or None.
func KindNamed(name string) Kind {
	for k := NumberKind; k <= BoolKind; k++ {
		if names[k] == name {
			return k
		}
	}
	return None
}

// KindNames lists what a parameter may be.
func KindNames() []string { return names[1:] }

// Fits reports whether a value of kind k may stand where want is asked for. Whether
// a number is a count is asked of the number.
func (k Kind) Fits(want Kind) bool {
	return k == want || k == NumberKind && want == CountKind
}

// A Value is one quantity. Which fields count depends on its kind.
type Value struct {
	Kind   Kind
	Num    Number  // number; length in inches; angle in degrees; fabric, an index; bool, 0 or 1
	X, Y   float64 // point; the line's first end
	X2, Y2 float64 // the line's second end
	Text   string
}

// Num returns a number.
func Num(n Number) Value { return Value{Kind: NumberKind, Num: n} }

// Length returns a length of so many inches.
func Length(inches Number) Value { return Value{Kind: LengthKind, Num: inches} }

// Angle returns an angle of so many degrees.
func Angle(degrees Number) Value { return Value{Kind: AngleKind, Num: degrees} }

// Point returns a point.
func Point(x, y float64) Value { return Value{Kind: PointKind, X: x + 0, Y: y + 0} }

// Line returns the line from one point to another.
func Line(x, y, x2, y2 float64) Value {
	return Value{Kind: LineKind, X: x + 0, Y: y + 0, X2: x2 + 0, Y2: y2 + 0}
}

// Fabric returns the fabric of that index.
func Fabric(i int) Value { return Value{Kind: FabricKind, Num: Int(int64(i))} }

// Text returns a text.
func Text(s string) Value { return Value{Kind: TextKind, Text: s} }

// Bool returns a truth value.
func Bool(b bool) Value {
	if b {
		return Value{Kind: BoolKind, Num: Int(1)}
	}
	return Value{Kind: BoolKind, Num: Int(0)}
}

// True reports whether a bool is true.
func (v Value) True() bool { return v.Num.num != 0 }

// Index returns a fabric's index.
func (v Value) Index() int { return int(v.Num.num) }

// Inch, Centimetre and Millimetre are the units of length in inches, exactly:
// 1 in = 25.4 mm (NBS, Addendum to Circular 572, 1960).
func Inch() Number       { return Number{1, 1} }
func Centimetre() Number { return Number{50, 127} }
func Millimetre() Number { return Number{5, 127} }
