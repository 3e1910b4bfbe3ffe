package compare

import (
	"math"
	"slices"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/edition"
)

// Compare tells what changed from one record to another.
func Compare(old, new *edition.Record) *Report {
	w := &work{report: &Report{Old: old, New: new, matched: map[string]*matching{}}, renamed: map[string]string{}}
	w.cloth()
	w.words()
	for _, b := range pairs(old.Blocks, new.Blocks, func(b *edition.Block) string { return b.Name }) {
		w.block(b.old, b.new)
	}
	w.layouts()
	w.report.Changes = merged(w.all)
	return w.report
}

// A work is one comparison. Changes are first told for each size apart.
type work struct {
	report  *Report
	all     []Change
	renamed map[string]string // fabrics of the old: their names in the new
	plain   int               // how many changes concern the whole pattern
}

func (w *work) tell(c Change) {
	c.Affects = affects(&c)
	w.all = append(w.all, c)
}

// A couple is what stands for one thing in both versions; one of them is nil
// where it came or went.
type couple[T any] struct{ old, new *T }

// pairs couples lists by name, in the order of the new one; what went comes last.
func pairs[T any](old, new []T, name func(*T) string) []couple[T] {
	was := map[string]*T{}
	for i := range old {
		was[name(&old[i])] = &old[i]
	}
	var out []couple[T]
	for i := range new {
		n := name(&new[i])
		out = append(out, couple[T]{was[n], &new[i]})
		delete(was, n)
	}
	for i := range old {
		if was[name(&old[i])] != nil {
			out = append(out, couple[T]{old: &old[i]})
		}
	}
	return out
}

// text tells of a text that is otherwise.
func (w *work) text(c Change, old, new string) {
	if old != new {
		c.Old, c.New = old, new
		w.tell(c)
	}
}

func (w *work) listed(kind Kind, aspect string, old, new []edition.Word) {
	for _, p := range pairs(old, new, func(e *edition.Word) string { return e.Name }) {
		name, was, is := told(p)
		w.text(Change{Kind: kind, Subject: name, Aspect: aspect}, was, is)
	}
}

// words compares what the author says, and the settings.
func (w *work) words() {
	old, new := w.report.Old, w.report.New
	w.listed(Words, "words", old.Words, new.Words)
	w.listed(Settings, "setting", old.Settings, new.Settings)
	w.listed(Words, "quilt", old.Quilts, new.Quilts)
	w.plain = len(w.all)
}

// cloth compares fabrics by their names; a name alone is not printed, so one that
// is called otherwise and is otherwise the same is the same.
func (w *work) cloth() {
	old, new := w.report.Old, w.report.New
	couples := pairs(old.Fabrics, new.Fabrics, func(f *edition.Fabric) string { return f.Name })
	for i := range couples {
		for k := range couples {
			a, b := &couples[i], &couples[k]
			if a.old == nil && b.new == nil && b.old != nil && a.new != nil && a.new.Words == b.old.Words {
				a.old, b.old = b.old, nil
			}
		}
	}
	for _, c := range couples {
		switch {
		case c.old == nil && c.new == nil:
		case c.old == nil:
			w.tell(Change{Kind: Cloth, Subject: "fabric " + c.new.Words, Aspect: "fabric", New: described(c.new), At: c.new.At})
		case c.new == nil:
			w.tell(Change{Kind: Cloth, Subject: "fabric " + c.old.Words, Aspect: "fabric", Old: described(c.old)})
		default:
			w.renamed[c.old.Name] = c.new.Name
			of := Change{Kind: Cloth, Subject: "fabric " + c.old.Words, At: c.new.At}
			for _, x := range [...][3]string{{"words", c.old.Words, c.new.Words}, {"value", c.old.Value, c.new.Value},
				{"color", c.old.Color, c.new.Color}, {"scrappy", c.old.Varied, c.new.Varied}} {
				of.Aspect = x[0]
				w.text(of, x[1], x[2])
			}
		}
	}
	for _, c := range pairs(old.Colorways, new.Colorways, func(c *edition.Colorway) string { return c.Name }) {
		w.text(Change{Kind: Cloth, Subject: "colorway " + wayName(c), Aspect: "cloths"}, w.dressed(c.old, true), w.dressed(c.new, false))
	}
}

func described(f *edition.Fabric) string { return f.Words + ", " + f.Value + ", " + f.Color }

func wayName(c couple[edition.Colorway]) string {
	if c.new != nil {
		return c.new.Name
	}
	return c.old.Name
}

// dressed tells the cloths of a colorway; those of the old by the fabrics' new names.
func (w *work) dressed(c *edition.Colorway, old bool) string {
	if c == nil {
		return ""
	}
	var parts []string
	for name, cloth := range c.Cloths {
		if now, ok := w.renamed[name]; ok && old {
			name = now
		}
		parts = append(parts, name+" as "+described(&cloth))
	}
	slices.Sort(parts)
	return c.Words + ": " + strings.Join(parts, "; ")
}

func (w *work) block(old, new *edition.Block) {
	switch {
	case old == nil:
		w.tell(Change{Kind: Sizes, Block: new.Name, Subject: new.Title, Aspect: "block", New: sizesOf(new), At: new.At})
		return
	case new == nil:
		w.tell(Change{Kind: Sizes, Block: old.Name, Subject: old.Title, Aspect: "block", Old: sizesOf(old)})
		return
	}
	w.text(Change{Kind: Words, Block: new.Name, Subject: "title", Aspect: "words", At: new.At}, old.Title, new.Title)
	explained := w.plain > 0 || old.Title != new.Title
	sizes := pairs(old.Sizes, new.Sizes, func(s *edition.Size) string { return s.Name })
	for _, s := range sizes { // all of them are told of in the booklet of each
		explained = explained || s.old == nil || s.new == nil
	}
	for _, s := range sizes {
		c := Change{Kind: Sizes, Block: new.Name, Subject: new.Title, Aspect: "finished size", At: new.At}
		switch {
		case s.old == nil:
			c.New = s.new.Words()
			w.tell(c)
		case s.new == nil:
			c.Old = s.old.Words()
			w.tell(c)
		default:
			w.size(new, s.old, s.new, explained)
		}
	}
}

func sizesOf(b *edition.Block) string {
	var all []string
	for i := range b.Sizes {
		all = append(all, b.Sizes[i].Words())
	}
	return strings.Join(all, ", ")
}

// size compares a block at one size. Explained says whether what is only known by
// its sum may be otherwise because of something that was told.
func (w *work) size(b *edition.Block, old, new *edition.Size, explained bool) {
	s := &sizing{work: w, block: b, old: old, new: new, matching: match(old, new)}
	w.report.matched[b.Name+"/"+new.Name] = s.matching
	before := len(w.all)
	s.spaces()
	s.sections()
	s.joins()
	s.layout()
	for _, p := range pairs(old.Cloth, new.Cloth, func(e *edition.Word) string { return e.Name }) {
		s.bought(p)
	}
	if len(w.all) == before && !explained {
		s.sums()
	}
}

// A sizing is the comparison of one block at one size.
type sizing struct {
	*work
	*matching
	block    *edition.Block
	old, new *edition.Size
	called   map[string]string // sections of the old: what they are called in the new
	known    map[string]string // sections of the new: what they were called
}

func (s *sizing) tell(c Change) {
	c.Block, c.Sizes = s.block.Name, []string{s.new.Words()}
	s.work.tell(c)
}

func (s *sizing) text(c Change, old, new string) {
	if old != new {
		c.Old, c.New = old, new
		s.tell(c)
	}
}

// bought compares how much of a fabric is bought.
func (s *sizing) bought(p couple[edition.Word]) {
	old, new, fabric := "", "", ""
	if p.old != nil {
		old, fabric = p.old.Text, p.old.Name
	}
	if p.new != nil {
		new, fabric = p.new.Text, p.new.Name
	} else if _, ok := s.renamed[fabric]; !ok || s.renamed[fabric] != fabric {
		return // the fabric itself went, or has another name
	}
	if p.old == nil && s.isRenamed(fabric) {
		return
	}
	s.text(Change{Kind: Cloth, Subject: "fabric " + s.words(s.report.New, fabric), Aspect: "to buy"}, old, new)
}

// isRenamed reports whether a fabric of the new had another name in the old.
func (s *sizing) isRenamed(name string) bool {
	for was, is := range s.renamed {
		if is == name && was != name {
			return true
		}
	}
	return false
}

// words are what is printed of a fabric.
func (s *sizing) words(r *edition.Record, fabric string) string { return fabricWords(r, fabric) }

func fabricWords(r *edition.Record, fabric string) string {
	for i := range r.Fabrics {
		if r.Fabrics[i].Name == fabric {
			return r.Fabrics[i].Words
		}
	}
	return fabric
}

// measure tells a length to a 32nd of an inch, finer than any ruler for cutting.
func measure(l float64) string { return pattern.Length(math.Abs(l)).In(32) }

// kinds is the order in which changes are told.
func kinds() []Kind {
	return []Kind{Settings, Words, Cloth, Quilts, Sizes, Numbers, Geometry, Fabrics, Copies, Marks, Joining, Patches, Sheets, Program}
}

// merged puts changes that are the same at several sizes into one, and all in
// order: the pattern first, then block by block.
func merged(all []Change) []Change {
	var out []Change
	at := map[sameness]int{}
	for _, c := range all {
		k := sameness{c.Kind, c.Block, c.Subject, c.Aspect, c.Old, c.New, c.Note}
		if i, ok := at[k]; ok && len(c.Sizes) > 0 {
			out[i].Sizes = append(out[i].Sizes, c.Sizes...)
			continue
		}
		at[k] = len(out)
		out = append(out, c)
	}
	order := kinds()
	rank := func(c *Change) int { return slices.Index(order, c.Kind) }
	first := map[string]int{"": -1}
	for i := range out {
		if _, ok := first[out[i].Block]; !ok {
			first[out[i].Block] = i
		}
	}
	slices.SortStableFunc(out, func(a, b Change) int {
		if a.Block != b.Block {
			return first[a.Block] - first[b.Block]
		}
		return rank(&a) - rank(&b)
	})
	return out
}

// A sameness is what makes changes of two sizes one.
type sameness struct {
	kind                                    Kind
	block, subject, aspect, old, new, notes string
}
