package examples_test

import (
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler/eval"
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/grammar"
	"seamwright/lang/problem"
)

// Between them the examples use all of the language: every word and sign of its
// grammar, every helper, every kind of parameter, every setting, and every form of
// every statement.
func TestExamplesUseAllOfTheLanguage(t *testing.T) {
	patterns, used := files(t)
	code := ""
	seen := map[string]bool{}
	for _, name := range append(patterns, used...) {
		src := source(t, name)
		code += bare(src.Text) + "\n"
		file, problems := lang.Parse(src)
		if problem.Failed(problems) {
			t.Fatalf("%s does not parse", name)
		}
		features(reflect.ValueOf(file.Decls), "", seen)
		if len(file.Comments) > 0 {
			seen["comment"] = true
		}
	}
	words := regexp.MustCompile(`[A-Za-z_]\w*`).FindAllString(code, -1)
	rules, _, _ := strings.Cut(grammar.EBNF(), "\nNUMBER ") // what follows speaks of tokens
	for _, m := range regexp.MustCompile(`"([^"]+)"`).FindAllStringSubmatch(rules, -1) {
		switch word := m[1]; {
		case word[0] >= 'a' && word[0] <= 'z':
			need(t, "the word `"+word+"`", slices.Contains(words, word))
		case word != ";": // the formatter puts statements on lines of their own
			need(t, "the sign `"+word+"`", strings.Contains(code, word))
		}
	}
	for _, s := range eval.Signatures() {
		need(t, "the helper `"+s.Name+"`", strings.Contains(code, s.Name+"("))
	}
	for _, kind := range value.KindNames() {
		need(t, "a parameter that is a "+kind, regexp.MustCompile(`\w: `+kind+`\b`).MatchString(code))
	}
	for _, decl := range []string{"pattern", "quilt", "pad"} {
		for _, name := range settings(t, decl) {
			need(t, "the setting `"+name+"`", regexp.MustCompile(`(?m)^  `+name+` `).MatchString(code))
		}
	}
	for _, unit := range []string{"in", "mm", "cm", "deg"} {
		need(t, "a number in "+unit, regexp.MustCompile(`\d`+unit+`\b`).MatchString(code))
	}
	need(t, "a mixed number", regexp.MustCompile(`\d \d+/\d`).MatchString(code))
	need(t, "a lone fraction", regexp.MustCompile(`[^\d ] *\b\d+/\d+in`).MatchString(code))
	for _, scope := range []string{"piece", "section", "unit", "block"} {
		need(t, "scrappy by "+scope, strings.Contains(code, "scrappy by "+scope))
	}
	for _, f := range forms {
		need(t, f, seen[f])
	}
}

// forms are what an example must hold somewhere, by the names that feature gives.
var forms = []string{
	"comment", "doc comment", "use as", "use several names", "use std", "use relative",
	"fabric without words", "fabric with words", "colorway as", "colorway words", "colorway color only",
	"unit", "unit outline", "unit with parameters", "block with parameters", "default value", "finished W x H", "several sizes",
	"accept in a file", "accept in a section", "accept in a unit",
	"let", "join", "join of several", "join from", "join partial", "line partial", "section named", "section unnamed", "piece numbered", "piece unnumbered",
	"anchor with assertions", "asserting point",
	"place", "place with arguments", "place with named arguments", "place as", "place by", "place turn", "place reversed",
	"for range", "for list", "if", "if else", "else if", "check", "line", "line chained", "line of several", "drawn piece", "drawn piece by corners", "drawn piece first", "section at", "section along", "text value", "field x", "field y",
}

func need(t *testing.T, what string, there bool) {
	t.Helper()
	if !there {
		t.Errorf("no example uses %s", what)
	}
}

// features notes what is used in a tree; in is the statement around.
func features(v reflect.Value, in string, seen map[string]bool) {
	switch v.Kind() {
	case reflect.Interface, reflect.Pointer:
		if v.IsNil() {
			return
		}
		if v.Kind() == reflect.Pointer {
			if inner := feature(v.Interface(), in, seen); inner != "" {
				in = inner
			}
		}
		features(v.Elem(), in, seen)
	case reflect.Slice:
		for i := range v.Len() {
			features(v.Index(i), in, seen)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			features(v.Field(i), in, seen)
		}
	}
}

// feature notes one node, and says what its children stand in if that changes.
func feature(node any, in string, seen map[string]bool) string {
	note := func(what string, is bool) { seen[what] = seen[what] || is }
	switch n := node.(type) {
	case *lang.Use:
		note("use several names", len(n.Names) > 1)
		note("use std", strings.HasPrefix(n.Path.Text, "std/"))
		note("use relative", !strings.HasPrefix(n.Path.Text, "std/"))
		for _, name := range n.Names {
			note("use as", name.As.Text != "")
		}
	case *lang.Fabric:
		note("fabric without words", n.Words == nil)
		note("fabric with words", n.Words != nil)
	case *lang.Recolour:
		note("colorway as", n.As.Text != "")
		note("colorway words", n.Words != nil)
		note("colorway color only", n.Colour != nil && n.Words == nil && n.Value.Text == "")
	case *lang.Unit:
		unit(n, note)
		return "unit"
	case *lang.Size:
		note("finished W x H", n.Height != nil)
	case *lang.Keep:
		note("section at", len(n.At) > 0)
		note("section along", len(n.Along) > 0)
	case *lang.Section:
		note("section named", n.Name.Text != "")
		note("section unnamed", n.Name.Text == "")
		return "section"
	case *lang.Piece:
		if in != "section" {
			note("drawn piece", len(n.At) > 0)
			note("drawn piece by corners", len(n.Corners) > 0)
			note("drawn piece first", n.Number != nil)
			return ""
		}
		note("piece numbered", n.Number != nil)
		note("piece unnumbered", n.Number == nil)
		note("anchor with assertions", n.Along == nil && len(n.At) > 1)
		note("asserting point", n.Along != nil && len(n.At) > 0)
	case *lang.Place:
		place(n, note)
	default:
		statement(node, in, note)
	}
	return ""
}

func unit(n *lang.Unit, note func(string, bool)) {
	note("unit", !n.Block)
	note("unit outline", len(n.Outline) > 0)
	note("unit with parameters", !n.Block && len(n.Params) > 0)
	note("block with parameters", n.Block && len(n.Params) > 0)
	note("several sizes", len(n.Finished) > 1)
	note("doc comment", n.Doc != "")
	for _, p := range n.Params {
		note("default value", p.Default != nil)
	}
}

func place(n *lang.Place, note func(string, bool)) {
	note("place", true)
	note("place with arguments", len(n.Args) > 0)
	for _, a := range n.Args {
		note("place with named arguments", a.Name.Text != "")
	}
	note("place as", n.As.Text != "")
	note("place by", n.By != nil)
	note("place turn", n.Turn != nil)
	note("place reversed", n.Reversed)
}

func statement(node any, in string, note func(string, bool)) {
	switch n := node.(type) {
	case *lang.Accept:
		note("accept in a "+map[string]string{"": "file", "unit": "unit", "section": "section"}[in], true)
	case *lang.Let:
		note("let", true)
	case *lang.Join:
		note("join", true)
		note("join of several", len(n.Lines) > 1)
		note("join from", n.From != nil)
		note("join partial", n.Partial)
	case *lang.Line:
		note("line", true)
		note("line of several", len(n.Chains) > 1)
		note("line partial", n.Partial)
		for _, c := range n.Chains {
			note("line chained", len(c) > 2)
		}
	case *lang.For:
		note("for range", n.To != nil)
		note("for list", len(n.Values) > 1)
	case *lang.If:
		_, chained := n.Else.(*lang.If)
		note("if", n.Else == nil)
		note("if else", n.Else != nil && !chained)
		note("else if", chained)
	case *lang.Check:
		note("check", true)
	case *lang.String:
		note("text value", in == "unit" || in == "section")
	case *lang.Field:
		note("field "+n.Name.Text, true)
	}
}

// bare is a text without its comments and without what stands in quotes.
func bare(text string) string {
	return regexp.MustCompile(`"(?:[^"\\\n]|\\.)*"|//[^\n]*`).ReplaceAllStringFunc(text, func(s string) string {
		if s[0] == '"' {
			return `""`
		}
		return ""
	})
}

// settings asks the program for the settings of a declaration, by way of the help
// that it gives on an unknown one.
func settings(t *testing.T, decl string) []string {
	t.Helper()
	name := map[string]string{"pattern": ` "Test"`}[decl]
	file, _ := lang.Parse(&problem.Source{Name: "test", Text: decl + name + " { qqqqqqqqqqqqqq 1 }\n"})
	for _, p := range eval.Evaluate(file, nil).Problems {
		if p.Code == eval.UnknownSetting {
			words := strings.FieldsFunc(strings.TrimPrefix(p.Help, "it has "), func(r rune) bool { return r == ',' || r == ' ' })
			return slices.DeleteFunc(words, func(w string) bool { return w == "and" })
		}
	}
	t.Fatalf("an unknown setting of %s is not told", decl)
	return nil
}
