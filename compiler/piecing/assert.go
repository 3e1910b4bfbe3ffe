package piecing

import (
	"math"

	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// assert checks the points that pieces are said to hold, and notes lines that
// run on into pieces their author did not reach.
func (w *work) assert(s *shape, c *cell) bool {
	ok := true
	for k := range c.section.pieces {
		src := c.section.pieces[k].src
		for i, p := range src.Points {
			if k == 0 && i == 0 || c.section.pieces[k].face.Corners.Locate(p) > 0 {
				continue
			}
			w.tellNotIn(s, c, k, i)
			ok = false
		}
	}
	if ok {
		w.noteRunOn(s, c)
	}
	return ok
}

func (w *work) tellNotIn(s *shape, c *cell, piece, i int) {
	src, n := c.section.pieces[piece].src, num(float64(piece+1))
	at := src.Points[i]
	p := problem.Problem{
		Code: NotInPiece, At: pointAt(src.PointAt, i, src.At),
		Message: point(at) + " is outside this section, not in piece " + n,
		Help:    "correct the point, or the point of piece 1: all lines are seen from there",
		Drawn:   drawn(s.body.Name, []plane.Point{c.section.pieces[0].src.Points[0], at}, nil),
	}
	for k := range c.section.pieces {
		where := c.section.pieces[k].face.Corners.Locate(at)
		if where > 0 {
			p.Message = point(at) + " is in piece " + num(float64(k+1)) + ", not in piece " + n
			break
		}
		if where == 0 {
			p.Message = point(at) + " lies on the border of piece " + num(float64(k+1)) + ", not in piece " + n
		}
	}
	w.tell(p)
}

// noteRunOn tells of seams whose written part stops where one earlier piece ends,
// while the seam itself runs on along the next. It may be right, so it is only a
// note; and where the written part stops in the middle of a piece it was written
// for its direction, and nothing is said.
func (w *work) noteRunOn(s *shape, c *cell) {
	n := int32(len(c.face.Corners))
	reach := make([]span, len(c.section.pieces))
	for k := range reach {
		if k > 0 {
			l := c.section.pieces[k].src.Line
			a, b := c.section.pieces[k].seam.Along(l.A), c.section.pieces[k].seam.Along(l.B)
			reach[k] = span{min(a, b), max(a, b)}
		}
	}
	missed := make([]int, len(reach)) // the first piece not reached + 1
	for j := range c.section.pieces {
		f := &c.section.pieces[j].face
		for side, label := range f.Labels {
			k := int(label - n)
			if k <= j || missed[k] > 0 {
				continue
			}
			seam := c.section.pieces[k].seam
			if min(seam.Len(), reach[k].high)-max(0, reach[k].low) <= plane.Tol {
				continue
			}
			e := f.Corners.Side(side)
			a, b := seam.Along(e.A), seam.Along(e.B)
			if both := min(max(a, b), reach[k].high) - max(min(a, b), reach[k].low); math.Abs(both) <= plane.Tol {
				missed[k] = j + 1
			}
		}
	}
	for k, j := range missed {
		if j == 0 {
			continue
		}
		src := c.section.pieces[k].src
		w.tell(problem.Problem{
			Code: RunsOn, Severity: problem.Note, At: src.LineAt,
			Message: "the seam of piece " + num(float64(k+1)) + " runs on beyond what is written, along piece " +
				num(float64(j)) + " too: from " + point(c.section.pieces[k].seam.A) + " to " + point(c.section.pieces[k].seam.B),
			Help:  "nothing to do if that is meant; else sew that piece later than this one, or divide the section with a join",
			Drawn: drawn(s.body.Name, nil, []plane.Line{c.section.pieces[k].seam, src.Line}),
		})
	}
}

type span struct{ low, high float64 }
