package eval

import (
	"encoding/binary"
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// needsArguments reports whether a unit cannot be worked out by itself.
func (u *unit) needsArguments() bool {
	for _, p := range u.decl.Params {
		if p.Default == nil {
			return true
		}
	}
	return false
}

// checkUnit walks a unit without working it out.
func (e *evaluator) checkUnit(u *unit) {
	r := e.newRun(u, true)
	defer e.free(r)
	d := u.decl
	for _, p := range d.Params {
		r.checkParam(p)
	}
	r.shape()
	if d.Block {
		for _, s := range d.Finished {
			r.finishedSize(s)
		}
	}
	r.frame = frame{state: outlineFrame}
	if d.Width != nil {
		r.frame = frame{state: boxFrame}
	}
	if d.Body != nil {
		r.stmts(d.Body)
	}
	r.closeScope(0)
	u.broken = u.broken || d.Body == nil || d.Width == nil && len(d.Outline) == 0
}

func (r *run) checkParam(p *lang.Param) {
	k := value.KindNamed(p.Kind.Text)
	if k == value.None && p.Kind.Text != "" {
		f := r.fault(UnknownKind, p.Kind.Span, "there is no kind called `"+p.Kind.Text+"`")
		if !suggest(f, p.Kind, value.KindNames()) {
			f.Help = "a parameter is one of " + list(value.KindNames(), "or")
		}
	}
	if k == value.None {
		r.unit.broken = true
	}
	if p.Default != nil {
		if k == value.None {
			r.expr(p.Default)
		} else {
			r.want(p.Default, k, "`"+p.Name.Text+"`")
		}
	} else if r.unit.decl.Block && p.Name.Text != "" {
		r.fault(BlockArgument, p.Name.Span, "a block's parameter needs a value: nobody gives `"+p.Name.Text+"` one").Help =
			"write it after the kind: `" + p.Name.Text + ": " + p.Kind.Text + " = ...`"
	}
	if k == value.CountKind {
		k = numberKind
	}
	r.declare(p.Name, parameter, value.Value{Kind: k})
}

// alone works out a unit that needs no arguments.
func (e *evaluator) alone(u *unit) *Body {
	return e.build(u, make([]value.Value, len(u.decl.Params)))
}

// build works out a unit for its arguments, or returns what it made of equal ones
// before. An argument without a kind is left out.
func (e *evaluator) build(u *unit, args []value.Value) *Body {
	if u.broken {
		return &Body{Name: u.decl.Name.Text, Failed: true}
	}
	r := e.newRun(u, false)
	defer e.free(r)
	for i, p := range u.decl.Params {
		v, ok := args[i], true
		if v.Kind == value.None {
			v, ok = r.want(p.Default, u.kinds[i], "`"+p.Name.Text+"`")
		}
		if !ok {
			return &Body{Name: u.decl.Name.Text, Failed: true}
		}
		r.declare(p.Name, parameter, v)
	}
	e.key = appendKey(e.key[:0], u, r.vars)
	if b := e.memo[string(e.key)]; b != nil {
		return b
	}
	key := string(e.key)
	e.steps += bodySteps
	b := &Body{Name: u.decl.Name.Text, Source: u.file.place(u.decl.Name.Span), Box: u.decl.Width != nil}
	r.body = b
	if e.depth++; e.depth > maxDepth {
		e.tooDeep(u)
		r.failed = true
	} else {
		r.work()
	}
	e.depth--
	b.Failed = r.failed || e.stopped
	b.parts = r.parts
	e.memo[key] = b
	return b
}

// work runs a unit whose parameters are set: first the checks on them, then its
// size, then the rest.
func (r *run) work() {
	for _, s := range r.unit.decl.Body.Stmts {
		if c, ok := s.(*lang.Check); ok && r.onlyParameters(c.Cond) {
			r.check(c)
		}
	}
	if r.failed {
		return
	}
	r.body.Outline = r.shape()
	if r.failed || r.body.Outline == nil {
		r.failed = true
		return
	}
	r.frame = r.body.frame()
	r.stmts(r.unit.decl.Body)
}

// onlyParameters reports whether an expression asks for nothing but parameters and
// fabrics, so that it can be worked out before the size is.
func (r *run) onlyParameters(e lang.Expr) bool {
	switch e := e.(type) {
	case *lang.Number, *lang.String, *lang.Bool:
		return true
	case *lang.Name:
		return paramIndex(r.unit.decl.Params, e.Text) >= 0 || r.file.fabric[e.Text] != nil
	case *lang.Binary:
		return r.onlyParameters(e.X) && r.onlyParameters(e.Y)
	case *lang.Unary:
		return r.onlyParameters(e.X)
	case *lang.Paren:
		return r.onlyParameters(e.X)
	case *lang.Field:
		return r.onlyParameters(e.X)
	case *lang.Point:
		return r.onlyParameters(e.X) && r.onlyParameters(e.Y)
	case *lang.Cond:
		return r.onlyParameters(e.If) && r.onlyParameters(e.Then) && r.onlyParameters(e.Else)
	case *lang.Call:
		for _, a := range e.Args {
			if !r.onlyParameters(a.Value) {
				return false
			}
		}
		return e.Func.Text != "inset"
	}
	return false
}

// appendKey writes a unit and its parameters' values so that equal ones are equal.
func appendKey(key []byte, u *unit, vars []variable) []byte {
	key = binary.AppendUvarint(key, uint64(u.id))
	for i := range vars {
		v := &vars[i].val
		key = append(key, byte(v.Kind))
		switch v.Kind {
		case value.TextKind:
			key = binary.AppendUvarint(key, uint64(len(v.Text)))
			key = append(key, v.Text...)
		case pointKind, lineKind:
			for _, f := range [...]float64{v.X, v.Y, v.X2, v.Y2} {
				key = binary.LittleEndian.AppendUint64(key, math.Float64bits(f))
			}
		default:
			key = v.Num.AppendKey(key)
		}
	}
	return key
}

// frame returns what the body's compass points stand on.
func (b *Body) frame() frame {
	if b.Box {
		return boxed(b.Outline[2].X, b.Outline[2].Y)
	}
	return frame{state: outlineFrame, middle: centroid(b.Outline)}
}

func centroid(p plane.Polygon) plane.Point {
	var c plane.Point
	var area float64
	for i, a := range p {
		b := p[(i+1)%len(p)]
		w := a.Sub(p[0]).Cross(b.Sub(p[0]))
		c = c.Add(a.Add(b).Add(p[0]).Mul(w / 3))
		area += w
	}
	return c.Mul(1 / area)
}

// shape works out a unit's outline, anticlockwise.
func (r *run) shape() plane.Polygon {
	d := r.unit.decl
	if d.Width == nil {
		return r.outline(d.Outline)
	}
	w, ok1 := r.side(d.Width, "a unit's width")
	h, ok2 := r.side(d.Height, "a unit's height")
	if !ok1 || !ok2 {
		return nil
	}
	return plane.Polygon{{}, {X: w}, {X: w, Y: h}, {Y: h}}
}

func (r *run) side(e lang.Expr, whose string) (float64, bool) {
	v, ok := r.want(e, numberKind, whose)
	if !ok || r.checking {
		return 0, false
	}
	f := v.Num.Float64()
	switch {
	case f < minSegment:
		r.fault(BadGrid, e.Where(), whose+" must be larger than 0, and this is "+v.Num.String())
	case f > maxGrid:
		r.fault(BadGrid, e.Where(), whose+" may be "+strconv.Itoa(maxGrid)+" grid squares at most, and this is "+v.Num.String())
	default:
		return f, true
	}
	return 0, false
}

func (r *run) outline(corners []lang.Expr) plane.Polygon {
	var p plane.Polygon
	for _, e := range corners {
		if q, ok := r.wantPoint(e, "a corner of the outline"); ok {
			p = append(p, q)
		}
	}
	if r.checking || r.failed || len(corners) == 0 {
		return nil
	}
	why := ""
	area := p.Area()
	switch {
	case len(p) < 3:
		why = "an outline has three corners at least, and here are " + strconv.Itoa(len(p))
	case len(p) > maxCorners:
		why = "an outline may have " + strconv.Itoa(maxCorners) + " corners, and here are " + strconv.Itoa(len(p))
	case inOneLine(p):
		why = "the corners lie in one line, so nothing is inside"
	case area == 0 || !anticlockwise(p, area).Simple():
		why = "the outline meets itself"
	}
	if why != "" {
		r.fault(BadOutline, corners[0].Where().To(corners[len(corners)-1].Where()), why).Help =
			"give the corners in order, walking once round the unit; the last is joined to the first"
		return nil
	}
	return anticlockwise(p, area)
}

// inOneLine reports whether all corners lie in the line from the first to the one
// farthest from it.
func inOneLine(p plane.Polygon) bool {
	far := p[0]
	for _, q := range p {
		if q.Dist(p[0]) > far.Dist(p[0]) {
			far = q
		}
	}
	for _, q := range p {
		if math.Abs(far.Sub(p[0]).Cross(q.Sub(p[0]))) > minSegment*far.Dist(p[0]) {
			return false
		}
	}
	return true
}

// anticlockwise turns a polygon's sense where need be; its first corner stays.
func anticlockwise(p plane.Polygon, area float64) plane.Polygon {
	if area > 0 {
		return p
	}
	q := make(plane.Polygon, len(p))
	for i := range p {
		q[(len(p)-i)%len(p)] = p[i]
	}
	return q
}

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
	if len(b.Finished) == maxSizes {
		r.fault(TooManySizes, s.Where(), "a block may have "+strconv.Itoa(maxSizes)+" finished sizes at most")
		return
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
	if n := literal(e); n != nil && n.Unit == "" && !n.Big {
		p := r.fault(BareFinished, e.Where(), "a finished size is a length, and "+n.Text+" has no unit")
		p.Help = "write " + n.Text + "in, or " + n.Text + "cm"
		p.Edits = []problem.Edit{{At: n.Where(), New: n.Text + "in"}}
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
