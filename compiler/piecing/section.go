package piecing

import (
	"math"

	"seamwright/compiler/eval"
	"seamwright/compiler/plane"
)

// A section is a region with its pieces.
type section struct {
	src    *eval.Section
	half   int // 0: the anchor is in it; else it was divided off by a join `from` a size
	pieces []piece
	ends   []seamEnd

	clear   float64 // the least distance of the anchor from a line, that of piece nearest
	nearest int
	same    float64 // the greatest distance of a seam's end from the corner taken for it
}

// A piece is one space. Its sides are labelled: i < the region's corners is the
// region's side i, beyond that lies the seam of piece i - corners.
type piece struct {
	src  *eval.Piece
	face plane.Face
	seam plane.Line // its true ends, the piece on the left; zero for the first
}

// A seamEnd is where a seam ends on a side of the section.
type seamEnd struct {
	side int32
	at   float64 // from the side's start
}

// A flaw is why a region has no such pieces.
type flaw struct {
	kind  flawKind
	piece int          // index into the section's pieces
	lines []plane.Line // what to show
}

type flawKind int8

const (
	onSeam    flawKind = iota // the anchor lies on the line
	missing                   // the line does not cross the section
	swallowed                 // what lies beyond it is covered by later pieces
	scattered                 // the line cuts the section into more than two parts
)

// cutSection cuts a region into the pieces of a section, from the last seam
// back: piece k lies beyond its line as seen from the anchor, inside what later
// lines have not cut away. Where a join has divided the section, the region is a
// part of it: pieces may be missing then, and in a part without the anchor the
// first as well.
func cutSection(src *eval.Section, region *plane.Face, half int, divided bool, e *effort, bench *plane.Bench) (*section, []flaw) {
	n := int32(len(region.Corners))
	rest := plane.Face{Corners: region.Corners, Labels: make([]int32, n), Convex: region.Convex}
	for i := range rest.Labels {
		rest.Labels[i] = int32(i)
	}
	s := &section{src: src, half: half, pieces: make([]piece, 0, len(src.Pieces)), clear: math.Inf(1)}
	if len(src.Pieces) > 1 {
		s.ends = make([]seamEnd, 0, 2*len(src.Pieces))
	}
	var flaws []flaw
	var chords []plane.Chord
	anchor, first := src.Pieces[0].Points[0], 0
	for k := len(src.Pieces) - 1; k > 0 && e.spend(4*len(rest.Corners)); k-- {
		line := src.Pieces[k].Line
		off := line.Offset(anchor)
		if math.Abs(off) <= plane.Tol {
			flaws = append(flaws, flaw{onSeam, k, nil})
			continue
		}
		if math.Abs(off) < s.clear {
			s.clear, s.nearest = math.Abs(off), k
		}
		if off > 0 { // the new piece lies to the left
			line.A, line.B = line.B, line.A
		}
		chords = rest.Chords(line, chords[:0])
		if len(chords) == 0 {
			if divided {
				if rest.Beyond(line) > 0 {
					first = k
					break
				}
				continue
			}
			kind := missing
			if len(region.Chords(line, nil)) > 0 {
				kind = swallowed
			}
			flaws = append(flaws, flaw{kind, k, nil})
			continue
		}
		if len(chords) > 1 {
			f := flaw{kind: scattered, piece: k}
			for _, c := range chords {
				f.lines = append(f.lines, plane.Line{A: c.From.At, B: c.To.At})
			}
			flaws = append(flaws, f)
			continue
		}
		c := chords[0]
		s.same = max(s.same, snapped(line, c))
		s.end(region, &rest, c.From)
		s.end(region, &rest, c.To)
		label := n + int32(k)
		var beyond plane.Face
		beyond, rest = rest.CutOff(bench, c, label)
		s.pieces = append(s.pieces, piece{&src.Pieces[k], beyond, plane.Line{A: c.From.At, B: c.To.At}})
	}
	s.pieces = append(s.pieces, piece{&src.Pieces[first], bench.Keep(rest), plane.Line{}})
	for i, j := 0, len(s.pieces)-1; i < j; i, j = i+1, j-1 {
		s.pieces[i], s.pieces[j] = s.pieces[j], s.pieces[i]
	}
	return s, flaws
}

// snapped returns how far the corners that a chord ends in lie from its line.
func snapped(l plane.Line, c plane.Chord) float64 {
	far := 0.0
	for _, h := range [2]plane.Hit{c.From, c.To} {
		if h.Corner {
			far = max(far, math.Abs(l.Offset(h.At)))
		}
	}
	return far
}

// end notes where a seam ends, if it ends on the region's border. In a corner of
// what is left one side is enough: where the other is the region's too, its end
// is marked anyway, and where it is a later seam, that seam ends there as well.
func (s *section) end(region, rest *plane.Face, h plane.Hit) {
	if label := rest.Labels[h.Edge]; int(label) < len(region.Corners) {
		s.ends = append(s.ends, seamEnd{label, h.At.Dist(region.Corners[label])})
	}
}
