package lang

import (
	"strings"

	"pgregory.net/rapid"
)

// A generator writes random programs, token by token, after the grammar. Names
// and kinds make no sense; only the syntax does.
type generator struct {
	t    *rapid.T
	toks []generated
	left int // how many more expressions may branch

	drawn bool // the unit gives its lines, not its sections
}

type generated struct {
	text  string
	glued bool // nothing may stand before it
}

// drawn draws a whole file as tokens.
func drawn(t *rapid.T) []generated {
	g := &generator{t: t, left: 60}
	for range rapid.IntRange(0, 5).Draw(t, "decls") {
		g.decl()
	}
	return g.toks
}

func (g *generator) put(words ...string) {
	for _, w := range words {
		g.toks = append(g.toks, generated{text: w})
	}
}

func (g *generator) glue(w string) { g.toks = append(g.toks, generated{w, true}) }

func (g *generator) n(most int) int { return rapid.IntRange(0, most).Draw(g.t, "n") }

func (g *generator) maybe() bool { return rapid.Bool().Draw(g.t, "maybe") }

func (g *generator) pick(words ...string) string { return rapid.SampledFrom(words).Draw(g.t, "word") }

func (g *generator) name() {
	g.put(g.pick("sky", "deck", "n", "ne", "c", "x", "w2", "möwe", "_q", "mid", "a", "Rounds", "north", "letter", "format"))
}

// plain is a name where the word x may not stand.
func (g *generator) plain() { g.put(g.pick("edition", "sheet", "light", "q", "blocks", "border")) }

func (g *generator) text() {
	g.put(g.pick(`"sky"`, `""`, `"a \"b\" \\"`, `"// no comment"`, `"{ ; }"`, `"½ — ”"`))
}

func (g *generator) number() {
	g.put(g.pick("0", "1", "8", "2.5", "2 1/2", "3  3/4in", "1/4in", "90deg", "10mm", "2.54cm", "1/3cm", "007", "2 0/5"))
}

// list writes one to three of something with commas between.
func (g *generator) list(one func()) {
	for i := range g.n(2) + 1 {
		if i > 0 {
			g.put(",")
		}
		one()
	}
}

func (g *generator) decl() {
	switch g.n(9) {
	case 0:
		g.put("pattern")
		g.text()
		g.props()
	case 1:
		g.put("quilt")
		if g.maybe() {
			g.text()
		}
		g.props()
	case 2:
		g.put("pad")
		g.props()
	case 3:
		g.put("use")
		g.list(func() {
			g.name()
			if g.maybe() {
				g.put("as")
				g.name()
			}
		})
		g.put("from", `"std/log_cabin"`)
	case 4:
		g.fabric()
	case 5:
		g.colorway()
	case 6:
		g.put("accept", "R101")
		g.text()
	case 7:
		g.put(";")
	default:
		g.unit()
	}
}

func (g *generator) props() {
	g.put("{")
	for range g.n(3) {
		g.plain()
		g.list(func() {
			g.expr(2)
			for _, word := range []string{"x", "of", "turn"} {
				if g.n(5) == 0 {
					g.put(word)
					g.expr(2)
				}
			}
			if g.n(5) == 0 {
				g.put("reversed")
			}
		})
		if g.n(3) == 0 {
			g.put(";")
		}
	}
	g.put("}")
}

func (g *generator) fabric() {
	g.put("fabric")
	g.name()
	if g.maybe() {
		g.text()
	}
	g.put(g.pick("light", "medium", "x"), g.pick("#dfeaf0", "#000000", "#FFFFFF", "#00aB01"))
	if g.maybe() {
		g.put("scrappy", "by", g.pick("piece", "section", "unit", "block"))
	}
}

func (g *generator) colorway() {
	g.put("colorway")
	g.name()
	if g.maybe() {
		g.text()
	}
	g.put("{")
	for range g.n(3) {
		g.name()
		if g.maybe() {
			g.put("as")
			g.name()
		} else {
			if g.maybe() {
				g.text()
			}
			if g.maybe() {
				g.plain()
			}
			g.put("#123456")
		}
		if g.maybe() {
			g.put(";")
		}
	}
	g.put("}")
}

func (g *generator) unit() {
	block := g.maybe()
	g.put(map[bool]string{true: "block", false: "unit"}[block])
	g.name()
	params := g.maybe()
	if params {
		g.put("(")
		if g.maybe() {
			g.list(func() {
				g.name()
				g.put(":", g.pick("count", "number", "fabric", "line", "x"))
				if g.maybe() {
					g.put("=")
					g.expr(2)
				}
			})
		}
		g.put(")")
	}
	switch {
	case g.maybe():
		g.put("outline")
		g.list(func() { g.expr(2) })
	case params:
		g.expr(2)
		g.put("x")
		g.expr(2)
	default:
		g.number()
		g.put("x")
		g.number()
	}
	if block {
		g.put("finished")
		g.list(func() {
			g.expr(2)
			if g.maybe() {
				g.put("x")
				g.expr(2)
			}
		})
	}
	g.drawn = g.maybe()
	g.body(3, false)
}

func (g *generator) body(depth int, section bool) {
	g.put("{")
	for range g.n(3) {
		g.stmt(depth-1, section)
		if g.n(3) == 0 {
			g.put(";")
		}
	}
	g.put("}")
}

func (g *generator) stmt(depth int, section bool) {
	kind := g.n(9)
	if depth <= 0 && (kind == 4 || kind == 5 || kind == 9) || section && kind > 5 {
		kind = 0
	}
	if !section && g.drawn && (kind == 6 || kind == 7 || kind == 9) {
		kind = []int{8, 10}[kind%2]
	}
	if !section && !g.drawn && (kind < 2 || kind == 8) {
		kind = 6 + kind%2
	}
	switch kind {
	case 0, 1:
		g.piece()
	case 2:
		g.put("let")
		g.name()
		g.put("=")
		g.expr(3)
	case 3:
		if g.maybe() {
			g.put("accept", "R101")
		} else {
			g.put("check")
			g.expr(3)
		}
		g.text()
	case 4:
		g.put("for")
		g.name()
		g.put("in")
		g.expr(2)
		if g.maybe() {
			g.put("..")
			g.expr(2)
		} else if g.maybe() {
			g.put(",")
			g.list(func() { g.expr(2) })
		}
		g.body(depth, section)
	case 5:
		g.put("if")
		g.expr(2)
		g.body(depth, section)
		for range g.n(2) {
			g.put("else", "if")
			g.expr(2)
			g.body(depth, section)
		}
		if g.maybe() {
			g.put("else")
			g.body(depth, section)
		}
	case 6:
		g.put("join")
		g.list(func() { g.expr(2) })
		if g.n(4) == 0 {
			g.put("partial")
		}
		if g.maybe() {
			g.put("from")
			g.expr(2)
		}
	case 7:
		g.place()
	case 8:
		g.put("line")
		g.list(func() {
			g.binary(2, 0)
			for range g.n(2) + 1 {
				g.put("--")
				g.binary(2, 0)
			}
		})
		if g.n(4) == 0 {
			g.put("partial")
		}
	case 10:
		g.put("section")
		word := g.pick("at", "along")
		if word == "at" && g.maybe() {
			g.name()
		}
		g.put(word)
		g.list(func() { g.expr(2) })
	case 9:
		g.put("section")
		if g.maybe() {
			g.name()
		}
		g.body(depth, true)
	}
}

func (g *generator) piece() {
	if g.maybe() {
		g.put("piece")
	} else {
		g.put(g.pick("1", "2", "13"))
	}
	g.expr(1)
	if g.n(3) == 0 {
		g.corner()
		for range g.n(2) + 2 {
			g.put(",")
			g.binary(1, 0)
		}
		return
	}
	if g.maybe() {
		g.put("along")
		g.expr(3)
	}
	if g.maybe() {
		g.put("at")
		g.list(func() { g.expr(2) })
	}
}

// corner writes the first corner of a piece.
func (g *generator) corner() {
	if g.maybe() {
		g.put("(")
		g.expr(1)
		g.put(",")
		g.expr(1)
		g.put(")")
	} else {
		g.name()
		if g.maybe() {
			g.args(true)
		}
	}
	if g.maybe() {
		g.put(g.pick("*", "/"))
		g.unary(1)
	}
	if g.maybe() {
		g.put(g.pick("+", "-"))
		g.binary(1, 5)
	}
}

func (g *generator) place() {
	g.put("place")
	g.name()
	if g.maybe() {
		g.args(false)
	}
	for _, word := range rapid.Permutation([]string{"as", "by", "at", "turn", "reversed"}).Draw(g.t, "clauses")[:g.n(5)] {
		g.put(word)
		switch word {
		case "as":
			g.name()
		case "by", "at", "turn":
			g.expr(2)
		}
	}
}

func (g *generator) args(glued bool) {
	if glued {
		g.glue("(")
	} else {
		g.put("(")
	}
	if g.maybe() {
		g.list(func() {
			if g.maybe() {
				g.name()
				g.put(":")
			}
			g.expr(1)
		})
	}
	g.put(")")
}

func (g *generator) expr(depth int) {
	switch g.n(6) {
	case 0:
		if depth > 0 && g.left > 0 {
			g.left--
			g.put("if")
			g.expr(depth - 1)
			g.put("then")
			g.expr(depth - 1)
			g.put("else")
			g.expr(depth - 1)
			return
		}
	case 1:
		g.binary(depth, 0)
		g.put("--")
	}
	g.binary(depth, 0)
}

// binary writes operators that bind tighter than those of the levels before.
func (g *generator) binary(depth, level int) {
	ops := [][]string{{"or"}, {"and"}, {"not"}, {"==", "!=", "<", "<=", ">", ">="}, {"+", "-"}, {"*", "/"}}
	if level == len(ops) || depth <= 0 || g.left <= 0 {
		g.unary(depth)
		return
	}
	if g.n(7) > 0 {
		g.binary(depth, level+1)
		return
	}
	g.left--
	switch level {
	case 2:
		g.put("not")
		g.binary(depth-1, 2)
	case 3:
		g.binary(depth-1, 4)
		g.put(g.pick(ops[3]...))
		g.binary(depth-1, 4)
	default:
		g.binary(depth-1, level+1)
		for range g.n(2) + 1 {
			g.put(g.pick(ops[level]...))
			g.binary(depth-1, level+1)
		}
	}
}

func (g *generator) unary(depth int) {
	for range max(0, g.n(6)-4) {
		g.put("-")
	}
	switch k := g.n(9); {
	case k <= 1:
		g.number()
	case k <= 4 || depth <= 0 || g.left <= 0:
		g.name()
	case k == 5:
		g.put(g.pick("true", "false", `"text"`))
	case k == 6:
		g.left--
		g.name()
		g.args(true)
	default:
		g.left--
		g.put("(")
		g.expr(depth - 1)
		if k == 7 {
			g.put(",")
			g.expr(depth - 1)
		}
		g.put(")")
	}
	for range max(0, g.n(7)-5) {
		g.put(".")
		g.glue(g.pick("x", "y", "left"))
	}
}

// lay writes tokens with random blanks, line breaks and comments between them.
// A point or parenthesis is never put right behind a name by accident.
func lay(t *rapid.T, toks []generated) string {
	var b strings.Builder
	comments := rapid.Bool().Draw(t, "comments")
	for i, tok := range toks {
		if i > 0 && !tok.glued {
			gap := rapid.IntRange(0, 30).Draw(t, "gap")
			switch {
			case strings.Contains(tok.text, "/") && isDigit(tok.text[0]) && isDigit(toks[i-1].text[0]):
				b.WriteString("\n") // side by side they are one number
			case comments && gap == 0:
				b.WriteString(" // the hull, 1/2 of it {\n")
			case comments && gap == 1:
				b.WriteString("\n/// on a line of its own\n")
			case comments && gap == 2:
				b.WriteString("\n\n  //\n\n//// a rule\n")
			case gap == 3:
				b.WriteString("\n\n\n")
			case gap <= 6:
				b.WriteString("\r\n\t")
			case gap <= 10 && strings.Contains("){},;", tok.text) && tok.text != "":
			default:
				b.WriteString(" ")
			}
		}
		b.WriteString(tok.text)
	}
	if comments {
		b.WriteString(" // the end")
	}
	return b.String()
}

// mutated draws a file of which whole tokens are lost, doubled or exchanged.
func mutated(t *rapid.T) string {
	toks := drawn(t)
	if len(toks) < 2 {
		t.Skip("nothing to mutate")
	}
	for range rapid.IntRange(1, 3).Draw(t, "mutations") {
		i := rapid.IntRange(0, len(toks)-2).Draw(t, "where")
		switch rapid.IntRange(0, 3).Draw(t, "how") {
		case 0:
			toks = append(toks[:i:i], toks[i+1:]...)
		case 1:
			toks = append(toks[:i+1:i+1], toks[i:]...)
		case 2:
			toks = append(toks[:i:i], append([]generated{toks[i+1], toks[i]}, toks[i+2:]...)...)
		case 3:
			toks[i].text = rapid.SampledFrom(append(strings.Fields(ReservedWords),
				"(", ")", "{", "}", ",", ";", ":", "--", "..", "=", "==", "+", "-", "sky", "1", `"t"`, "#123456")).Draw(t, "instead")
		}
		if len(toks) < 2 {
			break
		}
	}
	return lay(t, toks)
}
