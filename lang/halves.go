package lang

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"
)

// A large text is read by two, half and half, wherever that needs no judgement:
// where a half has any mistake, or looks beyond its end, all of it is read again
// from one end to the other, and only that is believed.

const (
	// largeText, in bytes, and largeBody, in tokens, are from where on that pays: of
	// a text of 1,000 pieces, half of that, it was seen to save nothing.
	largeText = 80 << 10
	largeBody = 25_000
)

// both does two tasks at the same time. A panic in one of them becomes one of the
// caller's.
func both(task func(i int)) {
	done := make(chan string, 1)
	go func() {
		defer func() {
			told := ""
			if r := recover(); r != nil {
				told = fmt.Sprintf("%v\n%s", r, debug.Stack())
			}
			done <- told
		}()
		task(1)
	}()
	task(0)
	if told := <-done; told != "" {
		panic(told)
	}
}

// alone reports whether there is no other processor.
func alone() bool { return runtime.GOMAXPROCS(0) < 2 }

// roomFor returns for how many tokens room is made: dense text has two in five
// bytes; where there are more the room grows.
func roomFor(text int) int { return text*2/5 + 16 }

// scanHalves returns the tokens and comments of a large text; none where it is not
// large, or has a mistake. It is parted where a line ends, which no token crosses.
func scanHalves(text string) ([]token, []Comment) {
	if len(text) < largeText || alone() {
		return nil, nil
	}
	half := len(text) / 2
	half += strings.IndexByte(text[half:], '\n') + 1
	scanners := [2]*scanner{newScanner(text[:half]), newScanner(text)}
	second := scanners[1]
	second.at, second.lineStart, second.line = half, half, int32(1+strings.Count(text[:half], "\n"))
	share := roomFor(half)
	room := make([]token, share+roomFor(len(text)-half))
	parts := [2][]token{room[:0:share], room[share:share]}
	both(func(i int) { parts[i] = scanners[i].all(parts[i]) })
	n := len(parts[0]) - 1 // without the end of the first half
	all := n + len(parts[1])
	switch {
	case len(scanners[0].faults)+len(second.faults) > 0, n >= share, all > min(len(room), maxTokens):
		return nil, nil
	case n > 0 && room[n-1].kind == tFor: // behind which a number is read otherwise
		return nil, nil
	}
	copy(room[n:], parts[1])
	return room[:all], append(scanners[0].comments, second.comments...)
}

// halves reads the statements of a large body up to its closing brace; none where
// it is not large, or has a mistake.
func (p *parser) halves(s *scope) []Stmt {
	if p.depth != 1 || len(p.toks)-p.at < largeBody || p.missing != 0 || len(p.faults) > 0 || alone() {
		return nil
	}
	middle, end := p.middle()
	if middle == 0 {
		return nil
	}
	parts := [2]*parser{p.from(p.at), p.from(middle)}
	ends := [2]int{middle, end}
	var read [2][]Stmt
	both(func(i int) { read[i] = parts[i].until(ends[i], s) })
	for i, part := range parts {
		if part.at != ends[i] || len(part.faults) > 0 {
			// A half mends misspelt words where they lie.
			p.toks = readable(newScanner(p.source).all(p.toks[:0]))
			return nil
		}
	}
	p.at = end
	return append(read[0], read[1]...)
}

// middle returns the token that begins a section of the body here, in the middle of
// what is left of the text, and the body's closing brace; 0 where there is none.
func (p *parser) middle() (middle, end int) {
	depth, half := 1, (p.at+len(p.toks))/2
	for i := p.at; i < len(p.toks); i++ {
		switch p.toks[i].kind {
		case tLBrace:
			depth++
		case tRBrace:
			if depth--; depth == 0 {
				return middle, i
			}
		case tSection:
			if depth == 1 && middle == 0 && i >= half {
				middle = i
			}
		}
	}
	return 0, 0
}

// from returns a parser like this one that begins at a token, with its own nodes.
func (p *parser) from(at int) *parser {
	return &parser{source: p.source, toks: p.toks, at: at, depth: p.depth}
}

// until reads statements up to a token, or the first mistake.
func (p *parser) until(end int, s *scope) (stmts []Stmt) {
	for p.at < end && len(p.faults) == 0 {
		if !p.take(tSemicolon) {
			stmts = append(stmts, p.stmt(s))
		}
	}
	return stmts
}
