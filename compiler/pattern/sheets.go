package pattern

// DefaultMargin keeps sections where every common printer reaches.
const DefaultMargin = Inch / 2

// SheetNames lists the papers known by name, the usual ones first.
func SheetNames() []string {
	return []string{"letter", "a4", "legal", "a3", "tabloid", "common"}
}

// SheetNamed returns the paper of a name, upright, with the default margin, and
// whether there is one. Common is the area that letter and A4 share, so that one
// file serves both.
//
// A3 and A4 are ISO 216; letter and tabloid are sizes A and B of ASME Y14.1;
// legal is common practice, no source.
func SheetNamed(name string) (Sheet, bool) {
	s := Sheet{Name: name, Margin: DefaultMargin}
	switch name {
	case "letter":
		s.Paper = Size{8.5 * Inch, 11 * Inch}
	case "a4":
		s.Paper = Size{210 * Millimetre, 297 * Millimetre}
	case "legal":
		s.Paper = Size{8.5 * Inch, 14 * Inch}
	case "a3":
		s.Paper = Size{297 * Millimetre, 420 * Millimetre}
	case "tabloid":
		s.Paper = Size{11 * Inch, 17 * Inch}
	case "common":
		s.Paper = Size{210 * Millimetre, 11 * Inch}
	default:
		return Sheet{}, false
	}
	return s, true
}
