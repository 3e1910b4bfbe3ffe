package rules

import (
	"fmt"
	"math"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// greyStep is the least difference in lightness (CIE L*, 0 to 100) between the
// cloths of neighbouring pieces that still shows in a grey copy and to eyes
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
			Rule:   "Cloths that lie side by side across a seam of a section differ in lightness. Where only the hue differs, the shape is lost in a grey copy, in dim light and to color-blind eyes.",
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
			type pair struct{ a, b int }
			of := func(x, y *pattern.Piece) pair { return pair{min(x.Fabric, y.Fabric), max(x.Fabric, y.Fabric)} }
			least := ls.number(apart)
			light := make([]float64, len(p.Fabrics))
			for i := range p.Fabrics {
				light[i] = lightness(p.Fabrics[i].Colour)
			}
			told := map[pair]bool{}
			worth := func(x, y *pattern.Piece) bool {
				return x.Fabric != y.Fabric && math.Abs(light[x.Fabric]-light[y.Fabric]) < least && !told[of(x, y)]
			}
			for b := range p.Blocks {
				if len(p.Blocks[b].Sizes) == 0 {
					continue
				}
				s := &p.Blocks[b].Sizes[0]
				for d := range s.Drawings {
					for _, n := range neighbours(&s.Drawings[d], worth) {
						k := of(n[0], n[1])
						if told[k] {
							continue
						}
						told[k] = true
						one, two := &p.Fabrics[k.a], &p.Fabrics[k.b]
						report(Finding{
							Severity: problem.Warning,
							At:       n[1].Source,
							Message:  fmt.Sprintf("%q and %q lie side by side and are equally light", one.Words, two.Words),
							Help:     "choose a lighter or darker color for one of them, or accept it here with a reason",
						})
					}
				}
			}
		},
	}
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
