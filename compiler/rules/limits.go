package rules

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// slack keeps a piece that is drawn exactly on a threshold on its good side:
// far above rounding error, far below anything that can be cut.
const slack pattern.Length = 1e-4

// A Limit is a threshold that a pattern may set for itself, by its name.
type Limit struct {
	Name  string
	Unit  pattern.Unit
	Usual float64 // the value where the pattern sets none
}

func inches(name string, usual pattern.Length) Limit {
	return Limit{name, pattern.InInches, float64(usual)}
}

func degrees(name string, usual float64) Limit { return Limit{name, pattern.InDegrees, usual} }

func count(name string, usual float64) Limit { return Limit{name, pattern.Count, usual} }

// Limits are the thresholds that a pattern is checked by.
type Limits []pattern.Limit

// number returns the value that a limit has for this pattern.
func (ls Limits) number(l Limit) float64 {
	for i := range ls {
		if ls[i].Name == l.Name {
			return ls[i].Value
		}
	}
	return l.Usual
}

func (ls Limits) length(l Limit) pattern.Length { return pattern.Length(ls.number(l)) }

// limitsOf returns every limit of every rule, as the pattern sets it or as usual.
func limitsOf(p *pattern.Pattern) Limits {
	var ls Limits
	for i := range all() {
		r := &all()[i]
		for _, l := range r.Limits {
			used := pattern.Limit{Code: string(r.Info.Code), Name: l.Name, Unit: l.Unit, Value: l.Usual}
			for k := range p.Settings.Limits {
				if s := &p.Settings.Limits[k]; s.Name == l.Name && s.Unit == l.Unit {
					used.Value, used.Set, used.Source = s.Value, true, s.Source
				}
			}
			ls = append(ls, used)
		}
	}
	return ls
}

// KnownLimits: a `limit` names a limit that there is, in its kind.
func (catalogue) KnownLimits() Rule {
	return Rule{
		Info: problem.Info{
			Code:   "R100",
			Title:  "there is no such limit",
			Rule:   "`limit` names the threshold of a rule and gives it a value of the right kind: a length, an angle or a number.",
			Source: "the language; the names stand in its reference",
			Example: `pattern "Tender" {
  limit near_mis, 3/8in
}
fabric hull "hull" dark #25525e
block tender 4 x 4 finished 4in {
  section A { 1 hull at c }
}
`,
			Cured: `pattern "Tender" {
  limit near_miss, 3/8in
}
fabric hull "hull" dark #25525e
block tender 4 x 4 finished 4in {
  section A { 1 hull at c }
}
`,
		},
		Pattern: func(p *pattern.Pattern, ls Limits, report func(Finding)) {
			for i := range p.Settings.Limits {
				if f, wrong := misnamed(&p.Settings.Limits[i], ls); wrong {
					report(f)
				}
			}
		},
	}
}

// misnamed tells what is wrong with a limit that the pattern sets.
func misnamed(set *pattern.Limit, ls Limits) (Finding, bool) {
	f := Finding{Severity: problem.Error, At: set.Source}
	var names []string
	for i := range ls {
		l := &ls[i]
		if l.Name != set.Name {
			names = append(names, l.Name)
			continue
		}
		if l.Unit == set.Unit {
			return f, false
		}
		kind := [...]string{"a plain number", "a length", "an angle"}
		f.Message = fmt.Sprintf("the limit %s is %s, and this is %s", l.Name, kind[l.Unit], kind[set.Unit])
		f.Help = fmt.Sprintf("write it as its usual value is written: %s", l.Words())
		return f, true
	}
	f.Message = fmt.Sprintf("no rule has a limit called %s", set.Name)
	if near := problem.Nearest(set.Name, names); near != "" {
		f.Help = "did you mean " + near + "?"
	} else {
		slices.Sort(names)
		f.Help = "there are " + strings.Join(names, ", ")
	}
	return f, true
}
