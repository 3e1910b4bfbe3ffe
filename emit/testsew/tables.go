package testsew

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

// A patch is one line of the cutting table by section.
type patch struct {
	section, space, fabric string
	number, copies         int
	exact                  bool   // of a section without paper
	shape                  string // as the table says
	w, h                   float64
	lay                    string
}

// A row is one line of the cutting table by fabric.
type row struct {
	fabric, shape   string
	count, reversed int
	w, h            float64
	exact           bool
	spaces          string
}

// readPatches reads the table by section.
func readPatches(data []byte) ([]patch, error) {
	lines, at, err := readTable(data, "Section", "Make", "Space", "Fabric", "Cut", "Shape", "Size", "Metric size", "Lay")
	if err != nil {
		return nil, err
	}
	var out []patch
	for _, l := range lines {
		p := patch{section: l[at[0]], space: l[at[2]], fabric: l[at[3]], exact: l[at[4]] == "exact", shape: l[at[5]], lay: l[at[8]]}
		if p.copies, err = strconv.Atoi(l[at[1]]); err != nil {
			return nil, err
		}
		if p.number, err = strconv.Atoi(strings.TrimPrefix(p.space, p.section)); err != nil {
			return nil, fmt.Errorf("space %q of section %q", p.space, p.section)
		}
		if p.w, p.h, err = readSize(l[at[6]]); err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// readRows reads the table by fabric.
func readRows(data []byte) ([]row, error) {
	lines, at, err := readTable(data, "Fabric", "Cut", "Count", "Reversed", "Shape", "Size", "For spaces")
	if err != nil {
		return nil, err
	}
	var out []row
	for _, l := range lines {
		r := row{fabric: l[at[0]], exact: l[at[1]] == "exact", shape: l[at[4]], spaces: l[at[6]]}
		r.count, _ = strconv.Atoi(l[at[2]])
		r.reversed, _ = strconv.Atoi(l[at[3]])
		if r.w, r.h, err = readSize(l[at[5]]); err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	return out, nil
}

// readTable reads comma-separated values (RFC 4180) and finds their columns.
func readTable(data []byte, columns ...string) (lines [][]string, at []int, err error) {
	lines, err = csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil || len(lines) == 0 {
		return nil, nil, fmt.Errorf("the table can't be read: %v", err)
	}
	for _, c := range columns {
		found := -1
		for i, name := range lines[0] {
			if name == c {
				found = i
			}
		}
		if found < 0 {
			return nil, nil, fmt.Errorf("the table has no column %q", c)
		}
		at = append(at, found)
	}
	return lines[1:], at, nil
}

// readSize reads "3 1/4 in x 4 in", "2 in", "8.3 cm x 10.8 cm".
func readSize(text string) (w, h float64, err error) {
	one, two, both := strings.Cut(text, " x ")
	if w, err = readLength(one); err != nil || !both {
		return w, w, err
	}
	h, err = readLength(two)
	return w, h, err
}

// readLength reads "3 1/4 in", "3/4 in", "8.3 cm".
func readLength(text string) (float64, error) {
	amount, unit, _ := cutLast(strings.TrimSpace(text), " ")
	whole, fraction, mixed := cutLast(amount, " ")
	if !mixed && strings.Contains(amount, "/") {
		whole, fraction, mixed = "0", amount, true
	}
	n, ok := readDigits(whole)
	if above, below, divided := strings.Cut(fraction, "/"); mixed {
		a, one := readDigits(above)
		b, two := readDigits(below)
		n, ok = n+a/b, ok && divided && one && two
	}
	switch unit {
	case "in":
	case "cm":
		n /= 2.54
	case "mm":
		n /= 25.4
	default:
		ok = false
	}
	if !ok {
		return 0, fmt.Errorf("%q is no length", text)
	}
	return n, nil
}

// cutLast cuts a text at the last sep; without one all of it is before.
func cutLast(s, sep string) (before, after string, found bool) {
	if i := strings.LastIndex(s, sep); i >= 0 {
		return s[:i], s[i+len(sep):], true
	}
	return s, "", false
}

// readDigits reads a number that is written without a sign or an exponent.
func readDigits(s string) (float64, bool) {
	n, err := strconv.ParseFloat(s, 64)
	return n, err == nil && strings.Trim(s, "0123456789.") == ""
}
