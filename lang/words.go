package lang

import (
	"slices"
	"strings"

	"seamwright/lang/problem"
)

// misspelt looks at a name that stands where one of these words belongs. If it
// is a slip for one of them (a letter wrong, a blank too many or too few), that
// is reported and the tokens are mended.
func (p *parser) misspelt(words ...string) bool {
	t := p.toks[p.at]
	if t.kind != tName && t.kind != tX || len(p.faults) > maxProblems {
		return false
	}
	if word := problem.Nearest(p.text(&t), words); word != "" {
		p.mend(Misspelt, t.span(), t.line, "`"+p.text(&t)+"` is unknown here; did you mean `"+word+"`?", "",
			problem.Edit{At: t.span(), New: word})
		p.retype(p.at, word)
		return true
	}
	return p.shortSlip(words) || p.broken(words) || p.glued(words)
}

// shortSlip mends a word of two letters, of which so many names are a slip that
// a value must follow, as none follows a name.
func (p *parser) shortSlip(words []string) bool {
	t := &p.toks[p.at]
	switch next := p.ahead(1); next {
	case tName, tX, tNumber, tLParen:
	default:
		return false
	}
	if p.first(p.at + 1) {
		return false
	}
	for _, word := range words {
		if len(word) == 2 && oneSlip(p.text(t), word) {
			p.mend(Misspelt, t.span(), t.line, "`"+p.text(t)+"` is unknown here; did you mean `"+word+"`?", "",
				problem.Edit{At: t.span(), New: word})
			p.retype(p.at, word)
			return true
		}
	}
	return false
}

// oneSlip reports whether a word of two letters lacks one, has one too many
// or has them exchanged.
func oneSlip(given, word string) bool {
	switch len(given) {
	case 1:
		return strings.Contains(word, given)
	case 2:
		return given[0] == word[1] && given[1] == word[0]
	case 3:
		return given[1:] == word || given[:2] == word || given[:1]+given[2:] == word
	}
	return false
}

// broken mends a word with a blank in it: `sec tion`.
func (p *parser) broken(words []string) bool {
	t, after := &p.toks[p.at], &p.toks[min(p.at+1, len(p.toks)-1)]
	if after.kind != tName && !isWord(after.kind) || after.line != t.line {
		return false
	}
	for _, word := range words {
		if word != p.text(t)+p.text(after) {
			continue
		}
		span := t.span().To(after.span())
		p.mend(Misspelt, span, t.line, "`"+word+"` is one word", "", problem.Edit{At: span, New: word})
		p.toks = slices.Delete(p.toks, p.at+1, p.at+2)
		p.retype(p.at, word)
		return true
	}
	return false
}

// glued mends a word that lacks the blank behind it: `letdeck`.
func (p *parser) glued(words []string) bool {
	t := p.toks[p.at]
	for _, word := range words {
		rest, ok := strings.CutPrefix(p.text(&t), word)
		if !ok || rest == "" || len(word) < 3 || isDigit(rest[0]) && digits(rest, 0) < len(rest) {
			continue
		}
		cut := t.span().Start + int32(len(word))
		p.mend(Misspelt, t.span(), t.line, "a blank is missing after `"+word+"`", "", insert(cut, " "))
		kind := tNumber
		if !isDigit(rest[0]) {
			kind = reserved(rest)
		}
		second := t
		second.kind, second.start = kind, cut
		p.toks = slices.Insert(p.toks, p.at+1, second)
		p.toks[p.at].end = cut
		p.retype(p.at, word)
		return true
	}
	return false
}

// retype makes a token the word that was meant; its text stays, as spans are
// measured by it.
func (p *parser) retype(i int, word string) { p.toks[i].kind = reserved(word) }

// word goes past a word that must stand here.
func (p *parser) word(kind tokenKind, word, why string) bool {
	if p.take(kind) {
		return true
	}
	if p.sameLine() && !p.panic && p.misspelt(word) {
		p.next()
		return true
	}
	p.lack(WordMissing, "`"+word+"` is missing"+why, "", insert(p.end(), " "+word))
	return false
}

// prose reports whether the `--` at token i begins a comment: two words stand
// behind it on its line, side by side, not both as short as the points nw to
// se, and no further `--`. If it is strict, no sound expression has them so.
func (p *parser) prose(i int, strict bool) bool {
	if i+2 >= len(p.toks) {
		return false
	}
	one, two := &p.toks[i+1], &p.toks[i+2]
	line := p.toks[i].line
	if two.line != line || len(p.text(one)) < 3 && len(p.text(two)) < 3 {
		return false
	}
	named := one.kind == tName || one.kind == tX
	if !named && !isWord(one.kind) || two.kind != tName && two.kind != tX && !isWord(two.kind) {
		return false
	}
	switch p.toks[i+2+min(1, len(p.toks)-i-3)].kind {
	case tCall, tLParen, tDot:
		return false
	}
	if strict && (p.inPiece && p.cornerAt(i+2) || two.kind != tName || one.kind == tNot || one.kind == tTrue || one.kind == tFalse) {
		return false
	}
	for j := i + 3; p.toks[j-1].kind != tEOF && p.toks[j].line == line; j++ {
		if p.toks[j].kind == tDash {
			return false
		}
	}
	return true
}

// dashComment reports a `--` that begins a comment, and goes past its line.
func (p *parser) dashComment(i int) {
	t := &p.toks[i]
	p.panic = false
	p.mend(CommentDashes, t.span(), t.line, "`--` joins two points; a comment begins with `//`", "",
		problem.Edit{At: t.span(), New: "//"})
	for p.at = i; p.line() == t.line && !p.is(tEOF) && !p.is(tLBrace) && !p.is(tRBrace); {
		p.next()
	}
}
