package lang

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"seamwright/lang/problem"
)

// A scanner cuts a text into tokens. It never fails: what it cannot read
// becomes a token of kind tError or one of the kind that was surely meant, and
// a fault. Comments are set aside, not put into the stream.
type scanner struct {
	text      string
	at        int // the next byte
	line      int32
	lineStart int

	last    tokenKind // kind of the token before, for the few rules that look back
	lastEnd int
	loneX   int    // where a word is cut behind its x: 8x8
	known   [2]int // no line ends between these places
	noStar  bool   // no */ follows

	count    int // of tokens
	faults   []fault
	comments []Comment
}

// A fault is a problem before it has a source.
type fault struct {
	problem.Problem
	Line    int32
	Cured   bool // the token that was put in its place is surely right
	ownLine bool // what is missing stood on a line of its own
	within  Span // told only if nothing else is wrong there
}

func newScanner(text string) *scanner {
	s := &scanner{text: text, line: 1, known: [2]int{0, -1}}
	if strings.HasPrefix(text, "\uFEFF") {
		s.at = len("\uFEFF") // a byte order mark says nothing in UTF-8
	}
	return s
}

// next reads the next token, in place.
func (s *scanner) next(t *token) {
	s.blanks()
	start := s.at
	kind := tEOF
	if s.count++; start < len(s.text) && s.count <= maxTokens {
		kind = s.token(s.text[start])
	}
	s.last, s.lastEnd = kind, s.at
	t.kind, t.start, t.end, t.line = kind, int32(start), int32(s.at), s.line
}

// all appends all tokens; the last is the end.
func (s *scanner) all(toks []token) []token {
	for {
		toks = append(toks, token{})
		if s.next(&toks[len(toks)-1]); s.last == tEOF {
			return toks
		}
	}
}

// blanks goes past blanks, line breaks and comments.
func (s *scanner) blanks() {
	for s.at < len(s.text) {
		switch c := s.text[s.at]; {
		case c == ' ' || c == '\t':
			s.at++
		case c == '\n':
			s.at++
			s.line++
			s.lineStart = s.at
		case c > '/' && c < utf8.RuneSelf: // a letter, a digit, most signs
			return
		case !s.rareBlank(c):
			return
		}
	}
}

// rareBlank goes past a comment or a rare blank that begins with c, if it is one.
func (s *scanner) rareBlank(c byte) bool {
	switch {
	case c == '\r' && s.peek(1) == '\n':
		s.at++
	case c == '/' && s.peek(1) == '/':
		s.comment()
	case c == '/' && s.peek(1) == '*':
		s.starComment()
	case c == '#' && s.hashComment():
		s.comment()
	default:
		return c >= utf8.RuneSelf && s.wideBlank()
	}
	return true
}

// comment sets aside a comment up to the end of the line.
func (s *scanner) comment() {
	text := strings.TrimRight(s.text[s.at:s.lineEnd(s.at)], " \t\r")
	doc := strings.HasPrefix(text, "///") && !strings.HasPrefix(text, "////") &&
		strings.TrimLeft(s.text[s.lineStart:s.at], " \t") == ""
	s.comments = append(s.comments, Comment{Span: s.span(s.at, s.at+len(text)), Text: text, Doc: doc})
	s.at += len(text)
	for s.at < len(s.text) && s.text[s.at] != '\n' {
		s.at++
	}
}

// token reads one token that begins with c and returns its kind.
func (s *scanner) token(c byte) tokenKind {
	switch {
	case 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c == '_':
		return s.name()
	case '0' <= c && c <= '9':
		return s.number()
	case c >= utf8.RuneSelf:
		return s.wide()
	case c == '"':
		return s.str()
	case c == '#':
		return s.colour()
	case c == '.':
		return s.dot()
	}
	if kind, size := sign(c, s.peek(1)); size > 0 {
		s.at += size
		if kind == tLParen && s.lastEnd == s.at-1 && (s.last == tName || s.last == tX) {
			return tCall
		}
		return kind
	}
	return s.strange()
}

// sign returns the kind and length of the sign that begins with c.
func sign(c, next byte) (tokenKind, int) {
	switch c {
	case '(':
		return tLParen, 1
	case ')':
		return tRParen, 1
	case ',':
		return tComma, 1
	case '{':
		return tLBrace, 1
	case '}':
		return tRBrace, 1
	case ':':
		return tColon, 1
	case ';':
		return tSemicolon, 1
	case '+':
		return tPlus, 1
	case '*':
		return tStar, 1
	case '/':
		return tSlash, 1
	case '-':
		if next == '-' {
			return tDash, 2
		}
		return tMinus, 1
	case '=':
		if next == '=' {
			return tEqual, 2
		}
		return tAssign, 1
	case '<':
		if next == '=' {
			return tLessEqual, 2
		}
		return tLess, 1
	case '>':
		if next == '=' {
			return tGreaterEqual, 2
		}
		return tGreater, 1
	case '!':
		if next == '=' {
			return tUnequal, 2
		}
	}
	return tError, 0
}

func (s *scanner) name() tokenKind {
	start := s.at
	if s.at == s.loneX && s.at > 0 {
		s.at++
		return tX
	}
	s.at = nameEnd(s.text, s.at)
	return reserved(s.text[start:s.at])
}

// nameEnd returns where the run of name characters from i ends.
func nameEnd(text string, i int) int {
	for i < len(text) {
		c := text[i]
		if isLetter(c) || isDigit(c) {
			i++
			continue
		}
		if c < utf8.RuneSelf {
			break
		}
		r, size := utf8.DecodeRuneInString(text[i:])
		if !unicode.IsLetter(r) && !unicode.Is(unicode.Mn, r) {
			break
		}
		i += size
	}
	return i
}

func isLetter(c byte) bool {
	return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c == '_'
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// dot reads `.name`'s point, `..`, or a number that lacks its zero.
func (s *scanner) dot() tokenKind {
	start := s.at
	switch next := s.peek(1); {
	case next == '.':
		s.at += 2
		if s.peek(0) == '.' {
			s.at++
			s.cured(Typographic, start, "a range is written with two points", "",
				problem.Edit{At: s.span(start, s.at), New: ".."})
		}
		return tRange
	case isLetter(next) || next >= utf8.RuneSelf && nameEnd(s.text, s.at+1) > s.at+1:
		s.at++
		return tDot
	case isDigit(next) && !(s.lastEnd == s.at && (s.last == tName || s.last == tRParen || s.last == tNumber)):
		s.at++
		afterNumber := s.last == tNumber
		kind := s.number()
		s.fault(!afterNumber, BadNumber, start, "a number begins with a digit", "",
			[]problem.Edit{{At: s.span(start, start), New: "0"}})
		return kind
	}
	return s.strange()
}

// peek returns the byte n after the next one, or 0.
func (s *scanner) peek(n int) byte {
	if s.at+n < len(s.text) {
		return s.text[s.at+n]
	}
	return 0
}

// lineEnd returns where the line of a place ends. It is kept: a line may hold a
// whole file.
func (s *scanner) lineEnd(from int) int {
	if from < s.known[0] || from > s.known[1] {
		end := len(s.text)
		if n := strings.IndexByte(s.text[from:], '\n'); n >= 0 {
			end = from + n
		}
		s.known = [2]int{from, end}
	}
	return s.known[1]
}

func (s *scanner) span(start, end int) Span { return Span{Start: int32(start), End: int32(end)} }

// cured reports a fault from start to here whose token is surely what was
// meant; damaged one after which the line cannot be trusted.
func (s *scanner) cured(code problem.Code, start int, message, help string, edits ...problem.Edit) {
	s.fault(true, code, start, message, help, edits)
}

func (s *scanner) damaged(code problem.Code, start int, message, help string, edits ...problem.Edit) {
	s.fault(false, code, start, message, help, edits)
}

func (s *scanner) fault(cured bool, code problem.Code, start int, message, help string, edits []problem.Edit) {
	if n := len(s.faults); n > maxProblems {
		return
	} else if n > 0 && s.faults[n-1].Line == s.line && !(cured && s.faults[n-1].Cured) {
		// On a damaged line a second fault is most likely the same mistake.
		s.faults[n-1].Cured = false
		return
	}
	s.faults = append(s.faults, fault{
		Problem: problem.Problem{
			Code: code, Message: message, Help: help, Edits: edits,
			At: problem.Place{Span: s.span(start, s.at)},
		},
		Line: s.line, Cured: cured,
	})
}
