package piecing

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/compiler/solver"
	"seamwright/lang/problem"
)

const (
	// mostPieces is how many pieces a section found may have: with more, errors
	// of sewing add up and the paper gets stiff. Common practice, no source.
	mostPieces = 20

	// unfitCost is as how many sections one counts that is too large for the sheet,
	// where nothing is to be glued: no sheet is made then. The long logs of a large
	// cabin are rather sewn on as plain strips, but not hundreds of them.
	unfitCost = 40

	// headRoom is left free on a sheet for what is printed above the section.
	headRoom = 1.25 * pattern.Inch
)

// A Sewn is a drawn unit and the same unit as its author could have written it:
// with joins and sections.
type Sewn struct {
	Drawn, Sewn *eval.Body
}

// A drawing under way.
type sketch struct {
	*work
	body   *eval.Body
	lines  []plane.Line    // written, then the sides of pieces given by corners
	at     []problem.Place // of each line
	ends   []bool          // of each line: its ends are those that are written there
	part   *solver.Partition
	fabric []int // of a patch: index into body.Drawn + 1
	point  []int // of a patch: which of its points names it
	corner []int // of a patch: index into body.Drawn + 1 of the piece with these corners
	grid   *patchGrid

	together, uncuts, first []wish // as the fields of solver.Wishes
	named                   []int  // a patch of each of body.Keeps that has points

	open []solver.Opening // seams that have to be sewn in two goes

	ground *problem.Ground   // see tell
	plan   solver.Plan       // as it was divided
	told   []problem.Problem // about the drawing
}

// sewn divides a drawn unit into sections, once; nil where it has faults, which
// have been told then.
func (w *work) sewn(b *eval.Body) *eval.Body {
	if s, ok := w.drawings[b]; ok {
		return s
	}
	var made *eval.Body
	if w.was != nil && w.was.drawings[b] != nil {
		made = w.was.sketches[b].again(w, w.was.drawings[b])
	} else {
		k := &sketch{work: w, body: b}
		before := len(w.problems)
		made = k.divide()
		k.told, w.sketches[b] = w.problems[before:len(w.problems):len(w.problems)], k
	}
	w.drawings[b] = made
	if made != nil {
		w.sewnList = append(w.sewnList, Sewn{b, made})
	}
	return made
}

func (k *sketch) divide() *eval.Body {
	b := k.body
	corners := b.Outline.Corners()
	for i := range b.Lines {
		k.add(b.Lines[i].Line, b.Lines[i].At, i == 0 || b.Lines[i].At != b.Lines[i-1].At)
	}
	for i := range b.Drawn {
		for s := range b.Drawn[i].Corners {
			k.add(plane.Polygon(b.Drawn[i].Corners).Side(s), b.Drawn[i].At, false)
		}
	}
	if !k.bounded() {
		k.tell(problem.Problem{Code: TooMany, At: b.Source,
			Message: "the lines of " + b.Name + " cross each other too often to be worked out",
			Help:    "look for a loop that runs too often, or that draws lines across each other"})
		return nil
	}
	scale := k.scale[b]
	near := 0.0
	if scale.least > 0 {
		near = tooNear / scale.least
	}
	k.part = solver.Build(corners, k.lines, near)
	if k.faults() || !k.name() {
		return nil
	}
	wishes := solver.Wishes{MaxPieces: mostPieces, Alike: k.fabrics()}
	if scale.most > 0 {
		wishes.Fits, wishes.Plain = k.fits(scale.most), k.plain()
		if !k.result.Pattern.Settings.Tile {
			wishes.Unfit = unfitCost
		}
	}
	if !k.asked(&wishes) {
		return nil
	}
	plan := k.part.Plan(wishes)
	if k.open != nil {
		plan, k.open = k.part.PlanPartial(wishes, k.marked)
	}
	if len(plan.Sections) == 0 {
		k.tellFault("this drawing could not be divided into sections")
		return nil
	}
	if k.refused(&wishes, &plan) {
		return nil
	}
	made := k.write(&plan)
	if !k.sectionNames(made, &plan) {
		return nil
	}
	k.note(&plan)
	k.plan = plan
	return made
}

// fabrics numbers the fabrics of the patches. Those that a parameter names count as
// different, so that a unit is divided alike whatever fabrics it is given.
func (k *sketch) fabrics() []int {
	list, params := make([]int, len(k.fabric)), []string(nil)
	for patch, i := range k.fabric {
		d := &k.body.Drawn[i-1]
		if list[patch] = d.Fabric; d.Param != "" {
			at := slices.Index(params, d.Param)
			if at < 0 {
				at, params = len(params), append(params, d.Param)
			}
			list[patch] = len(k.result.Pattern.Fabrics) + at
		}
	}
	return list
}

// bounded reports whether the lines cross each other few enough times. Each is
// compared with those that begin, from left to right, before it ends.
func (k *sketch) bounded() bool {
	order := make([]plane.Line, len(k.lines))
	for i, l := range k.lines {
		if l.A.X > l.B.X {
			l.A, l.B = l.B, l.A
		}
		order[i] = l
	}
	slices.SortFunc(order, func(l, m plane.Line) int { return cmp.Compare(l.A.X, m.A.X) })
	crossings := 0
	for i := range order {
		l := &order[i]
		low, high := min(l.A.Y, l.B.Y), max(l.A.Y, l.B.Y)
		j := i + 1
		for ; j < len(order) && order[j].A.X <= l.B.X; j++ {
			m := &order[j]
			if max(m.A.Y, m.B.Y) < low || min(m.A.Y, m.B.Y) > high || l.Side(m.A)*l.Side(m.B) >= 0 || m.Side(l.A)*m.Side(l.B) >= 0 {
				continue
			}
			if crossings++; crossings > maxRegions {
				return false
			}
		}
		if !k.effort.spend(j - i) {
			return false
		}
	}
	return true
}

func (k *sketch) add(l plane.Line, at problem.Place, ends bool) {
	k.lines, k.at, k.ends = append(k.lines, l), append(k.at, at), append(k.ends, ends)
}

// fits returns whether a section lies on the pattern's sheet at its largest size,
// upright or on its side.
func (k *sketch) fits(scale float64) func(plane.Polygon) bool {
	set := &k.result.Pattern.Settings
	paper := set.Sheet.Paper
	if paper.W <= 0 || paper.H <= 0 {
		letter, _ := pattern.SheetNamed("letter")
		paper = letter.Paper
	}
	rim := 2 * (set.Sheet.Margin + set.Allowance)
	w, h := float64(paper.W-rim), float64(paper.H-rim-headRoom)
	return func(p plane.Polygon) bool {
		low, high := p.Box()
		x, y := (high.X-low.X)*scale, (high.Y-low.Y)*scale
		return x <= w && y <= h || y <= w && x <= h
	}
}

// squareTol is how far the cosine of a right angle may be from none.
const squareTol = 1e-6

// plain tells of the patches whether they are rectangles or right triangles: as
// sections of their own those are cut without paper, and so may be larger than it.
func (k *sketch) plain() []bool {
	list := make([]bool, len(k.part.Patches))
	for i := range list {
		corners := k.part.Polygon(i).Corners()
		n, right := len(corners), 0
		if n > 4 {
			continue
		}
		for j := range corners {
			if math.Abs(corners.Side(j).Dir().Dot(corners.Side((j+1)%n).Dir())) < squareTol {
				right++
			}
		}
		list[i] = n == 4 && right == 4 || n == 3 && right == 1
	}
	return list
}

// write writes the plan as joins and sections.
func (k *sketch) write(plan *solver.Plan) *eval.Body {
	b := *k.body
	b.Lines, b.Drawn, b.Keeps = nil, nil, nil
	b.Joins = make([]eval.Join, len(plan.Joins))
	for i, j := range plan.Joins {
		b.Joins[i] = eval.Join{Line: plane.Line{A: j.A, B: j.B}, Partial: j.Partial, At: b.Source}
	}
	b.Sections = make([]eval.Section, len(plan.Sections))
	for i := range plan.Sections {
		s := &plan.Sections[i]
		pieces := make([]eval.Piece, len(s.Patches))
		for n, patch := range s.Patches {
			pieces[n] = k.piece(patch)
			if n > 0 {
				pieces[n].Line, pieces[n].LineAt = s.Seams[n], k.lineOf(patch, s.Seams[n])
			}
			if n > 1 {
				pieces[n].Points, pieces[n].PointAt = nil, nil
			}
		}
		b.Sections[i] = eval.Section{Found: true, At: pieces[0].At, Pieces: pieces}
	}
	return &b
}

// piece is a patch with its fabric, and a point inside it that takes the place of
// what an author would write: the first piece's says where the section is, the
// second's holds it to that.
func (k *sketch) piece(patch int) eval.Piece {
	d := &k.body.Drawn[k.fabric[patch]-1]
	p := eval.Piece{Fabric: d.Fabric, Param: d.Param, At: d.At, Points: []plane.Point{k.part.Polygon(patch).Interior()}}
	if i := k.point[patch]; i >= 0 && i < len(d.PointAt) {
		p.At = d.PointAt[i]
	}
	p.PointAt = []problem.Place{p.At}
	return p
}

// lineOf finds where the line of a patch's seam is written.
func (k *sketch) lineOf(patch int, seam plane.Line) problem.Place {
	for _, e := range k.part.Patches[patch].Edges {
		edge := &k.part.Edges[e]
		if edge.Line < 0 {
			continue
		}
		if seam.Side(k.part.Points[edge.From].Point) == 0 && seam.Side(k.part.Points[edge.To].Point) == 0 {
			return k.at[edge.Line]
		}
	}
	return k.body.Source
}

// A span of scales, inches a grid square, at which a unit is used; 0 if at none.
type scales struct{ least, most float64 }

// scaled notes at which scales every unit is used.
func (w *work) scaled() {
	for _, b := range w.result.Blocks {
		if b == nil || b.Body == nil {
			continue
		}
		low, high := b.Outline.Box()
		for _, f := range b.Finished {
			if width := high.X - low.X; width > plane.Tol {
				w.scaleBody(b.Body, float64(f.W)/width)
			}
		}
	}
}

func (w *work) scaleBody(b *eval.Body, scale float64) {
	s := w.scale[b]
	if s.most >= scale && s.least <= scale && s.least > 0 {
		return
	}
	if s.least == 0 || scale < s.least {
		s.least = scale
	}
	s.most = max(s.most, scale)
	w.scale[b] = s
	for i := range b.Places {
		if b.Places[i].Body != nil {
			w.scaleBody(b.Places[i].Body, scale)
		}
	}
}
