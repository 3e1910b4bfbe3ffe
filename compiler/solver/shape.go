package solver

// A shaper names a part by its shape, so that parts that are alike, wherever they
// lie and however they are turned, are solved once. What counts is which faces
// meet along which seams, in which order around each face; lengths and angles
// don't matter to whether something can be sewn, so alike means more than
// congruent. Two parts with one name are alike, up to a chance of one in 2^128;
// two alike parts may get different names, and are then solved twice.
type shaper struct {
	*work
	ring    []half  // around the border: see around
	letters []int64 // of the ring
	number  []int32 // of a face or, further on, a seam: its place in the walk
	edges   []int32 // in the order of the walk
	count   []int32 // of a seam: its edges inside the part
}

func newShaper(w *work) *shaper {
	return &shaper{work: w, number: make([]int32, w.faces()+len(w.seams)), count: make([]int32, len(w.seams))}
}

// name returns a part's name and lists its edges, those of alike parts in the
// same order. The part must have an edge.
func (s *shaper) name(p part) (key, []int32) {
	s.enter(p)
	for _, f := range p {
		s.number[f] = 0
		for _, h := range s.halves(f) {
			s.count[s.seam[h>>1]], s.number[s.faces()+int(s.seam[h>>1])] = 0, 0
		}
	}
	var start half
	for _, f := range p {
		for _, h := range s.halves(f) {
			if s.inside(h) {
				s.count[s.seam[h>>1]]++
				start = h
			}
		}
	}
	for _, f := range p {
		for _, h := range s.halves(f) {
			if s.inside(h) && s.gapBefore(h) {
				start = h
			}
		}
	}
	s.around(start)
	return s.walk(s.ring[leastRotation(s.letters)])
}

// mark returns a number that parts with one name share, and others hardly ever.
func (s *shaper) mark(p part) (mark uint64) {
	s.enter(p)
	for _, f := range p {
		for _, h := range s.halves(f) {
			if s.in[s.other(h)] == s.stamp {
				mark += mix(uint64(rounded(s.corner[h])) + 0x9e3779b97f4a7c15)
			}
		}
	}
	return mark
}

// inside reports whether both faces of a half are in the part entered.
func (s *shaper) inside(h half) bool {
	return s.in[s.face(h)] == s.stamp && s.in[s.other(h)] == s.stamp
}

// before returns the half before h around its face, of those inside the part.
func (s *shaper) before(h half) half { return s.step(h, -1) }

// after returns the half after h.
func (s *shaper) after(h half) half { return s.step(h, 1) }

// next returns the half after h around its face, inside the part or not.
func (s *shaper) next(h half) half {
	list := s.halves(s.face(h))
	for i, k := range list {
		if k == h && i+1 < len(list) {
			return list[i+1]
		}
	}
	return list[0]
}

func (s *shaper) step(h half, by int) half {
	list := s.halves(s.face(h))
	i := 0
	for list[i] != h {
		i++
	}
	for {
		i = (i + by + len(list)) % len(list)
		if s.inside(list[i]) {
			return list[i]
		}
	}
}

// gapBefore reports whether the border comes between a half and the one before.
func (s *shaper) gapBefore(h half) bool {
	k := s.before(h)
	return k == h || s.begin(k^1) != s.begin(h)
}

// around lists the halves after gaps in the order of the border, each with a
// letter that says a little of what is near.
func (s *shaper) around(start half) {
	s.ring, s.letters = s.ring[:0], s.letters[:0]
	for h := start; ; {
		n := int64(0)
		for k := s.after(h); k != h; k = s.after(k) {
			n++
		}
		s.ring = append(s.ring, h)
		s.letters = append(s.letters, n<<32|int64(s.count[s.seam[h>>1]]))
		for h = s.before(h) ^ 1; !s.gapBefore(h); {
			h = s.before(h) ^ 1
		}
		if h == start {
			return
		}
	}
}

// leastRotation returns where the rotation of a word begins that comes first in
// the order of words (Booth's problem, by the method of two candidates).
func leastRotation(word []int64) int {
	i, j, k, n := 0, 1, 0, len(word)
	for i < n && j < n && k < n {
		a, b := word[(i+k)%n], word[(j+k)%n]
		switch {
		case a == b:
			k++
			continue
		case a > b:
			i += k + 1
		default:
			j += k + 1
		}
		if i == j {
			j++
		}
		k = 0
	}
	return min(i, j)
}

// walk numbers faces and seams breadth first from a half, and hashes what it
// sees.
func (s *shaper) walk(start half) (key, []int32) {
	k := key{1, 2}
	s.edges = s.edges[:0]
	entries := []half{start}
	faces, seams := int32(1), int32(0)
	s.number[s.face(start)] = faces
	see := func(x int32) {
		k[0] = mix(k[0] + uint64(x) + 0x9e3779b97f4a7c15)
		k[1] = mix(k[1]*3 + uint64(x) + 0x632be59bd9b4e019)
	}
	for i := 0; i < len(entries); i++ {
		for h := entries[i]; ; {
			f, seam := s.other(h), s.faces()+int(s.seam[h>>1])
			if s.number[f] == 0 {
				faces++
				s.number[f] = faces
				entries = append(entries, h^1)
			}
			if s.number[seam] == 0 {
				seams++
				s.number[seam] = seams
			}
			see(s.number[f])
			see(s.number[seam])
			if s.gapBefore(h) {
				see(-1)
			}
			see(int32(rounded(s.corner[h])))
			see(int32(rounded(s.corner[s.next(h)])))
			s.edges = append(s.edges, int32(h>>1))
			if h = s.after(h); h == entries[i] {
				break
			}
		}
		see(0)
	}
	return k, s.edges
}
