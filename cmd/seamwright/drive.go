package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/rogpeppe/go-internal/diff"

	"seamwright/cmd/internal/files"
	"seamwright/emit/compare"
)

// drive answers git, which gives a diff driver seven arguments, nine where the
// file was renamed, and one where it is in conflict. Git takes any exit code but
// 0 for a failure, so whatever differs the code is good. A text that prints nothing
// of its own, or has errors, is compared line by line.
func (c *call) drive() int {
	const seven, renamed = 7, 9
	if len(c.args) == 1 {
		fmt.Fprintf(c.stdout, "%s: in conflict\n", c.args[0])
		return good
	}
	if len(c.args) != seven && len(c.args) != renamed {
		return c.misused("compare --git is called by git, with seven arguments")
	}
	name, now := c.args[0], c.args[0]
	if len(c.args) == renamed {
		now = c.args[seven]
	}
	old, oldText := c.fromGit(name, c.args[1])
	new, newText := c.fromGit(now, c.args[4])
	switch {
	case old.record != nil && new.record != nil:
		r := compare.Compare(old.record, new.record)
		fmt.Fprint(c.stdout, r.Text("a/"+name, "b/"+now))
		if !r.Same() || string(oldText) == string(newText) {
			return good
		}
		fmt.Fprintln(c.stdout, "  only the text is otherwise:")
	case old.record != nil && len(newText) == 0:
		fmt.Fprintf(c.stdout, "a/%s: removed\n", name)
		return good
	case new.record != nil && len(oldText) == 0:
		fmt.Fprintf(c.stdout, "b/%s: new\n", now)
		return good
	}
	c.stdout.Write(diff.Diff("a/"+name, oldText, "b/"+now, newText))
	return good
}

// fromGit compiles a file that git has put somewhere, as if it lay where it
// belongs: what it uses is read from the working tree. Git calls a driver at the
// top of that.
func (c *call) fromGit(name, at string) (*loaded, []byte) {
	if at == os.DevNull {
		return &loaded{}, nil
	}
	src, fault := files.Read(at, nil)
	if fault != nil {
		data, _ := os.ReadFile(at)
		return &loaded{}, data
	}
	text := []byte(src.Text)
	p, _, ps := compileGiven(name, text, func(path string, most int64) ([]byte, error) { return readMost(filepath.FromSlash(path), most) })
	if stops(ps, false) {
		return &loaded{}, text
	}
	l := &loaded{shown: name, pattern: p}
	l.make()
	return l, text
}

// readMost reads a file of at most so many bytes.
func readMost(name string, most int64) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("there is no file %s", name)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && int64(len(data)) > most {
		err = fmt.Errorf("%s is larger than %d MB, the most that is read", name, most>>20)
	}
	return data, err
}
