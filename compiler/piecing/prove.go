package piecing

import (
	"math"
	"slices"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

const (
	// tooNear is the distance, in inches at the smallest size, below which two
	// different points are more likely meant to be one: half the width of a
	// pencil line, the finest division of a ruler. Common practice, no source.
	tooNear = 1.0 / 64

	// anchorClear is how far, in inches at the smallest size, a section's point
	// should lie from the lines of its own seams. Nearer, it looks as if it
	// lay on the line, and a slip would turn the piece over unseen.
	anchorClear = 1.0 / 16
)

// A proof is what was measured while a block was checked, in squares.
type proof struct {
	area    float64 // |pieces - outline|
	edges   float64 // length of all pieces' sides
	same    float64 // greatest distance of points taken for one
	nearest float64 // least distance of different points
	seams   int     // that meet at one point, at the most
}

// prove shows that the pieces cover the block, by their areas, and that no two
// points are so near that one cannot tell whether they are meant to be one.
func (w *work) prove(a *assembly, scale float64) bool {
	p := &a.proof
	sum, shortest, corners := 0.0, math.Inf(1), 0
	for i := range a.copies {
		m := &a.copies[i].measure
		sum += m.area
		p.edges += m.edges
		shortest = min(shortest, m.shortest)
		corners += m.corners
	}
	p.area = math.Abs(sum - a.top.outline.Area())
	if p.area > plane.Tol*p.edges {
		w.tell(problem.Problem{
			Code: NotCovered, At: a.block.Source,
			Message: "the pieces of " + a.block.Name + " do not add up to the block: they differ by " +
				decimals(p.area, 9) + " squares",
			Help: "this is a fault of the program, not of the pattern; please report it with the pattern",
		})
		return false
	}
	return w.tellApart(a, scale, shortest, corners)
}

// tellApart collects all corners of pieces and reports those too near.
func (w *work) tellApart(a *assembly, scale, shortest float64, corners int) bool {
	type owner struct{ copy, piece int32 }
	cloud := plane.NewCloud(shortest, tooNear/scale, corners/2)
	owners := make([]owner, 0, corners/2)
	ids := make([]int32, 0, corners)
	for i := range a.copies {
		c := &a.copies[i]
		x := c.motion.Matrix()
		for k := range c.section.pieces {
			p := c.section.pieces[k].face.Corners
			for j := range p {
				id := cloud.Add(x.Apply(p[j]))
				if int(id) == len(owners) {
					owners = append(owners, owner{int32(i), int32(k)})
				}
				ids = append(ids, id)
			}
		}
	}
	a.proof.same, a.proof.nearest = max(a.proof.same, cloud.Same()), cloud.Nearest()
	for _, s := range a.used {
		a.proof.same = max(a.proof.same, s.same())
	}
	a.countSeams(cloud, ids)
	for i, pair := range cloud.Near {
		if i == enough {
			break
		}
		p, q := cloud.Points[pair[0]], cloud.Points[pair[1]]
		first, second := owners[pair[0]], owners[pair[1]]
		c, d := &a.copies[first.copy], &a.copies[second.copy]
		unit := a.block.Name
		back := plane.Motion{Shift: a.low}
		if first.copy == second.copy {
			unit, back = c.shape.body.Name, c.motion.Inverse()
		}
		p, q = back.Apply(p), back.Apply(q)
		at := d.section.pieces[second.piece].src
		t := problem.Problem{
			Code: NearPoints, At: at.At,
			Message: "two points of " + unit + ", " + written(p) + " and " + written(q) + ", are only " +
				decimals(p.Dist(q)*scale, 4) + " in apart at the smallest size: are they meant to be one?",
			Help:  "write both as the same point or the same `let`, or move them at least 1/64 in apart",
			Drawn: drawn(unit, []plane.Point{p, q}, nil),
		}
		if other := c.section.pieces[first.piece].src; other != at {
			t.Labels = []problem.Label{{At: other.At, Text: "the other point is a corner of this piece"}}
		}
		w.tell(t)
	}
	return len(cloud.Near) == 0
}

// angleAt returns the inner angle of a polygon's corner.
func angleAt(p plane.Polygon, i int) float64 {
	n := len(p)
	a, b := p[(i+1)%n].Sub(p[i]), p[(i+n-1)%n].Sub(p[i])
	angle := math.Atan2(a.Cross(b), a.Dot(b))
	if angle < 0 {
		angle += 2 * math.Pi
	}
	return angle
}

// countSeams finds the point at which most seams meet; ids are the points of all
// corners in order. As many seams as corners leave a point inside the block; one
// more where some piece's side runs straight past it, and one less on the outline.
// So only points that have nearly the most corners need be looked at.
func (a *assembly) countSeams(cloud *plane.Cloud, ids []int32) {
	corners, most := make([]int32, len(cloud.Points)), int32(0)
	for _, id := range ids {
		corners[id]++
		most = max(most, corners[id])
	}
	turn := make([]float64, len(corners)) // all their angles
	next := 0
	for i := range a.copies {
		for k := range a.copies[i].section.pieces {
			p := a.copies[i].section.pieces[k].face.Corners
			for j := range p {
				if id := ids[next]; corners[id] >= most-1 {
					turn[id] += angleAt(p, j)
				}
				next++
			}
		}
	}
	for id, n := range corners {
		seams := int(n)
		if n < most-1 || seams+1 <= a.proof.seams {
			continue
		}
		if turn[id] < 2*math.Pi-0.01 {
			if a.top.outline.Locate(cloud.Points[id].Add(a.low)) == 0 {
				seams--
			} else {
				seams++
			}
		}
		a.proof.seams = max(a.proof.seams, seams)
	}
}

// same returns the greatest distance that was taken for none when the shape was
// cut, its placed units left out.
func (s *shape) same() float64 {
	far := s.cut.same
	for i := range s.cells {
		if c := s.cells[i].section; c != nil {
			far = max(far, c.same)
		}
	}
	return far
}

// warnAnchors tells of points of piece 1 that lie almost on a seam.
func (w *work) warnAnchors(a *assembly, scale float64) {
	for _, s := range a.used {
		if s.drawn { // nobody wrote these points
			continue
		}
		for i := range s.cells {
			c := &s.cells[i]
			if c.section == nil || c.section.half > 0 || c.section.clear*scale >= anchorClear {
				continue
			}
			src := c.section.src
			line := &src.Pieces[c.section.nearest]
			w.warn(s, src, problem.Problem{
				Code: AnchorNear, Severity: problem.Warning, At: pointAt(src.Pieces[0].PointAt, 0, src.Pieces[0].At),
				Message: point(src.Pieces[0].Points[0]) + " lies almost on the line of piece " +
					num(float64(c.section.nearest+1)) + ", nearer than 1/16 in at the smallest size",
				Labels: []problem.Label{{At: line.LineAt, Text: "this line"}},
				Help:   "all lines are seen from this point: give one well inside piece 1",
				Drawn:  drawn(s.body.Name, src.Pieces[0].Points[:1], []plane.Line{line.Line}),
			})
		}
	}
}

// warn tells a warning about a section, unless the author has answered for it:
// then that is kept for the report.
func (w *work) warn(s *shape, src *eval.Section, p problem.Problem) {
	for _, list := range [3][]eval.Accept{src.Accepts, s.body.Accepts, w.result.Accepts} {
		for i := range list {
			if list[i].Code != p.Code {
				continue
			}
			a := pattern.Accepted{Code: string(p.Code), Message: p.Message, Reason: list[i].Reason, Source: source(p.At)}
			if all := &w.result.Pattern.Accepted; !slices.Contains(*all, a) {
				*all = append(*all, a)
			}
			return
		}
	}
	w.tell(p)
}

// figures are what the report says of a block, at one scale.
func (a *assembly) figures(scale float64) pattern.Figures {
	f := pattern.Figures{
		Sections: len(a.copies), Pieces: a.top.pieces, Drawings: len(a.drawings),
		Seams:         a.top.pieces - len(a.copies) + len(a.seams),
		MostSeams:     a.proof.seams,
		NearestPoints: pattern.Length(a.proof.nearest * scale),
		SamePoints:    pattern.Length(a.proof.same * scale),
	}
	if a.proof.edges > 0 {
		f.AreaError = pattern.Length(a.proof.area / a.proof.edges * scale)
	}
	for i := range a.seams {
		if a.seams[i].finish > 0 {
			f.Seams-- // it is the same seam as the one that finishes it
		}
	}
	for i := range a.groups {
		if a.groups[i].match() {
			f.Points++
		}
	}
	narrowest := math.Inf(1)
	for _, i := range a.order {
		d := &a.drawings[i]
		c := &a.classes[d.class]
		if len(c.pieces) == 1 {
			f.PlainDrawings++
		}
		if c.narrow < narrowest-plane.Tol {
			narrowest = c.narrow
			f.NarrowestPiece = d.name + num(float64(c.narrowest+1))
		}
	}
	f.Narrowest = pattern.Length(narrowest * scale)
	return f
}
