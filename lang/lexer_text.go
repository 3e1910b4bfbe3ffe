package lang

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"seamwright/lang/problem"
)

// str reads a text in straight quotes.
func (s *scanner) str() tokenKind {
	start, end := s.at, s.lineEnd(s.at)
	strange := false
	for i := start + 1; i < end; i++ {
		switch c := s.text[i]; {
		case c == '"':
			s.at = i + 1
			return tString
		case c == '\\' && i+1 < end && (s.text[i+1] == '"' || s.text[i+1] == '\\'):
			i++
		case (c == '\\' || c < ' ' && c != '\t' && c != '\r' || c == 0x7F) && !strange:
			strange, s.at = true, i+1
			if c == '\\' {
				s.cured(BadString, i, "a backslash stands only before `\"` or another backslash", "",
					problem.Edit{At: s.span(i, i+1), New: `\\`})
			} else {
				s.cured(StrangeSign, i, "there is an invisible character in this text", "",
					problem.Edit{At: s.span(i, i+1)})
			}
		}
	}
	return s.openStr(start, end)
}

// openStr is for a text that is not closed on its line. If it holds a curly
// quote, that is its end; otherwise it takes the line, but for braces at the
// end of it, which are wanted for the sections around.
func (s *scanner) openStr(start, end int) tokenKind {
	if i := strings.IndexAny(s.text[start+1:end], "”“″„"); i >= 0 {
		i += start + 1
		_, size := utf8.DecodeRuneInString(s.text[i:])
		s.at = i + size
		s.cured(Typographic, start, curly, "", problem.Edit{At: s.span(i, s.at), New: `"`})
		return tString
	}
	word := s.text[start+1 : nameEnd(s.text, start+1)]
	if reserved(word) != tName && strings.TrimLeft(s.text[s.lineStart:start], " \t") == "" {
		s.at = start + 1 // a quote that slipped in before a statement
		s.damaged(BadString, start, "this quote opens nothing", "", problem.Edit{At: s.span(start, start+1)})
		return tError
	}
	s.at = start + max(1, len(strings.TrimRight(s.text[start:end], " \t\r{}")))
	s.damaged(BadString, start, "this text has no closing `\"` on its line", "")
	return tString
}

const curly = "curly quotes come from a word processor; a text stands between straight ones, `\"`"

// curlyStr reads a text in other quotes. Its first sign has been read.
func (s *scanner) curlyStr(start int, closing string) tokenKind {
	inside, end := s.at, s.lineEnd(s.at)
	i := strings.IndexAny(s.text[inside:end], closing)
	if i < 0 {
		s.at = max(inside, start+len(strings.TrimRight(s.text[start:end], " \t\r{}")))
		s.damaged(BadString, start, "this text has no closing `\"` on its line", "a text stands between straight quotes, `\"`")
		return tString
	}
	i += inside
	_, size := utf8.DecodeRuneInString(s.text[i:])
	s.at = i + size
	message := curly
	if s.text[start] == '\'' {
		message = "a text stands between double quotes, `\"`"
	}
	s.cured(Typographic, start, message, "",
		problem.Edit{At: s.span(start, inside), New: `"`}, problem.Edit{At: s.span(i, s.at), New: `"`})
	return tString
}

// meaning is what stands in a text, its quotes and backslashes undone.
func meaning(token string) string {
	_, first := utf8.DecodeRuneInString(token)
	body := token[first:]
	if body != "" {
		if last, size := utf8.DecodeLastRuneInString(body); strings.ContainsRune(`"”“″„’‘'»`, last) {
			body = body[:len(body)-size]
		}
	}
	if strings.IndexByte(body, '\\') < 0 {
		return body
	}
	return strings.NewReplacer(`\\`, `\`, `\"`, `"`).Replace(body)
}

// colour reads #rrggbb. What begins with # and is none is told apart from a
// comment before, in hashComment.
func (s *scanner) colour() tokenKind {
	start := s.at
	s.at = nameEnd(s.text, start+1)
	word := s.text[start+1 : s.at]
	if word == "" || reserved(word) != tName {
		s.at = start
		return s.strange()
	}
	if len(word) == 6 && isHex(word) {
		return tColour
	}
	var edits []problem.Edit
	if len(word) == 3 && isHex(word) {
		full := []byte{word[0], word[0], word[1], word[1], word[2], word[2]}
		edits = append(edits, problem.Edit{At: s.span(start+1, s.at), New: string(full)})
	}
	s.damaged(BadColour, start, "a color is `#` and six of the digits 0 to 9 and a to f, like `#3c7d8c`", "", edits...)
	return tColour
}

// hashComment reports whether the # here is meant to begin a comment.
func (s *scanner) hashComment() bool {
	end := nameEnd(s.text, s.at+1)
	word := s.text[s.at+1 : end]
	first := strings.TrimLeft(s.text[s.lineStart:s.at], " \t\r") == ""
	blank := end == len(s.text) || strings.IndexByte(" \t\r\n", s.text[end]) >= 0
	switch {
	case word == "" && (!blank || s.at > 0 && s.at == s.lastEnd): // some sign slipped in
		return false
	case word != "" && (!first || len(word) == 6 && isHex(word) || reserved(word) != tName):
		return false
	}
	start := s.at
	s.at = s.lineEnd(start)
	s.cured(BadComment, start, "a comment begins with `//`", "", problem.Edit{At: s.span(start, start+1), New: "//"})
	s.at = start
	return true
}

// starComment goes past /* ... */, or the line if it is not closed.
func (s *scanner) starComment() {
	start := s.at
	end, inner := s.lineEnd(start), ""
	if !s.noStar {
		i := strings.Index(s.text[start+2:], "*/")
		if s.noStar = i < 0; i >= 0 {
			end = start + 2 + i + 2
			inner = s.text[start+2 : end-2]
		}
	}
	s.at = min(end, s.lineEnd(start))
	var edits []problem.Edit
	after := skipBlanks(s.text, end)
	if last := after == len(s.text) || s.text[after] == '\r' || s.text[after] == '\n'; last && s.at == end && inner != "" {
		edits = append(edits, problem.Edit{At: s.span(start, end), New: "// " + strings.TrimSpace(inner)})
	}
	s.cured(BadComment, start, "a comment begins with `//` and ends with its line", "", edits...)
	s.comments = append(s.comments, Comment{Span: s.span(start, s.at), Text: s.text[start:s.at]})
	for s.at < end {
		if s.text[s.at] == '\n' {
			s.line++
			s.lineStart = s.at + 1
		}
		s.at++
	}
}

// wideBlank goes past a blank that is none of ours, or an invisible character.
func (s *scanner) wideBlank() bool {
	r, size := utf8.DecodeRuneInString(s.text[s.at:])
	message, instead := "this blank comes from a word processor; an ordinary one is needed", " "
	switch {
	case unicode.Is(unicode.Zs, r):
	case unicode.Is(unicode.Cf, r):
		message, instead = "there is an invisible character here", ""
	default:
		return false
	}
	start := s.at
	s.at += size
	s.cured(Typographic, start, message, "", problem.Edit{At: s.span(start, s.at), New: instead})
	return true
}

// wide reads a token that begins with a character beyond ASCII.
func (s *scanner) wide() tokenKind {
	start := s.at
	r, size := utf8.DecodeRuneInString(s.text[start:])
	if unicode.IsLetter(r) {
		return s.name()
	}
	s.at += size
	if num, den := vulgar(r); den > 0 {
		s.cured(Typographic, start, "`"+string(r)+"` is a sign of a word processor; a fraction is written with `/`", "",
			problem.Edit{At: s.span(start, s.at), New: num + "/" + string('0'+rune(den))})
		return s.unit(start)
	}
	switch r {
	case '“', '”', '„', '‟', '«', '»', '″':
		return s.curlyStr(start, `"”“″»«`)
	case '‘', '’', '′':
		return s.curlyStr(start, `'’‘′`)
	}
	kind, plain := plainSign(r)
	if kind == tError {
		s.at = start
		return s.strange()
	}
	s.cured(Typographic, start, "`"+string(r)+"` is a sign of a word processor; here `"+plain+"` is written", "",
		problem.Edit{At: s.span(start, s.at), New: plain})
	return kind
}

// plainSign returns what a typographic sign stands for.
func plainSign(r rune) (tokenKind, string) {
	switch r {
	case '—', '–', '―', '⸺':
		return tDash, "--"
	case '−', '‐', '‑', '‒', '﹣', '－':
		return tMinus, "-"
	case '×', '✕', '✖', '⨯':
		return tX, "x"
	case '·', '⋅', '∙', '•', '∗':
		return tStar, "*"
	case '÷', '∕', '⁄':
		return tSlash, "/"
	case '≤':
		return tLessEqual, "<="
	case '≥':
		return tGreaterEqual, ">="
	case '≠':
		return tUnequal, "!="
	case '…', '‥':
		return tRange, ".."
	case '，', '、':
		return tComma, ","
	case '；':
		return tSemicolon, ";"
	case '：':
		return tColon, ":"
	case '（':
		return tLParen, "("
	case '）':
		return tRParen, ")"
	case '｛':
		return tLBrace, "{"
	case '｝':
		return tRBrace, "}"
	}
	return tError, ""
}

// bracket reads a square bracket as the parenthesis that is meant.
func (s *scanner) bracket(start int) tokenKind {
	s.at = start + 1
	kind, plain := tLParen, "("
	if s.text[start] == ']' {
		kind, plain = tRParen, ")"
	}
	s.cured(StrangeSign, start, "points and the values of helpers stand in parentheses, `"+plain+"`", "",
		problem.Edit{At: s.span(start, s.at), New: plain})
	return kind
}

// strange reads a run of characters that mean nothing.
func (s *scanner) strange() tokenKind {
	start := s.at
	first, size := utf8.DecodeRuneInString(s.text[start:])
	switch first {
	case '\'':
		s.at = start + 1
		return s.curlyStr(start, `'’‘′`)
	case '[', ']':
		return s.bracket(start)
	}
	for {
		s.at += size
		var r rune
		r, size = utf8.DecodeRuneInString(s.text[s.at:])
		if size == 0 || r != first {
			break
		}
	}
	what, help := "`"+string(first)+"` means nothing here", ""
	switch {
	case first == utf8.RuneError:
		return tError // the encoding has been reported, once for the file
	case first == '\r' || unicode.IsControl(first):
		what = "there is an invisible character here"
	case first == '.':
		what = "a point stands before a name, as in `p.x`, or within a number"
	case first == '!':
		help = "`not` turns a condition round, `!=` means is not equal"
	case first == '&':
		help = "two conditions are joined with `and`"
	case first == '|':
		help = "two conditions are joined with `or`"
	case first == '%':
		help = "what is left of a division is `mod(a, b)`"
	}
	s.damaged(StrangeSign, start, what, help, problem.Edit{At: s.span(start, s.at)})
	return tError
}
