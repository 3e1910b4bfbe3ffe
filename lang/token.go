package lang

// A token is a word, sign or literal of a text. It is small, for a long text has
// hundreds of thousands.
type token struct {
	kind       tokenKind
	start, end int32 // bytes of the text
	line       int32 // from 1
}

func (t *token) span() Span { return Span{Start: t.start, End: t.end} }

type tokenKind uint8

// The kinds of token. Every sign and every reserved word is a kind of its own,
// so that the parser compares numbers, never texts; a sign mended by the lexer
// (— for --) has the kind of what was meant and the text that was written.
const (
	tEOF tokenKind = iota
	tName
	tNumber
	tColour
	tString
	tError // text that means nothing; its problem is already reported

	tLBrace
	tRBrace
	tLParen
	tCall // a parenthesis right behind a name
	tRParen
	tComma
	tColon
	tSemicolon
	tDot
	tRange
	tDash // --
	tPlus
	tMinus
	tStar
	tSlash
	tAssign
	tEqual
	tUnequal
	tLess
	tLessEqual
	tGreater
	tGreaterEqual
	tX // the word x: a name, or the sign between two measures

	tAccept // the first reserved word
	tAlong
	tAnd
	tAs
	tAt
	tBlock
	tBy
	tCheck
	tCm
	tColorway
	tDeg
	tElse
	tFabric
	tFalse
	tFinished
	tFor
	tFrom
	tIf
	tIn
	tJoin
	tLet
	tLine
	tMm
	tNot
	tOf
	tOr
	tOutline
	tPad
	tPartial
	tPattern
	tPiece
	tPlace
	tQuilt
	tReversed
	tScrappy
	tSection
	tThen
	tTrue
	tTurn
	tUnit
	tUse // the last reserved word
)

// reserved returns the kind of a reserved word, or tName. The units are
// reserved too, so that `4 mm` can be told from a number and a name.
func reserved(word string) tokenKind {
	if len(word) < 2 || len(word) > len("reversed") {
		if word == "x" {
			return tX
		}
		return tName
	}
	switch word {
	case "accept":
		return tAccept
	case "along":
		return tAlong
	case "and":
		return tAnd
	case "as":
		return tAs
	case "at":
		return tAt
	case "block":
		return tBlock
	case "by":
		return tBy
	case "check":
		return tCheck
	case "cm":
		return tCm
	case "colorway":
		return tColorway
	case "deg":
		return tDeg
	case "else":
		return tElse
	case "fabric":
		return tFabric
	case "false":
		return tFalse
	case "finished":
		return tFinished
	case "for":
		return tFor
	case "from":
		return tFrom
	case "if":
		return tIf
	case "in":
		return tIn
	case "join":
		return tJoin
	case "let":
		return tLet
	case "line":
		return tLine
	case "mm":
		return tMm
	case "not":
		return tNot
	case "of":
		return tOf
	case "or":
		return tOr
	case "outline":
		return tOutline
	case "pad":
		return tPad
	case "partial":
		return tPartial
	case "pattern":
		return tPattern
	case "piece":
		return tPiece
	case "place":
		return tPlace
	case "quilt":
		return tQuilt
	case "reversed":
		return tReversed
	case "scrappy":
		return tScrappy
	case "section":
		return tSection
	case "then":
		return tThen
	case "true":
		return tTrue
	case "turn":
		return tTurn
	case "unit":
		return tUnit
	case "use":
		return tUse
	}
	return tName
}

func isWord(k tokenKind) bool { return k >= tAccept && k <= tUse }

// ReservedWords lists them all, for the reference.
const ReservedWords = `accept along and as at block by check cm colorway deg else fabric false
finished for from if in join let line mm not of or outline pad partial pattern piece place quilt
reversed scrappy section then true turn unit use
`

// A Token is a word, sign or literal as [Parse] sees it.
type Token struct {
	Class string // Name, Number, Colour, String or Call; empty for other signs and for the words of the language
	Text  string
	At    Span
}

// Tokens cuts a text into tokens, for whoever holds [Parse] to the grammar. Sound
// is false where the text has a mistake within a token.
func Tokens(text string) (tokens []Token, sound bool) {
	s := newScanner(text)
	var t token
	for s.next(&t); t.kind != tEOF; s.next(&t) {
		tokens = append(tokens, Token{class(t.kind), text[t.start:t.end], t.span()})
	}
	return tokens, len(s.faults) == 0
}

func class(k tokenKind) string {
	switch k {
	case tName:
		return "Name"
	case tNumber:
		return "Number"
	case tColour:
		return "Colour"
	case tString:
		return "String"
	case tCall:
		return "Call"
	}
	return ""
}
