package families_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"seamwright/compiler/pattern"
)

// More published figures of families that figures_test.go and figures_drawn_test.go
// hold already: other sizes of the same blocks, and other ways of cutting them.

// Geese by corner squares: a rectangle w + 1/2 x h + 1/2 and two squares h + 1/2 that
// are sewn on their diagonals. 6 x 3 takes 3 1/2 x 6 1/2 and two of 3 1/2 (Star in a
// star, issuu.com); 3 x 1 1/2 takes 2 x 3 1/2 and two of 2 (Pumpkin Patch Quilter, 2009).
func TestGeeseByCornerSquares(t *testing.T) {
	for _, g := range []struct{ w, high, long, square float64 }{{6, 3.5, 6.5, 3.5}, {3, 2, 3.5, 2}} {
		s := sized(t, "flying_geese", "flying_geese", "goose: a, sky: b", "2 x 1", fmt.Sprintf("%gin", g.w))
		near(t, "rectangle", float64(s.Finished.H)+strip, g.high, exact)
		near(t, "rectangle", float64(s.Finished.W)+strip, g.long, exact)
		for _, sky := range pieces(s, 0)[1:] {
			near(t, "square", sides(sky)[1]+strip, g.square, exact)
			near(t, "the other side of the square", sides(sky)[2]+strip, g.square, exact)
		}
	}
}

// A star of 12 in of sixteen cells cut 3 1/2, its half-square triangles from squares of
// 3 7/8 (a block of the month, delawarequilts.com). With geese: corners 3 1/2, a square
// of 7 1/4 for the four geese's grounds, points from 3 7/8 (A. Lines, Fast Geese, 2011;
// Fast flying geese, members.shaw.ca/beverlysquiltingpage, the row of 6 x 3), center
// 6 1/2, which is computed.
func TestStarOfTwelve(t *testing.T) {
	s := sized(t, "sawtooth_star", "sawtooth_star", "heart: a, points: b, ground: d", "4 x 4", "12in")
	count := map[string]int{}
	area := 0.0
	for _, p := range everyPiece(s) {
		d := sides(p.Polygon)
		switch {
		case len(d) == 3 && math.Abs(d[0]-6) < exact:
			count[fmt.Sprintf("ground of %g", up8(d[0]+whole))]++
			area += 9
			// As cells: two half-square triangles that meet back to back.
			near(t, "cell", d[0]/2, 3, exact)
		case len(d) == 3:
			count[fmt.Sprintf("point of %g", up8(d[1]+half))]++
			area += 4.5
		default:
			count[fmt.Sprintf("square %g", d[0]+strip)]++
			area += d[0] * d[0]
		}
	}
	wantCuts(t, "star", count, map[string]int{"ground of 7.25": 4, "point of 3.875": 8, "square 3.5": 4, "square 6.5": 1})
	near(t, "cells of 3 in", area/9, 16, exact)
}

// Square in a square, the block known: the center is cut half the block times 1.414
// and 1/2, 8.984 for 12 in, which is given as 9 (Lesson 5, slideblast.com). For 9 in
// that is 6.863 (computed by its rule).
func TestSquareInASquareOfNine(t *testing.T) {
	for block, want := range map[string][2]float64{"12in": {8.984, 9}, "9in": {6.863, 6.875}} {
		s := sized(t, "square_in_a_square", "square_in_a_square", "heart: a, inner: b", "4 x 4", block)
		cut := sides(pieces(s, 0)[0])[0] + strip
		near(t, "center of "+block, cut, want[0], 0.002) // 1.414 for the root of 2
		near(t, "center of "+block+", cut", up8(cut), want[1], exact)
	}
}

// Grids: nine-patches of squares of 2 to 6 in are 6, 9, 12, 15 and 18 in; five-patches
// of 2, 3 and 4 in are 10, 15 and 20 (Drafting 101, moonlightquilters.org).
func TestGrids(t *testing.T) {
	for n, blocks := range map[int][]float64{3: {6, 9, 12, 15, 18}, 5: {10, 15, 20}} {
		for i, block := range blocks {
			s := sized(t, "checkerboard", "checkerboard", fmt.Sprintf("squares: %d, first: a, second: b", n), "6 x 6", fmt.Sprintf("%gin", block))
			list := everyPiece(s)
			if len(list) != n*n {
				t.Fatalf("%d pieces", len(list))
			}
			for k := range list {
				near(t, fmt.Sprintf("square of %g in", block), sides(list[k].Polygon)[0], float64(i+2), exact)
			}
		}
	}
}

// S. Collins, Drafting for the Creative Quilter, C&T 2010: strips of a pineapple of
// 6 in are 6 / 12 = 1/2 in; strips of 3/4 in make 8 divisions, which are 3 rounds; the
// block is divisions x strip.
func TestPineappleStrips(t *testing.T) {
	for _, c := range []struct {
		rounds                  int
		divisions, block, strip float64
	}{{5, 12, 6, 0.5}, {3, 8, 6, 0.75}, {4, 10, 7.5, 0.75}} {
		p := compile(t, fmt.Sprintf("use pineapple from \"std/pineapple\"\n%s"+
			"block t %g x %g finished %gin { place pineapple(rounds: %d, heart: a, straight: b, slanting: d) at sw }\n",
			cloths, c.divisions, c.divisions, c.block, c.rounds))
		s := &p.Blocks[0].Sizes[0]
		near(t, "center", sides(pieces(s, 0)[0])[0], 2*c.strip, exact)
		near(t, "block", float64(s.Finished.W), c.divisions*c.strip, exact)
	}
}

// S. Collins, Drafting for the Creative Quilter, C&T 2010: the middles of the four
// segments of a quarter circle lie at 11.25, 33.75, 56.25 and 78.75 degrees.
func TestMiddlesOfAFan(t *testing.T) {
	s := sized(t, "fan_of_rays", "fan_of_rays", "rays: 4, hub: a, first: b, second: d", "8 x 8", "8in")
	var middles []float64
	for _, p := range pieces(s, 0)[:4] {
		low, high := math.Inf(1), math.Inf(-1)
		for _, q := range p {
			if math.Hypot(float64(q.X), float64(q.Y)) < 7 {
				continue // an end of the hub
			}
			a := math.Atan2(float64(q.Y), float64(q.X)) * 180 / math.Pi
			low, high = min(low, a), max(high, a)
		}
		middles = append(middles, (low+high)/2)
	}
	slices.Sort(middles)
	for i, want := range []float64{11.25, 33.75, 56.25, 78.75} {
		near(t, "middle", middles[i], want, exact)
	}
}

// A square whose corners are cut away at a third has eight sides, but is no regular
// octagon: those at its corners are longer by the root of two (Pythagoras and octagons,
// catbirdquilts.wordpress.com).
func TestSnowballOfThirds(t *testing.T) {
	s := sized(t, "snowball", "snowball", "cut: 4 / 3, ball: a, corners: b", "4 x 4", "6in")
	i := slices.IndexFunc(everyPiece(s), func(p pattern.Piece) bool { return len(sides(p.Polygon)) == 8 })
	if i < 0 {
		t.Fatal("there is no octagon")
	}
	d := sides(everyPiece(s)[i].Polygon)
	near(t, "longest by shortest", d[0]/d[7], math.Sqrt2, exact)
}
