package rules

import (
	"fmt"
	"math"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// greyStep is the least difference in lightness (CIE L*, 0 to 100) between the
// cloths of neighbouring pieces that still shows in a gray copy and to eyes
// that do not tell the hues apart.
const greyStep = 6.0

// Contrast: neighbouring cloths differ in value, not only in hue.
func (catalogue) Contrast() Rule {
	apart := count("gray_step", greyStep)
	return Rule{
		Limits: []Limit{apart},
		Info: problem.Info{
			Code:   "R107",
			Title:  "two neighbors have the same value",
			Rule:   "Cloths that lie side by side, across a seam or a join, differ in lightness, in every colorway. Where only the hue differs, the shape is lost in a gray copy, in dim light and to color-blind eyes.",
			Source: "common practice, no source; lightness L* after CIE 15 (formula from memory)",
			Example: `fabric buoy "buoy" medium #b8432f
fabric weed "weed" medium #5a7d2a
block float 4 x 4 finished 4in {
  section A {
    1 buoy at (1, 1)
    2 weed along (2, 0) -- (2, 4)
  }
}
`,
			Cured: `fabric buoy "buoy" medium #b8432f
fabric weed "weed" light #b9d18c
block float 4 x 4 finished 4in {
  section A {
    1 buoy at (1, 1)
    2 weed along (2, 0) -- (2, 4)
  }
}
`,
		},
		Pattern: func(p *pattern.Pattern, ls Limits, report func(Finding)) {
			like := alikes(p, ls.number(apart))
			if len(like) == 0 { // as in nearly all patterns: no neighbors need to be looked for
				return
			}
			worth := func(x, y *pattern.Piece) bool { return like[pairOf(x, y)] != nil }
			tell := func(x, y *pattern.Piece) {
				k := pairOf(x, y)
				for _, c := range like[k] {
					one, two := dress(p, c, k.a), dress(p, c, k.b)
					f := Finding{
						Severity: problem.Warning,
						At:       y.Source,
						Message:  fmt.Sprintf("%q and %q lie side by side and are equally light", one.Words, two.Words),
						Help:     "choose a lighter or darker color for one of them, or accept it here with a reason",
					}
					if c > 0 {
						f.Message += fmt.Sprintf(" in the colorway %q", p.Colorway[c].Words)
						f.Help = "choose a lighter or darker cloth for one of them there, or accept it here with a reason"
					}
					report(f)
				}
				delete(like, k) // once is enough
			}
			for b := range p.Blocks {
				if len(p.Blocks[b].Sizes) == 0 {
					continue
				}
				s := &p.Blocks[b].Sizes[0]
				for d := range s.Drawings {
					for _, n := range neighbours(&s.Drawings[d], worth) {
						tell(n[0], n[1])
					}
				}
				v := newView(p, ls, &p.Blocks[b], s)
				for i := range s.Joins {
					v.acrossJoin(&s.Joins[i], tell)
				}
			}
		},
	}
}

// A pair is two fabrics, the one that is declared first in front.
type pair struct{ a, b int }

func pairOf(x, y *pattern.Piece) pair {
	return pair{min(x.Fabric, y.Fabric), max(x.Fabric, y.Fabric)}
}

// alikes are the pairs of different fabrics that are less apart in lightness, with the
// colorways in which they are: there, roles that are dressed in one cloth are meant to
// be.
func alikes(p *pattern.Pattern, least float64) map[pair][]int {
	like := map[pair][]int{}
	light := make([]float64, len(p.Fabrics))
	for c := range max(1, len(p.Colorway)) {
		for i := range p.Fabrics {
			own := dress(p, c, i)
			light[i] = lightness(own.Colour)
			for k := range i {
				if math.Abs(light[i]-light[k]) < least && (c == 0 || own != dress(p, c, k)) {
					like[pair{k, i}] = append(like[pair{k, i}], c)
				}
			}
		}
	}
	return like
}

// dress returns the cloth of a fabric in a colorway, the first of which is the
// pattern's own.
func dress(p *pattern.Pattern, colorway, fabric int) pattern.Cloth {
	if colorway == 0 || fabric >= len(p.Colorway[colorway].Dress) {
		f := &p.Fabrics[fabric]
		return pattern.Cloth{Words: f.Words, Value: f.Value, Colour: f.Colour}
	}
	return p.Colorway[colorway].Dress[fabric]
}

// acrossJoin calls tell with every two pieces that lie side by side across a join.
func (v *View) acrossJoin(j *pattern.Join, tell func(x, y *pattern.Piece)) {
	line := segment(j.A, j.B).Ray()
	left, right := v.along(&line, j.Left), v.along(&line, j.Right)
	for _, x := range left {
		for _, y := range right {
			if min(x.high, y.high)-max(x.low, y.low) > onLine {
				tell(x.piece, y.piece)
			}
		}
	}
}

// A stretch is what of a line a piece lies along.
type stretch struct {
	piece     *pattern.Piece
	low, high float64
}

// along returns the pieces of copies that have a side on a line.
func (v *View) along(line *plane.Ray, copies []int) (all []stretch) {
	for _, c := range copies {
		of := v.Of(c)
		for i := range of {
			s := stretch{of[i].Piece, math.Inf(1), math.Inf(-1)}
			for _, q := range of[i].Polygon {
				if math.Abs(line.Offset(q)) < onLine {
					at := line.Along(q)
					s.low, s.high = min(s.low, at), max(s.high, at)
				}
			}
			if s.high-s.low > onLine {
				all = append(all, s)
			}
		}
	}
	return all
}

// neighbours returns pairs of pieces of a section that share a seam, of those that
// are asked for: the piece sewn by it, and each earlier piece with a side on it.
func neighbours(d *pattern.Drawing, wanted func(a, b *pattern.Piece) bool) [][2]*pattern.Piece {
	var pairs [][2]*pattern.Piece
	for i := 1; i < len(d.Pieces); i++ {
		seam := segment(d.Pieces[i].Seam[0], d.Pieces[i].Seam[1]).Ray()
		if seam.Len < onLine {
			continue
		}
		// Long sections have long seams; looking back a few pieces finds the
		// neighbors of ordinary ones and keeps the cost linear.
		const lookBack = 24
		for k := max(0, i-lookBack); k < i; k++ {
			if wanted(&d.Pieces[k], &d.Pieces[i]) && sideOn(&d.Pieces[k], &seam) {
				pairs = append(pairs, [2]*pattern.Piece{&d.Pieces[k], &d.Pieces[i]})
			}
		}
	}
	return pairs
}

// sideOn reports whether a side of the piece lies on the seam, for a length.
func sideOn(p *pattern.Piece, seam *plane.Ray) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range p.Polygon {
		if at := point(q); math.Abs(seam.Offset(at)) < onLine {
			along := seam.Along(at)
			low, high = min(low, along), max(high, along)
		}
	}
	return min(high, seam.Len)-max(low, 0) > onLine
}

// lightness is CIE L* of an sRGB color.
func lightness(rgb uint32) float64 {
	linear := func(c uint32) float64 {
		f := float64(c&0xff) / 255
		if f <= 0.04045 {
			return f / 12.92
		}
		return math.Pow((f+0.055)/1.055, 2.4)
	}
	y := 0.2126*linear(rgb>>16) + 0.7152*linear(rgb>>8) + 0.0722*linear(rgb)
	if y <= 216.0/24389 {
		return y * 24389 / 27
	}
	return 116*math.Cbrt(y) - 16
}
