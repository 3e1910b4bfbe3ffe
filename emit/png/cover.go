package png

import (
	"image"
	"math"
)

// An area tells how much of every dot of a rectangle lies in a shape. It is
// worked out from the signed areas between the shape's sides and the right edge
// of each dot; the sum along a row is the cover. That is exact up to where sides
// cross within one dot. (The rasterizer of golang.org/x/image does the same, but
// asks the processor for its kind at every start of the program, which takes
// longer there than reading a small pattern.)
type area struct {
	at   image.Rectangle
	sums []float64 // rows of at.Dx() + 2
}

// reset begins a shape in a rectangle.
func (a *area) reset(at image.Rectangle) {
	a.at = at
	n := (at.Dx() + 2) * at.Dy()
	if cap(a.sums) < n {
		a.sums = make([]float64, n)
	}
	a.sums = a.sums[:n]
	clear(a.sums)
}

// fine is into how many steps a dot is divided: corners lie on steps. Some
// processors round the last digit of a product otherwise; on steps that does not
// show, so a page is the same bytes everywhere. For the same reason products
// below are made float64 before they are added to: Go then rounds them first.
const fine = 1 << 10

// add adds a shape's sides.
func (a *area) add(s shape) {
	for _, contour := range s {
		for i, p := range contour {
			a.side(a.step(p), a.step(contour[(i+1)%len(contour)]))
		}
	}
}

func (a *area) step(p point) point {
	return point{math.Round(p.x*fine+tie)/fine - float64(a.at.Min.X), math.Round(p.y*fine+tie)/fine - float64(a.at.Min.Y)}
}

// tie keeps a place that lies just between two steps from being drawn to one or
// the other by noise.
const tie = 1e-4

func (a *area) side(p, q point) {
	down := 1.0
	if p.y > q.y {
		p, q, down = q, p, -1
	}
	if p.y == q.y {
		return
	}
	slope := (q.x - p.x) / (q.y - p.y)
	width := float64(a.at.Dx())
	last := min(a.at.Dy(), int(math.Ceil(q.y)))
	for y := max(0, int(math.Floor(p.y))); y < last; y++ {
		top, bottom := max(float64(y), p.y), min(float64(y+1), q.y)
		x0 := min(max(p.x+float64((top-p.y)*slope), 0), width) // what is left of all dots counts for all of them
		x1 := min(max(p.x+float64((bottom-p.y)*slope), 0), width)
		row := a.sums[y*(a.at.Dx()+2):][:a.at.Dx()+2]
		spread(row, min(x0, x1), max(x0, x1), float64((bottom-top)*down))
	}
}

// spread adds a side that goes through one row from x0 to x1 and is so high: to
// each dot what grows in it of the area to the side's right.
func spread(row []float64, x0, x1, height float64) {
	first, last := int(x0), int(math.Ceil(x1))-1
	if last <= first {
		part := (x0+x1)/2 - float64(first)
		row[first] += float64(height * (1 - part))
		row[first+1] += float64(height * part)
		return
	}
	before := 0.0 // the cover of the dot to the left
	for x := first; x <= last; x++ {
		from, to := max(x0, float64(x)), min(x1, float64(x+1))
		at := (from+to)/2 - x0 // the mean height of what has begun, where it is crossed
		cover := float64(height / (x1 - x0) * (float64(at*(to-from)) + float64((to-x0)*(float64(x+1)-to))))
		row[x] += cover - before
		before = cover
	}
	row[last+1] += height - before
}

// each calls use with the cover of each row, from 0 to 1.
func (a *area) each(use func(y int, cover []float64)) {
	wide := a.at.Dx() + 2
	for y := range a.at.Dy() {
		row := a.sums[y*wide:][:wide]
		sum := 0.0
		for x := range a.at.Dx() {
			sum += row[x]
			row[x] = min(math.Abs(sum), 1)
		}
		use(a.at.Min.Y+y, row[:a.at.Dx()])
	}
}
