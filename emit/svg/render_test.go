package svg

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

const mm = pattern.Millimetre

// hostile are texts that would break out of an attribute, an element, a comment
// or a line, or turn what follows round.
var hostile = []string{
	`"><script>alert(1)</script>`, `' onload='x`, `</svg>`, `<![CDATA[`, `]]>`, `<!-- -->`, `&amp;&lt;&#0;`,
	"a\x00\x01\x1b[31m\x7f", "line\nbreak\ttab", "\u202Eright to left\u2066", "\u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627",
	"\xff\xfe\xc3", "\uFFFE\uFFFF", "\U0001F600 \U0010FFFF", "", " ", "url(#_0)", "1/4 in x 3 1/2 in",
}

func page(texts ...string) *drawing.Page {
	p := &drawing.Page{Name: "t", Title: strings.Join(texts, ""), Size: pattern.Size{W: 8.5, H: 11}}
	for i, s := range texts {
		at := pattern.Pos{X: 1, Y: pattern.Length(i) * 4 * mm}
		p.Items = append(p.Items, &drawing.Group{ID: "g" + string(rune('a'+i)), Class: "space", Items: []drawing.Item{
			&drawing.Path{Style: drawing.SewingLine, Points: []pattern.Pos{{}, at}, Fill: drawing.NoColour},
			&drawing.Path{Style: drawing.MarkLine, Points: []pattern.Pos{at}, Circle: 2 * mm, Fill: drawing.NoColour},
			&drawing.Text{Text: s, At: at, Size: 4.12 * mm, Bold: i%2 == 0},
			&drawing.Text{Text: s, At: at, Size: 2.76 * mm, Anchor: drawing.Middle, Turn: 30},
		}})
	}
	return p
}

// parsed returns all character data of a document and every element's name.
func parsed(t *testing.T, svg []byte) (data string, names map[string]int) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	names = map[string]int{}
	var b strings.Builder
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return b.String(), names
		}
		if err != nil {
			t.Fatalf("not XML: %v\n%s", err, svg)
		}
		switch tok := tok.(type) {
		case xml.CharData:
			b.Write(tok)
		case xml.StartElement:
			names[tok.Name.Local]++
			for _, a := range tok.Attr {
				if strings.HasPrefix(a.Name.Local, "on") || strings.Contains(a.Value, "script") {
					t.Errorf("attribute %s=%q", a.Name.Local, a.Value)
				}
			}
		}
	}
}

func TestHostileTextsInjectNothing(t *testing.T) {
	out, err := Render(page(hostile...))
	if err != nil {
		t.Fatal(err)
	}
	data, names := parsed(t, out)
	for n := range names {
		if !strings.Contains(" svg title desc g path use defs ", " "+n+" ") {
			t.Errorf("element %s", n)
		}
	}
	for _, s := range hostile[:7] {
		if !strings.Contains(data, drawing.Clean(s)) {
			t.Errorf("%q is not kept for readers", s)
		}
	}
	if s := regexp.MustCompile("[\x00-\x08\x0b-\x1f\x7f\u202a-\u202e\u2066-\u2069]").Find(out); s != nil {
		t.Errorf("holds %q", s)
	}
	valid(t, out)
}

// tool skips the test where a program is missing; not on the build machine.
func tool(t *testing.T, name string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is missing", name)
		}
		t.Skipf("%s is missing", name)
	}
}

// dtd is the catalog in which Debian's w3c-sgml-lib enters W3C's SVG 1.1 DTD.
const dtd = "/etc/xml/catalog"

// valid checks a document against W3C's SVG 1.1 DTD.
func valid(t *testing.T, svg []byte) {
	t.Helper()
	tool(t, "xmllint")
	file := filepath.Join(t.TempDir(), "t.svg")
	os.WriteFile(file, svg, 0o600)
	cmd := exec.Command("xmllint", "--noout", "--nonet", "--dtdvalidfpi", "-//W3C//DTD SVG 1.1//EN", file)
	cmd.Env = append(os.Environ(), "XML_CATALOG_FILES="+dtd)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("not valid SVG 1.1: %v\n%s", err, out)
	}
}

var number = regexp.MustCompile(`[-+]?[0-9]*\.?[0-9]+([eE][-+]?[0-9]+)?`)

// numbers checks every number in every attribute but identities.
func numbers(t *rapid.T, svg []byte) {
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		tok, err := d.Token()
		if err != nil {
			return
		}
		e, _ := tok.(xml.StartElement)
		for _, a := range e.Attr {
			if strings.Contains(a.Value, "NaN") || strings.Contains(a.Value, "Inf") {
				t.Fatalf("%s=%q", a.Name.Local, a.Value)
			}
			if a.Name.Local != "d" && a.Name.Local != "transform" && a.Name.Local != "x" && a.Name.Local != "y" {
				continue
			}
			for _, n := range number.FindAllString(a.Value, -1) {
				_, decimals, _ := strings.Cut(n, ".")
				if strings.ContainsAny(n, "eE") || n == "-0" || len(decimals) > scaleDecimals {
					t.Fatalf("number %s in %s=%q", n, a.Name.Local, a.Value)
				}
			}
		}
	}
}

func TestNumbersHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.OneOf(rapid.Float64Range(-20, 20), rapid.Float64Range(-1e-6, 1e-6), rapid.Float64())
		p := &drawing.Page{Name: "t", Size: pattern.Size{W: 8, H: 8}}
		bad := false
		add := func() pattern.Pos {
			x, y := length.Draw(t, "x"), length.Draw(t, "y")
			bad = bad || !(math.Abs(x*25.4) < farthest) || !(math.Abs(y*25.4) < farthest)
			return pattern.Pos{X: pattern.Length(x), Y: pattern.Length(y)}
		}
		p.Items = []drawing.Item{
			&drawing.Path{Style: drawing.CuttingLine, Points: []pattern.Pos{add(), add(), add()}, Closed: true, Fill: drawing.NoColour},
			&drawing.Path{Style: drawing.ExtraLine, Points: []pattern.Pos{add(), add()}, Fill: 0x12AB},
			&drawing.Text{Text: "A1 sky", At: add(), Size: 0.2, Turn: rapid.Float64Range(-1e6, 1e6).Draw(t, "turn"), Anchor: drawing.End},
		}
		out, err := Render(p)
		if bad != (err != nil) {
			t.Fatalf("bad is %v, error is %v", bad, err)
		}
		numbers(t, out)
	})
}

func TestFaultsAreTold(t *testing.T) {
	nan := pattern.Length(math.NaN())
	for name, item := range map[string]drawing.Item{
		"NaN in a clip":   &drawing.Group{Clip: []pattern.Pos{{X: nan}}},
		"identity":        &drawing.Group{ID: `a"b`},
		"class":           &drawing.Group{Class: "a b"},
		"own identity":    &drawing.Group{ID: "_1"},
		"no points":       &drawing.Path{Style: drawing.RuleLine},
		"negative circle": &drawing.Path{Style: drawing.RuleLine, Points: []pattern.Pos{{}}, Circle: -1},
		"size of a text":  &drawing.Text{Text: "a", Size: nan},
		"turn of a text":  &drawing.Text{Text: "a", Size: 1, Turn: math.Inf(1)},
	} {
		if _, err := Render(&drawing.Page{Size: pattern.Size{W: 1, H: 1}, Items: []drawing.Item{item}}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	twice := []drawing.Item{&drawing.Group{ID: "a"}, &drawing.Group{ID: "a"}}
	if _, err := Render(&drawing.Page{Size: pattern.Size{W: 1, H: 1}, Items: twice}); err == nil {
		t.Error("an identity given twice: no error")
	}
	if _, err := Render(&drawing.Page{Size: pattern.Size{W: nan, H: 1}}); err == nil {
		t.Error("a page without width: no error")
	}
}

func TestSameBytes(t *testing.T) {
	a, _ := Render(page(hostile...))
	b, _ := Render(page(hostile...))
	if !bytes.Equal(a, b) {
		t.Error("two runs differ")
	}
}

// BenchmarkRender draws a sheet of many spaces: a seam, a number and a word each.
func BenchmarkRender(b *testing.B) {
	p := &drawing.Page{Name: "t", Size: pattern.Size{W: 8.5, H: 11}}
	const spaces = 400
	var seams []drawing.Item
	for i := range spaces {
		at := pattern.Pos{X: pattern.Length(i%20) * 9.37 * mm, Y: pattern.Length(i/20) * 11.41 * mm}
		seams = append(seams, &drawing.Path{Style: drawing.SewingLine, Points: []pattern.Pos{at, {X: at.X + 0.3, Y: at.Y + 0.17}}, Fill: drawing.NoColour})
		n := string(appendFixed([]byte("A"), int64(i), 0))
		p.Items = append(p.Items, &drawing.Group{ID: "space-" + n, Items: []drawing.Item{
			&drawing.Text{Text: n, At: at, Size: 4.12 * mm, Bold: true, Anchor: drawing.Middle},
			&drawing.Text{Text: []string{"sky", "sea", "mast", "hull"}[i%4], At: at, Size: 2.76 * mm, Anchor: drawing.Middle},
		}})
	}
	p.Items = append(p.Items, &drawing.Group{ID: "section-A", Items: seams})
	out, err := Render(p)
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(out)))
	b.ReportAllocs()
	for b.Loop() {
		Render(p)
	}
	b.ReportMetric(float64(len(out))/spaces, "bytes/space")
}

// Numbers are those of the standard library, without needless zeros.
func TestNumbersAsTheStandardLibraryWritesThem(t *testing.T) {
	want := func(v int64, decimals int) string {
		s := strconv.FormatFloat(float64(v)/math.Pow10(decimals), 'f', decimals, 64)
		if strings.Contains(s, ".") {
			s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
		}
		if rest, ok := strings.CutPrefix(s, "0."); ok {
			return "." + rest
		}
		if rest, ok := strings.CutPrefix(s, "-0."); ok {
			return "-." + rest
		}
		return s
	}
	check := func(v int64, decimals int) {
		if got := string(appendFixed(nil, v, decimals)); got != want(v, decimals) {
			t.Fatalf("%d of %d decimals is written %s, not %s", v, decimals, got, want(v, decimals))
		}
	}
	for v := int64(-101_000); v < 101_000; v++ {
		check(v, 2)
	}
	rapid.Check(t, func(rt *rapid.T) {
		check(rapid.Int64Range(-1e9, 1e9).Draw(rt, "v"), rapid.IntRange(0, 5).Draw(rt, "decimals"))
	})
}
