package edition

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// A fact is one line of the file: where in the pattern, and what is there. The
// parts of a key are divided by slashes; only the last may hold one.
type fact struct {
	key   string
	value json.RawMessage
}

// A facter lists facts.
type facter struct{ all []fact }

func (f *facter) add(v any, key ...string) {
	data, err := json.Marshal(v)
	if err != nil { // our own types hold nothing that could fail
		panic(err)
	}
	f.all = append(f.all, fact{strings.Join(key, "/"), data})
}

func (f *facter) words(words []Word, key ...string) {
	for _, w := range words {
		f.add(w.Text, append(key, w.Name)...)
	}
}

// facts lists a record, in the order of the pattern.
func (r *Record) facts() []fact {
	f := &facter{}
	f.words(r.Words, "words")
	f.words(r.Settings, "setting")
	for i := range r.Fabrics {
		f.add(&r.Fabrics[i], "fabric", r.Fabrics[i].Name)
	}
	for i := range r.Colorways {
		f.add(&r.Colorways[i], "colorway", r.Colorways[i].Name)
	}
	f.words(r.Quilts, "quilt")
	if r.Told {
		f.add(len(r.Layouts), "recorded", "layouts")
	}
	for i := range r.Layouts {
		f.layout(&r.Layouts[i], i+1)
	}
	for i := range r.Blocks {
		b := &r.Blocks[i]
		f.add(b, "block", b.Name)
		for k := range b.Sizes {
			f.size(&b.Sizes[k], "block", b.Name, b.Sizes[k].Name)
		}
	}
	return f.all
}

func (f *facter) size(s *Size, key ...string) {
	at := func(kind, name string) []string { return append(key[:len(key):len(key)], kind, name) }
	f.add(s, key...)
	for i := range s.Sections {
		c := &s.Sections[i]
		f.add(c, at("section", c.Name)...)
		for k := range c.Spaces {
			f.add(&c.Spaces[k], at("space", c.Name+" "+strconv.Itoa(c.Spaces[k].Number))...)
		}
	}
	for i := range s.Copies {
		f.add(&s.Copies[i], at("copy", strconv.Itoa(i+1))...)
	}
	for i := range s.Joins {
		f.add(&s.Joins[i], at("join", strconv.Itoa(i+1))...)
	}
	for i := range s.Sheets {
		f.add(&s.Sheets[i], at("sheet", strconv.Itoa(i+1))...)
	}
	for _, words := range []struct {
		kind string
		all  []Word
	}{{"cloth", s.Cloth}, {"mark", s.Marks}, {"text", s.Texts}} {
		for _, w := range words.all {
			f.add(w.Text, at(words.kind, w.Name)...)
		}
	}
}

// record reads facts back. They may stand in any order: that of equals is kept.
func record(edition int, facts []fact) (*Record, error) {
	b := &builder{r: &Record{Edition: edition}, counted: map[string]int{}}
	for _, f := range facts {
		parts := strings.SplitN(f.key, "/", 5)
		if err := b.read(parts, f.value); err != nil {
			return nil, fmt.Errorf("%s: %w", f.key, err)
		}
	}
	if what, some := b.missing(); some {
		return nil, fmt.Errorf("%s is missing", what)
	}
	for i := range b.r.Blocks {
		for k := range b.r.Blocks[i].Sizes {
			s := &b.r.Blocks[i].Sizes[k]
			if n := len(s.Copies) + len(s.Joins) + len(s.Sheets); n != b.counted[b.r.Blocks[i].Name+"/"+s.Name] {
				return nil, fmt.Errorf("block/%s/%s: a copy, join or sheet is missing", b.r.Blocks[i].Name, s.Name)
			}
			if name, some := s.unplaced(); some {
				return nil, fmt.Errorf("block/%s/%s: section %q has no place, or is not told", b.r.Blocks[i].Name, s.Name, name)
			}
			for n := range s.Sections {
				slices.SortStableFunc(s.Sections[n].Spaces, func(a, b Space) int { return a.Number - b.Number })
			}
		}
	}
	return b.r, nil
}

// unplaced is a section without a copy, or a copy without its section, and whether
// there is any.
func (s *Size) unplaced() (string, bool) {
	copied := map[string]bool{}
	for i := range s.Copies {
		copied[s.Copies[i].Section] = true
	}
	for i := range s.Sections {
		if c := &s.Sections[i]; !copied[c.Name] || len(c.Spaces) == 0 {
			return c.Name, true
		}
		delete(copied, s.Sections[i].Name)
	}
	for _, name := range sorted(copied) {
		return name, true
	}
	return "", false
}

// A builder puts facts together. What is named by a key is made when it is first
// met, whichever fact tells of it.
type builder struct {
	r       *Record
	counted map[string]int // facts that are known by a number, by block and size or by layout
	layouts int            // how many there must be
}

func (b *builder) read(key []string, value json.RawMessage) error {
	into := func(v any) error { return json.Unmarshal(value, v) }
	word := func(to *[]Word) error {
		*to = append(*to, Word{Name: strings.Join(key[1:], "/")})
		return into(&(*to)[len(*to)-1].Text)
	}
	if len(key) < 2 {
		return unknown()
	}
	switch {
	case key[0] == "layout":
		return b.layout(key, into)
	case key[0] == "recorded" && len(key) == 2 && key[1] == "layouts":
		b.r.Told = true
		return into(&b.layouts)
	case key[0] == "words":
		return word(&b.r.Words)
	case key[0] == "setting":
		return word(&b.r.Settings)
	case key[0] == "quilt":
		return word(&b.r.Quilts)
	case key[0] == "fabric":
		b.r.Fabrics = append(b.r.Fabrics, Fabric{Name: key[1]})
		return into(&b.r.Fabrics[len(b.r.Fabrics)-1])
	case key[0] == "colorway":
		b.r.Colorways = append(b.r.Colorways, Colorway{Name: key[1]})
		return into(&b.r.Colorways[len(b.r.Colorways)-1])
	case key[0] != "block":
		return unknown()
	}
	block := named(&b.r.Blocks, key[1], func(b *Block) *string { return &b.Name })
	if len(key) == 2 {
		return into(block)
	}
	size := named(&block.Sizes, key[2], func(s *Size) *string { return &s.Name })
	switch len(key) {
	case 3:
		return into(size)
	case 5:
		if key[3] == "copy" || key[3] == "join" || key[3] == "sheet" {
			b.counted[block.Name+"/"+size.Name]++
		}
		return size.read(key[3], key[4], into)
	}
	return unknown()
}

func (s *Size) read(kind, name string, into func(any) error) error {
	switch kind {
	case "section":
		return into(named(&s.Sections, name, func(c *Section) *string { return &c.Name }))
	case "space":
		of, n, _ := strings.Cut(name, " ")
		number, err := strconv.Atoi(n)
		if err != nil || strconv.Itoa(number) != n {
			return fmt.Errorf("%q is no number", n)
		}
		c := named(&s.Sections, of, func(c *Section) *string { return &c.Name })
		c.Spaces = append(c.Spaces, Space{Number: number})
		return into(&c.Spaces[len(c.Spaces)-1])
	case "copy":
		return numbered(&s.Copies, name, into)
	case "join":
		return numbered(&s.Joins, name, into)
	case "sheet":
		return numbered(&s.Sheets, name, into)
	case "cloth":
		return into(&named(&s.Cloth, name, func(w *Word) *string { return &w.Name }).Text)
	case "mark":
		return into(&named(&s.Marks, name, func(w *Word) *string { return &w.Name }).Text)
	case "text":
		return into(&named(&s.Texts, name, func(w *Word) *string { return &w.Name }).Text)
	}
	return unknown()
}

func unknown() error { return fmt.Errorf("no such fact is known") }

// named finds an entry by its name, and makes it where there is none.
func named[T any](list *[]T, name string, of func(*T) *string) *T {
	for i := range *list {
		if *of(&(*list)[i]) == name {
			return &(*list)[i]
		}
	}
	var t T
	*of(&t) = name
	*list = append(*list, t)
	return &(*list)[len(*list)-1]
}

// most is the highest number of a copy, join or sheet: far more than a pattern may
// have, so that a damaged number does not take all memory.
const most = 1 << 20

// numbered reads an entry that is known by its number, from 1.
func numbered[T any](list *[]T, name string, into func(any) error) error {
	n, err := strconv.Atoi(name)
	if err != nil || n < 1 || n > most || strconv.Itoa(n) != name {
		return fmt.Errorf("%q is no number", name)
	}
	for len(*list) < n {
		var t T
		*list = append(*list, t)
	}
	return into(&(*list)[n-1])
}
