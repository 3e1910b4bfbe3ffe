package emit

import (
	"bytes"
	"encoding/xml"
	"io"
	"path"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"seamwright/compiler/pattern"
	"seamwright/emit/edition"
	"seamwright/emit/internal/sample"
)

func paths(outputs []Output) []string {
	var out []string
	for _, o := range outputs {
		out = append(out, o.Path)
	}
	return out
}

func build(t *testing.T, p *pattern.Pattern, o Options) []Output {
	t.Helper()
	outputs, problems := Build(p, o)
	for _, problem := range problems {
		t.Log(problem.Severity, problem.Code, problem.Message)
	}
	if len(outputs) == 0 {
		t.Fatal("nothing was made")
	}
	return outputs
}

// Two runs, at once and on whatever processors there are, give the same bytes.
func TestSameBytes(t *testing.T) {
	want := build(t, sample.Boat(), Options{})
	for range 5 {
		same := func(a, b Output) bool { return a.Path == b.Path && bytes.Equal(a.Data, b.Data) }
		if got := build(t, sample.Boat(), Options{}); !slices.EqualFunc(want, got, same) {
			t.Fatal("another run wrote other bytes")
		}
	}
}

func TestOutputsAreSound(t *testing.T) {
	for _, p := range []*pattern.Pattern{sample.Boat(), sample.Star()} {
		seen := map[string]bool{}
		for _, o := range build(t, p, Options{}) {
			low := strings.ToLower(o.Path)
			if seen[low] || path.Clean(o.Path) != o.Path || path.IsAbs(o.Path) || strings.HasPrefix(o.Path, "..") {
				t.Errorf("path %q", o.Path)
			}
			seen[low] = true
			if len(o.Data) == 0 {
				t.Errorf("%s is empty", o.Path)
			}
			packed := strings.HasSuffix(o.Path, ".pdf") // any three bytes may stand in it
			if !packed && bytes.Contains(o.Data, []byte("NaN")) || !packed && bytes.Contains(o.Data, []byte("Inf")) {
				t.Errorf("%s holds what is no number", o.Path)
			}
			if strings.HasSuffix(o.Path, ".svg") {
				wellFormed(t, o)
			}
		}
	}
}

func wellFormed(t *testing.T, o Output) {
	t.Helper()
	decoder := xml.NewDecoder(bytes.NewReader(o.Data))
	for {
		if _, err := decoder.Token(); err == io.EOF {
			return
		} else if err != nil {
			t.Errorf("%s: %v", o.Path, err)
			return
		}
	}
}

func TestOnly(t *testing.T) {
	for _, c := range []struct {
		only string
		want []string
	}{
		{"tables", []string{"boat/8in/cutting.md", "boat/8in/cutting.csv", "boat/8in/cutting-by-section.csv"}},
		{"diagrams", []string{"boat/front.svg", "boat/line-drawing.svg", "boat/values.svg", "boat/sections.svg", "boat/joining.svg"}},
		{"booklet", []string{"boat/8in/booklet.pdf"}},
		{"together", []string{"boat/booklet.pdf"}},
		{"report", []string{"report.txt", "report.html"}},
		{"json", []string{"pattern.json"}},
	} {
		if diff := cmp.Diff(c.want, paths(build(t, sample.Boat(), Options{Only: []string{c.only}}))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.only, diff)
		}
	}
}

func TestSizes(t *testing.T) {
	p := sample.Boat()
	b := &p.Blocks[0]
	b.Sizes = append(b.Sizes, b.Sizes[0])
	b.Sizes[0].Finished = pattern.Size{W: 20 * pattern.Centimetre, H: 20 * pattern.Centimetre}
	got := paths(build(t, p, Options{Only: []string{"tables"}, Sizes: []pattern.Length{7.8740157}}))
	if len(got) != 3 || got[0] != "boat/20cm/cutting.md" {
		t.Errorf("got %q", got)
	}
	if len(p.Blocks[0].Sizes) != 2 || p.Blocks[0].Sizes[1].Finished.W != 8 {
		t.Error("the pattern was changed")
	}
	if outputs, problems := Build(p, Options{Only: []string{"tables"}, Sizes: []pattern.Length{5}}); len(outputs) != 0 || len(problems) != 0 {
		t.Errorf("a size no block has: %v, %v", paths(outputs), problems)
	}
}

func TestNames(t *testing.T) {
	for _, c := range []struct {
		s    pattern.Size
		want string
	}{
		{pattern.Size{W: 8, H: 8}, "8in"}, {pattern.Size{W: 7.5, H: 7.5}, "7.5in"}, {pattern.Size{W: 6, H: 15}, "6x15in"},
		{pattern.Size{W: 20.5 * pattern.Centimetre, H: 20.5 * pattern.Centimetre}, "20.5cm"},
		{pattern.Size{W: 7.3701, H: 7.3701}, "7.3701in"},
	} {
		if got := edition.SizeName(c.s); got != c.want {
			t.Errorf("%v: %q, want %q", c.s, got, c.want)
		}
	}
	for in, want := range map[string]string{"boat": "boat", "../x": "___x", "": "block", "a b\x00": "a_b_", "häfen": "h_fen"} {
		if got := safeName(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
	var f files
	if a, b := f.unique("boat"), f.unique("Boat"); a != "boat" || b != "Boat-2" {
		t.Errorf("%q and %q", a, b)
	}
}

func TestPanicIsCarriedOver(t *testing.T) {
	defer func() {
		if r := recover(); r == nil || !strings.Contains(r.(string), "broken needle") {
			t.Errorf("met %v", r)
		}
	}()
	inParallel([]func(){func() {}, func() { panic("broken needle") }, func() {}}, true)
}

// What is made as it is given is what would have been made at once, whatever the
// order and however often room is used again.
func TestLateFilesAreTheSame(t *testing.T) {
	o := Options{Only: []string{"sheets", "diagrams", "tables", "json"}}
	at := sample.Boat()
	want, _ := Build(at, o)
	o.Late = true
	got, _ := Build(at, o)
	if len(got) != len(want) {
		t.Fatalf("%d files, not %d", len(got), len(want))
	}
	var tasks []func()
	for i := range got {
		tasks = append(tasks, func() {
			err := got[i].Give(func(data []byte) error {
				if got[i].Path != want[i].Path || !bytes.Equal(data, want[i].Data) {
					t.Errorf("%s is otherwise", got[i].Path)
				}
				return nil
			})
			if err != nil {
				t.Error(err)
			}
		})
	}
	slices.Reverse(tasks)
	inParallel(tasks, true)
	inParallel(tasks, true) // and again
}
