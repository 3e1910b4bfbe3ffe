package quilting

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

// Lay works out every quilt of a pattern.
func Lay(p *pattern.Pattern) {
	for i := range p.Quilts {
		q := &p.Quilts[i]
		w := &work{p: p, q: q, out: &pattern.Layout{}, a: p.Settings.Allowance, step: p.Settings.PatchStep(true)}
		if q.Why = w.lay(); q.Why == "" {
			q.Layout = w.out
		}
	}
	dropUnused(p)
}

// dropUnused drops mirror images of blocks at sizes that no quilt has, which were not
// known before. They are the last of the blocks.
func dropUnused(p *pattern.Pattern) {
	kept := p.Blocks[:0]
	for b := range p.Blocks {
		block := p.Blocks[b]
		if block.Reverses != "" {
			var sizes []pattern.Sized
			for s := range block.Sizes {
				if moved := (pattern.Placed{Block: len(kept), Size: len(sizes)}); replace(p, b, s, moved) {
					sizes = append(sizes, block.Sizes[s])
				}
			}
			if block.Sizes = sizes; len(sizes) == 0 {
				continue
			}
		}
		kept = append(kept, block)
	}
	p.Blocks = kept
}

// replace gives places of a block at a size other indices, and reports whether there
// are any. Indices only get smaller, so that none is replaced twice.
func replace(p *pattern.Pattern, block, size int, by pattern.Placed) (found bool) {
	for i := range p.Quilts {
		if p.Quilts[i].Layout == nil {
			continue
		}
		for k := range p.Quilts[i].Layout.Placed {
			if at := &p.Quilts[i].Layout.Placed[k]; at.Block == block && at.Size == size {
				at.Block, at.Size, found = by.Block, by.Size, true
			}
		}
	}
	return found
}

// same is how near two finished widths must be to be one: it forgives 20cm
// against 7.874in, far below a thread of cloth.
const same pattern.Length = 0.001

// A work is the laying out of one quilt.
type work struct {
	p    *pattern.Pattern
	q    *pattern.Quilt
	out  *pattern.Layout
	a    pattern.Length // seam allowance
	step pattern.Length // of rounding
	side pattern.Size   // of the blocks, finished
	size pattern.Size   // of what is laid so far, from its lower left corner

	rows    []row    // from the top down
	corners []corner // triangles in the corners, on point
	joints  []joint
}

// A row is a strip of the quilt: its parts from the left, the direction in which it
// runs, and a point of its lower side.
type row struct {
	parts   []pattern.Part
	low     pattern.Pos
	dir     pattern.Pos
	sashing bool
}

// A corner is a triangle in a corner of the quilt and the ends of its long side.
type corner struct {
	part pattern.Part
	side [2]pattern.Pos
}

func (w *work) lay() (why string) {
	if why = w.measure(); why != "" {
		return why
	}
	if why = w.between(); why != "" {
		return why
	}
	if w.q.OnPoint {
		why = w.onPoint()
	} else {
		why = w.straight()
	}
	if why != "" {
		return why
	}
	w.joinRows()
	for i := range w.q.Borders {
		if why = w.border(&w.q.Borders[i]); why != "" {
			return why
		}
	}
	w.out.Size = w.size
	w.finishJoins()
	return w.finish()
}

// between looks at what is set between the blocks.
func (w *work) between() string {
	switch q := w.q; {
	case q.Sashing.Width == 0 && q.Cornerstones != pattern.NoFabric:
		return "it has cornerstones, but no sashing that they would stand between"
	case q.Sashing.Width > 0 && q.Sashing.Fabric == pattern.NoFabric:
		return "its sashing has no fabric: sashing 1in of sky"
	}
	return ""
}

// measure finds the size of the blocks: the one that is told, or else the least
// that all of them have.
func (w *work) measure() string {
	var names []string
	for _, row := range w.q.Rows {
		for _, c := range row {
			if c.Block != "" && !slices.Contains(names, c.Block) {
				names = append(names, c.Block)
			}
		}
	}
	switch {
	case len(names) == 0 && len(w.q.Rows) == 0:
		return "it doesn't say how many blocks it has: blocks boat, 5 x 6"
	case len(names) == 0:
		return "it has no block, only plain squares"
	}
	for _, name := range names {
		if w.block(name) == nil {
			return "`" + name + "` is a block of another file: write a block here that places it, and name that"
		}
	}
	first := w.block(names[0])
	for i := range first.Sizes {
		size := first.Sizes[i].Finished
		if w.q.Finished > 0 && abs(size.W-w.q.Finished) > same {
			continue
		}
		if slices.ContainsFunc(names, func(name string) bool { return w.sized(w.block(name), size) < 0 }) {
			continue
		}
		w.side = size
		return ""
	}
	if w.q.Finished > 0 {
		for _, name := range names {
			b := w.block(name)
			if !slices.ContainsFunc(b.Sizes, func(s pattern.Sized) bool { return abs(s.Finished.W-w.q.Finished) <= same }) {
				return "it is made of blocks of " + w.q.Finished.Exact() + ", and `" + name + "` is not finished in that size"
			}
		}
	}
	return "its blocks have no finished size in common"
}

// block returns a block by its name, or nil.
func (w *work) block(name string) *pattern.Block {
	i := slices.IndexFunc(w.p.Blocks, func(b pattern.Block) bool { return b.Name == name })
	if i < 0 {
		return nil
	}
	return &w.p.Blocks[i]
}

func (w *work) sized(b *pattern.Block, size pattern.Size) int {
	return slices.IndexFunc(b.Sizes, func(s pattern.Sized) bool {
		return abs(s.Finished.W-size.W) <= same && abs(s.Finished.H-size.H) <= same
	})
}

// place puts cell k of row i with its lower left corner, as it lies when turned, at a
// place; on point it is turned by half a right angle about that corner first.
func (w *work) place(i, k int, at pattern.Pos, tilt float64) pattern.Part {
	c := &w.q.Rows[i][k]
	if c.Block == "" {
		square := []pattern.Pos{{}, {X: w.side.W}, {X: w.side.W, Y: w.side.H}, {Y: w.side.H}}
		tilted := pattern.Copy{Turn: tilt, Shift: at}
		w.cut("plain squares", c.Fabric, w.exact(w.side), 1)
		return w.area("plain square", c.Fabric, moved(square, tilted.Motion()))
	}
	block := slices.IndexFunc(w.p.Blocks, func(b pattern.Block) bool { return b.Name == c.Block })
	reversed := c.Reversed
	if own := slices.IndexFunc(w.p.Blocks, func(b pattern.Block) bool { return b.Reverses == c.Block && len(b.Sizes) > 0 }); reversed && own >= 0 {
		block, reversed = own, false
	}
	placed := pattern.Placed{Block: block, Size: w.sized(&w.p.Blocks[block], w.side), Turn: float64(90 * c.Turn), Reversed: reversed,
		Row: i + 1, In: k + 1, Source: c.Source}
	// The corner of the turned block that is its lower left one, from its own.
	corner := placed.Motion()(pattern.Pos{})
	for _, q := range []pattern.Pos{{X: w.side.W}, {Y: w.side.H}, {X: w.side.W, Y: w.side.H}} {
		m := placed.Motion()(q)
		corner = pattern.Pos{X: min(corner.X, m.X), Y: min(corner.Y, m.Y)}
	}
	tilted := pattern.Copy{Turn: tilt}
	corner = tilted.Motion()(corner)
	placed.Turn += tilt
	placed.Shift = pattern.Pos{X: at.X - corner.X, Y: at.Y - corner.Y}
	w.out.Placed = append(w.out.Placed, placed)
	return pattern.Part(len(w.out.Placed) - 1)
}

func moved(polygon []pattern.Pos, by func(pattern.Pos) pattern.Pos) []pattern.Pos {
	out := make([]pattern.Pos, len(polygon))
	for i, q := range polygon {
		out[i] = by(q)
	}
	return out
}

func (w *work) area(what string, fabric int, polygon []pattern.Pos) pattern.Part {
	w.out.Areas = append(w.out.Areas, pattern.Area{For: what, Fabric: fabric, Polygon: polygon})
	return pattern.AreaPart(len(w.out.Areas) - 1)
}

func (w *work) rectangle(what string, fabric int, x, y, width, height pattern.Length) pattern.Part {
	return w.area(what, fabric, []pattern.Pos{{X: x, Y: y}, {X: x + width, Y: y}, {X: x + width, Y: y + height}, {X: x, Y: y + height}})
}

// exact returns a finished size with an allowance all round, as it is cut.
func (w *work) exact(s pattern.Size) pattern.Size {
	return pattern.Size{W: pattern.RoundUp(s.W+2*w.a, w.step), H: pattern.RoundUp(s.H+2*w.a, w.step)}
}

// cut notes patches; alike ones are counted together.
func (w *work) cut(what string, fabric int, size pattern.Size, n int) {
	shape := pattern.Rectangle
	if abs(size.W-size.H) < same {
		shape = pattern.Square
	}
	w.shaped(pattern.Cut{For: what, Fabric: fabric, Shape: shape, Size: pattern.Size{W: max(size.W, size.H), H: min(size.W, size.H)}, Count: n})
}

func (w *work) shaped(c pattern.Cut) {
	for i := range w.out.Cuts {
		o := &w.out.Cuts[i]
		if o.For == c.For && o.Fabric == c.Fabric && o.Shape == c.Shape && abs(o.Size.W-c.Size.W) < same && abs(o.Size.H-c.Size.H) < same {
			o.Count += c.Count
			return
		}
	}
	if c.Count > 0 {
		w.out.Cuts = append(w.out.Cuts, c)
	}
}

// run notes lengths of a long strip of a finished width; alike ones together.
func (w *work) run(what string, fabric int, width pattern.Length, lengths ...pattern.Length) {
	height := pattern.RoundUp(width+2*w.a, w.step)
	at := slices.IndexFunc(w.out.Runs, func(r pattern.Run) bool { return r.For == what && r.Fabric == fabric && abs(r.Height-height) < same })
	if at < 0 {
		at = len(w.out.Runs)
		w.out.Runs = append(w.out.Runs, pattern.Run{For: what, Fabric: fabric, Height: height})
	}
	for _, l := range lengths {
		w.out.Runs[at].Lengths = append(w.out.Runs[at].Lengths, pattern.RoundUp(l+2*w.a, w.step))
	}
}

func abs(l pattern.Length) pattern.Length { return pattern.Length(math.Abs(float64(l))) }
