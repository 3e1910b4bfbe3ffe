package trace

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/plane"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A Traced is the text of a pattern, and what a person should know of it.
type Traced struct {
	Text    string
	W, H    float64 // squares
	Parts   int     // of a square, on which points lie
	Off     int     // points that lie beside that
	Near    float64 // what was taken as one point, in squares
	Lines   int
	Patches int // 0 if the lines make none: they end in the middle, or float
	Fabrics int
	Repeats int // placed units, 0 if none
	Frame   Frame
}

// Text writes the drawing as a pattern of one drawn block.
func (d *Drawing) Text(o Options) (*Traced, error) {
	if o.Snap == 0 {
		o.Snap = DefaultSnap
	}
	if !(o.Snap >= leastSnap && o.Snap <= mostSnap) {
		return nil, fmt.Errorf("the tolerance is a part of the longer side, from %g to %g", leastSnap, mostSnap)
	}
	frame := d.frame(o.Snap)
	shapes, g := d.snap(o.Snap)
	if g.high.X-g.low.X <= g.near || g.high.Y-g.low.Y <= g.near {
		return nil, errors.New("all of its lines lie on one line")
	}
	p := g.see(shapes)
	w := &writer{picture: p, fabrics: p.colors()}
	fmt.Fprintf(&w.text, "pattern %q {\nedition 1\n}\n\n", o.Title)
	for i, f := range w.fabrics {
		fmt.Fprintf(&w.text, "fabric %s \"%s\" %s #%06x\n", f.name, strings.ReplaceAll(f.name, "_", " "), lightness(f.rgb), f.rgb)
		w.fabrics[i] = f
	}
	t := &Traced{W: g.W, H: g.H, Parts: g.parts, Off: g.Off, Near: g.near / g.unit, Lines: len(p.lines), Patches: len(p.patches), Fabrics: len(w.fabrics), Frame: frame}
	if p.loose {
		t.Patches = 0
	}
	if r := p.repeated(); r != nil && t.Patches > 0 {
		t.Repeats = len(r.cells)
		w.repeat(r, o.Name)
	} else {
		w.block(o.Name, g.W, g.H)
		w.drawn(p.lines, p.patches)
	}
	w.text.WriteString("}\n")
	file, problems := lang.Parse(&problem.Source{Name: o.Name, Text: w.text.String()})
	if problem.Failed(problems) {
		return nil, errors.New("its text came out wrong, which is a fault of the program: " + problems[0].Message)
	}
	t.Text = lang.Format(file)
	return t, nil
}

type writer struct {
	*picture
	text    strings.Builder
	fabrics []fabric
}

type fabric struct {
	name string
	rgb  uint32
	bare bool // the patches without a fill
	area float64
}

// colors lists the fabrics by how much of the block they cover: the first is the
// ground.
func (p *picture) colors() []fabric {
	var list []fabric
	for i := range p.patches {
		q := &p.patches[i]
		k := slices.IndexFunc(list, func(f fabric) bool { return f.bare != q.filled && (f.bare || f.rgb == q.color) })
		if k < 0 {
			k = len(list)
			list = append(list, fabric{rgb: q.color, bare: !q.filled})
		}
		list[k].area += q.polygon.Area()
	}
	slices.SortStableFunc(list, func(a, b fabric) int {
		return cmp.Or(-cmp.Compare(math.Round(a.area*1e6), math.Round(b.area*1e6)), cmp.Compare(a.rgb, b.rgb))
	})
	for i := range list {
		if list[i].name = "cloth_" + strconv.Itoa(i+1); i == 0 {
			list[i].name = "ground"
		}
		if list[i].bare {
			list[i].rgb = 0xffffff
		}
	}
	return list
}

func (w *writer) fabric(q *patch) string {
	for _, f := range w.fabrics {
		if f.bare != q.filled && (f.bare || f.rgb == q.color) {
			return f.name
		}
	}
	return "ground"
}

// lightness is the word for a color: by its lightness L* (CIE 1976) in thirds.
func lightness(rgb uint32) string {
	linear := func(v uint32) float64 {
		f := float64(v&255) / 255
		if f <= 0.04045 {
			return f / 12.92
		}
		return math.Pow((f+0.055)/1.055, 2.4)
	}
	y := 0.2126*linear(rgb>>16) + 0.7152*linear(rgb>>8) + 0.0722*linear(rgb)
	switch l := 116*math.Cbrt(y) - 16; {
	case l < 45:
		return "dark"
	case l < 75:
		return "medium"
	}
	return "light"
}

func (w *writer) block(name string, width, height float64) {
	fmt.Fprintf(&w.text, "\nblock %s %s x %s finished 8in {\n", name, number(width), number(height))
}

func (w *writer) repeat(r *repeat, name string) {
	for i := range r.kinds {
		fmt.Fprintf(&w.text, "\nunit part_%d %s x %s {\n", i+1, number(r.w), number(r.h))
		w.drawn(r.kinds[i].lines, r.kinds[i].patches)
		w.text.WriteString("}\n")
	}
	w.block(name, w.W, w.H)
	for _, c := range r.cells {
		fmt.Fprintf(&w.text, "place part_%d by c at %s", c.kind+1, point(c.middle))
		if c.quarters > 0 {
			fmt.Fprintf(&w.text, " turn %ddeg", 90*c.quarters)
		}
		if c.reversed {
			w.text.WriteString(" reversed")
		}
		w.text.WriteString("\n")
	}
}

// drawn writes lines, chained where one goes on from the other, and pieces by
// their fabrics.
func (w *writer) drawn(lines []plane.Line, patches []patch) {
	for _, chain := range chained(lines) {
		text := make([]string, len(chain))
		for i, p := range chain {
			text[i] = point(p)
		}
		w.text.WriteString("line " + strings.Join(text, " -- ") + "\n")
	}
	for _, f := range w.fabrics {
		var at []string
		for i := range patches {
			if w.fabric(&patches[i]) == f.name {
				at = append(at, point(patches[i].place()))
			}
			if len(at) == perLine || i == len(patches)-1 && len(at) > 0 {
				w.text.WriteString("piece " + f.name + " at " + strings.Join(at, ", ") + "\n")
				at = nil
			}
		}
	}
}

// perLine is how many points or corners stand on a line of the text.
const perLine = 6

// chained puts lines together that begin where another ends.
func chained(lines []plane.Line) (chains [][]plane.Point) {
	used := make([]bool, len(lines))
	for i := range lines {
		if used[i] {
			continue
		}
		used[i] = true
		chain := []plane.Point{lines[i].A, lines[i].B}
		for k := 0; k < len(lines) && len(chain) < perLine; k++ {
			end := chain[len(chain)-1]
			switch {
			case used[k]:
				continue
			case lines[k].A.Same(end):
				chain = append(chain, lines[k].B)
			case lines[k].B.Same(end):
				chain = append(chain, lines[k].A)
			default:
				continue
			}
			used[k] = true
			k = -1 // look again from the beginning
		}
		chains = append(chains, chain)
	}
	return chains
}

// place returns the point that names a patch: well inside, and whose numbers are as
// short as can be.
func (q *patch) place() plane.Point {
	if q.at != nil {
		return *q.at
	}
	p := q.polygon
	middle := p.Interior()
	clear := p.Nearest(middle).Dist(middle) / 2
	return short(middle, func(at plane.Point) bool { return p.Locate(at) > 0 && p.Nearest(at).Dist(at) >= clear })
}

// short returns the place near a point with the shortest numbers that will do, or
// the point.
func short(p plane.Point, does func(plane.Point) bool) plane.Point {
	for _, parts := range [...]float64{1, 2, 4, 8, 16, 32} {
		q := plane.Point{X: math.Round(p.X*parts) / parts, Y: math.Round(p.Y*parts) / parts}
		if does(q) {
			return q
		}
	}
	return p
}

func point(p plane.Point) string { return "(" + number(p.X) + ", " + number(p.Y) + ")" }

// number writes a number with a small denominator as one has it on graph paper,
// any other in decimals.
func number(x float64) string {
	for _, parts := range [...]float64{1, 2, 3, 4, 6, 8, 12, 16, 32} {
		n := math.Round(x * parts)
		if math.Abs(n/parts-x) > plane.Tol/10 {
			continue
		}
		whole, part := math.Trunc(n/parts), math.Abs(math.Mod(n, parts))
		switch {
		case part == 0:
			return strconv.FormatFloat(whole+0, 'f', -1, 64)
		case whole != 0:
			return fmt.Sprintf("%g %g/%g", whole, part, parts)
		}
		return fmt.Sprintf("%g/%g", n, parts)
	}
	return strings.TrimRight(strconv.FormatFloat(x, 'f', 9, 64), "0")
}
