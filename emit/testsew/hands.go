package testsew

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

// Hands are how exactly somebody works: each source of error lies anywhere
// between two limits, every value as likely (JCGM 101:2008, 6.4.2).
type Hands struct {
	Name string
	Of   [sources]Limits
}

// Limits are inches, or for printing and stretching parts of one.
type Limits struct{ From, To float64 }

// The sources of error.
const (
	sewing  = iota // a seam beside its printed line
	joining        // a join beside the outline
	slip           // one edge shifted along the other, between pins
	cutting        // the trimmed edge beside the cutting line
	fold           // width that each fold of a join takes
	printX         // scale of the printer across the sheet
	printY         // and along it
	bias           // an edge off grain stretched
	sources
)

// standard is the table of errors, as it is printed and can be edited. For the
// spread of home sewing no published figures were found: it is assumed. A
// thread of shirting with 58 to 72 ends to the inch measures 0.014 to 0.017 in,
// and a fold takes one or two threads (the scant quarter inch; common practice,
// no source).
const standard = `source,easy from,easy to,with care from,with care to,expert from,expert to,what
sewing,-1/32,1/32,-1/64,1/64,-1/128,1/128,in: a seam beside its line; assumed
joining,-1/32,1/32,-1/64,1/64,-1/128,1/128,in: a join beside the outline; assumed
slip,-1/32,1/32,-1/64,1/64,-1/128,1/128,in: one edge shifted along the other; assumed
cutting,-1/32,1/32,-1/64,1/64,-1/128,1/128,in: trimming beside the cutting line; assumed
fold,0.015,0.033,0,0.015,0,0.0075,in: width that the fold of a join takes: one or two threads
print across,-0.004,0.004,-0.002,0.002,-0.001,0.001,part of the length; assumed
print along,-0.004,0.004,-0.002,0.002,-0.001,0.001,part of the length; assumed
bias,0,0.01,0,0.004,0,0.002,part of the length: an edge stretched; assumed
`

// Standard returns the table of errors that is used unless another is given.
func Standard() string { return standard }

func sourceNames() [sources]string {
	return [sources]string{"sewing", "joining", "slip", "cutting", "fold", "print across", "print along", "bias"}
}

// ReadHands reads a table of errors in the form of [Standard].
func ReadHands(table []byte) ([]Hands, error) {
	r := csv.NewReader(bytes.NewReader(table))
	lines, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("the table of errors can't be read: %w", err)
	}
	if len(lines) == 0 || len(lines[0]) < 3 || len(lines[0])%2 != 0 {
		return nil, fmt.Errorf("the table of errors needs the columns source, NAME from, NAME to, ... and what")
	}
	var out []Hands
	for c := 1; c+2 < len(lines[0]); c += 2 {
		h := Hands{Name: strings.TrimSuffix(lines[0][c], " from")}
		for i, name := range sourceNames() {
			if h.Of[i], err = limits(lines[1:], name, c); err != nil {
				return nil, err
			}
		}
		out = append(out, h)
	}
	return out, nil
}

// limits finds one source of error in the columns of one pair of hands.
func limits(lines [][]string, name string, column int) (l Limits, err error) {
	for _, cells := range lines {
		if cells[0] != name {
			continue
		}
		if l.From, err = number(cells[column]); err == nil {
			l.To, err = number(cells[column+1])
		}
		if err == nil && (l.To < l.From || l.From < -1 || l.To > 1) {
			err = fmt.Errorf("%g to %g is no range from low to high within 1 in", l.From, l.To)
		}
		if err != nil {
			err = fmt.Errorf("the table of errors, %s: %w", name, err)
		}
		return l, err
	}
	return l, fmt.Errorf("the table of errors has no line %q", name)
}

// number reads 0.015, 1/64 or -1/64.
func number(text string) (float64, error) {
	above, below, part := strings.Cut(strings.TrimSpace(text), "/")
	f, err := strconv.ParseFloat(above, 64)
	if part && err == nil {
		var d float64
		if d, err = strconv.ParseFloat(below, 64); err == nil && d != 0 {
			f /= d
		}
	}
	if err != nil || f != f || f > 1e6 || f < -1e6 {
		return 0, fmt.Errorf("%q is no number", text)
	}
	return f, nil
}
