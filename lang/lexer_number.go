package lang

import (
	"strings"
	"unicode/utf8"

	"seamwright/lang/problem"
)

// number reads a literal: 3, 3.5, 1/4in, 2 1/2, each with or without a unit.
// A bare 1/4 is three tokens, a division.
func (s *scanner) number() tokenKind {
	start := s.at
	s.at = digits(s.text, s.at)
	decimal, fraction := s.peek(0) == '.' && isDigit(s.peek(1)), false
	if decimal {
		s.at = digits(s.text, s.at+1)
	}
	if c := s.peek(0); (c == ',' || c == ')' || c == '\n') && s.at-start <= maxDigits {
		return tNumber // most end so
	}
	if !decimal {
		end := s.dividedUnit()
		if end == 0 {
			end = s.mixed()
		}
		if fraction = end > 0; fraction {
			s.at = end
		}
	}
	if fraction || s.at-start > maxDigits {
		if _, _, _, trouble := amount(s.text[start:s.at]); trouble != "" {
			s.cured(BadNumber, start, trouble, "")
		}
	}
	return s.unit(start)
}

// dividedUnit returns where the fraction ends whose numerator has been read,
// or 0 if it is a division: only a unit makes 1/4 a literal.
func (s *scanner) dividedUnit() int {
	if s.peek(0) != '/' || !isDigit(s.peek(1)) {
		return 0
	}
	end := digits(s.text, s.at+1)
	if word := s.text[end:nameEnd(s.text, end)]; unitOf(word) != "" {
		return end
	}
	if _, size := mark(s.text[end:]); size > 0 {
		return end
	}
	if gap := skipBlanks(s.text, end); gap > end {
		switch s.text[gap:nameEnd(s.text, gap)] {
		case "in", "cm", "mm", "deg":
			return end
		}
	}
	return 0
}

// mixed returns where the fraction behind a whole number ends, or 0. A single
// character like ½ is taken for what it means.
func (s *scanner) mixed() int {
	next := skipBlanks(s.text, s.at)
	if r, size := utf8.DecodeRuneInString(s.text[next:]); size > 1 {
		num, den := vulgar(r)
		if den == 0 {
			return 0
		}
		here := s.at
		s.at = next + size
		s.cured(Typographic, next, "`"+string(r)+"` is a sign of a word processor; a fraction is written with `/`", "",
			problem.Edit{At: s.span(here, s.at), New: " " + num + "/" + string('0'+rune(den%10))})
		return s.at
	}
	if next == s.at || next == len(s.text) || !isDigit(s.text[next]) {
		return 0
	}
	slash := digits(s.text, next)
	if slash+1 < len(s.text) && s.text[slash] == '/' && isDigit(s.text[slash+1]) {
		return digits(s.text, slash+1)
	}
	return 0
}

// unit reads the unit that stands right behind a number, and what is meant for
// one. The number begins at start.
func (s *scanner) unit(start int) tokenKind {
	at := s.at
	end := nameEnd(s.text, at)
	if end == at {
		return s.unitApart(start)
	}
	word := s.text[at:end]
	unit := unitOf(word)
	switch {
	case unit == word:
		s.at = end
	case unit != "":
		s.at = end
		s.cured(UnitSpelling, start, "the unit is written `"+unit+"`, right behind its number", "",
			problem.Edit{At: s.span(at, end), New: unit})
	case end-start == 6 && isHex(s.text[start:end]):
		s.at = end
		s.cured(BadColour, start, "a color begins with `#`", "", problem.Edit{At: s.span(start, start), New: "#"})
		return tColour
	default:
		s.at = end
		if word[0] == 'x' && digits(word, 1) == len(word) {
			fix := problem.Edit{At: s.span(at, at+1), New: " x "}
			if len(word) == 1 && at+1 < len(s.text) && s.text[at+1] == ' ' {
				fix.New = " x"
			}
			s.loneX = at
			s.cured(NumberGlued, start, "an `x` between two numbers has blanks around it", "", fix)
		} else {
			s.damaged(NumberGlued, start, "a number and a word stand apart, with a blank between them", "",
				problem.Edit{At: s.span(at, at), New: " "})
		}
		s.at = at
	}
	return tNumber
}

// unitApart finds a unit that stands behind a blank, or a mark of feet, inches
// or degrees.
func (s *scanner) unitApart(start int) tokenKind {
	at := s.at
	next := skipBlanks(s.text, at)
	if unit, size := mark(s.text[next:]); size > 0 && (next == at || s.text[next] != '"') && !s.quoted(next) {
		s.at = next + size
		what := "an inch"
		switch unit {
		case "deg":
			what = "a degree"
		case "ft":
			s.cured(UnitSpelling, start, "feet are not known here; a foot is 12in", "")
			return tNumber
		}
		s.cured(UnitSpelling, start, what+" is written `"+unit+"`, right behind its number", "",
			problem.Edit{At: s.span(at, s.at), New: unit})
		return tNumber
	}
	if next == at || s.last == tFor {
		return tNumber
	}
	end := nameEnd(s.text, next)
	switch unit := s.text[next:end]; unit {
	case "in", "cm", "mm", "deg":
		s.at = end
		s.cured(UnitApart, start, "the unit stands right behind its number: `"+
			strings.TrimSpace(s.text[start:at])+unit+"`", "",
			problem.Edit{At: s.span(at, next)})
	}
	return tNumber
}

// quoted reports whether the quote at i, right behind a number, opens a text
// and is no inch mark: `check n >= 1"one at least"`.
func (s *scanner) quoted(i int) bool {
	if s.text[i] != '"' {
		return false
	}
	rest := s.text[i+1 : s.lineEnd(i)]
	return strings.IndexByte(rest, '"') > 2 && isLetter(rest[0]) && isLetter(rest[1])
}

// unitOf returns the unit that a word means, or "".
func unitOf(word string) string {
	switch word {
	case "in", "inch", "inches", "ins", "Inch", "Inches", "IN":
		return "in"
	case "cm", "cms", "CM", "centimeter", "centimeters", "centimetre", "centimetres":
		return "cm"
	case "mm", "mms", "MM", "millimeter", "millimeters", "millimetre", "millimetres":
		return "mm"
	case "deg", "degs", "degree", "degrees":
		return "deg"
	}
	return ""
}

// mark returns the unit that a text begins with when it is written as a mark.
func mark(text string) (unit string, size int) {
	r, size := utf8.DecodeRuneInString(text)
	switch r {
	case '"', '″', '”', '“', '‟', '〞':
		return "in", size
	case '\'', '′', '’', '‘':
		return "ft", size
	case '°', 'º', '˚':
		return "deg", size
	}
	return "", 0
}

// vulgar takes apart a fraction in one character; den is 0 for any other.
func vulgar(r rune) (num string, den int64) {
	const signs = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑"
	const nums, dens = "11213123415113571", "23344555566788889"
	i := 0
	for _, sign := range signs {
		if sign == r {
			return nums[i : i+1], int64(dens[i] - '0')
		}
		i++
	}
	return "", 0
}

func digits(text string, i int) int {
	for i < len(text) && isDigit(text[i]) {
		i++
	}
	return i
}

func skipBlanks(text string, i int) int {
	for i < len(text) && (text[i] == ' ' || text[i] == '\t') {
		i++
	}
	return i
}

func isHex(s string) bool {
	for i := range len(s) {
		c := s[i] | 0x20
		if !isDigit(s[i]) && (c < 'a' || c > 'f') {
			return false
		}
	}
	return true
}
