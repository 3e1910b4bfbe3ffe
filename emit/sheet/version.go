package sheet

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// markLength is the number of characters of a version mark: 30 bits, enough to
// tell any two editions of a pattern apart.
const markLength = 6

// markAlphabet has no letter that is read as a digit.
const markAlphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// markGrain is the fineness with which the mark looks at lengths: what is
// printed alike has one mark, whatever the last bits of the numbers.
const markGrain = 0.01 * pattern.Millimetre

// markTip keeps what lies halfway between two steps, as an eighth of an inch does,
// from being rounded by the noise of its last bits, which is not the same on every
// processor.
const markTip = 1e-4

// versionMark is computed from what is printed on the sheets, all of it: lines,
// numbers, words. A correction in a comment of the text leaves it alone. The tallies
// of the sheets are taken as they are drawn.
func versionMark(sheets []Sheet, tallies []tally) string {
	var all tally
	var seen []*drawing.Group // few: the heads that there are
	for i := range sheets {
		all.add(uint64(tallies[i]))
		for _, item := range sheets[i].Page.Items {
			if g, ok := item.(*drawing.Group); ok && g.Shared && !slices.Contains(seen, g) {
				seen = append(seen, g)
				all.items(g.Items)
			}
		}
	}
	bits := uint64(all)
	out := make([]byte, markLength)
	for i := range out {
		out[i] = markAlphabet[bits>>59]
		bits <<= 5
	}
	return string(out)
}

// A tally stands for what is drawn. It guards against accident, not malice, and a
// large block has a hundred thousand strokes, so it costs little: numbers are
// mixed in by multiplication, as in hashing (Knuth, The Art of Computer
// Programming 3, 6.4).
type tally uint64

func (s *tally) add(v uint64) {
	const golden = 0x9E3779B97F4A7C15 // 2^64 divided by the golden ratio
	*s = (*s ^ tally(v)) * golden
	*s ^= *s >> 32
}

func (s *tally) items(items []drawing.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			one := len(item.Points)
			if item.Pairs { // as if each stroke were a path
				one = 2
			}
			for i, p := range item.Points {
				if i%one == 0 {
					s.add(uint64(item.Style)<<48 ^ uint64(uint32(item.Fill)) ^ uint64(one)<<32)
					s.length(item.Circle)
				}
				s.length(p.X)
				s.length(p.Y)
			}
		case *drawing.Text:
			s.words(item.Text)
			s.add(uint64(item.Anchor)<<32 ^ uint64(int64(math.Round(item.Turn*100))))
			s.length(item.At.X)
			s.length(item.At.Y)
			s.length(item.Size)
		case *drawing.Group:
			if item.Shared { // the same on many sheets, and its name stands for it
				s.words(item.ID)
			} else {
				s.items(item.Items)
			}
		}
	}
}

func (s *tally) words(text string) {
	s.add(uint64(len(text)))
	for len(text) >= 8 {
		s.add(uint64(text[0]) | uint64(text[1])<<8 | uint64(text[2])<<16 | uint64(text[3])<<24 |
			uint64(text[4])<<32 | uint64(text[5])<<40 | uint64(text[6])<<48 | uint64(text[7])<<56)
		text = text[8:]
	}
	last := uint64(0)
	for i := range len(text) {
		last = last<<8 | uint64(text[i])
	}
	s.add(last)
}

func (s *tally) length(l length) {
	s.add(uint64(int64(math.Floor(float64(l/markGrain) + 0.5 + markTip))))
}
