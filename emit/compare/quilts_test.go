package compare_test

import (
	"slices"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/emit/booklet/words"
	"seamwright/emit/compare"
	"seamwright/emit/edition"
	"seamwright/lang/problem"
)

// lanterns is a quilt with everything that a quilt may have.
const lanterns = `pattern "Lanterns" { edition 1 }
fabric lamp "lamp" light #f2dca0
fabric night "night" dark #22384a
fabric sea "sea" medium #3c7d8c
block lantern 6 x 6 finished 6in {
  section A { 1 lamp at (1, 5)  2 night along (2, 3) -- (2, 6) }
  section B { 1 night at (1, 1)  2 lamp along (2, 0) -- (2, 3) }
  join (0, 3) -- (6, 3)
}
quilt "Quay" {
  row lantern, lantern reversed, lantern
  row lantern, lantern, lantern turn 90deg
  sashing 1in of night, around
  cornerstones lamp
  border 2in of sea
  binding 2.5in of night
  backing 4in of sea
  batting 3in
}
`

// What of a quilt is printed, each changed by itself: what is told of it, what it
// affects, and what the page of corrections says to do. Lengths are worked out by
// hand: three blocks of 6 in with four sashes of 1 in and two borders of 2 in are 26
// in wide, two with three sashes and the borders 19 in high.
func TestQuiltsAsTheyAreTold(t *testing.T) {
	for _, c := range []struct {
		name           string
		edits          []string
		told           string
		affects, cured string
	}{
		{"a block is turned", []string{"lantern, lantern, lantern turn 90deg", "lantern, lantern turn 180deg, lantern turn 90deg"},
			"quilt Quay block 2 of row 2: lantern (6in) -> lantern (6in), 180 degrees", "sewing", "lay the quilt out again"},
		{"a block is reversed", []string{"row lantern, lantern, lantern turn", "row lantern reversed, lantern, lantern turn"},
			"quilt Quay block 1 of row 2: lantern (6in) -> lantern (6in), turned over", "sewing", "lay the quilt out again"},
		{"another width of sashes", []string{"sashing 1in", "sashing 1.5in"},
			"quilt Quay finished size: 26 in x 19 in -> 28 in x 20 1/2 in", "sewing", "cut again as it should be"},
		{"another border", []string{"border 2in of sea", "border 2in of lamp"}, "", "cutting", "cut again as it should be"},
		{"corners of a border", []string{"border 2in of sea", "border 2in of sea, mitred"}, "", "cutting", "cut again as it should be"},
		{"cornerstones", []string{"cornerstones lamp", "cornerstones sea"},
			"quilt Quay cut for cornerstones: square 1 1/2 in, lamp, (12) -> square 1 1/2 in, sea, (12)", "cutting", "quilt Quay (cornerstones): cut again as it should be"},
		{"binding", []string{"binding 2.5in", "binding 2.25in"}, "", "cutting", "quilt Quay (binding): cut again as it should be"},
		{"backing", []string{"backing 4in", "backing 5in"}, "quilt Quay backing: 34 in x 27 in -> 36 in x 29 in", "cutting", ""},
		{"batting", []string{"batting 3in", "batting 4in"}, "quilt Quay batting: 32 in x 25 in -> 34 in x 27 in", "cutting", ""},
		{"title", []string{`quilt "Quay"`, `quilt "Mole"`}, "quilt Mole: Quay -> Mole", "words", ""},
		{"gone", []string{lanterns[strings.Index(lanterns, "quilt"):], ""}, "quilt Quay layout: gone; was 26 in x 19 in", "sewing", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(lanterns, c.edits[0]) {
				t.Fatalf("no %q", c.edits[0])
			}
			changed := strings.Replace(lanterns, c.edits[0], c.edits[1], 1)
			r := compare.Compare(recorded(t, lanterns), recorded(t, changed))
			if c.told != "" && !slices.ContainsFunc(lines(r), func(s string) bool { return strings.HasPrefix(s, c.told) }) {
				t.Errorf("%q is not told", c.told)
			}
			if !slices.ContainsFunc(r.Changes, func(ch compare.Change) bool {
				return ch.Affects == c.affects && (c.told == "" || strings.HasPrefix(r.Line(&ch), c.told))
			}) {
				t.Errorf("nothing affects %s", c.affects)
			}
			for i := range r.Changes {
				ch := &r.Changes[i]
				if got, want := r.Said(ch, words.ToMakers("en")), strings.ReplaceAll(r.Line(ch), "lantern (6in)", "lantern, 6 in"); got != want && ch.Kind != compare.Patches && !strings.Contains(got, "square") && !strings.Contains(got, "rectangle") {
					t.Errorf("%q is said, and %q told", got, want)
				}
			}
			if text := read(r); !strings.Contains(text, c.cured) || !strings.Contains(text, "quilt ") {
				t.Errorf("%q is not said in:\n%s", c.cured, text)
			}
			guarded(t, lanterns, changed)
			if t.Failed() {
				t.Errorf("told:\n%s", strings.Join(lines(r), "\n"))
			}
		})
	}
}

// guarded checks that a change is an error until the edition is raised.
func guarded(t *testing.T, old, changed string) {
	t.Helper()
	var out edition.Editions
	out.Add(recorded(t, old))
	back, err := edition.Read(out.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	for text, drifts := range map[string]bool{old: false, changed: true, strings.Replace(changed, "edition 1", "edition 2", 1): false} {
		p, _ := compiler.Compile(&problem.Source{Name: "test.seam", Text: text}, shipped{})
		found := compare.Guard(back, recorded(t, text), p)
		if (len(found) > 0) != drifts {
			t.Errorf("%d problems where drift is %v:\n%s\n%v", len(found), drifts, text, found)
		}
		for _, f := range found {
			if f.Code != compare.Drifted || f.Severity != problem.Error {
				t.Errorf("%v is no error of drift", f)
			}
		}
	}
}

// A partial seam is two joins; that it is sewn in two goes is told.
func TestPartialSeamsAreTold(t *testing.T) {
	const basin = `pattern "Basin" { edition 1 }
fabric sea "sea" dark #25525e
fabric quay "quay" light #e6dcc8
block basin 4 x 4 finished 6in {
  line (1, 0) -- (1, 3) partial
  line (0, 3) -- (3, 3), (3, 4) -- (3, 1), (4, 1) -- (1, 1)
  piece sea at c
  piece quay at (0.5, 1), (1, 3.5), (3.5, 3), (3, 0.5)
}
`
	r := recorded(t, basin)
	joins := r.Blocks[0].Sizes[0].Joins
	at := slices.IndexFunc(joins, func(j edition.Join) bool { return j.Begins > 0 })
	if at < 0 || joins[joins[at].Begins-1].Begun != at+1 {
		t.Fatalf("no partial seam in %+v", joins)
	}
	whole := recorded(t, basin)
	for i := range whole.Blocks[0].Sizes[0].Joins {
		whole.Blocks[0].Sizes[0].Joins[i].Begins, whole.Blocks[0].Sizes[0].Joins[i].Begun = 0, 0
	}
	told := lines(compare.Compare(whole, r))
	if len(told) != 2 || !strings.HasSuffix(told[0], "sewn: in one go -> begun, and finished by join 5") || !strings.Contains(told[1], "in one go -> finishes join ") {
		t.Errorf("told:\n%s", strings.Join(told, "\n"))
	}
	stop := recorded(t, basin)
	j := &stop.Blocks[0].Sizes[0].Joins[at]
	j.To = [2]float64{(j.From[0] + j.To[0]) / 2, (j.From[1] + j.To[1]) / 2}
	if told := lines(compare.Compare(r, stop)); len(told) != 1 || !strings.Contains(told[0], " line: ") {
		t.Errorf("another stop: %q", told)
	}
	guarded(t, basin, strings.Replace(basin, "line (1, 0) -- (1, 3) partial\n  line (0, 3) -- (3, 3),", "line (1, 0) -- (1, 3)\n  line (0, 3) -- (3, 3) partial\n  line", 1))
}

// A section that is printed in parts has each of them recorded.
func TestPartsAreHeldTo(t *testing.T) {
	const wide = `pattern "Wide" { edition 1 tile yes }
fabric a "a" light #f2dca0
fabric b "b" dark #22384a
block wide 16 x 6 finished 16in {
  section A { 1 a at (1, 1)  2 b along (8, 0) -- (8, 6) }
}
`
	r := recorded(t, wide)
	var parts []string
	for _, sh := range r.Blocks[0].Sizes[0].Sheets {
		for _, p := range sh.Sections {
			parts = append(parts, p.Part)
		}
	}
	if len(parts) < 2 || slices.Contains(parts, "") {
		t.Fatalf("parts %q", parts)
	}
	guarded(t, wide, strings.Replace(wide, "tile yes", "tile yes sheet a4", 1))
}

// An edition that was recorded before the layouts of quilts were is read, holds the
// pattern in all else, and says that quilts are not compared.
func TestRecordsWithoutLayouts(t *testing.T) {
	full := recorded(t, lanterns)
	old := *full
	old.Told, old.Layouts = false, nil
	var e edition.Editions
	e.Add(&old)
	back, err := edition.Read(e.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(e.Bytes()), "layout") {
		t.Error("there is a layout in it")
	}
	p, _ := compiler.Compile(&problem.Source{Name: "test.seam", Text: lanterns}, shipped{})
	if found := compare.Guard(back, full, p); len(found) > 0 {
		t.Errorf("%v", found)
	}
	next := *recorded(t, strings.Replace(lanterns, "edition 1", "edition 2", 1))
	r := compare.Compare(back.Last(), &next)
	if !r.Untold() || !r.Same() || !strings.Contains(r.Text("a", "b"), "Quilts are not compared") ||
		!strings.Contains(read(r), "How quilts are laid out is not compared: edition 1") {
		t.Errorf("%s\n%s", r.Text("a", "b"), read(r))
	}
	back.Add(&next) // and goes back again
	again, err := edition.Read(back.Bytes())
	if err != nil || !again.Get(1).Silent() || again.Get(2).Silent() || len(again.Get(2).Layouts) != 1 {
		t.Errorf("%v", err)
	}
}

// A fabric that has other words is told once: of a quilt nothing else is bought or cut.
func TestOtherWordsAreNoOtherCloth(t *testing.T) {
	r := compare.Compare(recorded(t, lanterns), recorded(t, strings.Replace(lanterns, `"night"`, `"midnight"`, 1)))
	if len(r.Changes) != 1 || r.Line(&r.Changes[0]) != "fabric night: night -> midnight" {
		for i := range r.Changes {
			t.Errorf("told: %s", r.Line(&r.Changes[i]))
		}
	}
}
