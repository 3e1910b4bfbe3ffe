package compare

import (
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/edition"
)

// A Kind groups changes.
type Kind string

// The kinds, in the order in which they are told.
const (
	Sizes    Kind = "size"     // finished sizes and blocks that come and go
	Geometry Kind = "geometry" // lines that moved; spaces and sections that come and go
	Numbers  Kind = "numbers"  // letters of sections, numbers of spaces
	Copies   Kind = "copies"   // how often a section is made, and how it is reversed
	Joining  Kind = "joining"  // order, pressing, what is joined to what
	Marks    Kind = "marks"    // match marks
	Fabrics  Kind = "fabric"   // which fabric goes into a space
	Patches  Kind = "patch"    // how a patch is cut
	Cloth    Kind = "cloth"    // what a fabric is, and how much is bought
	Words    Kind = "words"    // the author's own
	Settings Kind = "settings" // allowance, paper and so on
	Quilts   Kind = "quilt"    // how a quilt is laid out, cut, joined and pressed
	Sheets   Kind = "sheets"   // where sections lie on paper
	Program  Kind = "program"  // strokes and sentences that the program prints otherwise
)

// A Change is one thing that is printed otherwise.
type Change struct {
	Kind    Kind     `json:"kind"`
	Block   string   `json:"block"`   // its name; "" for the whole pattern
	Sizes   []string `json:"sizes"`   // the finished sizes at which it is so; none where that is all
	Section string   `json:"section"` // the section's letter now, or as it was where it is gone
	Space   string   `json:"space"`   // the same of a space
	Subject string   `json:"subject"` // what is meant, in words: "A2", "section A", "fabric sky"
	Aspect  string   `json:"aspect"`  // what of it: "fabric", "number"
	Old     string   `json:"old"`     // "" where there was none
	New     string   `json:"new"`     // "" where there is none any more
	Note    string   `json:"note"`    // more, such as how far a line moved
	Affects string   `json:"affects"` // cutting, sewing, printing or words

	At pattern.Source `json:"-"` // in the new text, where that is known

	note string   // the message of the note, where it is one that makers read
	fill []string // what is filled in
}

// noted gives a change a note that makers read.
func (c *Change) noted(english, note string, fill ...string) {
	c.Note, c.note, c.fill = words.Fill(english, fill...), note, fill
}

// A Report is all that changed.
type Report struct {
	Old, New *edition.Record
	Changes  []Change
	matched  map[string]*matching // by block and size, for the drawings
}

// Untold reports whether quilts are not compared: one of the records was written
// before the program recorded how they are laid out.
func (r *Report) Untold() bool { return r.Old.Silent() || r.New.Silent() }

// Same reports whether nothing changed.
func (r *Report) Same() bool { return len(r.Changes) == 0 }

// affects says whom a change of a kind concerns most: one who cuts, one who sews,
// one who prints, or only one who reads.
func affects(c *Change) string {
	switch c.Kind {
	case Patches, Fabrics:
		return "cutting"
	case Cloth:
		if c.Aspect == "color" || c.Aspect == "words" {
			return "words"
		}
		return "cutting"
	case Words, Program:
		return "words"
	case Quilts:
		if a := c.Aspect; a == "backing" || a == "batting" || (strings.HasPrefix(a, partOf) || strings.HasPrefix(a, buyOf)) && c.Note == "" {
			return "cutting"
		}
	case Settings:
		if c.Subject == "ease" {
			return "cutting"
		}
		if c.Subject == "paper" || strings.HasPrefix(c.Subject, "pad ") {
			return "printing"
		}
		if c.Subject != "allowance" && c.Subject != "extra" {
			return "words"
		}
	case Sheets:
		if c.Aspect != "print" {
			return "printing"
		}
	}
	return "sewing"
}
