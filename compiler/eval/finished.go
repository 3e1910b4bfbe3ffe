package eval

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// blockInfo returns what the model says of a block before it is cut.
func (u *unit) blockInfo(b *Body) pattern.Block {
	d := u.decl
	low, high := b.Outline.Box()
	return pattern.Block{
		Name:   d.Name.Text,
		Title:  title(d),
		Doc:    d.Doc,
		Grid:   [2]float64{high.X - low.X, high.Y - low.Y},
		Source: u.file.modelSource(d.Name.Span),
	}
}

// title is the doc comment's first sentence where that is short, else the name.
func title(d *lang.Unit) string {
	first, _, _ := strings.Cut(strings.TrimSpace(d.Doc), "\n")
	if i := strings.Index(first, ". "); i >= 0 {
		first = first[:i]
	}
	first = strings.TrimSuffix(strings.TrimSpace(first), ".")
	if first != "" && len([]rune(first)) <= maxTitle {
		return first
	}
	return strings.ReplaceAll(d.Name.Text, "_", " ")
}

// finished works out a block's finished sizes.
func (e *evaluator) finished(u *unit, body *Body) *Block {
	b := &Block{Body: body}
	if body.Outline == nil {
		return b
	}
	r := e.newRun(u, false)
	defer e.free(r)
	for i, p := range u.decl.Params {
		v, _ := r.want(p.Default, u.kinds[i], "`"+p.Name.Text+"`")
		r.declare(p.Name, parameter, v)
	}
	low, high := body.Outline.Box()
	for _, s := range u.decl.Finished {
		if len(b.Finished) == maxSizes { // told once, however many there are
			r.fault(TooManySizes, s.Where(), "a block may have "+strconv.Itoa(maxSizes)+" finished sizes at most, and here are "+strconv.Itoa(len(u.decl.Finished))).
				Help = "take this one away, and those after it"
			break
		}
		size, ok := r.finishedSize(s)
		if !ok {
			continue
		}
		r.addSize(b, s, size, (high.Y-low.Y)/(high.X-low.X))
	}
	return b
}

// addSize adds a finished size whose height, if written, agrees with the grid.
func (r *run) addSize(b *Block, s *lang.Size, size pattern.Size, ratio float64) {
	height := pattern.Length(size.W.Inches() * ratio)
	if s.Height != nil && math.Abs(float64(size.H-height)) > ratioSlack {
		r.fault(SizeRatio, s.Height.Where(), "this height does not agree with the grid: at a width of "+
			r.file.text(s.Width.Where())+" the block is "+height.In(64)+" high").Help = "write the width alone, and the height follows"
		return
	}
	size.H = height
	for i, o := range b.Finished {
		if math.Abs(float64(o.W-size.W)) < value.Tolerance {
			p := r.fault(SizeTwice, s.Where(), "this finished size is written twice")
			p.Labels = []problem.Label{{At: b.At[i], Text: "the first is here"}}
			p.Help = "take one of them away"
			return
		}
	}
	if height < minFinished || height > maxFinished {
		r.sizeRange(s.Where(), "its height", height)
		return
	}
	b.Finished = append(b.Finished, size)
	b.At = append(b.At, r.file.place(s.Where()))
}

// finishedSize works out one size as it is written.
func (r *run) finishedSize(s *lang.Size) (pattern.Size, bool) {
	w, ok := r.finishedSide(s.Width)
	if s.Height == nil {
		return pattern.Size{W: w}, ok
	}
	h, ok2 := r.finishedSide(s.Height)
	return pattern.Size{W: w, H: h}, ok && ok2
}

func (r *run) finishedSide(e lang.Expr) (pattern.Length, bool) {
	if n := literal(e); n != nil && n.Unit == lang.Plain && !n.Big {
		p := r.fault(BareFinished, e.Where(), "a finished size is a length, and "+r.file.written(n)+" has no unit")
		p.Help = "write " + r.file.written(n) + "in, or " + r.file.written(n) + "cm"
		p.Edits = []problem.Edit{{At: n.Where(), New: r.file.written(n) + "in"}}
		return 0, false
	}
	v, ok := r.want(e, lengthKind, "`finished`")
	if !ok || r.checking {
		return 0, false
	}
	l := pattern.Length(v.Num.Float64())
	if l < minFinished || l > maxFinished {
		r.sizeRange(e.Where(), "this", l)
		return 0, false
	}
	return l, true
}

func (r *run) sizeRange(at lang.Span, what string, l pattern.Length) {
	r.fault(SizeRange, at, "a finished size lies between 1/4in and "+strconv.Itoa(maxFinished)+"in, and "+what+" is "+
		strconv.FormatFloat(l.Inches(), 'g', 6, 64)+"in")
}
