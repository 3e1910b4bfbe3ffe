package letter_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/edition"
	"seamwright/emit/letter"
	"seamwright/lang/problem"
)

const boat = `pattern "Buoy" {
  edition 1
  author "A. Keeper"
  corrections "buoy.example/corrections"
}
fabric lamp "lamp" light #f0dca0
fabric tide "tide" dark  #1f3440
block buoy 4 x 4 finished 6in, 8in {
  section A {
    1 lamp at (1.5, 2.5)
    2 tide along (2, 4) -- (0, 2)
  }
  section B {
    1 tide at (2.5, 3)
    2 lamp along (4, 2) -- (3.5, 4)
  }
  section C {
    1 tide at (3, 1)
    2 lamp along (1, 0) -- (3, 2)
  }
  join (2, 2) -- n
  join w -- e
}
`

// editions are the first and a second with a larger jib, and the pattern of the
// second.
func editions(t *testing.T) ([]*edition.Record, *pattern.Pattern) {
	t.Helper()
	return editionsOf(t, boat)
}

func editionsOf(t *testing.T, boat string) ([]*edition.Record, *pattern.Pattern) {
	t.Helper()
	var records []*edition.Record
	var last *pattern.Pattern
	for _, text := range []string{boat, strings.NewReplacer("edition 1", "edition 2", "(4, 2) -- (3.5, 4)", "(4, 2) -- (3, 4)").Replace(boat)} {
		p, ps := compiler.Compile(&problem.Source{Name: "buoy.seam", Text: text}, nil)
		if p == nil {
			t.Fatal(ps)
		}
		r, _ := emit.Record(p)
		records, last = append(records, r), p
	}
	return records, last
}

func mark(r *edition.Record, size int, paper string) string {
	return edition.Find(r.Blocks[0].Sizes[size].Marks, paper)
}

// Each letter is worked out by hand, beside it.
func TestLettersWorkedByHand(t *testing.T) {
	records, p := editions(t)
	for _, c := range []struct {
		name   string
		letter letter.Letter
		causes []string // what is told, in order; * is any text
		says   []string
	}{
		// 5 13/16 / 6 = 5.8125 / 6 = 0.96875. A letter sheet fitted onto A4: the
		// widths are 210 mm and 8.5 in = 215.9 mm, 210 / 215.9 = 0.9727. Both
		// differ by 0.4 %, 1/32 in of 6 in is 0.5 %. The block: 8 x 0.96875 = 7.75,
		// with a quarter inch on each side 8.25.
		{"a letter sheet fitted onto A4", letter.Letter{Size: 8, Rule: 5.8125, Measures: [2]pattern.Length{8.25}},
			[]string{"printed at 96.9 %, which is fit to page", "the scale of the print"},
			[]string{"(letter onto A4, 97.3 %)", "finishes 7 3/4 in", "measures 8 1/4 in before", "agrees with that print", "100 %"}},
		// 5 5/8 / 6 = 0.9375. An A4 sheet fitted onto letter: 279.4 / 297 = 0.9407.
		{"an A4 sheet fitted onto letter", letter.Letter{Mark: mark(records[1], 1, "a4"), Rule: 5.625},
			[]string{"printed at 93.8 %, which is fit to page"}, []string{"A4 onto letter, 94.1 %", "finishes 7 1/2 in"}},
		// 6 1/8 / 6 = 1.0208, which no fitting gives.
		{"an enlarged print", letter.Letter{Size: 8, Rule: 6.125}, []string{"printed at 102.1 %"}, []string{"too small for their spaces"}},
		{"a true print", letter.Letter{Size: 8, Rule: 6, RuleCm: 15 * pattern.Centimetre}, []string{"the print is true"}, []string{"not the cause"}},
		// 1/64 in is less than is believed of a ruler.
		{"a true print, badly read", letter.Letter{Size: 8, Rule: 6 - 1.0/64}, []string{"the print is true"}, nil},
		// 14.5 / 15 = 0.9667 along one side, 1 along the other.
		{"stretched in one direction", letter.Letter{Rule: 6, RuleCm: 14.5 * pattern.Centimetre}, []string{"the print is stretched in one direction"}, []string{"100 % of its size along one side and 96.7 % along the other"}},
		// 8 + 2/4 = 8 1/2.
		{"unfinished against finished", letter.Letter{Size: 8, Measures: [2]pattern.Length{8.5}}, []string{"right, before it is joined"}, []string{"Your block is right", "finishes 8 in measures 8 1/2 in until"}},
		// 8 could be the allowance cut off; or 8 x 0.9407 + 1/2 = 8.026, A4 onto
		// letter, whose rule would measure 6 x 0.9407 = 5.644, 5 21/32.
		{"the finished size before joining", letter.Letter{Size: 8, Measures: [2]pattern.Length{8}}, []string{"trimmed on the heavy outline", "fit to page, *A4 onto letter, 94.1 %*"},
			[]string{"1/2 in too small", "about 5 21/32 in"}},
		// the print is known to be true: no guess about it.
		{"the finished size, print true", letter.Letter{Size: 8, Rule: 6, Measures: [2]pattern.Length{8}}, []string{"the print is true", "trimmed on the heavy outline"}, nil},
		// 8 1/2 - 8 3/8 = 1/8 over one join across the width, which takes two
		// allowances: 1/16 each.
		{"joins sewn too deep", letter.Letter{Size: 8, Measures: [2]pattern.Length{8.375}}, []string{"allowances of the joins too deep"}, []string{"1 join across", "1/16 in too much"}},
		{"joins too deep in one direction", letter.Letter{Size: 8, Measures: [2]pattern.Length{8.375, 8.5}},
			[]string{"in its width: allowances of the joins too deep", "in its height: right, before it is joined"}, nil},
		// 6 + 1/2 is what the other size measures.
		{"sheets of the other size", letter.Letter{Size: 8, Measures: [2]pattern.Length{6.5, 6.5}}, []string{"the sheets of 6 in"}, []string{"head of your sheets"}},
		{"nothing explains 7 in", letter.Letter{Size: 8, Measures: [2]pattern.Length{7}}, []string{"no single cause fits the block's size"}, []string{"dashed corner to dashed corner"}},
		{"the size is not told", letter.Letter{Measures: [2]pattern.Length{7}}, []string{"the size that was meant is not known"}, []string{"which size you sew"}},
		{"an edition that was corrected", letter.Letter{Edition: 1, Size: 8}, []string{"an edition that was corrected since"}, []string{"You hold edition 1. Edition 2 corrects it: B1 shape", "buoy.example/corrections"}},
		{"a mark of edition 1, read with an O", letter.Letter{Mark: strings.ToLower(strings.ReplaceAll(mark(records[0], 0, "letter"), "0", "O"))}, []string{"an edition that was corrected since"}, []string{"edition 1, made for letter paper, the block that finishes 6 in"}},
		{"a mark of another edition and size than the letter says", letter.Letter{Mark: mark(records[1], 0, "letter"), Edition: 1, Size: 8},
			[]string{"the mark is of another edition than the letter says", "the sheet is of another size than the letter says"}, nil},
		{"an unknown mark", letter.Letter{Mark: "ZZZZZZ"}, []string{"a mark that no recorded edition has"}, []string{"no O, I or L"}},
		{"an unknown space", letter.Letter{Size: 8, Space: "Q7"}, []string{"a space that is not in the pattern"}, []string{"letter of the section"}},
		{"nothing told", letter.Letter{}, nil, []string{"I need a little more"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, err := letter.Write(c.letter, records, p)
			if err != nil {
				t.Fatal(err)
			}
			var told []string
			for _, x := range a.Causes {
				told = append(told, x.What)
			}
			ok := len(told) == len(c.causes)
			for i := range told {
				ok = ok && like(c.causes[i], told[i])
			}
			if !ok {
				t.Errorf("causes %q, want %q", told, c.causes)
			}
			for _, s := range append(c.says, "Thank you for writing about Buoy.", "With kind regards,\nA. Keeper") {
				if !strings.Contains(a.Reply, s) {
					t.Errorf("the reply does not say %q:\n%s", s, a.Reply)
				}
			}
		})
	}
}

// like compares with a pattern whose * stands for any text.
func like(pattern, s string) bool {
	parts := strings.Split(pattern, "*")
	if !strings.HasPrefix(s, parts[0]) {
		return false
	}
	for _, p := range parts {
		_, after, found := strings.Cut(s, p)
		if !found {
			return false
		}
		s = after
	}
	return parts[len(parts)-1] != "" || strings.HasSuffix(pattern, "*") || s == ""
}

// A patch as the table says, turned, at its finished size, of the other size's
// table, too small, and larger.
func TestPatches(t *testing.T) {
	records, p := editions(t)
	size, other := &records[1].Blocks[0].Sizes[1], &records[1].Blocks[0].Sizes[0]
	s, o := size.Sections[1].Spaces[1], other.Sections[1].Spaces[1] // B2
	w, h := pattern.Length(s.Size[0]), pattern.Length(s.Size[1])
	// B2 of edition 2 lies between (3, 4), (4, 4) and (4, 2) on a grid of squares
	// of 2 in: it finishes 2 in wide and 4 in high.
	for _, c := range []struct {
		name string
		cut  [2]pattern.Length
		want string
	}{
		{"not told", [2]pattern.Length{}, "cut too small, or laid short or askew"},
		{"as told", [2]pattern.Length{w, h}, "cut too small, or laid short or askew"},
		{"turned", [2]pattern.Length{h, w}, "the patch lay the other way"},
		{"finished", [2]pattern.Length{2, 4}, "cut to the finished size"},
		{"other size", [2]pattern.Length{pattern.Length(o.Size[0]), pattern.Length(o.Size[1])}, "cut by the table of another size"},
		{"short", [2]pattern.Length{w - 0.375, h}, "cut too small"},
		{"large", [2]pattern.Length{w + 1, h + 1}, "large enough, so laid short or askew"},
	} {
		a, err := letter.Write(letter.Letter{Size: 8, Space: "b2", Cut: c.cut}, records, p)
		if err != nil {
			t.Fatal(err)
		}
		if len(a.Causes) != 1 || a.Causes[0].What != c.want {
			t.Errorf("%s (%v of %v x %v): %+v, want %q", c.name, c.cut, w, h, a.Causes, c.want)
		}
	}
	// a patch that reaches m beyond its need on its least side, and is w long, is
	// short at a corner when it turns by more than atan(m / (w / 2)).
	a, _ := letter.Write(letter.Letter{Size: 8, Space: "B2"}, records, p)
	var m pattern.Length
	for i := range p.Blocks[0].Sizes[1].Drawings {
		if d := &p.Blocks[0].Sizes[1].Drawings[i]; d.Name == "B" {
			m = d.Pieces[1].Patch.Margin
		}
	}
	degrees := math.Floor(math.Atan2(float64(m), float64(w)/2) * 180 / math.Pi)
	if want := pattern.Length(degrees).In(1); !strings.Contains(a.Reply, "more than about "+strings.TrimSuffix(want, " in")+" degrees") {
		t.Errorf("not %v degrees:\n%s", degrees, a.Reply)
	}
}

// What the pattern does not have is told, not guessed.
func TestWrongNames(t *testing.T) {
	records, p := editions(t)
	for _, c := range []struct {
		letter letter.Letter
		want   string
	}{
		{letter.Letter{Edition: 7}, "nothing is known of edition 7; there is edition 1, 2"},
		{letter.Letter{Size: 9}, "edition 2 has no size of 9 in; there is 6 in, 8 in"},
		{letter.Letter{Block: "boat"}, `edition 2 has no block "boat"`},
	} {
		if _, err := letter.Write(c.letter, records, p); err == nil || err.Error() != c.want {
			t.Errorf("%+v: %v, want %q", c.letter, err, c.want)
		}
	}
}

// A reply is in the language of the pattern, whatever it is about; no number, space
// or mark of the English one is lost.
func TestRepliesInALanguage(t *testing.T) {
	english, p := editions(t)
	german, q := editionsOf(t, strings.Replace(boat, "edition 1", "edition 1 language de", 1))
	for _, l := range []letter.Letter{
		{}, {Size: 8, Rule: 5.8125, Measures: [2]pattern.Length{8.25}}, {Size: 8, Rule: 6.125}, {Size: 8, Rule: 6, RuleCm: 15 * pattern.Centimetre},
		{Rule: 6, RuleCm: 14.5 * pattern.Centimetre}, {Size: 8, Measures: [2]pattern.Length{8.5}}, {Size: 8, Measures: [2]pattern.Length{8}},
		{Size: 8, Measures: [2]pattern.Length{8.375, 8.5}}, {Size: 8, Measures: [2]pattern.Length{6.5, 6.5}}, {Size: 8, Measures: [2]pattern.Length{7}},
		{Measures: [2]pattern.Length{7}}, {Edition: 1, Size: 8}, {Mark: "ZZZZZZ"}, {Size: 8, Space: "Q7"}, {Space: "A1"},
		{Size: 8, Space: "A1"}, {Size: 8, Space: "A2"}, {Size: 8, Space: "B1", Cut: [2]pattern.Length{1, 1}}, {Size: 8, Space: "B2", Cut: [2]pattern.Length{20, 20}},
	} {
		en, err := letter.Write(l, english, p)
		if err != nil {
			t.Fatal(err)
		}
		de, err := letter.Write(l, german, q)
		if err != nil {
			t.Fatal(err)
		}
		if len(en.Causes) != len(de.Causes) {
			t.Errorf("%+v: %d causes, %d in German", l, len(en.Causes), len(de.Causes))
		}
		for _, left := range []string{" the ", "your", "Your", " you ", "lease", " is ", "{"} {
			if strings.Contains(de.Reply, left) {
				t.Errorf("%q is left in:\n%s", left, de.Reply)
			}
		}
		if got, want := figures(de.Reply), figures(en.Reply); got != want {
			t.Errorf("figures %s, not %s, in:\n%s", got, want, de.Reply)
		}
	}
}

// figures are all numbers of a text, sorted.
func figures(s string) string {
	all := regexp.MustCompile(`[0-9]+`).FindAllString(s, -1)
	slices.Sort(all)
	return strings.Join(all, " ")
}

// Of several blocks it is clear which is meant where only one has the size or the
// space that the letter tells, or where the others are its mirror images.
func TestWhichBlockIsMeant(t *testing.T) {
	records, p := editionsOf(t, boat+`
block pair 4 x 2 finished 5in, 8in {
  section K {
    1 lamp at (1, 1)
    2 tide along (2, 0) -- (3, 2)
    3 tide along (3, 0) -- (4, 2)
  }
}
quilt "Row" {
  row buoy, buoy reversed
}
`)
	if len(records[0].Blocks) != 3 {
		t.Fatalf("%d blocks", len(records[0].Blocks))
	}
	for _, c := range []struct {
		letter letter.Letter
		cause  string
	}{
		{letter.Letter{Size: 6, Measures: [2]pattern.Length{6.5}}, "right, before it is joined"},
		{letter.Letter{Size: 5, Measures: [2]pattern.Length{5.5}}, "right, before it is joined"},
		{letter.Letter{Size: 8, Measures: [2]pattern.Length{8.5}}, "the block that was meant is not known"},
		{letter.Letter{Size: 8, Block: "buoy", Measures: [2]pattern.Length{8.5}}, "right, before it is joined"},
		{letter.Letter{Size: 8, Space: "B2", Measures: [2]pattern.Length{8.5}}, "right, before it is joined"},
		{letter.Letter{Block: "buoy", Measures: [2]pattern.Length{8.5}}, "the size that was meant is not known"},
	} {
		a, err := letter.Write(c.letter, records, p)
		if err != nil {
			t.Errorf("%+v: %v", c.letter, err)
		} else if len(a.Causes) == 0 || a.Causes[0].What != c.cause {
			t.Errorf("%+v: %+v, not %q", c.letter, a.Causes, c.cause)
		}
	}
	if a, err := letter.Write(letter.Letter{Size: 5}, records, p); err != nil || !strings.Contains(a.Reply, `the block "pair" that finishes 5 in`) {
		t.Errorf("%v in %+v", err, a)
	}
	for _, l := range []letter.Letter{{Size: 7}, {Size: 6, Block: "pair"}, {Block: "boat"}} {
		if a, err := letter.Write(l, records, p); err == nil {
			t.Errorf("%+v: %+v, no error", l, a.Causes)
		}
	}
}

// Of what a newer edition corrects the asked space is told first, then its block.
func TestCorrectionsOfTheSpaceComeFirst(t *testing.T) {
	records, p := editions(t)
	for _, space := range []string{"B1", "b2"} {
		a, err := letter.Write(letter.Letter{Edition: 1, Size: 8, Space: space}, records, p)
		if err != nil {
			t.Fatal(err)
		}
		if want := "Edition 2 corrects it: " + strings.ToUpper(space) + " "; !strings.Contains(strings.Join(strings.Fields(a.Reply), " "), want) {
			t.Errorf("%q is not in: %s", want, a.Reply)
		}
	}
}
