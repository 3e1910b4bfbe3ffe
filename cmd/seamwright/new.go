package main

import (
	_ "embed"
	"fmt"
	"path/filepath"
	"strings"
	"unicode"
	"unicode/utf8"

	"seamwright/cmd/internal/files"
	"seamwright/lang"
	"seamwright/lang/problem"
)

//go:embed starter.seam
var starter string

// create writes a small pattern to begin with, or one after a drawing.
func create(c *call) int {
	f := c.flagSet()
	from := f.String("from", "", "an SVG `drawing` whose lines and fills become the block")
	snap := f.String("snap", "1/256", "how near points of the drawing are taken as one, as a `part` of its longer side")
	if code, ok := c.parse(); !ok {
		return code
	}
	if len(c.args) != 1 {
		return c.misused("new needs one name, that of the pattern")
	}
	file := strings.TrimSuffix(c.args[0], files.Extension) + files.Extension
	base := strings.TrimSuffix(filepath.Base(file), files.Extension)
	if base == "" || base == "." {
		return c.misused("new needs a name, such as boat")
	}
	if *from != "" {
		return c.fromDrawing(*from, file, base, *snap)
	}
	text := strings.NewReplacer("STARTER TITLE", title(base), "starter_name", blockName(base)).Replace(starter)
	if fault := files.Create(file, []byte(text)); fault != nil {
		r := &reporter{call: c, format: "text"}
		r.tell([]problem.Problem{*fault})
		return r.end()
	}
	fmt.Fprintf(c.stdout, "%s is written; look into it, then: seamwright build %s\n", file, file)
	return good
}

// title is a file's name as it may be printed, without signs that a text in
// quotation marks could not hold.
func title(base string) string {
	words := strings.FieldsFunc(base, func(r rune) bool { return r <= ' ' || strings.ContainsRune(`_-"\`, r) })
	for i, w := range words {
		first, size := utf8.DecodeRuneInString(w)
		words[i] = string(unicode.ToUpper(first)) + w[size:]
	}
	if len(words) == 0 {
		return "First Pattern"
	}
	return strings.Join(words, " ")
}

// blockName makes a name of the language out of a file's name: small letters,
// digits and _, and no word that means something else there.
func blockName(base string) string {
	name := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r == '_':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '_'
	}, base)
	name = strings.Trim(name, "_")
	tree, ps := lang.Parse(&problem.Source{Text: "unit " + name + " 1 x 1 { }"})
	if len(ps) == 0 && len(tree.Decls) == 1 && name != "" {
		return name
	}
	return strings.TrimRight("my_"+name, "_")
}
