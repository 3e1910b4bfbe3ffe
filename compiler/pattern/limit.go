package pattern

import (
	"strconv"
	"strings"
)

// A Unit says in what a limit is given.
type Unit int8

const (
	Count     Unit = iota // a plain number
	InInches              // a length, finished unless said otherwise
	InDegrees             // an angle
)

// A Limit is a threshold of a rule: what it was when the pattern was checked.
type Limit struct {
	Code   string // of the rule; "" in Settings.Limits
	Name   string // as it is written in the text
	Unit   Unit
	Value  float64
	Set    bool   // by the pattern; else it is the usual value
	Source Source // where it is set
}

// Words tells the limit's value, "1/4 in", "22.5 degrees", "20".
func (l *Limit) Words() string {
	switch l.Unit {
	case InInches:
		return Length(l.Value).Exact()
	case InDegrees:
		return strconv.FormatFloat(l.Value, 'g', 6, 64) + " degrees"
	}
	return strconv.FormatFloat(l.Value, 'g', 6, 64)
}

// Setting is the limit as it is written in a pattern: "limit near_miss, 1/2in".
func (l *Limit) Setting() string {
	value := strings.TrimSuffix(l.Words(), " degrees")
	switch l.Unit {
	case InInches:
		if i := strings.LastIndexByte(value, ' '); i >= 0 { // before the unit there is no blank
			value = value[:i] + value[i+1:]
		}
	case InDegrees:
		value += "deg"
	}
	return "limit " + l.Name + ", " + value
}
