package compiler_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/rules"
	"seamwright/lang/problem"
)

// found compiles a text and returns what one rule says of it: its severities, and the
// first message with its help.
func found(text string, code problem.Code) (severities, said string) {
	_, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: text}, nil)
	for _, p := range got {
		if p.Code == code {
			severities += p.Severity.String() + " "
			if said == "" {
				said = p.Message + "; " + p.Help
			}
		}
	}
	return strings.TrimSpace(severities), said
}

// Where the rules of pieces and points begin and end. All of it is common practice,
// no source, but for the reach of a tip, which is computed: allowance / sin(angle / 2).
func TestWhereRulesBegin(t *testing.T) {
	const cloths = `fabric mast "mast" dark #33312e
fabric sky "sky" light #dfeaf0
`
	narrow := func(settings string, w float64) string {
		return settings + cloths + fmt.Sprintf(`block b 8 x 8 finished 8in {
  section A {
    1 mast at (4, 4)
    2 sky along (%g, 0) -- (%[1]g, 8)
    3 sky along (%[2]g, 0) -- (%[2]g, 8)
  }
}
`, 4-w/2, 4+w/2)
	}
	sharp := func(angle float64) string {
		return cloths + fmt.Sprintf(`block b 8 x 8 finished 8in {
  section A {
    1 mast at (7.9, 0.1)
    2 sky along (0, 0) -- (8, 8 * tan(%gdeg))
  }
}
`, angle)
	}
	// Seams of four quarters: two between the first two and between the last two, the long
	// one through all, and so many more in each.
	meeting := func(inner [4]int) string {
		text := cloths
		for q, n := range inner {
			text += fmt.Sprintf("unit q%d 4 x 4 {\n  section {\n    piece mast at (3.9, 0.1)\n", q)
			for i := 1; i <= n; i++ {
				text += fmt.Sprintf("    piece %s along sw -- polar(9, %ddeg)\n", [2]string{"mast", "sky"}[i%2], 90*i/(n+1))
			}
			text += "  }\n}\n"
		}
		text += "block b 8 x 8 finished 12in {\n  join w -- c, c -- e\n  join n -- s\n"
		for q := range inner {
			text += fmt.Sprintf("  place q%d at c turn %ddeg\n", q, 90*q)
		}
		return text + "}\n"
	}
	across := func(gap float64) string {
		return cloths + fmt.Sprintf(`block b 8 x 8 finished 8in {
  section A {
    1 sky at (1, 6)
    2 mast along (3, 4) -- (3, 8)
  }
  section B {
    1 sky at (1, 2)
    2 mast along (%g, 0) -- (%[1]g, 4)
  }
  join w -- e
}
`, 3+gap)
	}
	corner := func(gap float64) string {
		return cloths + fmt.Sprintf("block b 8 x 8 finished 8in {\n  section A {\n    1 mast at (4, 1)\n    2 sky along (%g, 0) -- (8, 8)\n  }\n}\n", gap)
	}
	// A flag whose point lies so far below the upper edge, between two seams that go on.
	tip := func(gap float64) string {
		return cloths + fmt.Sprintf(`block b 8 x 8 finished 8in {
  section A {
    1 mast at (4, 2)
    2 sky along (1, 0) -- (4, %g)
    3 sky along (7, 0) -- (4, %[1]g)
  }
}
`, 8-gap)
	}
	const little = "pattern \"T\" { miniature yes }\n"
	for _, c := range []struct {
		code       problem.Code
		text       string
		severities string
		says       string
	}{
		{"R101", narrow("", 0.25), "", ""},
		{"R101", narrow("", 0.24), "warning", "its seam allowances fill it"},
		{"R101", narrow("", 3.0/16), "warning", "wide at 8 in finished; its seam allowances fill it; "},
		{"R101", narrow("", 0.18), "warning", "few people will sew it true"},
		{"R101", narrow("", 0.125), "warning", "few people"},
		{"R101", narrow("", 0.12), "error", "too narrow to sew"},
		{"R101", narrow(little, 0.12), "warning", "few people"},
		{"R101", narrow(little, 0.25), "", ""},

		{"R102", sharp(22.5), "", ""},
		{"R102", sharp(22), "warning", "22.0 degrees; its tip needs cloth 1 3/8 in beyond the point"}, // 1.310
		{"R102", sharp(15), "warning", "15.0 degrees; its tip needs cloth 2 in beyond the point"},     // 1.915
		{"R102", sharp(12), "warning", "12.0 degrees; its tip needs cloth 2 1/2 in beyond the point"}, // 2.392
		{"R102", sharp(11.9), "error", "11.9 degrees"},

		{"R103", meeting([4]int{0, 0, 0, 0}), "", ""}, // four
		{"R103", meeting([4]int{1, 0, 0, 0}), "", ""},
		{"R103", meeting([4]int{1, 0, 1, 0}), "note", "6 seams meet at a point"},
		{"R103", meeting([4]int{1, 1, 1, 1}), "note", "8 seams meet at a point"},
		{"R103", meeting([4]int{2, 1, 1, 1}), "warning", "9 seams meet at a point"},
		{"R103", meeting([4]int{2, 2, 2, 1}), "warning", "let fewer seams run into the point"},
		{"R103", meeting([4]int{2, 2, 2, 2}), "warning", "set a patch over the center"},

		{"R104", across(0), "", ""},
		{"R104", across(0.25), "warning", "end 1/4 in apart"},
		{"R104", across(0.5), "warning", "end 1/2 in apart"},
		{"R104", across(0.51), "", ""},

		{"R105", corner(0), "", ""},
		{"R105", corner(0.125), "warning", "1/8 in from a corner"},
		{"R105", corner(0.24), "warning", "from a corner"},
		{"R105", corner(0.25), "", ""},

		{"R114", tip(0), "", ""},
		{"R114", tip(0.125), "warning", "1/8 in inside the block's edge"},
		{"R114", tip(0.25), "", ""},
	} {
		severities, said := found(c.text, c.code)
		if severities != c.severities || !strings.Contains(said, c.says) {
			t.Errorf("%s: %q %q, want %q %q\n%s", c.code, severities, said, c.severities, c.says, c.text)
		}
	}
	if reach := 0.25 / math.Sin(11*math.Pi/180); math.Abs(reach-1.310) > 5e-4 {
		t.Error(reach)
	}
}

// The settings that are told with a rule are what they say: written in a pattern, each is
// taken, and moves nothing.
func TestSettingsOfLimits(t *testing.T) {
	told := 0
	for _, info := range rules.Codes() {
		for _, setting := range info.Limits {
			text := "pattern \"T\" {\n  " + setting + "\n}\nfabric sail \"sail\" light #f3ecdd\nblock ketch 4 x 4 finished 4in { section { 1 sail at c } }\n"
			usual, _ := compile(strings.Replace(text, setting, "", 1))
			p, ps := compile(text)
			if p == nil || usual == nil {
				t.Fatalf("%s: %s", setting, show(ps))
			}
			for i := range p.Limits {
				l, was := &p.Limits[i], &usual.Limits[i]
				if strings.HasPrefix(setting, "limit "+l.Name+",") {
					told++
					if !l.Set || l.Code != string(info.Code) {
						t.Errorf("%s is not taken for %s", setting, info.Code)
					}
				}
				if math.Abs(l.Value-was.Value) > 1e-9 {
					t.Errorf("%s makes %s %v, usually %v", setting, l.Name, l.Value, was.Value)
				}
			}
		}
	}
	if told < 20 {
		t.Errorf("only %d limits are told of", told)
	}
}
