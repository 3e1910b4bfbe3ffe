package emit

import (
	"math"
	"slices"
	"sync"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet"
	"seamwright/emit/diagram"
	"seamwright/emit/html"
	"seamwright/emit/table"
)

// layOut gets the cloth of every quilt ready to be worked out, once for all that
// tell of it.
func (w *work) layOut() {
	for i := range w.p.Quilts {
		q := &w.p.Quilts[i]
		cloth := sync.OnceValue(func() [][]table.Cloth { return table.QuiltCloth(w.p, q.Layout) })
		w.cloth = append(w.cloth, cloth)
		if q.Layout != nil {
			w.quilted = append(w.quilted, booklet.Quilt{Of: q, Cloth: cloth})
		}
	}
}

// quilts makes the files of every quilt that is laid out: pictures, what is cut
// beside its blocks, and the cloth of the whole. They are returned for the report's
// page, in the pattern's own cloths.
func (w *work) quilts(f *files) (shown []html.Quilt) {
	for i := range w.quilted {
		q, cloth := w.quilted[i].Of, w.quilted[i].Cloth
		folder := f.unique(safeName("quilt-" + q.Title))
		for k, picture := range diagram.Quilts(w.p, q) {
			var file *Output
			data := func() []byte { return w.picture(&picture) }
			if w.options.wants("diagrams") {
				file = f.draw(folder+"/"+picture.Name+".svg", data)
			}
			switch {
			case k == 0:
				shown = append(shown, html.Quilt{Of: q, Cloth: cloth, SVG: w.drawn(file, data)})
			case picture.Name == diagram.PressingName:
				shown[len(shown)-1].Pressing = w.drawn(file, data)
			}
		}
		if w.options.shows() {
			for _, picture := range diagram.PlainQuilts(w.p, q) {
				f.add(folder+"/"+picture.Name+".png", func() []byte { return dots(picture.Make(nil), w.options.Width) })
			}
		}
		if w.options.wants("tables") && !w.options.Soon {
			f.add(folder+"/quilt.md", func() []byte { return table.QuiltMarkdown(w.p, q, cloth(), w.prints(q.Layout), w.inTables()) })
			f.add(folder+"/quilt.csv", func() []byte { return table.QuiltCSV(w.p, q, cloth()) })
		}
	}
	return shown
}

// prints lists the sheets of a quilt's blocks and how often they are printed for all
// of it; none where no sheets are laid out.
func (w *work) prints(l *pattern.Layout) (all []table.Print) {
	for _, c := range table.Counts(w.p, l) {
		set := &w.sets[c.Block][c.Size]
		for i := range set.Sheets {
			all = append(all, table.Print{Folder: w.folders[c.Block][c.Size], Sheet: i + 1, Times: c.Count * set.Sheets[i].Print})
		}
	}
	return all
}

// allCloth returns the cloth of all quilts, none where it can't be waited for.
func (w *work) allCloth() [][][]table.Cloth {
	all := make([][][]table.Cloth, len(w.cloth))
	for i, cloth := range w.cloth {
		if w.options.Soon {
			all[i] = make([][]table.Cloth, len(w.p.Colorway))
		} else {
			all[i] = cloth()
		}
	}
	return all
}

// chooseQuilts keeps the layouts of those quilts whose blocks are all among the
// chosen sizes, and counts these anew.
func chooseQuilts(all, chosen *pattern.Pattern) {
	chosen.Quilts = slices.Clone(all.Quilts)
	for i := range chosen.Quilts {
		q := &chosen.Quilts[i]
		if q.Layout == nil {
			continue
		}
		l := *q.Layout
		l.Placed = slices.Clone(l.Placed)
		q.Layout = &l
		for k := range l.Placed {
			placed := &l.Placed[k]
			from := &all.Blocks[placed.Block]
			width := from.Sizes[placed.Size].Finished.W
			placed.Block = slices.IndexFunc(chosen.Blocks, func(b pattern.Block) bool { return b.Name == from.Name })
			if placed.Block < 0 {
				q.Layout = nil
				break
			}
			placed.Size = slices.IndexFunc(chosen.Blocks[placed.Block].Sizes, func(s pattern.Sized) bool {
				return math.Abs(float64(s.Finished.W-width)) < sameSize
			})
			if placed.Size < 0 {
				q.Layout = nil
				break
			}
		}
	}
}
