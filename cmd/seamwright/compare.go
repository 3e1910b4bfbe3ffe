package main

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/emit/compare"
	"seamwright/emit/edition"
)

// The exit codes of compare are those of diff.
const (
	alike     = good
	different = problems
	trouble   = misuse
)

// compareVersions tells what changed between two versions.
func compareVersions(c *call) int {
	f := c.flagSet()
	form := f.String("format", "text", "how it is told: `text`, json, markdown or html")
	errata := f.String("errata", "", "write the errata page and the sheets that changed into this `file`, a PDF")
	sheet := f.String("sheet", "", "the `paper` of the errata, instead of the pattern's own")
	git := f.Bool("git", false, "take what git gives to a diff driver: PATH OLD-FILE OLD-HEX OLD-MODE NEW-FILE NEW-HEX NEW-MODE")
	if code, ok := c.parse(); !ok {
		return code
	}
	forms := []string{"text", "json", "markdown", "html"}
	if !slices.Contains(forms, *form) {
		return c.misused("%s", unknownWord("--format", *form, forms))
	}
	if *git {
		return c.drive()
	}
	if len(c.args) == 1 {
		c.args = []string{"", c.args[0]} // what was last released
	}
	if len(c.args) != 2 {
		return c.misused("compare needs two versions, or one pattern, to compare it with what was last released of it")
	}
	old, new, err := c.bothVersions(c.args[0], c.args[1])
	if err != nil {
		fmt.Fprintf(c.stderr, "seamwright: %v\n", err)
		return trouble
	}
	defer old.close()
	defer new.close()
	k := &comparing{reporter: &reporter{call: c, format: "text"}, old: old, new: new}
	k.all()
	if *errata != "" {
		if code := k.errata(*errata, *sheet); code != good || k.code == trouble {
			return trouble
		}
		return good // the page is what was asked for
	}
	if k.code == trouble && len(k.pairs) == 0 {
		return trouble // an empty report would read as if nothing had changed
	}
	if err := k.write(*form); err != nil {
		fmt.Fprintf(c.stderr, "seamwright: what changed can't be written: %v\n", err)
		return trouble
	}
	return k.code
}

// bothVersions finds what the two arguments stand for. A file is compared with
// the one of its name in a folder.
func (c *call) bothVersions(a, b string) (old, new *contender, err error) {
	if a == files.Stdin && b == files.Stdin {
		return nil, nil, fmt.Errorf("only one version can come from standard input")
	}
	if a == "" {
		old, err = released(b+" as released", b, 0)
	} else {
		old, err = c.versionOf(a, b)
	}
	if err != nil {
		return nil, nil, err
	}
	if new, err = c.versionOf(b, a); err != nil {
		old.close()
		return nil, nil, err
	}
	if old.folder != new.folder {
		defer old.close()
		defer new.close()
		return nil, nil, fmt.Errorf("%s is one pattern and %s a folder of them; compare two of a kind", shown(old, new, false), shown(old, new, true))
	}
	return old, new, nil
}

func shown(a, b *contender, folder bool) string {
	if a.folder == folder {
		return a.shown
	}
	return b.shown
}

// A comparing is one run over all patterns of two versions.
type comparing struct {
	*reporter
	old, new *contender
	pairs    []compare.Pair // those that could be compared
	loaded   []*loaded      // the new ones of them
}

// all compares every pattern that either version has.
func (k *comparing) all() {
	paths := slices.Concat(k.old.paths, k.new.paths)
	slices.Sort(paths)
	paths = slices.Compact(paths)
	type both struct{ old, new *loaded }
	inOrder(len(paths), func(i int) (b both) {
		if slices.Contains(k.old.paths, paths[i]) {
			b.old = k.old.load(paths[i])
		}
		if slices.Contains(k.new.paths, paths[i]) {
			b.new = k.new.load(paths[i])
		}
		if b.old != nil && b.new != nil && sameTexts(b.old, b.new) {
			r := &edition.Record{Edition: b.new.pattern.About.Edition} // all that is told of it
			b.old.record, b.new.record = r, r
			return b
		}
		for _, l := range []*loaded{b.old, b.new} {
			if l != nil {
				l.make()
			}
		}
		return b
	}, func(_ int, b both) {
		switch {
		case b.old == nil:
			k.only(b.new, "new")
		case b.new == nil:
			k.only(b.old, "old")
		default:
			k.one(b.old, b.new)
		}
	})
}

// usable tells the errors of a version; its warnings are not what is asked about.
func (k *comparing) usable(l *loaded) bool {
	if k.tell(errorsOf(l.problems)) {
		k.worst(trouble)
		return false
	}
	return true
}

// only takes a pattern that the other version does not have.
func (k *comparing) only(l *loaded, which string) {
	if !k.usable(l) || l.record == nil {
		return // a text of units prints nothing of its own
	}
	p := compare.Pair{Old: l.shown, Only: which}
	if which == "new" {
		p.Old, p.New = "", l.shown
	}
	k.worst(different)
	k.pairs, k.loaded = append(k.pairs, p), append(k.loaded, l)
}

func (k *comparing) one(old, new *loaded) {
	if was, is := k.usable(old), k.usable(new); !was || !is {
		return
	}
	switch {
	case old.record == nil && new.record == nil:
		if !k.new.folder {
			fmt.Fprintf(k.stderr, "seamwright: there is no block in %s and in %s, so nothing that is printed can differ\n", old.shown, new.shown)
		}
		return
	case old.record == nil:
		k.only(new, "new")
		return
	case new.record == nil:
		k.only(old, "old")
		return
	}
	r := compare.Compare(old.record, new.record)
	if !r.Same() {
		k.worst(different)
	}
	k.pairs = append(k.pairs, compare.Pair{Old: named(old), New: named(new), Report: r})
	k.loaded = append(k.loaded, new)
}

// named tells a version with its edition.
func named(l *loaded) string {
	if l.record.Edition == 0 {
		return l.shown
	}
	return fmt.Sprintf("%s (edition %d)", l.shown, l.record.Edition)
}

func (k *comparing) write(form string) error {
	switch form {
	case "json":
		_, err := k.stdout.Write(compare.JSON(k.pairs))
		return err
	case "html":
		data, err := compare.HTML(k.changed())
		if err == nil {
			_, err = k.stdout.Write(data)
		}
		return err
	case "markdown":
		fmt.Fprint(k.stdout, k.markdown())
		return nil
	}
	for i := range k.pairs {
		switch p := &k.pairs[i]; {
		case p.Report == nil:
			fmt.Fprintf(k.stdout, "%s: only the %s\n", p.Old+p.New, p.Only)
		case !k.new.folder || !p.Report.Same():
			fmt.Fprint(k.stdout, p.Report.Text(p.Old, p.New))
		}
	}
	if k.new.folder {
		fmt.Fprintln(k.stdout, k.inShort())
	}
	return nil
}

// changed are the pairs that are not the same; of a single one, itself.
func (k *comparing) changed() []compare.Pair {
	if !k.new.folder {
		return k.pairs
	}
	return slices.DeleteFunc(slices.Clone(k.pairs), func(p compare.Pair) bool { return p.Report != nil && p.Report.Same() })
}

// inShort counts what was compared.
func (k *comparing) inShort() string {
	changed, only := 0, 0
	for i := range k.pairs {
		switch r := k.pairs[i].Report; {
		case r == nil:
			only++
		case !r.Same():
			changed++
		}
	}
	s := fmt.Sprintf("%s compared: %d changed", count(len(k.pairs)-only, "pattern"), changed)
	if only > 0 {
		s += fmt.Sprintf(", and %d on one side only", only)
	}
	return s
}

// markdown is the report for a page of a code host.
func (k *comparing) markdown() string {
	var b strings.Builder
	level := 2
	if k.new.folder {
		b.WriteString("## What changed in print\n\n" + k.inShort() + ".\n\n")
		level = 3
	}
	for _, p := range k.changed() {
		if p.Report == nil {
			fmt.Fprintf(&b, "%s `%s`: only the %s\n\n", strings.Repeat("#", level), strings.ReplaceAll(p.Old+p.New, "`", "'"), p.Only)
			continue
		}
		b.WriteString(p.Report.Markdown(p.Old, p.New, level) + "\n")
	}
	return b.String()
}
