package grammar

import (
	"errors"
	"io"

	"github.com/alecthomas/participle/v2/lexer"

	"seamwright/lang"
)

// definition gives participle the tokens of lang.
type definition struct{}

var (
	_ lexer.Definition       = definition{}
	_ lexer.StringDefinition = definition{}
)

// other is the kind of signs and of the words of the language, which stand in the
// grammar as literals.
const other = lexer.EOF - 1

// Symbols names the kinds that the grammar refers to by name.
func (definition) Symbols() map[string]lexer.TokenType {
	return map[string]lexer.TokenType{
		"EOF": lexer.EOF, "Name": other - 1, "Number": other - 2, "Colour": other - 3, "String": other - 4, "Call": other - 5,
	}
}

func (d definition) Lex(name string, r io.Reader) (lexer.Lexer, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	return d.LexString(name, string(text))
}

func (d definition) LexString(_, text string) (lexer.Lexer, error) {
	list, sound := lang.Tokens(text)
	if !sound {
		return nil, errors.New("a word or sign of the text is none of the language")
	}
	kinds := d.Symbols()
	all := make(tokens, len(list))
	for i, t := range list {
		kind := other
		if t.Class != "" {
			kind = kinds[t.Class]
		}
		all[i] = lexer.Token{Type: kind, Value: t.Text, Pos: lexer.Position{Offset: int(t.At.Start)}}
	}
	return &all, nil
}

// tokens are those not yet read.
type tokens []lexer.Token

func (t *tokens) Next() (lexer.Token, error) {
	if len(*t) == 0 {
		return lexer.EOFToken(lexer.Position{}), nil
	}
	next := (*t)[0]
	*t = (*t)[1:]
	return next, nil
}
