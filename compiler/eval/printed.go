package eval

import (
	"strings"
	"unicode/utf8"

	"seamwright/compiler/pattern"
	"seamwright/lang"
)

// printed keeps an author's text that is printed, with its place, for whoever
// knows which characters can be: only texts with others than those of ASCII.
func (e *evaluator) printed(f *file, words string, at lang.Span) {
	if strings.ContainsFunc(words, func(r rune) bool { return r >= utf8.RuneSelf }) {
		e.out.Pattern.Texts = append(e.out.Pattern.Texts, pattern.Text{Words: words, At: f.place(at)})
	}
}
