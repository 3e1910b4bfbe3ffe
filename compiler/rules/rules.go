package rules

import (
	"slices"
	"sync"

	"seamwright/compiler/parallel"
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// A Rule is one thing that makers and teachers of the trade ask of a block.
// One of Pattern and Block is set: the first looks at the whole pattern once,
// the second at every block in every finished size.
type Rule struct {
	Info    problem.Info
	Limits  []Limit // its thresholds
	Pattern func(p *pattern.Pattern, ls Limits, report func(Finding))
	Block   func(v *View, report func(Finding))
}

// A Finding is one thing a rule found, at one place of the text.
type Finding struct {
	Code       problem.Code // filled in by Check
	Severity   problem.Severity
	Acceptable bool // an error that `accept` may silence; warnings and notes always may
	At         pattern.Source
	Message    string
	Help       string
	Block      string         // the block's name; empty for the whole pattern
	Finished   pattern.Length // the finished width it was found at; 0 for the whole pattern
	Points     []pattern.Pos  // on the block at that size
}

// catalogue holds the rules as methods, so that each stands whole in its own file;
// all lists them.
type catalogue struct{}

// all lists the rules in the order of their codes. It is asked for once, and only
// by verbs that check or explain.
var all = sync.OnceValue(func() []Rule {
	var c catalogue
	return []Rule{
		c.KnownLimits(),
		c.Narrow(),
		c.Sharp(),
		c.ManyAtPoint(),
		c.NearMiss(),
		c.NearCorner(),
		c.Crowded(),
		c.Contrast(),
		c.Allowance(),
		c.Ruler(),
		c.ColourWords(),
		c.ShortWords(),
		c.BorderGrain(),
		c.SameWay(),
		c.BorderPoint(),
		c.Unfinished(),
		c.Setting(),
		c.Layers(),
		c.Ease(),
		c.QuiltMiss(),
	}
})

// Codes tells what each rule's code means.
func Codes() []problem.Info {
	var infos []problem.Info
	for _, r := range all() {
		for _, l := range r.Limits {
			usual := pattern.Limit{Name: l.Name, Unit: l.Unit, Value: l.Usual}
			r.Info.Limits = append(r.Info.Limits, usual.Setting())
		}
		infos = append(infos, r.Info)
	}
	return infos
}

// Check runs every rule and keeps the limits that it went by in the pattern. What a rule finds at one place of the text is told
// once, at the smallest size: mend it there and it is mended in every copy and
// at every size.
func Check(p *pattern.Pattern) []Finding {
	type told struct {
		code problem.Code
		at   pattern.Source
	}
	ls := limitsOf(p)
	p.Limits = ls
	var found []Finding
	seen := map[told]bool{}
	run := func(r *Rule, check func(report func(Finding))) {
		check(func(f Finding) {
			f.Code = r.Info.Code
			if t := (told{f.Code, f.At}); !seen[t] {
				seen[t] = true
				found = append(found, f)
			}
		})
	}
	for i := range all() {
		if r := &all()[i]; r.Pattern != nil {
			run(r, func(report func(Finding)) { r.Pattern(p, ls, report) })
		}
	}
	for b := range p.Blocks {
		for _, s := range bySize(p.Blocks[b].Sizes) {
			v := newView(p, ls, &p.Blocks[b], s)
			for i, findings := range v.findings(all()) {
				run(&all()[i], func(report func(Finding)) {
					for _, f := range findings {
						report(f)
					}
				})
			}
		}
	}
	return found
}

// findings returns what each of the rules finds in a view.
func (v *View) findings(rules []Rule) [][]Finding {
	found := make([][]Finding, len(rules))
	parallel.Do(len(rules), len(v.Placed) >= parallel.Worth, func(i int) {
		if rules[i].Block == nil {
			return
		}
		own := *v // with its own scratch
		own.ends = nil
		rules[i].Block(&own, func(f Finding) {
			f.Block, f.Finished = v.Block.Name, v.Sized.Finished.W
			found[i] = append(found[i], f)
		})
	})
	return found
}

// bySize returns the sizes, smallest first.
func bySize(sizes []pattern.Sized) []*pattern.Sized {
	var list []*pattern.Sized
	for i := range sizes {
		list = append(list, &sizes[i])
	}
	slices.SortStableFunc(list, func(a, b *pattern.Sized) int {
		switch {
		case a.Finished.W < b.Finished.W:
			return -1
		case a.Finished.W > b.Finished.W:
			return 1
		}
		return 0
	})
	return list
}
