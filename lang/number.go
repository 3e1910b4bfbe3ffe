package lang

import (
	"strings"
	"unicode/utf8"
)

// read fills in a number from a literal as the lexer cut it, mended ones too. It is
// filled in where it lies, for there are more of them than of all other nodes.
func (n *Number) read(span Span, text string) {
	n.Span, n.Den = span, 1
	if len(text) <= maxDigits {
		i, num := 0, int64(0)
		for ; i < len(text) && isDigit(text[i]); i++ {
			num = num*10 + int64(text[i]-'0')
		}
		if i == len(text) { // digits alone, as most numbers are
			n.Num = num
			return
		}
	}
	end, trouble := 0, ""
	n.Num, n.Den, end, trouble = amount(text)
	n.Big = trouble != "" && n.Den == 0
	if n.Big {
		n.Num, n.Den = 0, 1
	}
	if end == len(text) {
		return
	}
	word := strings.TrimLeft(text[end:], " \t")
	unit := unitOf(word)
	if unit == "" {
		unit, _ = mark(word)
	}
	if unit == "ft" {
		n.Num, unit = n.Num*12, "in"
	}
	n.Unit = measureOf(unit)
}

func measureOf(unit string) Measure {
	for m := In; m <= Deg; m++ {
		if m.String() == unit {
			return m
		}
	}
	return Plain
}

// amount reads the number that a text begins with as a fraction in lowest
// terms and tells where it ends. trouble says what is wrong with it; den is 0
// if it then has no value.
func amount(text string) (num, den int64, end int, trouble string) {
	point := digits(text, 0)
	whole, ok := integer(text[:point], maxDigits)
	num, den, end = whole, 1, point
	switch {
	case point < len(text) && text[point] == '.':
		end = digits(text, point+1)
		if ok = ok && end-1 <= maxDigits; !ok {
			break
		}
		for _, d := range text[point+1 : end] {
			num = num*10 + int64(d-'0')
		}
		num, den = decimal(num, end-point-1)
		return num, den, end, ""
	case point < len(text) && text[point] == '/':
		end = digits(text, point+1)
		var small bool
		den, small = integer(text[point+1:end], maxFractionDigits)
		ok = ok && small && point <= maxFractionDigits
	default:
		n, d, stop, proper := fraction(text, skipBlanks(text, point))
		if d < 0 {
			break // a whole number
		}
		end, den = stop, d
		if ok = ok && proper; ok {
			num = whole*d + n
		}
		if d > 0 && n >= d && point > 0 {
			trouble = "the fraction behind a whole number is less than 1"
		}
	}
	switch {
	case !ok:
		return 0, 0, end, "this number is too long; 12 digits are kept, 6 in a fraction"
	case den == 0:
		return 0, 0, end, "nothing can be divided into 0 parts"
	}
	common := gcd(num, den)
	return num / common, den / common, end, trouble
}

// fraction reads 1/2 or ½ at i; den is -1 if there is none, ok false if it is
// too long.
func fraction(text string, i int) (num, den int64, end int, ok bool) {
	if r, size := utf8.DecodeRuneInString(text[i:]); size > 1 {
		if n, d := vulgar(r); d > 0 {
			return int64(n[0] - '0'), d, i + size, true
		}
	}
	slash := digits(text, i)
	if slash == i || slash == len(text) || text[slash] != '/' {
		return 0, -1, i, true
	}
	end = digits(text, slash+1)
	num, ok = integer(text[i:slash], maxFractionDigits)
	den, small := integer(text[slash+1:end], maxFractionDigits)
	return num, den, end, ok && small
}

// decimal returns num/10^places in lowest terms: what both have in common are twos
// and fives, which are found without a division.
func decimal(num int64, places int) (n, den int64) {
	den = 1
	for range places {
		den *= 10
	}
	for twos := 0; twos < places && num%2 == 0; twos++ {
		num, den = num/2, den/2
	}
	for fives := 0; fives < places && num%5 == 0; fives++ {
		num, den = num/5, den/5
	}
	return num, den
}

func integer(digits string, most int) (n int64, ok bool) {
	if len(digits) > most {
		return 0, false
	}
	for _, d := range digits {
		n = n*10 + int64(d-'0')
	}
	return n, true
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, 1)
}
