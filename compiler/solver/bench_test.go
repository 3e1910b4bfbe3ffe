package solver

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"seamwright/compiler/plane"
)

// largeRandom cuts a square into n patches, each time one of the larger patches,
// by a line of any direction or of few; of every hundred lines, cross run on
// through one neighbour.
func largeRandom(n, directions, cross int) block {
	r := rand.New(rand.NewSource(1))
	side := math.Sqrt(float64(n))
	b := block{outline: box(side, side), faces: []plane.Polygon{box(side, side)}}
	split := func(i int, p, d plane.Point) bool {
		l, m := clip(b.faces[i], p, d, 1), clip(b.faces[i], p, d, -1)
		if len(l) < 3 || len(m) < 3 || l.Width() < 0.05 || m.Width() < 0.05 {
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
		angle := math.Pi * r.Float64()
		if directions > 0 {
			angle = math.Pi * float64(r.Intn(directions)) / float64(directions)
		}
		d := plane.Point{X: math.Cos(angle), Y: math.Sin(angle)}
		if !split(i, p, d) || len(b.faces) == n || r.Intn(100) >= cross {
			continue
		}
		ahead := 0.0
		for _, c := range face {
			ahead = max(ahead, d.Dot(c.Sub(p)))
		}
		for t := 0.0; t < ahead; t += 0.05 { // the first face beyond this one
			q := p.Add(d.Mul(t + 0.05))
			if face.Locate(q) >= 0 {
				continue
			}
			for j, f := range b.faces {
				if low, high := f.Box(); q.X > low.X && q.X < high.X && q.Y > low.Y && q.Y < high.Y && f.Locate(q) > 0 {
					split(j, p, d)
					break
				}
			}
			break
		}
	}
	return b
}

// logCabin winds n logs around a square.
func logCabin(n int) block {
	low, high := plane.Point{}, plane.Point{X: 2, Y: 2}
	var faces []plane.Polygon
	rect := func(x0, y0, x1, y1 float64) {
		faces = append(faces, plane.Polygon{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}})
	}
	rect(0, 0, 2, 2)
	for k := range n - 1 {
		switch k % 4 {
		case 0:
			rect(low.X, low.Y-1, high.X, low.Y)
			low.Y--
		case 1:
			rect(high.X, low.Y, high.X+1, high.Y)
			high.X++
		case 2:
			rect(low.X, high.Y, high.X, high.Y+1)
			high.Y++
		case 3:
			rect(low.X-1, low.Y, low.X, high.Y)
			low.X--
		}
	}
	return block{outline: plane.Polygon{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}}, faces: faces}
}

// pineapple cuts the corners of a square off, again and again, the square turned
// by half a right angle each time: 1 + 4 rounds patches.
func pineapple(rounds int) block {
	side := float64(rounds + 2)
	b := block{outline: box(side, side), faces: []plane.Polygon{box(side, side)}}
	c := plane.Point{X: side / 2, Y: side / 2}
	for k := range rounds {
		for q := range 4 {
			a := math.Pi/2*float64(q) + math.Pi/4*float64(k%2)
			if k%2 == 0 {
				a += math.Pi / 4
			}
			if k%2 == 1 {
				a -= math.Pi / 4
			}
			d := plane.Point{X: math.Cos(a), Y: math.Sin(a)}
			// Each round's lines lie a little nearer than the corners before.
			p := c.Add(d.Mul(side / 2 * (1.2 - 0.9*float64(k)/float64(rounds))))
			along := plane.Point{X: -d.Y, Y: d.X}
			l, m := clip(b.faces[0], p, along, 1), clip(b.faces[0], p, along, -1)
			if len(l) > 2 && len(m) > 2 {
				b.faces[0] = l
				b.faces = append(b.faces, m)
			}
		}
	}
	return b
}

// compass is a star of n points in a square: for each point a diamond of two
// halves, and background between, cut by a square's own corners.
func compass(n int) block {
	b := block{outline: box(8, 8), faces: []plane.Polygon{box(8, 8)}}
	c := plane.Point{X: 4, Y: 4}
	cutAll := func(p, d plane.Point, only func(plane.Polygon) bool) {
		var out []plane.Polygon
		for _, f := range b.faces {
			l, m := clip(f, p, d, 1), clip(f, p, d, -1)
			if len(l) > 2 && len(m) > 2 && only(f) {
				out = append(out, l, m)
			} else {
				out = append(out, f)
			}
		}
		b.faces = out
	}
	polar := func(r, a float64) plane.Point {
		return plane.Point{X: c.X + r*math.Cos(a), Y: c.Y + r*math.Sin(a)}
	}
	step := 2 * math.Pi / float64(n)
	for k := range n / 2 {
		a := step * float64(k)
		cutAll(c, plane.Point{X: math.Cos(a), Y: math.Sin(a)}, func(plane.Polygon) bool { return true })
	}
	for k := range n {
		// In each wedge, lines from the tip of either ray to the middle.
		a := step * (float64(k) + 0.5)
		in := func(q plane.Polygon) bool {
			d := middle(q).Sub(c)
			return d.Dot(plane.Point{X: math.Cos(a), Y: math.Sin(a)}) > d.Len()*math.Cos(step/2)
		}
		for _, s := range [2]float64{-0.5, 0.5} {
			tip, waist := polar(3.6, a+s*step), polar(1.2+0.3*float64(k%2), a)
			cutAll(tip, waist.Sub(tip), in)
		}
	}
	return b
}

func grid(n int) block {
	b := block{outline: box(float64(n), float64(n))}
	for i := range n {
		for j := range n {
			x, y := float64(i), float64(j)
			b.faces = append(b.faces, plane.Polygon{{X: x, Y: y}, {X: x + 1, Y: y}, {X: x + 1, Y: y + 1}, {X: x, Y: y + 1}})
		}
	}
	return b
}

// lines returns the seams of a block as drawn lines, one for each.
func (b block) lines() []plane.Line {
	p := Tile(b.outline, b.faces, 0)
	var out []plane.Line
	for _, s := range p.Seams {
		out = append(out, plane.Line{A: p.Points[s.Points[0]].Point, B: p.Points[s.Points[len(s.Points)-1]].Point})
	}
	return out
}

// An entry is a block of the benchmark.
type entry struct {
	name string
	size int // roughly, in patches
	make func() block

	proved bool // the fewest sections are found and proved
}

func benchmarks() []entry {
	var list []entry
	add := func(name string, parameter, size int, make func() block) {
		crossed := name == "crossings" || name == "dense" || name == "eight" || name == "axis" || name == "lattice"
		list = append(list, entry{fmt.Sprintf("%s-%d", name, parameter), size, make, !crossed || size <= 1024})
	}
	for _, n := range []int{10, 100, 1000, 10000} {
		add("tees", n, n, func() block { return largeRandom(n, 0, 0) })
		add("crossings", n, n, func() block { return largeRandom(n, 0, 20) })
		add("dense", n, n, func() block { return largeRandom(n, 0, 50) })
		add("eight", n, n, func() block { return largeRandom(n, 8, 20) })
		add("axis", n, n, func() block { return largeRandom(n, 2, 20) })
		add("lattice", n, n, func() block { return latticeRandom(n, 50) })
		add("diagonals", n, n, func() block { return diagonals(int(math.Sqrt(float64(n) / 2))) })
		add("cabin", n, n, func() block { return logCabin(n) })
		add("pineapple", n, n, func() block { return pineapple(n / 4) })
	}
	for _, n := range []int{8, 16, 32, 64} {
		add("compass", n, 4*n, func() block { return compass(n) })
	}
	for _, n := range []int{10, 16, 24, 31, 100} {
		add("grid", n, n*n, func() block { return grid(n) })
	}
	return list
}

// sheetWishes are what the compiler asks: at most twenty pieces, and that a
// section lies on a sheet of 7 x 10 units either way.
func sheetWishes(patches int) Wishes {
	return Wishes{MaxPieces: 20, Alike: make([]int, patches), Fits: func(q plane.Polygon) bool {
		low, high := q.Box()
		x, y := high.X-low.X, high.Y-low.Y
		return x <= 10 && y <= 7 || x <= 7 && y <= 10
	}}
}

func BenchmarkSolver(b *testing.B) {
	for _, e := range benchmarks() {
		b.Run(e.name, func(b *testing.B) {
			bl := e.make()
			lines := bl.lines()
			p := Build(bl.outline, lines, 0)
			if len(p.Faults) > 0 || len(p.Patches) != len(bl.faces) {
				b.Fatalf("%d patches of %d, %+v", len(p.Patches), len(bl.faces), p.Faults)
			}
			per := func(b *testing.B) {
				b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(len(p.Patches)), "µs/patch")
			}
			b.Run("build", func(b *testing.B) {
				for b.Loop() {
					Build(bl.outline, lines, 0)
				}
				per(b)
			})
			b.Run("sewable", func(b *testing.B) {
				for b.Loop() {
					if p.Unsewable() != nil {
						b.Fatal("can't be sewn")
					}
				}
				per(b)
			})
			b.Run("plan", func(b *testing.B) {
				var plan Plan
				for b.Loop() {
					plan = p.Plan(Wishes{})
				}
				per(b)
				b.ReportMetric(float64(plan.Least), "sections")
				b.ReportMetric(float64(plan.Bound), "bound")
				b.ReportMetric(float64(len(plan.Certificate)), "certificate")
				b.ReportMetric(float64(plan.Depth), "depth")
			})
			b.Run("wished", func(b *testing.B) {
				var plan Plan
				for b.Loop() {
					plan = p.Plan(sheetWishes(len(p.Patches)))
				}
				per(b)
				b.ReportMetric(float64(len(plan.Sections)), "sections")
				b.ReportMetric(float64(len(plan.Over)), "over")
			})
		})
	}
}
