package eval

import (
	"fmt"
	"strings"
	"testing"

	"seamwright/lang/families"
)

const wave = `fabric foam "foam" light #ffffff
/// A wave.
unit wave(height: number = 1, cloth: fabric) 4 x height {
  check height > 0 "a wave rises"
  section { 1 cloth at c
    2 foam along (0, height / 2) -- (4, height / 2) }
}
unit ripple(cloth: fabric) 4 x 1 { section { 1 cloth at c } }
`

func TestUse(t *testing.T) {
	files := texts{"families/wave": wave}
	r := want(t, `use wave, ripple as small from "families/wave"
`+sky+`block b 4 x 2 finished 4in {
  place wave(cloth: sky) at sw
  place small(sky) at w
}`, files)
	b := r.Blocks[0]
	if len(b.Places) != 2 || b.Places[0].Body.Name != "wave" || b.Places[1].Body.Name != "ripple" {
		t.Fatalf("places %+v", b.Places)
	}
	// A unit sees the fabrics of its own file, by the words of that file.
	if f := r.Pattern.Fabrics; len(f) != 2 || f[0].Name != "sky" || f[1].Name != "foam" || f[1].Source.File != "families/wave.seam" {
		t.Errorf("fabrics %+v", f)
	}
	if got := b.Places[0].Body.Sections[0].Pieces[1].Fabric; got != 1 {
		t.Errorf("the crest is of fabric %d", got)
	}
}

func TestUseFaults(t *testing.T) {
	block := sky + "block b 4 x 1 finished 4in { place wave(1, sky) at sw }"
	for name, c := range map[string]struct {
		text  string
		files texts
		codes []string
	}{
		"no file":              {"use wave from \"waves\"\n" + block, nil, []string{"L270 1 no such file"}},
		"no unit":              {"use wafe from \"w\"\nuse wave from \"w\"\n" + sky + "block b 4 x 1 finished 4in {\n  place wafe(1, sky) at sw\n  place wave(1, sky) at sw\n}", texts{"w": wave}, []string{"L272 1 no unit `wafe`"}},
		"a name twice":         {"use wave from \"w\"\nunit wave 4 x 1 { section { 1 sky at c } }\n" + block, texts{"w": wave}, []string{"L205 1 unit on line 2"}},
		"nothing is passed on": {"use wave from \"v\"\n" + block, texts{"v": "use wave from \"w\"\n", "w": wave}, []string{"L272 1"}},
		"unused":               {"use wave, ripple from \"w\"\n" + block, texts{"w": wave}, []string{"L208 1 `ripple`"}},
		"faults inside":        {"use wave from \"w\"\n" + block, texts{"w": strings.Replace(wave, "at c\n", "at far\n", 1)}, []string{"L201 5 called `far`"}},
		"syntax inside":        {"use wave from \"w\"\n" + block, texts{"w": strings.Replace(wave, "2 foam along (0", "2 foam along ((0", 1)}, []string{"L117 6"}},
		"checks inside":        {"use wave from \"w\"\n" + strings.Replace(block, "1, sky", "0, sky", 1), texts{"w": wave}, []string{"L244 3 `wave`: a wave rises"}},
		"std is a file too":    {"use nothing from \"std/log_cabin\"\n" + sky + "block b 4 x 1 finished 4in { section { 1 sky at c } }", nil, []string{"L272 1"}},
	} {
		t.Run(name, func(t *testing.T) { want(t, c.text, c.files, c.codes...) })
	}
}

func TestCircularUse(t *testing.T) {
	r := evaluate("use a from \"one\"\n"+sky+"block b 4 x 4 finished 4in { place a at sw }", texts{
		"one": "use c from \"two\"\nunit a 4 x 4 { place c at sw }",
		"two": "use a from \"one\"\nunit c 4 x 4 { place a at sw }",
	})
	if len(r.Problems) != 1 || r.Problems[0].Code != FileCircle || !strings.Contains(r.Problems[0].Message, "one.seam > two.seam > one.seam") {
		t.Error(show(r.Problems))
	}
	// The root counts.
	r = evaluate("use a from \"test\"\n"+sky+"block b 4 x 4 finished 4in { place a at sw }", texts{"test": ""})
	if len(r.Problems) != 1 || r.Problems[0].Code != FileCircle {
		t.Error(show(r.Problems))
	}
}

func TestManyFiles(t *testing.T) {
	files, root := texts{}, ""
	for i := range maxFiles + 2 {
		name := fmt.Sprintf("f%d", i)
		files[name] = "unit " + name + " 4 x 4 { }"
		root += "use " + name + " from \"" + name + "\"\n"
	}
	r := evaluate(root+sky+"block b 4 x 4 finished 4in { section { 1 sky at c } }", files)
	if len(r.Problems) != 2 || r.Problems[0].Code != TooManyFiles {
		t.Error(show(r.Problems))
	}
}

// One file used twice is read once.
func TestAFileIsReadOnce(t *testing.T) {
	text := "use wave from \"w\"\nuse ripple from \"w\"\n" + sky + "block b 4 x 2 finished 4in {\n  place wave(1, sky) at sw\n  place ripple(sky) at w\n}"
	r := want(t, text, texts{"w": wave})
	if len(r.Pattern.Fabrics) != 2 {
		t.Errorf("fabrics %+v", r.Pattern.Fabrics)
	}
}

func TestNoLoader(t *testing.T) {
	f := evaluate("use a from \"b\"", nil)
	if len(f.Problems) != 1 || f.Problems[0].Code != NoFile {
		t.Error(show(f.Problems))
	}
}

// The families that are shipped have no faults, and their fabrics come by parameters.
func TestShippedFamilies(t *testing.T) {
	for _, name := range families.Names() {
		text, _ := families.Source(name)
		r := evaluate(text, nil)
		if len(r.Problems) > 0 {
			t.Errorf("%s:\n%s", name, show(r.Problems))
		}
		if len(r.Pattern.Fabrics) > 0 {
			t.Errorf("%s has fabrics of its own", name)
		}
	}
}
