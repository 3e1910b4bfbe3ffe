package piecing

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// Notes are what is to be told of a section that was cut.
type notes struct {
	outside [][2]int // points of pieces that lie outside of them: piece and point
	runsOn  [][2]int // seams that run on, and along which piece
}

// read checks the points that pieces are said to hold, and finds lines that run on
// into pieces their author did not reach.
func (c *cell) read() (n notes) {
	for k := range c.section.pieces {
		for i, p := range c.section.pieces[k].src.Points {
			if (k > 0 || i > 0) && c.section.pieces[k].face.Corners.Locate(p) <= 0 {
				n.outside = append(n.outside, [2]int{k, i})
			}
		}
	}
	if len(n.outside) == 0 {
		n.runsOn = c.runsOn()
	}
	return n
}

// tellNotes tells them; false where there are faults among them.
func (w *work) tellNotes(s *shape, c *cell, n *notes) bool {
	for _, at := range n.outside {
		w.tellNotIn(s, c, at[0], at[1])
	}
	for _, at := range n.runsOn {
		w.noteRunOn(s, c, at[0], at[1])
	}
	return len(n.outside) == 0
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

// runsOn finds seams whose written part stops where one earlier piece ends, while
// the seam itself runs on along the next: each with the first piece not reached.
// Where the written part stops in the middle of a piece it was written for its
// direction, and nothing is said.
func (c *cell) runsOn() (found [][2]int) {
	n := int32(len(c.face.Corners))
	var room [16]reach
	seams := append(room[:0], make([]reach, len(c.section.pieces))...)
	for k := range seams {
		if k > 0 {
			r, l := c.section.pieces[k].seam.Ray(), c.section.pieces[k].src.Line
			a, b := r.Along(l.A), r.Along(l.B)
			seams[k] = reach{r, min(a, b), max(a, b), false}
		}
	}
	for j := range c.section.pieces {
		f := &c.section.pieces[j].face
		for side, label := range f.Labels {
			k := int(label - n)
			if k <= j {
				continue
			}
			s := &seams[k]
			if s.missed || min(s.Len, s.high)-max(0, s.low) <= plane.Tol {
				continue
			}
			e := f.Corners.Side(side)
			a, b := s.Along(e.A), s.Along(e.B)
			if both := min(max(a, b), s.high) - max(min(a, b), s.low); math.Abs(both) <= plane.Tol {
				s.missed = true
				found = append(found, [2]int{k, j})
			}
		}
	}
	slices.SortFunc(found, func(a, b [2]int) int { return cmp.Compare(a[0], b[0]) })
	return found
}

// A reach is a seam, how much of it was written, and whether a piece was missed.
type reach struct {
	plane.Ray
	low, high float64
	missed    bool
}

// noteRunOn tells that the seam of piece k runs on along piece j. It may be right,
// so it is only a note.
func (w *work) noteRunOn(s *shape, c *cell, k, j int) {
	src, seam := c.section.pieces[k].src, c.section.pieces[k].seam
	w.tell(problem.Problem{
		Code: RunsOn, Severity: problem.Note, At: src.LineAt,
		Message: "the seam of piece " + num(float64(k+1)) + " runs on beyond what is written, along piece " +
			num(float64(j+1)) + " too: from " + point(seam.A) + " to " + point(seam.B),
		Help:  "nothing to do if that is meant; else sew that piece later than this one, or divide the section with a join",
		Drawn: drawn(s.body.Name, nil, []plane.Line{seam, src.Line}),
	})
}
