package html

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/internal/sample"
	"seamwright/emit/report"
	"seamwright/emit/sheet"
	"seamwright/emit/svg"
	"seamwright/emit/table"
)

// made makes a page as a build does.
func made(t *testing.T, p *pattern.Pattern) []byte {
	t.Helper()
	give := func(page *drawing.Page) SVG {
		return func() []byte {
			data, err := svg.Render(page)
			if err != nil {
				t.Fatal(err)
			}
			return data
		}
	}
	b := &p.Blocks[0]
	drawn := Block{}
	for _, picture := range diagram.Pictures(p, b) {
		if picture.Name == "sections" || picture.Name == "joining" {
			drawn.Pictures = append(drawn.Pictures, Picture{picture.Of, give(picture.Make(nil))})
		}
	}
	var sizes []report.Made
	for i := range b.Sizes {
		set, _ := sheet.Lay(p, b, &b.Sizes[i], p.Settings.Sheet)
		m := report.Made{Cuts: table.List(p, &b.Sizes[i])}
		var sheets []SVG
		for k := range set.Sheets {
			sheets = append(sheets, give(&set.Sheets[k].Page))
			m.Sheets = append(m.Sheets, report.Sheet{Number: k + 1, File: "sheet.svg", Copies: set.Sheets[k].Print})
		}
		sizes, drawn.Sheets = append(sizes, m), append(drawn.Sheets, sheets)
	}
	data, err := Page(p, [][]report.Made{sizes}, []Block{drawn}, Beside{})
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// says fills every place for an author's text with one.
func says(text string) *pattern.Pattern {
	p := sample.Boat()
	p.Title, p.About = text, pattern.About{Edition: 1, Author: text, Year: text, Rights: text, Contact: text, Corrections: text, Notes: []string{text}}
	dress := make([]pattern.Cloth, len(p.Fabrics))
	for i := range p.Fabrics {
		p.Fabrics[i].Words, dress[i] = text, pattern.Cloth{Words: text, Value: "dark"}
	}
	p.Colorway = []pattern.Colorway{{Dress: dress}, {Name: "two", Words: text, Dress: dress}}
	p.Blocks[0].Title, p.Blocks[0].Doc = text, text+"."
	p.Accepted = []pattern.Accepted{{Code: "R101", Message: text, Reason: text}}
	return p
}

// An element is one of a page, with its attributes.
type element struct {
	name       string
	attributes []string
}

// parse reads a page with a parser that is not ours. A page of HTML is not XML,
// but all that is missing in ours is the ends of the elements that have none.
func parse(t *testing.T, page []byte) (elements []element, text string) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(page))
	d.Strict, d.AutoClose, d.Entity = false, []string{"meta", "br"}, xml.HTMLEntity
	var words strings.Builder
	for {
		token, err := d.Token()
		if err == io.EOF {
			return elements, words.String()
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local}
			for _, a := range token.Attr {
				e.attributes = append(e.attributes, a.Name.Local+"="+a.Value)
			}
			elements = append(elements, e)
		case xml.CharData:
			words.Write(token)
		}
	}
}

// An author's text adds no element and no attribute, whatever it holds, and is
// shown as it was written.
func TestAuthorsTextStaysText(t *testing.T) {
	names := func(all []element) (out []string) {
		for _, e := range all {
			if !slices.Contains([]string{"use", "g", "path", "defs", "desc"}, e.name) { // how many letters are drawn
				out = append(out, e.name)
			}
		}
		return out
	}
	want, _ := parse(t, made(t, says("harbour")))
	for _, hostile := range []string{
		`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `' onload='alert(1)`, `</title></style><script>`,
		`</svg><iframe src="https://example.org">`, `<!-- `, `-->`, `]]>`, `<![CDATA[`, `&lt;script&gt;`, `&#60;b&#62;`, `javascript:alert(1)`,
		`url(#_0) xlink:href="#_1" id="x"`, `</textarea><plaintext>`, `{{.}}`, `<a href="https://example.org">`,
	} {
		page := made(t, says(hostile))
		got, text := parse(t, page)
		if !slices.Equal(names(got), names(want)) {
			t.Errorf("%s: the page has other elements", hostile)
		}
		if n := strings.Count(text, hostile); n < 15 {
			t.Errorf("%s is shown %d times", hostile, n)
		}
		harmless(t, hostile, got)
	}
}

// harmless holds every element to what the page is made of.
func harmless(t *testing.T, name string, all []element) {
	t.Helper()
	identities := map[string]bool{}
	var wanted []string
	for _, e := range all {
		switch e.name {
		case "script", "img", "image", "iframe", "object", "embed", "link", "base", "form", "input", "foreignObject", "plaintext":
			t.Errorf("%s: there is a %s", name, e.name)
		}
		for _, a := range e.attributes {
			key, value, _ := strings.Cut(a, "=")
			switch {
			case strings.HasPrefix(key, "on"), key == "src", key == "style", key == "action", key == "srcdoc":
				t.Errorf("%s: a %s has %s", name, e.name, a)
			case key == "href" && !strings.HasPrefix(value, "#"):
				t.Errorf("%s: %s leads out of the page", name, a)
			case key == "href":
				wanted = append(wanted, value[1:])
			case strings.HasPrefix(value, "url("):
				wanted = append(wanted, value[len("url(#"):len(value)-1])
			case key == "id":
				if identities[value] {
					t.Errorf("%s: the identity %s is given twice", name, value)
				}
				identities[value] = true
			}
		}
	}
	for _, id := range wanted {
		if !identities[id] {
			t.Errorf("%s: nothing has the identity %s", name, id)
			return
		}
	}
	if len(wanted) < 100 || len(identities) < 50 {
		t.Errorf("%s: only %d references to %d identities", name, len(wanted), len(identities))
	}
}

// The policy stands before anything that it is to hold, and lets in nothing but
// the style sheet.
func TestPolicy(t *testing.T) {
	page := string(made(t, sample.Star()))
	at := strings.Index(page, "Content-Security-Policy")
	if at < 0 || at > strings.Index(page, "<style>") || at > strings.Index(page, "<title>") {
		t.Error("the policy is missing, or comes late")
	}
	_, rest, _ := strings.Cut(page, "<style>")
	inside, _, _ := strings.Cut(rest, "</style>")
	sum := sha256.Sum256([]byte(inside))
	if want := base64.StdEncoding.EncodeToString(sum[:]); styleHash != want {
		t.Errorf("styleHash is %q, and must be %q", styleHash, want)
	}
	if found := regexp.MustCompile(`https?://[^"<> ]*`).FindAllString(strings.ReplaceAll(page, "http://www.w3.org/", ""), -1); len(found) > 0 {
		t.Errorf("the page names %q", found)
	}
}

// What the page says is what the report in plain text says.
func TestSaysWhatTheReportSays(t *testing.T) {
	p := sample.Boat()
	p.Settings.Buying = pattern.Buying{Usable: 40, Straighten: 1}
	_, text := parse(t, made(t, p))
	flat := strings.Join(strings.Fields(text), " ")
	s := &p.Blocks[0].Sizes[0]
	for _, part := range report.Size(p, s, &report.Made{}, words.InReport(words.Default)) {
		for _, item := range part.Items {
			if !strings.Contains(flat, item.Name+item.Words) {
				t.Errorf("the page does not say %q", item.Name+": "+item.Words)
			}
		}
	}
	cuts, said := table.List(p, s), words.InReport(words.Default)
	for _, r := range cuts.Rows {
		if want := r.Cut(said) + table.Size(r.Size, false) + table.Size(r.Size, true) + table.SpaceList(s, r.Spaces, "reversed"); !strings.Contains(flat, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if how, all := cuts.Buying(p, &p.Blocks[0], s, said); !strings.Contains(flat, how) || !strings.Contains(flat, all[0].Words+"; "+all[0].Note+all[0].Sum[0]) {
		t.Error("the page does not tell what to buy")
	}
	if n := strings.Count(flat, "cut away from yourself"); n != 1 {
		t.Errorf("it warns of blades %d times", n)
	}
}

// In another language nothing of the page is left in English but the author's words:
// every message of the English catalogue that has a word of four letters is looked for.
func TestPageInAnotherLanguage(t *testing.T) {
	p := sample.Boat()
	p.Settings.Language, p.Settings.Metric, p.Settings.Buying = "de", true, pattern.Buying{Usable: 40, Straighten: 1}
	data := made(t, p)
	_, text := parse(t, data)
	flat := strings.Join(strings.Fields(text), " ")
	file, err := os.ReadFile("../booklet/words/report/en.txt")
	if err != nil {
		t.Fatal(err)
	}
	looked := 0
	for _, m := range regexp.MustCompile(`(?m)^[a-z_.]+ = (.*)$`).FindAllSubmatch(file, -1) {
		for _, phrase := range regexp.MustCompile(`\{[a-z]+\}|[.:;,"()]`).Split(string(m[1]), -1) {
			if phrase = strings.TrimSpace(phrase); !strings.Contains(phrase, " ") {
				continue
			}
			looked++
			if strings.Contains(flat, phrase) {
				t.Errorf("%q is on the page", phrase)
			}
		}
	}
	if looked < 50 {
		t.Errorf("only %d phrases were looked for", looked)
	}
	for _, want := range []string{"Zuschneiden für einen Block", "Schmalstes Stück", "20,3 cm (8 in)", "Stoff einkaufen"} {
		if !strings.Contains(flat, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if !bytes.Contains(data, []byte(`<html lang="de">`)) {
		t.Error("the page does not say its language")
	}
}

// A page stays small enough to be sent.
func TestSheetsHaveALimit(t *testing.T) {
	p := sample.Boat()
	big := []byte("<svg>" + strings.Repeat(" ", mostSheets/4) + "</svg>")
	var sheets []SVG
	m := report.Made{Cuts: table.List(p, &p.Blocks[0].Sizes[0])}
	for range 9 {
		sheets = append(sheets, func() []byte { return big })
		m.Sheets = append(m.Sheets, report.Sheet{Copies: 1})
	}
	page, err := Page(p, [][]report.Made{{m}}, []Block{{Sheets: [][]SVG{sheets}}}, Beside{})
	if err != nil || len(page) > mostSheets+200_000 || !bytes.Contains(page, []byte("The other 6 would")) {
		t.Errorf("%d bytes, %v", len(page), err)
	}
}

// A page on which a picture would be missing is not written.
func TestNoPictureIsMissing(t *testing.T) {
	p := sample.Boat()
	m := report.Made{Cuts: table.List(p, &p.Blocks[0].Sizes[0]), Sheets: []report.Sheet{{Copies: 1}}}
	none := func() []byte { return nil }
	if _, err := Page(p, [][]report.Made{{m}}, []Block{{Sheets: [][]SVG{{none}}}}, Beside{}); err == nil {
		t.Error("a sheet is missing, and nothing is said")
	}
}

func BenchmarkPage(b *testing.B) {
	p := sample.Boat()
	m := report.Made{Cuts: table.List(p, &p.Blocks[0].Sizes[0])}
	data := fmt.Appendf(nil, "<svg>%s</svg>", strings.Repeat(`<use x="1.2" y="2.5" xlink:href="#_A"/>`, 1300))
	m.Sheets = []report.Sheet{{Copies: 1}}
	for b.Loop() {
		if _, err := Page(p, [][]report.Made{{m}}, []Block{{Sheets: [][]SVG{{func() []byte { return data }}}}}, Beside{}); err != nil {
			b.Fatal(err)
		}
	}
}
