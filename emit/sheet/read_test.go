package sheet

import (
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit/svg"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

// What stands here reads patterns and emitted files for the tests. It shares
// nothing with the code that lays sheets out: lines are read from the SVG.

type shipped struct{}

func (shipped) Load(_ *problem.Source, path string) (*problem.Source, string) {
	text, ok := families.Source(strings.TrimPrefix(path, "std/"))
	if !ok {
		data, err := os.ReadFile(filepath.Join("../../examples", path+".seam"))
		if err != nil {
			return nil, err.Error()
		}
		text = string(data)
	}
	return &problem.Source{Name: path, Text: text}, ""
}

func compile(t testing.TB, text string) *pattern.Pattern {
	t.Helper()
	p, problems := compiler.Compile(&problem.Source{Name: "t.seam", Text: text}, shipped{})
	if p == nil {
		t.Fatalf("does not compile: %v", problems)
	}
	return p
}

// A laid is one set of sheets of the tests.
type laid struct {
	name  string
	p     *pattern.Pattern
	sized *pattern.Sized
	paper pattern.Sheet
	set   Set
}

// dense are blocks of many small spaces.
var dense = []string{`
pattern "Hearth" { edition 3  author "Harbour Sheets"  year "2025" }
fabric ember "ember glow" dark #b8432f
fabric dusk "dusk over the sea" medium #dfeaf0
fabric flame "flame" light #f3ecdd
use log_cabin from "std/log_cabin"
block hearth 24 x 24 finished 4in, 6in {
  place log_cabin(rounds: 8, hearth: 8, warm: ember, cool: dusk, heart: flame) at sw
}`, `
pattern "Quay" { edition 1  sheet a4  extra 1/4in  tint yes }
fabric ember "ember glow" dark #b8432f
fabric dusk "dusk over the sea" medium #dfeaf0
fabric flame "flame" light #f3ecdd
use pineapple from "std/pineapple"
block quay 18 x 18 finished 6in {
  place pineapple(rounds: 8, heart: flame, straight: dusk, slanting: ember) at sw
}`, `
pattern "Ripples" { edition 1  miniature yes  allowance 1/8in }
fabric sky "sky" light #dfeaf0
fabric sea "grey sea" dark #25525e
block ripples 4 x 4 finished 2in, 3in {
  join n -- s
  section Upper_1 {
    1 sky at w + (0.5, 0.5)
    2 sea along (0, 1) -- (4, 2)
  }
  section {
    1 sky at e + (-0.5, 0.5)
    2 sea along (0, 1) -- (4, 2)
    3 sky along (0, 0.5) -- (4, 1)
  }
}`}

var everything = sync.OnceValues(func() ([]laid, error) {
	var out []laid
	files, err := filepath.Glob("../../examples/*.seam")
	if err != nil {
		return nil, err
	}
	texts := slices.Clone(dense)
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			return nil, err
		}
		texts = append(texts, string(data))
	}
	a4, _ := pattern.SheetNamed("a4")
	for _, text := range texts {
		p, _ := compiler.Compile(&problem.Source{Name: "t.seam", Text: text}, shipped{})
		if p == nil {
			continue
		}
		for b := range p.Blocks {
			for s := range p.Blocks[b].Sizes {
				for _, paper := range []pattern.Sheet{p.Settings.Sheet, a4} {
					sized := &p.Blocks[b].Sizes[s]
					set, problems := Lay(p, &p.Blocks[b], sized, paper)
					if problem.Failed(problems) {
						continue
					}
					name := p.Blocks[b].Name + " " + sized.Finished.Exact() + " " + paper.Name
					out = append(out, laid{name, p, sized, paper, set})
				}
			}
		}
	}
	return out, nil
})

// all returns the sheets of every example and dense block, but for those with
// sections in parts, which part_test.go looks at.
func all(t testing.TB) []laid {
	t.Helper()
	out, err := everything()
	if err != nil {
		t.Fatal(err)
	}
	if len(out) < 30 {
		t.Fatalf("only %d sets were laid", len(out))
	}
	return slices.DeleteFunc(slices.Clone(out), func(l laid) bool { return len(l.set.Glued) > 0 })
}

// A drawn is one subpath of an emitted file, in inches.
type drawn struct {
	group  string // the innermost group's identity
	width  float64
	dash   string
	filled bool
	points []pos
	closed bool
	radius length // of a circle about points[0]
}

// file returns a page as it is emitted.
func file(t testing.TB, s *Sheet) []byte {
	t.Helper()
	data, err := svg.Render(&s.Page)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// read returns the paths of an emitted file but for glyphs, and all its words.
func read(t testing.TB, data []byte) (paths []drawn, words string) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(data))
	var groups []string
	inDefs := 0
	var text strings.Builder
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return paths, text.String()
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			switch tok.Name.Local {
			case "defs":
				inDefs++
			case "g":
				id := attr(tok, "id")
				if id == "" && len(groups) > 0 {
					id = groups[len(groups)-1]
				}
				groups = append(groups, id)
			case "path":
				if inDefs > 0 {
					continue
				}
				width, _ := strconv.ParseFloat(attr(tok, "stroke-width"), 64)
				for _, p := range subpaths(t, attr(tok, "d")) {
					p.group, p.width, p.dash = groups[len(groups)-1], width, attr(tok, "stroke-dasharray")
					p.filled = attr(tok, "fill") != "none"
					paths = append(paths, p)
				}
			}
		case xml.EndElement:
			switch tok.Name.Local {
			case "defs":
				inDefs--
			case "g":
				groups = groups[:len(groups)-1]
			}
		case xml.CharData:
			text.Write(tok)
		}
	}
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// subpaths reads path data: M, l, h, v, a and z, in millimetres.
func subpaths(t testing.TB, data string) (out []drawn) {
	t.Helper()
	at := 0
	number := func() length {
		for at < len(data) && data[at] == ' ' {
			at++
		}
		end := at + 1
		for end < len(data) && (data[end] == '.' || data[end] >= '0' && data[end] <= '9') {
			end++
		}
		v, err := strconv.ParseFloat(data[at:end], 64)
		if err != nil {
			t.Fatalf("%q at %d: %v", data, at, err)
		}
		at = end
		return length(v) / 25.4
	}
	var now pos
	for at < len(data) {
		c := data[at]
		at++
		last := len(out) - 1
		switch c {
		case 'M':
			now = pos{X: number(), Y: number()}
			out = append(out, drawn{points: []pos{now}})
			continue
		case 'l':
			now = add(now, pos{X: number(), Y: number()})
		case 'h':
			now.X += number()
		case 'v':
			now.Y += number()
		case 'a':
			r := number()
			for range 4 {
				number()
			}
			now = add(now, pos{X: number(), Y: number()})
			out[last].radius = r
			continue
		case 'z':
			out[last].closed = true
			if r := out[last].radius; r > 0 {
				out[last].points[0].X += r
			}
			continue
		default:
			t.Fatalf("%q: command %c", data, c)
		}
		out[last].points = append(out[last].points, now)
	}
	return out
}

// of returns the paths of a section that are stroked with a width, in mm.
func of(paths []drawn, section string, width float64, dashed bool) (out []drawn) {
	odd := strings.Contains(section, "_") // there is one such section in the tests
	for _, p := range paths {
		own := p.group == "section-"+section || odd && strings.HasPrefix(p.group, "section-") && strings.HasSuffix(p.group, "-")
		if own && p.width == width && (p.dash != "") == dashed {
			out = append(out, p)
		}
	}
	return out
}

// Widths of strokes in emitted files, in mm, as the legend shows them.
const (
	seamWidth    = 0.25
	outlineWidth = 0.55
	cuttingWidth = 0.3
	runOnWidth   = 0.13
)

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
