package edition

import (
	"seamwright/compiler/pattern"
)

// A Record is what one edition prints. Lengths are inches to a ten-thousandth,
// places as in package pattern: from the front, y up.
type Record struct {
	Edition   int
	Words     []Word // title, author and so on: the author's own words
	Settings  []Word // allowance, ease, paper, in words
	Fabrics   []Fabric
	Colorways []Colorway
	Quilts    []Word // a title and what it is made of
	Told      bool   // Layouts are recorded; where not, though there are quilts, an older program wrote the record
	Layouts   []Layout
	Blocks    []Block
}

// Silent reports whether nothing is known of how the quilts were laid out.
func (r *Record) Silent() bool { return len(r.Quilts) > 0 && !r.Told }

// A Word is a text with the name of its place.
type Word struct{ Name, Text string }

// A Fabric is a cloth and what it does. Name is not printed.
type Fabric struct {
	Name   string `json:"-"`
	Words  string `json:"words"`
	Value  string `json:"value"`
	Color  string `json:"color"`
	Varied string `json:"scrappy,omitempty"`

	At pattern.Source `json:"-"`
}

// A Colorway has a cloth for each fabric, by the fabric's name.
type Colorway struct {
	Name   string            `json:"-"`
	Words  string            `json:"words"`
	Cloths map[string]Fabric `json:"cloths"`
}

// A Block is one block at its sizes.
type Block struct {
	Name  string `json:"-"`
	Title string `json:"title"`
	Sizes []Size `json:"-"`

	At pattern.Source `json:"-"`
}

// A Size is a block at one finished size.
type Size struct {
	Name     string     `json:"-"` // "8in", for keys
	Finished [2]float64 `json:"finished"`
	Sections []Section  `json:"-"`
	Copies   []Copy     `json:"-"`
	Joins    []Join     `json:"-"`
	Cloth    []Word     `json:"-"` // what is bought, by fabric
	Sheets   []Sheet    `json:"-"`
	Marks    []Word     `json:"-"` // the version mark on each paper
	Texts    []Word     `json:"-"` // sums of the program's sentences: each chapter of the booklet, the cutting table
}

// Words returns the finished size as it is printed.
func (s *Size) Words() string {
	return pattern.Size{W: pattern.Length(s.Finished[0]), H: pattern.Length(s.Finished[1])}.Exact()
}

// A Section is one drawing as it is printed, in the place of its first copy.
type Section struct {
	Name     string       `json:"-"`
	Make     int          `json:"make"`
	Unit     string       `json:"unit"`
	Reverses string       `json:"reverses,omitempty"`
	Plain    bool         `json:"plain,omitempty"`
	Outline  [][2]float64 `json:"outline"`
	Edges    []string     `json:"edges"` // "border", or what it is joined to: "B", "a to b"
	Marks    []Mark       `json:"marks"`
	Spaces   []Space      `json:"-"`

	At pattern.Source `json:"-"`
}

// A Mark is a match mark.
type Mark struct {
	At     [2]float64 `json:"at"`
	Letter string     `json:"letter,omitempty"`
	Match  bool       `json:"match,omitempty"` // seams of both sides end here
}

// A Space is one numbered area, with its patch.
type Space struct {
	Number  int          `json:"-"`
	Fabric  string       `json:"fabric"`
	Polygon [][2]float64 `json:"polygon"`
	Cut     string       `json:"cut"` // how the patch is cut: "rectangle"
	Size    [2]float64   `json:"size"`
	Exact   bool         `json:"exact,omitempty"`
	Other   bool         `json:"reversed,omitempty"` // of the other hand
	Slant   bool         `json:"slant,omitempty"`    // laid at a slant

	At pattern.Source `json:"-"`
}

// A Copy is a section in its place: turned anticlockwise about the origin, then
// shifted.
type Copy struct {
	Section string     `json:"section"`
	Turn    float64    `json:"turn"`
	Shift   [2]float64 `json:"shift"`
}

// A Join is one seam between sections, in sewing order.
type Join struct {
	From  [2]float64 `json:"from"`
	To    [2]float64 `json:"to"`
	Press string     `json:"press"`

	// Of a partial seam, which is two joins: the number of the other. What is sewn of
	// the one that finishes it begins where the first stopped.
	Begins int `json:"begins,omitempty"`
	Begun  int `json:"begun,omitempty"`

	At pattern.Source `json:"-"`
}

// A Sheet is one page of foundations on the pattern's own paper.
type Sheet struct {
	Print    int     `json:"print"` // times for one block
	Sections []Place `json:"sections"`
	Parts    []Part  `json:"parts"`
}

// A Place says where a section lies on a sheet, as in package sheet.
type Place struct {
	Section string     `json:"section"`
	Part    string     `json:"part,omitempty"` // of a section on several sheets: "1/2"
	Turn    float64    `json:"turn"`
	Shift   [2]float64 `json:"shift"`
}

// Name names what is printed there: "A", or of a section in parts "A (1/2)".
func (p *Place) Name() string {
	if p.Part == "" {
		return p.Section
	}
	return p.Section + " (" + p.Part + ")"
}

// A Part is a part of a page that has a name, with sums of what is in it.
type Part struct {
	Name  string `json:"name"`
	Lines string `json:"lines,omitempty"`
	Words string `json:"words,omitempty"`
}

// Word returns the text of a name; "" where there is none.
func Find(words []Word, name string) string {
	for i := range words {
		if words[i].Name == name {
			return words[i].Text
		}
	}
	return ""
}

// Title is the pattern's name, for people.
func (r *Record) Title() string {
	if t := Find(r.Words, "title"); t != "" {
		return t
	}
	return Find(r.Words, "file")
}
