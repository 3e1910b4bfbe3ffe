package main

import (
	"errors"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/cmd/internal/revision"
	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/edition"
	"seamwright/lang/problem"
)

// A contender is one side of a comparison: one pattern, or those of a folder.
type contender struct {
	shown  string   // as it is told of
	folder bool     // its patterns are known by their paths in it
	paths  []string // of a folder, in order; else one, ""
	load   func(path string) *loaded
	close  func()
}

// A loaded is one pattern of a version.
type loaded struct {
	shown    string
	record   *edition.Record  // of a pattern, once it is made; nil where there are errors, or no block
	pattern  *pattern.Pattern // nil of a released edition, and where there are errors
	texts    string           // all that it is made from; "" where that is not known
	problems []problem.Problem
}

// make records what a pattern prints.
func (l *loaded) make() {
	if l.record == nil && l.pattern != nil && len(l.pattern.Blocks) > 0 {
		record, paper := emit.Record(l.pattern)
		l.record, l.problems = record, append(l.problems, paper...)
	}
}

// sameTexts reports whether two versions are made from the same texts, so that
// nothing can be otherwise.
func sameTexts(a, b *loaded) bool {
	return a.texts != "" && a.texts == b.texts && a.pattern != nil && b.pattern != nil && len(a.pattern.Blocks) > 0
}

// versionOf finds what an argument of compare stands for: a file or a folder, an
// edition as FILE@N, REV:PATH in git, or REV alone with the path of the other side.
func (c *call) versionOf(arg, other string) (*contender, error) {
	if arg == files.Stdin {
		return c.onDisk(arg, false), nil
	}
	if info, err := os.Stat(arg); err == nil {
		if strings.HasSuffix(arg, edition.Suffix) {
			return released(arg, strings.TrimSuffix(arg, edition.Suffix)+files.Extension, 0)
		}
		return c.onDisk(arg, info.IsDir()), nil
	}
	if at := strings.LastIndexByte(arg, '@'); at > 0 {
		if n, err := strconv.Atoi(arg[at+1:]); err == nil && n > 0 {
			return released(arg, arg[:at], n)
		}
	}
	if rev, name, ok := strings.Cut(arg, ":"); ok {
		at := path.Clean(name)
		if strings.HasPrefix(name, "./") || strings.HasPrefix(name, "../") || name == "." {
			return inGit(rev, name, true)
		}
		return inGit(rev, at, false)
	}
	if filepath.Ext(arg) == files.Extension || other == "" {
		return c.onDisk(arg, false), nil // not there: reading it says so
	}
	if _, name, ok := strings.Cut(other, ":"); ok {
		if _, err := os.Stat(other); err != nil {
			return inGit(arg, name, false)
		}
	}
	v, err := inGit(arg, other, true)
	if err != nil {
		return nil, fmt.Errorf("%s is no file and no folder, and taken for a revision: %w", arg, err)
	}
	return v, nil
}

// onDisk is a file or a folder.
func (c *call) onDisk(name string, folder bool) *contender {
	v := &contender{shown: name, folder: folder, paths: []string{""}, close: func() {}}
	v.load = func(at string) *loaded {
		full := name
		if at != "" {
			full = filepath.Join(name, filepath.FromSlash(at))
		}
		p, texts, ps := c.compile(full)
		return &loaded{shown: full, pattern: p, texts: joined(texts), problems: ps}
	}
	if folder {
		found, ps := files.Find([]string{name})
		v.paths = nil
		for _, f := range found {
			if rel, err := filepath.Rel(name, f); err == nil {
				v.paths = append(v.paths, filepath.ToSlash(rel))
			}
		}
		if len(ps) > 0 && len(found) == 0 { // an empty folder is something to compare with
			v.paths = nil
		}
	}
	return v
}

// joined puts texts into one that no other texts give.
func joined(texts []*problem.Source) string {
	var b strings.Builder
	for _, t := range texts {
		fmt.Fprintf(&b, "%d %s", len(t.Text), t.Text)
	}
	return b.String()
}

// released is an edition as it was released; the last one where n is 0.
func released(shown, name string, n int) (*contender, error) {
	all, fault := readEditions(name)
	switch {
	case fault != nil:
		return nil, fmt.Errorf("%s: %s", fault.At.Source.Name, fault.Message)
	case all == nil:
		return nil, fmt.Errorf("nothing was released of %s yet: there is no file %s", name, editionsOf(name))
	}
	r := all.Last()
	if n > 0 {
		r = all.Get(n)
	}
	if r == nil {
		return nil, fmt.Errorf("edition %d of %s was not released; there is %s", n, name, numbers(all))
	}
	return &contender{shown: shown, paths: []string{""}, close: func() {}, load: func(string) *loaded {
		return &loaded{shown: shown, record: r}
	}}, nil
}

// numbers tells which editions there are.
func numbers(all *edition.Editions) string {
	var words []string
	for _, n := range all.Numbers() {
		words = append(words, strconv.Itoa(n))
	}
	slices.Reverse(words)
	return "edition " + list(words)
}

// inGit is a file or a folder at a revision; here says that its path begins at the
// current folder, else it begins at the top of the repository.
func inGit(rev, name string, here bool) (*contender, error) {
	tree, err := revision.Open(rev)
	if err != nil {
		return nil, err
	}
	at := path.Clean(filepath.ToSlash(name))
	if here {
		var ok bool
		if at, ok = tree.Path(name); !ok {
			return nil, fmt.Errorf("%s is outside of the repository", name)
		}
	}
	shown := rev + ":" + at
	v := &contender{shown: shown, paths: []string{""}, close: tree.Close}
	switch below := tree.Below(at, files.Extension); {
	case strings.HasSuffix(at, edition.Suffix) && tree.Has(at):
		return releasedInGit(tree, shown, at)
	case tree.Has(at):
		v.load = func(string) *loaded { return loadFromGit(tree, at) }
	case len(below) > 0 || at == "." || at == "":
		v.folder, v.paths = true, nil
		folder := strings.TrimPrefix(at+"/", "./")
		for _, f := range below {
			v.paths = append(v.paths, strings.TrimPrefix(f, folder))
		}
		v.load = func(p string) *loaded { return loadFromGit(tree, folder+p) }
	default:
		tree.Close()
		return nil, fmt.Errorf("there is no %s in %s", at, rev)
	}
	return v, nil
}

func releasedInGit(tree *revision.Tree, shown, at string) (*contender, error) {
	defer tree.Close()
	data, err := tree.Read(at, mostEditions)
	if err != nil {
		return nil, err
	}
	all, fault := parseEditions(shown, data)
	if fault != nil {
		return nil, errors.New(fault.Message)
	}
	return &contender{shown: shown, paths: []string{""}, close: func() {}, load: func(string) *loaded {
		return &loaded{shown: shown, record: all.Last()}
	}}, nil
}

// loadFromGit compiles a pattern of a revision, with the texts of that revision.
func loadFromGit(tree *revision.Tree, at string) *loaded {
	shown := tree.Revision + ":" + at
	read := func(at string, most int64) ([]byte, error) { return tree.Read(path.Clean(at), most) }
	data, err := read(at, files.MaxSize)
	if err != nil {
		return &loaded{shown: shown, problems: []problem.Problem{{
			Code: files.Unreadable, Severity: problem.Error, Message: err.Error(), At: problem.Place{Source: &problem.Source{Name: shown}}}}}
	}
	p, texts, ps := compileGiven(at, data, read)
	for i := range ps { // they are told of the revision, not of the file on the disk
		if src := ps[i].At.Source; src != nil && !strings.HasPrefix(src.Name, tree.Revision+":") && !strings.HasPrefix(src.Name, files.Shipped) {
			src.Name = tree.Revision + ":" + src.Name
		}
	}
	return &loaded{shown: shown, pattern: p, texts: joined(texts), problems: ps}
}

// compileGiven compiles a text that is not on the disk; given reads those it uses.
func compileGiven(name string, data []byte, given func(string, int64) ([]byte, error)) (*pattern.Pattern, []*problem.Source, []problem.Problem) {
	src, fault := files.Text(name, data)
	if fault != nil {
		return nil, nil, []problem.Problem{*fault}
	}
	loader := newLoader()
	loader.Given = given
	defer loader.Close()
	p, ps := compiler.Compile(src, loader)
	return p, slices.Concat([]*problem.Source{src}, loader.Texts(), loader.Pictures()), ps
}
