package eval

import (
	"strings"
	"testing"

	"seamwright/lang/problem"
)

// inUnit puts statements on line 3 and following of a file.
func inUnit(statements string) string {
	return sky + "block b 4 x 4 finished 4in {\n" + statements + "\n}\n"
}

func TestScopes(t *testing.T) {
	const end = "\nsection { 1 sky at c }"
	for name, c := range map[string]struct{ text, fault string }{
		"a let of the unit is seen in its section": {"let m = 1\nsection { 1 sky at (m, m) }", ""},
		"a let of a loop ends with it":             {"for i in 1..2 { let m = i\ncheck m > 0 \"\" }\ncheck m > 0 \"\"" + end, "L201 5"},
		"two loops may use one name":               {"for i in 1..2 { check i > 0 \"\" }\nfor i in 1..2 { check i > 0 \"\" }" + end, ""},
		"two branches may use one name":            {"if true { let m = 1\ncheck m > 0 \"\" } else { let m = 2\ncheck m > 0 \"\" }" + end, ""},
		"a let does not see itself":                {"let m = m + 1" + end, "L201 3 called `m`"},
		"a let is seen only below":                 {"check m > 0 \"\"\nlet m = 1" + end, "L201 3"},
		"an inner let hides no outer one":          {"let m = 1\nif m > 0 { let m = 2 }" + end, "L205 4 on line 3"},
		"a loop hides no let":                      {"let m = 1\nfor m in 1..m { check m > 0 \"\" }" + end, "L205 4"},
		"a let hides no fabric":                    {"let sky = 1" + end, "L205 3 fabric on line 1"},
		"a loop hides no side":                     {"for north in 1..2 { }" + end, "L204 3 side"},
		"a helper's name is free":                  {"let mid = 1\nsection { 1 sky at mid(n, s) + (mid, 0) }", ""},
		"a unit's name is free":                    {"let b = 1\nsection { 1 sky at (b, b) }", ""},
		"x is a name":                              {"let x = 1\nsection { 1 sky at (x, x) }", ""},
		"a helper is no value":                     {"let m = mid\nsection { 1 sky at (m, 1) }", "L201 3 called `mid`"},
		"a branch that never runs is read":         {"if false { check far > 1 \"\" }" + end, "L201 3"},
		"a loop that never runs is read":           {"for i in 1..0 { check i + 1in > 1 \"\" }" + end, "L220 3"},
		"the other side of a condition is read":    {"let m = if true then 1 else 2in\nsection { 1 sky at (m, 1) }", "L226 3"},
		"an unused let":                            {"let m = 1" + end, "L208 3 `m` is never used"},
		"an unused loop":                           {"for i in 1..1 { }" + end, "L208 3 `i` is never used"},
		"a misspelt name is one mistake":           {"let reach = 1\nsection { 1 sky at (raech, 1) }", "L201 4 called `raech`"},
		"a wrong let is one mistake":               {"let m = far\nsection { 1 sky at (m, m) + m }", "L201 3"},
		"a list of lines":                          {"for side in south, east { check distance(side) == 4 \"\" }" + end, ""},
		"a mixed list":                             {"for side in south, 3 { check side == side \"\" }" + end, "L226 3"},
		"both ends of a range count":               {"section {\n1 sky at nw + (1, -0.5)\nfor i in 1..3 { piece sky along (0, 4 - i) -- (4, 4 - i) }\n5 sky along (0, 0.5) -- (4, 0.5)\n}", ""},
		"ranges only go up":                        {"for i in 3..1 { check false \"\" }\nfor i in 0..0 { check i == 0 \"\" }" + end, "L208 3"},
		"conditions chosen at last":                {"if false { check false \"\" } else if 1 > 2 { check false \"\" } else { check true \"\" }" + end, ""},
	} {
		wanted := []string{}
		if c.fault != "" {
			wanted = append(wanted, c.fault)
		}
		if !t.Run(name, func(t *testing.T) { want(t, inUnit(c.text), nil, wanted...) }) {
			continue
		}
	}
}

func TestUnusedThings(t *testing.T) {
	want(t, sky+"fabric sea dark #222222\nunit spare(a: number) 2 x 2 {\n  section { 1 sky at c }\n}\nblock b 4 x 4 finished 4in { section { 1 sky at c } }", nil,
		"L208 2 the fabric `sea`", "L208 3 the unit `spare`", "L208 3 `a` is never used")
	// A file without blocks is there to be used by others.
	want(t, sky+"unit spare(a: number) 2 x 2 {\n  section { 1 sky at (a, 1) }\n}", nil)
	// Where there is an error, it may be the reason.
	want(t, sky+"fabric sea dark #222222\nblock b 4 x 4 finished 4in { section { 1 see at c } }", nil, "L201 3 called `see`")
}

func TestOneMistakeOneMessage(t *testing.T) {
	for text, code := range map[string]string{
		// In a loop, once.
		inUnit("section {\n1 sky at (1, 3.9)\nfor i in 1..3 { piece skye along (0, 4 - i) -- (4, 4 - i) }\n}"): "L201 5",
		// In a unit placed twice with different arguments, once.
		sky + "unit u(a: number) 2 x 4 {\n  section { 1 sky at (a, 1 / 0) }\n}\nblock b 4 x 4 finished 4in {\n  place u(1) at sw\n  place u(0.5) at s\n}": "L240 3",
		// A piece misnumbered; those that follow are right.
		inUnit("section {\n1 sky at (1, 3.9)\n3 sky along (0, 3) -- (4, 3)\n4 sky along (0, 2) -- (4, 2)\n}"): "L250 5 piece 2, not 3",
		inUnit("section {\n1 sky at (1, 3.9)\n1 sky along (0, 3) -- (4, 3)\n2 sky along (0, 2) -- (4, 2)\n}"): "L250 5 piece 2, not 1",
		inUnit("section {\n2 sky at (1, 3.9)\n3 sky along (0, 3) -- (4, 3)\n}"):                               "L250 4 piece 1, not 2",
		inUnit("section {\n1 sky at (1, 3.9)\nfor i in 1..2 { 2 sky along (0, 4 - i) -- (4, 4 - i) }\n}"):     "L250 5 piece 3, not 2",
	} {
		want(t, text, nil, code)
	}
}

// What stands in text that could not be read is unknown, not wrong.
func TestHoles(t *testing.T) {
	for _, text := range []string{
		"fabric sky light\nblock b 4 x 4 finished 4in { section { 1 sky at c } }",
		sky + "block b 4 x 4 finished 4in {\n  let m = = 3\n  section { 1 sky at (m, 1) }\n}",
		sky + "block b 4 x 4 finished 4in {\n  section {\n    1 sky at c\n    2 sky along (0, 1) -- -- (4, 1)\n    3 sky along (0, 0.5) -- (4, 0.5)\n  }\n}",
		sky + "unit u 2 2 {\n  section { 1 sky at c }\n}\nblock b 2 x 2 finished 4in { place u at sw }",
		sky + "block b 4 x 4 finished 4in {\n  section { 1 sky at mid(n, =) }\n}",
		"pattern \"P\" { edition }\n" + sky + "block b 4 x 4 finished 4in { section { 1 sky at c } }",
	} {
		r := evaluate(text, nil)
		if len(r.Problems) != 1 || !strings.HasPrefix(string(r.Problems[0].Code), "L1") {
			t.Errorf("in\n%s\n%s", text, show(r.Problems))
		}
	}
}

func TestManyMistakesInOneRun(t *testing.T) {
	r := evaluate(sky+`pattern "P" { sheet b7 }
unit u(a: lenght) 2 x 2 { section { 1 sky at (a, 1) } }
block b 4 x 4 finished 4, 5in {
  let m = 2 + 1in
  place v at sw
  join w - e
  section A { 1 skye at (m, 1) }
  section A { 1 sky at (1, 1) turn }
}
colorway w { tar dark #101010 }
quilt { blocks c, 2 x 2 }
`, nil)
	have := map[problem.Code]bool{}
	for _, p := range r.Problems {
		have[p.Code] = true
	}
	for _, c := range []problem.Code{SettingValue, UnknownKind, BareFinished, KindClash, UnknownUnit, MinusForLine, UnknownName, UnknownFabric, UnknownBlock} {
		if !have[c] {
			t.Errorf("%s is missing in\n%s", c, show(r.Problems))
		}
	}
}
