package table

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"seamwright/compiler/pattern"
)

// A Row is one kind of patch from one fabric, for one block.
type Row struct {
	Fabric   int // index into Pattern.Fabrics
	Plain    bool
	Shape    pattern.Shape
	Size     pattern.Size // the longer side first
	Template string       // name of the drawing whose template is used, or ""
	Patches  int          // how many are sewn in, those of the other hand apart
	Reversed int          // of the other hand
	Spaces   []Space      // in the order of the sections
}

// A Space is where a patch goes: a piece of a drawing that is made Times over.
type Space struct {
	Drawing, Piece int
	Times          int
}

// Cloth returns how many squares or rectangles are cut for the patches, and for
// those of the other hand.
func (r *Row) Cloth() (straight, reversed int) {
	n := r.Shape.Yield()
	return (r.Patches + n - 1) / n, (r.Reversed + n - 1) / n
}

// Area returns the area of cloth in a row, in square inches.
func (r *Row) Area() float64 {
	straight, reversed := r.Cloth()
	return float64(r.Size.W*r.Size.H) * float64(straight+reversed)
}

// A Cuts is everything that is cut for one block.
type Cuts struct {
	Rows  []Row     // by fabric, the one of most cloth first; exact ones last; largest first
	Areas []float64 // of each of Pattern.Fabrics, in square inches

	reckon sync.Mutex
	by     reckoning // what cloth was reckoned by
	cloth  []FabricCloth
}

// key is what patches have in common that are cut alike.
type key struct {
	fabric   int
	plain    bool
	shape    pattern.Shape
	w, h     int32 // in 1/1000 in
	template int   // drawing, or -1
}

// List merges the equal patches of a block.
func List(p *pattern.Pattern, s *pattern.Sized) *Cuts {
	c := &Cuts{Areas: make([]float64, len(p.Fabrics))}
	rows := make(map[key]int)
	for d := range s.Drawings {
		drawing := &s.Drawings[d]
		for i := range drawing.Pieces {
			piece := &drawing.Pieces[i]
			k, size := keyOf(piece, d)
			at, known := rows[k]
			if !known {
				at = len(c.Rows)
				rows[k] = at
				row := Row{Fabric: k.fabric, Plain: k.plain, Shape: k.shape, Size: size}
				if k.template >= 0 {
					row.Template = drawing.Name
				}
				c.Rows = append(c.Rows, row)
			}
			row := &c.Rows[at]
			row.Spaces = append(row.Spaces, Space{d, i, drawing.Make})
			if piece.Patch.Reversed {
				row.Reversed += drawing.Make
			} else {
				row.Patches += drawing.Make
			}
		}
	}
	for i := range c.Rows {
		c.Areas[c.Rows[i].Fabric] += c.Rows[i].Area()
	}
	slices.SortStableFunc(c.Rows, c.compare)
	return c
}

func keyOf(piece *pattern.Piece, drawing int) (key, pattern.Size) {
	patch := &piece.Patch
	w, h := max(patch.Size.W, patch.Size.H), min(patch.Size.W, patch.Size.H)
	k := key{fabric: piece.Fabric, plain: patch.Plain, shape: patch.Shape, w: thousandths(w), h: thousandths(h), template: -1}
	if patch.Shape == pattern.TemplatePatch {
		k.template = drawing
	}
	return k, pattern.Size{W: w, H: h}
}

func thousandths(l pattern.Length) int32 { return int32(math.Round(float64(l) * 1000)) }

func (c *Cuts) compare(a, b Row) int {
	return cmp.Or(
		-cmp.Compare(c.Areas[a.Fabric], c.Areas[b.Fabric]),
		cmp.Compare(a.Fabric, b.Fabric),
		compareBool(a.Plain, b.Plain),
		-cmp.Compare(a.Size.W*a.Size.H, b.Size.W*b.Size.H),
		-cmp.Compare(a.Size.W, b.Size.W),
		cmp.Compare(a.Shape, b.Shape),
	)
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}
