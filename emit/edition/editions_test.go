package edition

import (
	"maps"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
	"seamwright/emit/internal/sample"
	"seamwright/emit/sheet"
)

// recorded is the boat with its real sheets.
func recorded(t *testing.T, change func(p *pattern.Pattern)) *Record {
	t.Helper()
	return made(change, func(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) sheet.Set {
		set, _ := sheet.Lay(p, b, s, p.Settings.Sheet)
		return set
	})
}

func made(change func(p *pattern.Pattern), lay func(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) sheet.Set) *Record {
	p := sample.Boat()
	if change != nil {
		change(p)
	}
	all := make([][]Made, len(p.Blocks))
	for b := range p.Blocks {
		for s := range p.Blocks[b].Sizes {
			set := lay(p, &p.Blocks[b], &p.Blocks[b].Sizes[s])
			all[b] = append(all[b], Made{Sheets: set, Marks: []Word{{"letter", set.Mark}}, Cloth: []Word{{"sky", "1/8 yd"}}, Table: "table"})
		}
	}
	return Of(p, all, make([]MadeQuilt, len(p.Quilts)))
}

// facts are those of a record, whose order earlier editions lose.
func facts(r *Record) map[string]string {
	out := map[string]string{}
	for _, f := range r.facts() {
		out[f.key] = string(f.value)
	}
	return out
}

func TestWhatIsWrittenIsRead(t *testing.T) {
	one := recorded(t, nil)
	one.Edition = 1
	var e Editions
	e.Add(one)
	back, err := Read(e.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(one, back.Last(), cmpopts.IgnoreTypes(pattern.Source{}), cmpopts.EquateEmpty()); d != "" {
		t.Errorf("(-recorded +read)\n%s", d)
	}
	if d := cmp.Diff(string(e.Bytes()), string(back.Bytes())); d != "" {
		t.Errorf("written again (-first +second)\n%s", d)
	}
}

// Earlier editions come back whole from what was otherwise in them.
func TestEarlierEditionsComeBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var e Editions
		var all []*Record
		edition := 0
		for range rapid.IntRange(1, 4).Draw(rt, "editions") {
			edition += rapid.IntRange(1, 9).Draw(rt, "step")
			r := made(func(p *pattern.Pattern) {
				p.Title = rapid.SampledFrom([]string{"Boat", "Boats", "", "a/b \"c\" <d>"}).Draw(rt, "title")
				p.Fabrics[0].Words = rapid.SampledFrom([]string{"sky", "air"}).Draw(rt, "words")
				if rapid.Bool().Draw(rt, "fewer sizes") {
					p.Blocks[0].Sizes = p.Blocks[0].Sizes[:1]
				}
				for i := range p.Blocks[0].Sizes {
					p.Blocks[0].Sizes[i].Drawings[0].Make = rapid.IntRange(1, 4).Draw(rt, "make")
				}
			}, func(*pattern.Pattern, *pattern.Block, *pattern.Sized) sheet.Set {
				return sheet.Set{Mark: "MARK", Sheets: make([]sheet.Sheet, rapid.IntRange(0, 2).Draw(rt, "sheets"))}
			})
			r.Edition = edition
			all = append(all, r)
			e.Add(r)
			back, err := Read(e.Bytes())
			if err != nil {
				rt.Fatal(err)
			}
			e = *back
		}
		for _, want := range all {
			if got := e.Get(want.Edition); !maps.Equal(facts(want), facts(got)) {
				rt.Fatalf("edition %d (-recorded +read)\n%s", want.Edition, cmp.Diff(facts(want), facts(got)))
			}
		}
		if e.Get(edition+1) != nil || e.Get(0) != nil {
			rt.Fatal("an edition that never was is found")
		}
	})
}

// Quilts and partial seams come back as they were written, whatever they hold.
func TestQuiltsAreRead(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.SampledFrom([]string{"", "boat", "a/b \"c\"", "border 2", "layout/1"})
		length := rapid.Custom(func(t *rapid.T) float64 { return round(rapid.Float64Range(-200, 200).Draw(t, "length")) })
		lengths := rapid.SliceOfN(length, 0, 4)
		two := rapid.Custom(func(t *rapid.T) [2]float64 { return [2]float64{length.Draw(t, "x"), length.Draw(t, "y")} })
		words := rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) Word {
			return Word{text.Draw(t, "name"), text.Draw(t, "text")}
		}), 0, 3, func(w Word) string { return w.Name })
		number := rapid.IntRange(0, 40)
		placed := rapid.Custom(func(t *rapid.T) Placed {
			return Placed{Block: text.Draw(t, "block"), Size: "8in", Row: number.Draw(t, "row"), In: number.Draw(t, "in"), Turn: length.Draw(t, "turn"),
				Reversed: rapid.Bool().Draw(t, "reversed"), OtherWay: rapid.Bool().Draw(t, "other"), Shift: two.Draw(t, "shift")}
		})
		seams := rapid.Custom(func(t *rapid.T) Seam {
			return Seam{Step: text.Draw(t, "step"), Of: number.Draw(t, "of"), From: two.Draw(t, "from"), To: two.Draw(t, "to"), Points: lengths.Draw(t, "points"), Press: text.Draw(t, "press")}
		})
		cuts := rapid.Custom(func(t *rapid.T) Cut {
			return Cut{text.Draw(t, "for"), text.Draw(t, "fabric"), "square", two.Draw(t, "size"), number.Draw(t, "count")}
		})
		runs := rapid.Custom(func(t *rapid.T) Run {
			return Run{text.Draw(t, "for"), text.Draw(t, "fabric"), length.Draw(t, "width"), lengths.Draw(t, "lengths"), rapid.Bool().Draw(t, "bias")}
		})
		layouts := rapid.Custom(func(t *rapid.T) Layout {
			return Layout{Title: text.Draw(t, "title"), Size: two.Draw(t, "size"), Backing: two.Draw(t, "backing"), Batting: two.Draw(t, "batting"),
				Two: rapid.SliceOfN(text, 0, 2).Draw(t, "two"), Placed: rapid.SliceOfN(placed, 0, 12).Draw(t, "placed"), Areas: words.Draw(t, "areas"),
				Joins: rapid.SliceOfN(seams, 0, 12).Draw(t, "joins"), Cuts: rapid.SliceOfN(cuts, 0, 3).Draw(t, "cuts"), Runs: rapid.SliceOfN(runs, 0, 3).Draw(t, "runs"),
				Cloth: words.Draw(t, "cloth"), Texts: words.Draw(t, "texts")}
		})
		one := recorded(t, func(p *pattern.Pattern) {
			j := p.Blocks[0].Sizes[0].Joins
			j[0].Begins, j[1].Begun = number.Draw(rt, "begins"), number.Draw(rt, "begun")
		})
		one.Edition, one.Told = 1, true
		one.Layouts = rapid.SliceOfN(layouts, 0, 3).Draw(rt, "layouts")
		var e Editions
		e.Add(one)
		back, err := Read(e.Bytes())
		if err != nil {
			rt.Fatal(err)
		}
		if d := cmp.Diff(one, back.Last(), cmpopts.IgnoreTypes(pattern.Source{}), cmpopts.EquateEmpty()); d != "" {
			rt.Fatalf("(-recorded +read)\n%s", d)
		}
	})
}

// A release that changes one word changes few lines of the file.
func TestFileChangesWhereThePrintDoes(t *testing.T) {
	one, two := recorded(t, nil), recorded(t, func(p *pattern.Pattern) { p.About.Notes = append(p.About.Notes, "press well") })
	one.Edition, two.Edition = 1, 2
	var e, f Editions
	e.Add(one)
	f.Add(one)
	f.Add(two)
	before := strings.Split(string(e.Bytes()), "\n")
	news := 0
	for _, line := range strings.Split(string(f.Bytes()), "\n") {
		if !strings.Contains(strings.Join(before, "\n"), line) {
			news++
		}
	}
	if news > 8 {
		t.Errorf("%d lines changed:\n%s", news, cmp.Diff(string(e.Bytes()), string(f.Bytes())))
	}
}

// What is printed the same has the same sums, whatever the edition's number; a
// stroke or a word that is not the same has not.
func TestSumsTellStrokesFromWords(t *testing.T) {
	parts := func(change func(p *pattern.Pattern)) map[string]Part {
		out := map[string]Part{}
		for _, p := range recorded(t, change).Blocks[0].Sizes[0].Sheets[0].Parts {
			out[p.Name] = p
		}
		return out
	}
	plain := parts(nil)
	for name, want := range map[string]Part{"section C": {}, "head": {}, "front": {}, "furniture": {}} {
		if plain[name] == want {
			t.Errorf("no part %q in %v", name, plain)
		}
	}
	renamed := parts(func(p *pattern.Pattern) { p.Fabrics[0].Words += "s" })
	differs := 0
	for name, p := range renamed {
		if p.Words != plain[name].Words {
			differs++
			if !strings.HasPrefix(name, "section") {
				t.Errorf("a fabric's word changes the words of %q", name)
			}
		}
	}
	if differs == 0 {
		t.Error("a fabric's word changes no sum")
	}
}

func TestDamage(t *testing.T) {
	var e Editions
	e.Add(&Record{Edition: 3, Words: []Word{{"title", "Boat"}}})
	good := string(e.Bytes())
	for _, c := range []struct{ name, text, want string }{
		{"nothing", "", "end of JSON"},
		{"cut off", good[:len(good)/2], "line "},
		{"merged", strings.Replace(good, "\"facts\"", "\n<<<<<<< ours\n\"facts\"", 1), "merged"},
		{"another file", `{"schema": "other/1"}`, "schema"},
		{"no edition", strings.Replace(good, ": 3", ": 0", 1), "not in order"},
		{"unknown fact", strings.Replace(good, "words/title", "wards/title", 1), "wards/title: no such fact"},
		{"wrong kind", strings.Replace(good, `"Boat"`, `17`, 1), "words/title: json"},
		{"twice", strings.Replace(good, `"words/title": "Boat"`, `"words/title": "Boat", "words/title": "Boat"`, 1), "told twice"},
		{"a copy of a million", strings.Replace(good, `"words/title": "Boat"`, `"block/b/8in/copy/99999999": {}`, 1), "is no number"},
		{"a quilt that is missing", strings.Replace(good, `"words/title": "Boat"`, `"recorded/layouts": 1`, 1), "the layout of a quilt is missing"},
		{"a quilt's join that is missing", strings.Replace(good, `"words/title": "Boat"`, `"recorded/layouts": 1, "layout/1": {}, "layout/1/join/2": {}`, 1), "layout/1: a block, join"},
		{"a quilt of nothing known", strings.Replace(good, `"words/title": "Boat"`, `"recorded/layouts": 1, "layout/1": {}, "layout/1/thing/2": {}`, 1), "no such fact"},
		{"a copy that is missing", strings.Replace(good, `"words/title": "Boat"`, `"block/b/8in/copy/3": {}`, 1), "is missing"},
	} {
		if _, err := Read([]byte(c.text)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	var e Editions
	e.Add(&Record{Edition: 1, Words: []Word{{"title", "Boat"}}})
	e.Add(&Record{Edition: 2, Blocks: []Block{{Name: "b", Sizes: []Size{{Name: "8in", Copies: []Copy{{}}}}}}})
	f.Add(e.Bytes())
	f.Add([]byte(`{"schema":"seamwright-editions/1","edition":1,"facts":{"block/b/8in/space/A x":{}}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		e, err := Read(data)
		if err != nil {
			return
		}
		for _, n := range e.Numbers() {
			if e.Get(n) == nil {
				t.Errorf("edition %d is lost", n)
			}
		}
		if _, err := Read(e.Bytes()); err != nil {
			t.Errorf("what was read can't be written and read again: %v", err)
		}
	})
}
