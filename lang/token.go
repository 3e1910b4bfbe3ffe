package lang

import (
	"io"

	"github.com/alecthomas/participle/v2/lexer"

	"seamwright/lang/problem"
)

// The kinds of token. Every sign and every reserved word is a kind of its own,
// so that the parser compares numbers, never texts; a sign mended by the lexer
// (— for --) has the kind of what was meant and the text that was written.
const (
	tEOF  = lexer.EOF
	tName = lexer.TokenType(iota)
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
func reserved(word string) lexer.TokenType {
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

func isWord(k lexer.TokenType) bool { return k >= tAccept && k <= tUse }

// reservedWords lists them all, for the reference.
const reservedWords = `accept along and as at block by check cm colorway deg else fabric false
finished for from if in join let line mm not of or outline pad pattern piece place quilt
reversed scrappy section then true turn unit use
`

// definition gives participle the tokens.
type definition struct{}

var (
	_ lexer.Definition       = definition{}
	_ lexer.StringDefinition = definition{}
	_ lexer.Lexer            = (*scanner)(nil)
)

// Symbols names the kinds that a grammar refers to by name. Signs and words
// stand in it as literals.
func (definition) Symbols() map[string]lexer.TokenType {
	return map[string]lexer.TokenType{
		"EOF": tEOF, "Name": tName, "Number": tNumber, "Colour": tColour, "String": tString,
		"Error": tError, "Call": tCall,
	}
}

func (definition) Lex(filename string, r io.Reader) (lexer.Lexer, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	return newScanner(string(text)), nil
}

func (definition) LexString(_, text string) (lexer.Lexer, error) { return newScanner(text), nil }

func spanOf(t *lexer.Token) problem.Span {
	return problem.Span{Start: int32(t.Pos.Offset), End: int32(t.Pos.Offset + len(t.Value))}
}
