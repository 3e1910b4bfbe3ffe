package grammar

import (
	"regexp"
	"strings"

	"github.com/alecthomas/participle/v2"

	"seamwright/lang"
)

// New returns a parser by the tagged grammar. Its errors say where a text is none
// of the language; limits of size and depth are left to [lang.Parse].
func New() (*participle.Parser[lang.Tagged], error) {
	return participle.Build[lang.Tagged](participle.Lexer(definition{}), participle.UseLookahead(2))
}

// EBNF prints the grammar of the reference: productions in small letters, tokens
// in capitals, then what the tokens are.
func EBNF() string {
	p, err := New()
	if err != nil {
		return err.Error() // only a mistake in the tags, which the tests would find
	}
	text := regexp.MustCompile(`<(\w+)>|\bG([A-Z])(\w*)`).ReplaceAllStringFunc(p.String(), func(s string) string {
		switch {
		case s == "<call>":
			return `"("`
		case s == "<colour>":
			return "COLOR"
		case s[0] == '<':
			return strings.ToUpper(s[1 : len(s)-1])
		}
		return strings.ToLower(s[1:2]) + s[2:]
	})
	return text + tokenNotes
}

const tokenNotes = `

NUMBER  digits [ "." digits ] [ unit ]
        digits "/" digits unit                    a bare 1/2 is a division
        digits blanks digits "/" digits [ unit ]  one number, the fraction under 1, on one line
unit    in, cm, mm or deg, right behind its number
COLOR   "#" and six hexadecimal digits
STRING  between two ", on one line; \" and \\ stand for " and \
NAME    a letter or _, then letters, digits and _; no reserved word, and not x
".."    and "--" are single tokens wherever they stand
"."     before the name of a field stands right before it
"("     of nameUse (a helper) stands right behind its name; a corner's stands apart
blanks  and line breaks part tokens and mean nothing else
//      begins a comment that ends with its line, /// one that describes what stands below it

reserved: ` + lang.ReservedWords
