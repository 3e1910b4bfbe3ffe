package compare

import (
	"slices"
	"strconv"
	"strings"

	"seamwright/emit/edition"
)

// blockOfRow begins the aspect of a block of a quilt, before its number and row:
// "block 2 of row 1". So do the next two: before what it is, and before a fabric's
// words.
const (
	blockOfRow = "block "
	partOf     = "cut for "
	buyOf      = "to buy of "
)

// layouts compares quilts as they are laid out. Where one of the records is from
// before that was recorded there is nothing to compare, and the report says so.
func (w *work) layouts() {
	old, new := w.report.Old, w.report.New
	if old.Silent() || new.Silent() {
		return
	}
	name := func(q *entitled) string { return q.name }
	was, is := entitle(old.Layouts), entitle(new.Layouts)
	for i := range min(len(was), len(is)) { // one that has only another title is the same one
		called := func(name string) func(entitled) bool { return func(q entitled) bool { return q.name == name } }
		if !slices.ContainsFunc(was, called(is[i].name)) && !slices.ContainsFunc(is, called(was[i].name)) {
			w.text(Change{Kind: Words, Subject: "quilt " + is[i].name, Aspect: "words", At: is[i].At}, was[i].name, is[i].name)
			was[i].name = is[i].name
		}
	}
	for _, p := range pairs(was, is, name) {
		switch {
		case p.old == nil:
			w.tell(Change{Kind: Quilts, Subject: "quilt " + p.new.name, Aspect: "layout", New: measures(p.new.Size), At: p.new.At})
		case p.new == nil:
			w.tell(Change{Kind: Quilts, Subject: "quilt " + p.old.name, Aspect: "layout", Old: measures(p.old.Size)})
		default:
			(&quilting{w, p.new.name, p.old.Layout, p.new.Layout}).compare()
		}
	}
}

// An entitled is a layout with a name of its own: of those with the same title, the
// second has a number.
type entitled struct {
	*edition.Layout
	name string
}

func entitle(all []edition.Layout) (out []entitled) {
	count := map[string]int{}
	for i := range all {
		name := all[i].Title
		if count[name]++; count[name] > 1 {
			name += " (" + strconv.Itoa(count[name]) + ")"
		}
		out = append(out, entitled{&all[i], name})
	}
	return out
}

// A quilting is the comparison of one quilt.
type quilting struct {
	*work
	name     string
	old, new *edition.Layout
}

func (q *quilting) text(aspect, old, new string) {
	q.work.text(Change{Kind: Quilts, Subject: "quilt " + q.name, Aspect: aspect, At: q.new.At}, old, new)
}

// noted tells a change that is told by a note alone.
func (q *quilting) noted(aspect, english, note string, fill ...string) {
	c := Change{Kind: Quilts, Subject: "quilt " + q.name, Aspect: aspect, At: q.new.At}
	c.noted(english, note, fill...)
	q.tell(c)
}

func (q *quilting) compare() {
	explained := slices.ContainsFunc(q.all, func(c Change) bool { return c.Kind != Program })
	before := len(q.all)
	q.text("finished size", measures(q.old.Size), measures(q.new.Size))
	q.placed()
	q.cuts()
	q.text("backing", measures(q.old.Backing), measures(q.new.Backing))
	q.text("batting", measures(q.old.Batting), measures(q.new.Batting))
	for _, p := range pairs(q.called(q.old.Cloth), q.new.Cloth, func(w *edition.Word) string { return w.Name }) {
		name, was, is := told(p)
		q.text(buyOf+name, was, is)
	}
	q.text("pressed in two ways", strings.Join(q.old.Two, "; "), strings.Join(q.new.Two, "; "))
	if len(q.all) == before {
		q.areas()
	}
	q.joins(len(q.all) > before)
	if len(q.all) == before && !explained {
		q.texts()
	}
}

// placed compares which block lies where. What is so of many is told once.
func (q *quilting) placed() {
	type change struct{ old, new string }
	var order []change
	at := map[change][]edition.Placed{}
	place := func(b *edition.Placed) string { return strconv.Itoa(b.Row) + " " + strconv.Itoa(b.In) }
	for _, p := range pairs(q.old.Placed, q.new.Placed, place) {
		b := p.new
		if b == nil {
			b = p.old
		}
		if c := (change{lying(p.old), lying(p.new)}); c.old != c.new {
			if at[c] == nil {
				order = append(order, c)
			}
			at[c] = append(at[c], *b)
		}
	}
	for _, c := range order {
		first, n := &at[c][0], len(at[c])
		of := Change{Kind: Quilts, Subject: "quilt " + q.name, Aspect: blockOfRow + strconv.Itoa(first.In) + " of row " + strconv.Itoa(first.Row), At: first.At}
		if n > 1 {
			of.noted("and {n} more so", "note_more", "n", strconv.Itoa(n-1))
		}
		q.work.text(of, c.old, c.new)
	}
}

// How a block lies in a quilt, besides how far it is turned.
const (
	turnedOver    = "turned over"
	theOtherWay   = "pressed the other way"
	turnedDegrees = " degrees"
)

// lying tells which block it is and how it lies: "boat, 90 degrees".
func lying(b *edition.Placed) string {
	if b == nil {
		return ""
	}
	s := b.Block + " (" + b.Size + ")"
	if b.Reversed {
		s += ", " + turnedOver
	}
	if b.Turn != 0 {
		s += ", " + strconv.FormatFloat(b.Turn, 'f', -1, 64) + turnedDegrees
	}
	if b.OtherWay {
		s += ", " + theOtherWay
	}
	return s
}

// cuts compares what is cut between the blocks and round them: of each kind all of
// it, for what is cut in two pieces now may have been cut in one.
func (q *quilting) cuts() {
	old, new := q.report.Old, q.report.New
	was := q.cut(q.old, func(name string) string {
		if now, ok := q.renamed[name]; ok { // by the words that it has now: other words alone are no other cut
			return fabricWords(new, now)
		}
		return fabricWords(old, name)
	})
	is := q.cut(q.new, func(name string) string { return fabricWords(new, name) })
	for _, p := range pairs(was, is, func(w *edition.Word) string { return w.Name }) {
		name, was, is := told(p)
		q.text(partOf+name, was, is)
	}
}

// called are cloths of the old by the words that their fabrics have in the new.
func (q *quilting) called(cloth []edition.Word) []edition.Word {
	cloth = slices.Clone(cloth)
	for i := range cloth {
		for k := range q.report.Old.Fabrics {
			f := &q.report.Old.Fabrics[k]
			if now, ok := q.renamed[f.Name]; ok && f.Words == cloth[i].Name {
				cloth[i].Name = fabricWords(q.report.New, now)
				break
			}
		}
	}
	return cloth
}

// cut tells of a layout what is cut for what; words tells those of a fabric.
func (q *quilting) cut(l *edition.Layout, words func(fabric string) string) (all []edition.Word) {
	add := func(name, text string) {
		i := slices.IndexFunc(all, func(w edition.Word) bool { return w.Name == name })
		if i < 0 {
			all = append(all, edition.Word{Name: name, Text: text})
		} else {
			all[i].Text += "; " + text
		}
	}
	for i := range l.Cuts {
		c := &l.Cuts[i]
		add(c.For, cut(&edition.Space{Cut: c.Cut, Size: c.Size})+", "+words(c.Fabric)+", ("+strconv.Itoa(c.Count)+")")
	}
	for i := range l.Runs {
		run := &l.Runs[i]
		var lengths []string
		for k, n := 0, 0; k < len(run.Lengths); k += n {
			for n = 1; k+n < len(run.Lengths) && run.Lengths[k+n] == run.Lengths[k]; n++ {
			}
			lengths = append(lengths, measure(run.Lengths[k])+" ("+strconv.Itoa(n)+")")
		}
		text := measure(run.Width) + " x " + strings.Join(lengths, " + ") + ", " + words(run.Fabric)
		if run.Bias {
			text += ", " + onBias
		}
		add(run.For, text)
	}
	return all
}

const onBias = "on the bias"

// areas tells of what is cut as it was but lies elsewhere.
func (q *quilting) areas() {
	for _, p := range pairs(q.old.Areas, q.new.Areas, func(w *edition.Word) string { return w.Name }) {
		if name, was, is := told(p); was != is {
			q.noted(partOf+name, "lies elsewhere", "note_elsewhere")
		}
	}
}

// joins compares the joins of a quilt, one by one while there are as many. Explained
// says whether where they lie follows from what was told.
func (q *quilting) joins(explained bool) {
	old, new := q.old.Joins, q.new.Joins
	if len(old) != len(new) {
		q.text("joins", strconv.Itoa(len(old)), strconv.Itoa(len(new)))
		return
	}
	lines, points, pressed := counter{}, counter{}, counter{}
	for i := range new {
		a, b := &old[i], &new[i]
		if a.Step != b.Step || a.Of != b.Of || a.From != b.From || a.To != b.To {
			lines.met(i)
		} else if !slices.Equal(a.Points, b.Points) {
			points.met(i)
		}
		if a.Press != b.Press {
			pressed.met(i)
		}
	}
	if !explained {
		q.counted("joins", &lines)
	}
	q.counted("points to match", &points)
	q.counted("pressing", &pressed)
}

// A counter counts what is otherwise, and keeps the first.
type counter struct{ n, first int }

func (c *counter) met(i int) {
	if c.n++; c.n == 1 {
		c.first = i + 1
	}
}

func (q *quilting) counted(aspect string, c *counter) {
	if c.n > 0 {
		q.noted(aspect, "otherwise at {n} of its joins, the first of them join {first}", "note_joins", "n", strconv.Itoa(c.n), "first", strconv.Itoa(c.first))
	}
}

// texts tells of sentences of the program that are otherwise for no reason known.
func (q *quilting) texts() {
	for _, p := range pairs(q.old.Texts, q.new.Texts, func(w *edition.Word) string { return w.Name }) {
		if name, was, is := told(p); was != is {
			q.tell(Change{Kind: Program, Subject: "quilt " + q.name + ", " + name, Aspect: "text", Note: "says something else", At: q.new.At})
		}
	}
}

// told returns the name of a couple of words, and what each says.
func told(p couple[edition.Word]) (name, old, new string) {
	if p.old != nil {
		name, old = p.old.Name, p.old.Text
	}
	if p.new != nil {
		name, new = p.new.Name, p.new.Text
	}
	return name, old, new
}

// measures tells a size; nothing where there is none.
func measures(s [2]float64) string {
	if s == [2]float64{} {
		return ""
	}
	return measure(s[0]) + " x " + measure(s[1])
}
