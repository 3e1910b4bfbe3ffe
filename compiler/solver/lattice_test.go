package solver

import (
	"math"
	"math/rand"

	"seamwright/compiler/plane"
)

// latticeRandom cuts a square into n patches by lines along quarters of its grid, as
// people draw them; of every hundred lines, cross run on through one neighbour.
func latticeRandom(n, cross int) block {
	r := rand.New(rand.NewSource(1))
	side := math.Ceil(math.Sqrt(float64(n)))
	b := block{outline: box(side, side), faces: []plane.Polygon{box(side, side)}}
	split := func(i int, p, d plane.Point) bool {
		l, m := clip(b.faces[i], p, d, 1), clip(b.faces[i], p, d, -1)
		if len(l) < 3 || len(m) < 3 || l.Width() < 0.24 || m.Width() < 0.24 {
			return false
		}
		b.faces[i] = l
		b.faces = append(b.faces, m)
		return true
	}
	for len(b.faces) < n {
		i := r.Intn(len(b.faces))
		for range 3 {
			if j := r.Intn(len(b.faces)); b.faces[j].Area() > b.faces[i].Area() {
				i = j
			}
		}
		face := b.faces[i]
		p := middle(face)
		p = p.Add(face[r.Intn(len(face))].Sub(p).Mul(0.5 * r.Float64()))
		p = plane.Point{X: math.Round(4*p.X) / 4, Y: math.Round(4*p.Y) / 4}
		d := plane.Point{X: 1}
		if r.Intn(2) == 0 {
			d = plane.Point{Y: 1}
		}
		if !split(i, p, d) || len(b.faces) == n || r.Intn(100) >= cross {
			continue
		}
		ahead := 0.0
		for _, c := range face {
			ahead = max(ahead, d.Dot(c.Sub(p)))
		}
		q := p.Add(d.Mul(ahead + 0.125))
		for j, f := range b.faces {
			if low, high := f.Box(); q.X > low.X && q.X < high.X && q.Y > low.Y && q.Y < high.Y && f.Locate(q) > 0 {
				split(j, p, d)
				break
			}
		}
	}
	return b
}

// diagonals is a grid of n x n squares, each cut along either of its diagonals.
func diagonals(n int) block {
	r := rand.New(rand.NewSource(1))
	b := block{outline: box(float64(n), float64(n))}
	for i := range n {
		for j := range n {
			x, y := float64(i), float64(j)
			c := plane.Polygon{{X: x, Y: y}, {X: x + 1, Y: y}, {X: x + 1, Y: y + 1}, {X: x, Y: y + 1}}
			if r.Intn(2) == 0 {
				b.faces = append(b.faces, plane.Polygon{c[0], c[1], c[2]}, plane.Polygon{c[0], c[2], c[3]})
			} else {
				b.faces = append(b.faces, plane.Polygon{c[0], c[1], c[3]}, plane.Polygon{c[1], c[2], c[3]})
			}
		}
	}
	return b
}
