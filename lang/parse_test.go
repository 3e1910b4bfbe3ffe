package lang

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"seamwright/lang/problem"
)

// inBoat parses a body of the block boat and returns its statements.
func inBoat(t *testing.T, body string) ([]Stmt, []problem.Problem) {
	t.Helper()
	f, problems := parse("block boat 8 x 8 finished 8in {\n" + body + "\n}\n")
	if len(f.Decls) != 1 {
		t.Fatalf("%d declarations", len(f.Decls))
	}
	return f.Decls[0].(*Unit).Body.Stmts, problems
}

// shape writes an expression with all its parentheses.
func shape(x Expr) string {
	switch x := x.(type) {
	case *Number:
		if x.Den == 1 {
			return fmt.Sprint(x.Num, x.Unit.String())
		}
		return fmt.Sprintf("%d/%d%s", x.Num, x.Den, x.Unit)
	case *Name:
		return x.Text
	case *Paren:
		return shape(x.X)
	case *Point:
		return "<" + shape(x.X) + "," + shape(x.Y) + ">"
	case *Unary:
		return "(" + x.Op + " " + shape(x.X) + ")"
	case *Binary:
		return "(" + shape(x.X) + " " + x.Op + " " + shape(x.Y) + ")"
	case *Field:
		return shape(x.X) + "." + x.Name.Text
	case *Call:
		var args []string
		for _, a := range x.Args {
			args = append(args, shape(a.Value))
		}
		return x.Func.Text + "(" + strings.Join(args, ",") + ")"
	case *Cond:
		return "[" + shape(x.If) + "?" + shape(x.Then) + ":" + shape(x.Else) + "]"
	}
	return reflect.TypeOf(x).String()
}

func TestPrecedence(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"2 1/2", "5/2"},
		{"b/1/2", "((b / 1) / 2)"},
		{"b/2 1/2", "(b / 5/2)"},
		{"-2 1/2", "(- 5/2)"},
		{"3--1", "(3 -- 1)"},
		{"a - b - c", "((a - b) - c)"},
		{"a + b * c", "(a + (b * c))"},
		{"-a.x * b", "((- a.x) * b)"},
		{"a or b and not c == d", "(a or (b and (not (c == d))))"},
		{"not not a", "(not (not a))"},
		{"c + (0, 1) -- e - (1, 0) / 2", "((c + <0,1>) -- (e - (<1,0> / 2)))"},
		{"if a then b else if c then d else e -- f", "[a?b:[c?d:(e -- f)]]"},
		{"mid(a, b).x + 1in", "(mid(a,b).x + 1in)"},
		{"x * x", "(x * x)"},
	} {
		stmts, problems := inBoat(t, "let a = "+c.text)
		if len(problems) > 0 {
			t.Errorf("%s: %s", c.text, problems[0].Message)
			continue
		}
		if got := shape(stmts[0].(*Let).Value); got != c.want {
			t.Errorf("%s is read as %s, want %s", c.text, got, c.want)
		}
	}
}

// What is no statement of its own reads as the end of the one before, on
// whatever line it stands.
func TestNewlinesAreBlanks(t *testing.T) {
	one, problems := inBoat(t, "let a = 1 + 2 * b; join w -- e, n -- s; for i in 1, 2 { place a at c }")
	many, more := inBoat(t, "let\na\n=\n1\n+\n2\n*\nb\njoin\nw\n--\ne\n,\nn\n--\ns\nfor\ni\nin\n1\n,\n2\n{\nplace\na\nat\nc\n}")
	if len(problems)+len(more) > 0 {
		t.Fatal(problems, more)
	}
	if diff := cmp.Diff(one, many, sameTree(true)); diff != "" {
		t.Error(diff)
	}
}

// A span holds the words of its node and nothing else.
func TestSpans(t *testing.T) {
	text := `
block boat 8 x 8 finished 6in {
  let deck = 2 1/2 * (n.y - 1)  // the deck
  place beam(rows: 2) by c at mid(w, e) turn 90deg reversed
  if deck > 2 { join w -- e from 12in } else { accept R101 "so be it" }
}
`
	f, problems := parse(text)
	if len(problems) > 0 {
		t.Fatal(problems[0].Message)
	}
	var got []string
	visit(reflect.ValueOf(f.Decls), 0, func(n Node, _ int) {
		s := n.Where()
		got = append(got, strings.TrimPrefix(reflect.TypeOf(n).String(), "*lang.")+": "+text[s.Start:s.End])
	})
	want := []string{
		"Unit: " + strings.TrimSpace(text), "Number: 8", "Number: 8", "Size: 6in", "Number: 6in",
		"Body: " + text[strings.Index(text, "{"):len(text)-1],
		"Let: let deck = 2 1/2 * (n.y - 1)", "Binary: 2 1/2 * (n.y - 1)", "Number: 2 1/2", "Paren: (n.y - 1)",
		"Binary: n.y - 1", "Field: n.y", "Name: n", "Number: 1",
		"Place: place beam(rows: 2) by c at mid(w, e) turn 90deg reversed", "Arg: rows: 2", "Number: 2", "Name: c",
		"Call: mid(w, e)", "Arg: w", "Name: w", "Arg: e", "Name: e", "Number: 90deg",
		`If: if deck > 2 { join w -- e from 12in } else { accept R101 "so be it" }`,
		"Binary: deck > 2", "Name: deck", "Number: 2", "Body: { join w -- e from 12in }",
		"Join: join w -- e from 12in", "Binary: w -- e", "Name: w", "Name: e", "Number: 12in",
		`Body: { accept R101 "so be it" }`, `Accept: accept R101 "so be it"`, `String: "so be it"`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestDocComments(t *testing.T) {
	f, _ := parse(`/// A sky.
fabric sky light #dfeaf0  /// not of the sea
/// The sea,
// (still it is)
///  deep and wide.

fabric sea dark #20406a

//// a rule
unit u 2 x 2 {
  /// inside
}
/// A way.
colorway two { sky as sea }
`)
	got := []string{f.Decls[0].(*Fabric).Doc, f.Decls[1].(*Fabric).Doc, f.Decls[2].(*Unit).Doc, f.Decls[3].(*Colorway).Doc}
	if diff := cmp.Diff([]string{"A sky.", "The sea,\n deep and wide.", "", "A way."}, got); diff != "" {
		t.Error(diff)
	}
}

// What language this is, in texts that must be refused, or must not be, here
// or by the stages behind.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		name, body string
		want       problem.Code // "" where it parses
		message    string
	}{
		{"-- is one token", "let m = 3--1", "", ""}, // of numbers: the evaluator refuses it
		{"an inch mark", "join w -- e from 6\"", UnitSpelling, "an inch is written `in`"},
		{"a long dash", "join n — s", Typographic, "word processor"},
		{"an unfinished line", "let m =\n  join n -- s", ValueMissing, "a value is missing"},
		{"an unfinished line before an if", "let m =\n  if a { join n -- s }", ValueMissing, "a value is missing"},
		{"a value on the next line", "let m =\n  if a then b else c", "", ""},
		{"an unfinished list", "join n -- s,\n  join w -- e", ValueMissing, "a value is missing"},
		{"an unfinished piece", "section {\n1 a at\n2 b along w -- e }", ValueMissing, "a value is missing"},
		{"a length in an outline is for others", "let m = 2 + 1in", "", ""},
		{"a section in a loop", "for i in 1, 2 { section { 1 a at (i, 1) } }", "", ""},
		{"a section in a section", "section { section { 1 a at c } }", WrongPlace, "does not stand in a section"},
		{"a placed unit in a loop of a section", "section { for i in 1..2 { place u at c } }", WrongPlace, "does not stand in a section"},
		{"a piece between joins", "join w -- e\nfor i in 1..2 { piece a at c }", MixedUnit, "either drawn"},
		{"three points in a join", "join n -- c -- s", JoinsTwo, "joins two points"},
		{"three points in a line", "line n -- c -- s", "", ""},
		{"one point in a line", "line n", JoinsTwo, "second point"},
		{"corners", "piece a (0, 0), (2, 0), n + (1, 1)", "", ""},
		{"two corners", "piece a (0, 0), (2, 0)", CornersFew, "three corners"},
		{"x as a name", "let x = 5\nlet y = x * x\njoin (x, y) -- n.x * e", "", ""},
	} {
		_, problems := inBoat(t, c.body)
		switch {
		case c.want == "" && len(problems) == 0:
		case c.want != "" && len(problems) == 1 && problems[0].Code == c.want && strings.Contains(problems[0].Message, c.message):
			if c.want == ValueMissing && problems[0].At.Source.Position(problems[0].At.Span.Start).Line > 3 {
				t.Errorf("%s is told on the next line", c.name)
			}
		default:
			t.Errorf("%s: want %s", c.name, c.want)
			for i := range problems {
				t.Log(render(&problems[i]))
			}
		}
	}
}

func TestSizes(t *testing.T) {
	for text, want := range map[string]problem.Code{
		"unit u a x b {}":                    BadSize,
		"unit u(a: count) a x 2 * a {}":      "",
		"unit u outline n, e, s {}":          "",
		"unit u {}":                          BadSize,
		"block u 8 x 8 {}":                   WordMissing,
		"unit u 8 x 8 finished 4in {}":       WrongPlace,
		"block u 8 x 8 finished 4in x 4in{}": "",
	} {
		_, problems := parse(text)
		if want == "" && len(problems) > 0 || want != "" && (len(problems) != 1 || problems[0].Code != want) {
			t.Errorf("%s: %v", text, problems)
		}
	}
}

// Rows of a quilt, with turns, are said block by block.
func TestQuiltRows(t *testing.T) {
	f, problems := parse(`quilt "Flotilla" {
  blocks boat, 5 x 6, 8in
  row boat, star turn 90deg, boat turn 180deg reversed
  sashing 1in of sky copies 3
}`)
	if len(problems) > 0 {
		t.Fatal(problems[0].Message)
	}
	var got []string
	for _, p := range f.Decls[0].(*Quilt).Props {
		for _, v := range p.Values {
			s := p.Name.Text + " " + shape(v.Value)
			for _, more := range []Expr{v.By, v.Of, v.Turn} {
				if more != nil {
					s += " " + shape(more)
				}
			}
			got = append(got, fmt.Sprint(s, v.Reversed))
		}
	}
	want := []string{"blocks boatfalse", "blocks 5 6false", "blocks 8infalse", "row boatfalse", "row star 90degfalse",
		"row boat 180degtrue", "sashing 1in skyfalse", "copies 3false"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}
