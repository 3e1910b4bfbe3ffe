package eval

import (
	"seamwright/compiler/pattern"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A Loader finds the text that a `use` names. From is the file that says so; path
// is as written, without ".seam". It returns nil and a sentence for people where
// there is none to be had. One text should come back under one name.
type Loader func(from *problem.Source, path string) (*problem.Source, string)

// Evaluate gives a parsed file its meaning. A nil load finds nothing. Problems are
// sorted, and hold those of the files it uses, their syntax included, but not the
// syntax problems of f itself, which its parser has reported.
func Evaluate(f *lang.File, load Loader) *Result { return evaluateTelling(f, load, nil) }

func evaluateTelling(f *lang.File, load Loader, told Told) *Result {
	e := &evaluator{
		load: load,
		told: told,
		out:  &Result{},
		memo: map[string]*Body{},
	}
	root := e.open(f)
	for _, file := range e.files {
		for _, u := range file.units {
			e.checkUnit(u)
		}
	}
	e.findCircles()
	e.describe(root)
	e.evaluateUnits(root)
	e.reverseBlocks()
	e.warnUnused(root)
	e.finish()
	problem.Sort(e.out.Problems)
	return e.out
}

// An evaluator is one run of Evaluate.
type evaluator struct {
	load      Loader
	told      Told // nil where nobody asks
	out       *Result
	files     []*file   // in the order in which they are met; the first is the root
	opening   []*file   // from the root to the one being read
	fabrics   []*fabric // of all files; a value's index points here
	units     int       // how many there are, in all files
	colorways []colorway
	memo      map[string]*Body
	key       []byte // scratch for the memo
	idle      []*run
	steps     int
	stopped   bool
	idleNames []idleName
	calls     []problem.Place // the place statements being worked on, outermost first
	depth     int
	seen      map[fault]bool
	scratch   problem.Problem
}

// A fault is reported once, however often a loop comes by.
type fault struct {
	code problem.Code
	at   problem.Place
}

// report notes a problem and returns it, so that labels, help and edits may be
// added at once.
func (e *evaluator) report(s problem.Severity, code problem.Code, at problem.Place, message string) *problem.Problem {
	key := fault{code, at}
	if e.seen[key] {
		e.scratch = problem.Problem{}
		return &e.scratch
	}
	if e.seen == nil {
		e.seen = map[fault]bool{}
	}
	e.seen[key] = true
	e.out.Problems = append(e.out.Problems, problem.Problem{Code: code, Severity: s, At: at, Message: message})
	return &e.out.Problems[len(e.out.Problems)-1]
}

// evaluateUnits works out every block of the root file, and every other unit of it
// that needs no arguments, so that faults are found before a unit is used.
func (e *evaluator) evaluateUnits(root *file) {
	for _, u := range root.units {
		if u.needsArguments() {
			continue
		}
		body := e.alone(u)
		if u.decl.Block {
			e.out.Blocks = append(e.out.Blocks, e.finished(u, body))
			e.out.Pattern.Blocks = append(e.out.Pattern.Blocks, u.blockInfo(body))
			e.printed(u.file, u.decl.Doc, u.decl.Name.Span)
		} else {
			e.out.Units = append(e.out.Units, body)
		}
	}
}

// finish drops the fabrics that nothing is cut from, and that no colorway or quilt
// speaks of, and counts the others anew. (The order of the map does not show.)
func (e *evaluator) finish() {
	for _, b := range e.memo {
		b.eachFabric(func(i *int) { e.fabrics[*i].kept = true })
	}
	p := &e.out.Pattern
	index := make([]int, len(e.fabrics))
	for i, f := range e.fabrics {
		index[i] = len(p.Fabrics)
		if f.kept {
			p.Fabrics = append(p.Fabrics, f.Fabric)
			if f.says != nil {
				e.printed(f.file, f.Words, f.says.Where())
			}
		}
	}
	for _, b := range e.memo {
		b.eachFabric(func(i *int) { *i = index[*i] })
	}
	for i := range p.Settings.Buying.Scraps {
		if s := &p.Settings.Buying.Scraps[i]; s.Fabric != pattern.NoFabric {
			s.Fabric = index[s.Fabric]
		}
	}
	for i, f := range p.Settings.Grain {
		p.Settings.Grain[i] = index[f]
	}
	for i := range p.Quilts {
		eachFabric(&p.Quilts[i], func(i *int) { *i = index[*i] })
	}
	e.dress()
}

func (b *Body) eachFabric(do func(*int)) {
	for i := range b.Sections {
		for j := range b.Sections[i].Pieces {
			do(&b.Sections[i].Pieces[j].Fabric)
		}
	}
	for i := range b.Drawn {
		do(&b.Drawn[i].Fabric)
	}
}
