package booklet

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"seamwright/emit/internal/sample"
)

// What the booklet tells to do, beside what the trade does. All of it is common
// practice, no source, where none is named.
func TestBookletAndPractice(t *testing.T) {
	p := sample.Boat()
	p.Settings.Extra = 0.25
	flat := strings.Join(strings.Fields(text(Make(parts(t, p, "en")))), " ")
	for what, want := range map[string]string{
		"the allowance is 1/4 in all round":                     "The 1/4 in outside the heavy outline is the seam allowance.",
		"an 8 in block measures 8 1/2 in before it is joined":   "Finishes 8 in (20.3 cm); measures 8 1/2 in",
		"a needle of size 90 for paper":                         "size 90/14", // Paper-pieced tips, issuu.com, 2014
		"a dry iron until all paper is off":                     "A dry iron. Steam curls the paper",
		"and at every piece":                                    "with a dry iron",
		"edges off grain stretch":                               "it keeps edges that are not on the straight grain from stretching",
		"sewn a little past both ends of each line":             "from 1/4 in before it to 1/4 in past its end",
		"the border may be left wider until the block is whole": "Dotted line: 1/4 in more, along the outside of the block. Trim on it first; it is cut off on the dashed line when the block is joined.",
	} {
		if !strings.Contains(flat, want) {
			t.Errorf("%s: the booklet does not say %q", what, want)
		}
	}
}

// Stitches of 1.2 to 2.0 mm are published: 1.5 (Shorten your stitch, fmquilters.org), 1.5
// to 1.8 (chilipepperquilts.com), 1.2 for miniatures (How small can you go,
// nightquilter.com, 2016). One teacher names 1.2 to 1.3 (common practice, no source). A
// published slip gives "18-20 stitches per inch, or 1.5-2.0 mm" (Basic paper piecing for
// beginners, docslib.org/doc/2842702): 1.5 to 2.0 mm are 12.7 to 16.9 to the inch. The
// booklet gives millimeters alone, as machines are set, and nothing to disagree with.
func TestStitchLength(t *testing.T) {
	flat := strings.Join(strings.Fields(text(Make(parts(t, sample.Boat(), "en")))), " ")
	m := regexp.MustCompile(`about ([\d.]+) mm \(([\d.]+) to ([\d.]+)\)`).FindStringSubmatch(flat)
	if m == nil {
		t.Fatal("no stitch length")
	}
	var mm [3]float64
	for i := range mm {
		mm[i], _ = strconv.ParseFloat(m[i+1], 64)
	}
	if about, least, most := mm[0], mm[1], mm[2]; least != 1.2 || most < 1.3 || most > 2.0 || about < least || about > most {
		t.Errorf("a stitch of %v", mm)
	}
	if strings.Contains(flat, "per inch") {
		t.Error("stitches are told per inch too")
	}
}
