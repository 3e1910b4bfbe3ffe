package main

import (
	"fmt"
	"strings"

	"seamwright/lang/problem"
)

// count puts a number before a word, in the plural where it is due.
func count(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// unknownWord words a wrong value of a flag.
func unknownWord(flag, word string, known []string) string {
	s := fmt.Sprintf("%s knows no %q", flag, word)
	if near := problem.Nearest(word, known); near != "" {
		return s + fmt.Sprintf("; did you mean %s?", near)
	}
	return s + "; it knows " + list(known)
}

// list joins words with commas and an "and".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
