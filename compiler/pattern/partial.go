package pattern

// Rest returns where the sewing of a join begins and ends: its ends, but for one
// that finishes a partial seam: there from where the first part stopped.
func (s *Sized) Rest(j *Join) (from, to Pos) {
	if j.Begun == 0 {
		return j.A, j.B
	}
	first := &s.Joins[j.Begun-1]
	if apart(first.A, j.A) < apart(first.A, j.B) {
		return first.B, j.B
	}
	return first.B, j.A
}

// Partial reports whether some join is sewn in two goes.
func (s *Sized) Partial() bool {
	for i := range s.Joins {
		if s.Joins[i].Begins > 0 {
			return true
		}
	}
	return false
}

func apart(p, q Pos) Length {
	dx, dy := p.X-q.X, p.Y-q.Y
	return dx*dx + dy*dy
}
