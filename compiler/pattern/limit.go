package pattern

import "strconv"

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
