package files

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"seamwright/lang/problem"
)

// Marker is a file, empty or not, that makes its folder a project's root.
const Marker = "seamwright.root"

// Shipped is how the path of a family begins that is shipped with the program.
const Shipped = "std/"

// maxUp is how many folders are looked at for a project's root: deeper paths
// are not typed by people, and each costs two system calls.
const maxUp = 64

// A Loader finds the texts that patterns use. It is meant for one pattern at a
// time and remembers what it has read, so that a text used twice is one
// [problem.Source].
type Loader struct {
	// Family returns the text of a shipped family, Families all their names,
	// both without "std/".
	Family   func(name string) (string, bool)
	Families func() []string

	// Given, where it is set, reads files instead of the disk, of so many bytes at
	// most. It is asked for paths with forward slashes that do not lead out of the
	// folder it stands for.
	Given func(path string, most int64) ([]byte, error)

	// Held, where it is set, tells what an editor holds of a file inside the
	// project, saved or not; its path is as in the names of sources.
	Held func(path string) (text string, ok bool)

	// Before, where it is set, is told of every file that is about to be
	// looked for, found or not.
	Before func(path string)

	project *os.Root // opened by the first use of a file
	root    string
	read    map[string]*problem.Source

	pictures map[string]*problem.Source
}

// Close gives back the project's folder.
func (l *Loader) Close() {
	if l.project != nil {
		l.project.Close()
		l.project = nil
	}
}

// Texts are those that were found, in the order of their names.
func (l *Loader) Texts() []*problem.Source { return sorted(l.read) }

func sorted(found map[string]*problem.Source) []*problem.Source {
	all := slices.Collect(maps.Values(found))
	slices.SortFunc(all, func(a, b *problem.Source) int { return strings.Compare(a.Name, b.Name) })
	return all
}

// Pictures are the author's that were found, in the order of their names.
func (l *Loader) Pictures() []*problem.Source { return sorted(l.pictures) }

// Load finds what `use ... from "path"` names, in the file from. Where there is
// none to be had it returns nil and says why.
func (l *Loader) Load(from *problem.Source, use string) (*problem.Source, string) {
	if message := spelling(use); message != "" {
		return nil, message
	}
	if strings.HasSuffix(use, Extension) {
		return nil, "write the path without " + Extension
	}
	name, ok := strings.CutPrefix(use, Shipped)
	if !ok && strings.HasPrefix(from.Name, Shipped) {
		return nil, "a shipped family uses only shipped families"
	}
	if ok {
		return l.remember(use, func() (*problem.Source, string) { return l.family(name) })
	}
	at := filepath.Join(filepath.Dir(from.Name), filepath.FromSlash(use)+Extension)
	if from.Name == Stdin {
		at = filepath.FromSlash(use) + Extension
	}
	return l.remember(at, func() (*problem.Source, string) {
		if l.Before != nil {
			l.Before(at)
		}
		return l.file(from, at)
	})
}

// spelling says what is wrong with a path as it is written; "" if nothing is.
func spelling(use string) string {
	switch {
	case use == "":
		return "the path is empty; write for example \"std/log_cabin\" or \"families/wave\""
	case strings.Contains(use, `\`):
		return "folders are divided by / here: write " + strings.ReplaceAll(use, `\`, "/")
	case path.IsAbs(use) || len(use) > 1 && use[1] == ':':
		return "a path begins at the folder of this file, not at the top of the disk, so that the pattern still builds on another machine"
	case strings.ContainsFunc(use, func(r rune) bool { return r < ' ' }):
		return "there is a control character in the path"
	}
	return ""
}

func (l *Loader) remember(key string, find func() (*problem.Source, string)) (*problem.Source, string) {
	if src, ok := l.read[key]; ok {
		return src, ""
	}
	src, message := find()
	if src != nil {
		if l.read == nil {
			l.read = map[string]*problem.Source{}
		}
		l.read[key] = src
	}
	return src, message
}

func (l *Loader) family(name string) (*problem.Source, string) {
	if text, ok := l.Family(name); ok {
		return &problem.Source{Name: Shipped + name, Text: text}, ""
	}
	message := "no family of this name is shipped; `seamwright families` lists them"
	if near := problem.Nearest(name, l.Families()); near != "" {
		message = fmt.Sprintf("no family of this name is shipped; did you mean %q?", Shipped+near)
	}
	return nil, message
}

// file reads a text of the project.
func (l *Loader) file(from *problem.Source, at string) (*problem.Source, string) {
	data, message := l.bytes(from, at, MaxSize, l.missing)
	if message != "" {
		return nil, message
	}
	src, p := Text(at, data)
	if p != nil {
		return nil, at + ": " + p.Message
	}
	return src, ""
}

// bytes reads a file of the project that has at most so many bytes. The operating
// system itself is asked to open it inside the root, so no symbolic link and no
// race leads out.
func (l *Loader) bytes(from *problem.Source, at string, most int64, missing func(string, error) string) ([]byte, string) {
	if l.Given != nil {
		return l.given(at, most)
	}
	if l.project == nil {
		if err := l.open(from); err != nil {
			return nil, "the project's folder can't be opened: " + reason(err)
		}
	}
	whole, err := filepath.Abs(at)
	if err != nil {
		return nil, reason(err)
	}
	inside, err := filepath.Rel(l.root, whole)
	if err != nil || !filepath.IsLocal(inside) {
		return nil, fmt.Sprintf("this leads out of the project, whose folder is %s; copy the file into it, or put an empty file %s into the folder that holds both", l.root, Marker)
	}
	if l.Held != nil {
		if text, ok := l.Held(at); ok {
			return []byte(text), ""
		}
	}
	info, err := l.project.Stat(inside)
	if err == nil && !info.Mode().IsRegular() {
		return nil, at + " is not a file"
	}
	if err != nil {
		return nil, missing(at, err)
	}
	if info.Size() > most {
		return nil, fmt.Sprintf("%s is larger than %d MB, the most that is read", at, most>>20)
	}
	f, err := l.project.Open(inside)
	if err != nil {
		return nil, missing(at, err)
	}
	defer f.Close()
	data, err := readAll(f, info.Size(), most)
	switch {
	case err != nil:
		return nil, at + " can't be read: " + reason(err)
	case int64(len(data)) > most: // it grew
		return nil, fmt.Sprintf("%s is larger than %d MB, the most that is read", at, most>>20)
	}
	return data, ""
}

// given reads a file that is not on the disk.
func (l *Loader) given(at string, most int64) ([]byte, string) {
	if !filepath.IsLocal(at) {
		return nil, "this leads out of the project"
	}
	data, err := l.Given(filepath.ToSlash(at), most)
	if err != nil {
		return nil, err.Error()
	}
	return data, ""
}

// missing words the failure to open a file of the project.
func (l *Loader) missing(at string, err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		message := "there is no file " + at
		base := strings.TrimSuffix(filepath.Base(at), Extension)
		near := siblings(at)
		for i := range near {
			near[i] = strings.TrimSuffix(near[i], Extension)
		}
		if name := problem.Nearest(base, near); name != "" {
			return message + fmt.Sprintf("; did you mean %q?", name)
		}
		if text, ok := l.Family(base); ok && text != "" {
			return message + fmt.Sprintf("; the shipped family is %q", Shipped+base)
		}
		return message
	case errors.Is(err, fs.ErrPermission):
		return "you have no permission to read " + at
	case strings.Contains(err.Error(), "escapes"):
		return at + " is a symbolic link that leads out of the project, or is written from the top of the disk; copy the file instead"
	}
	return at + " can't be read: " + reason(err)
}

// open finds the project of the first pattern that uses a file.
func (l *Loader) open(from *problem.Source) error {
	folder := "."
	if from.Name != Stdin {
		folder = filepath.Dir(from.Name)
	}
	whole, err := filepath.Abs(folder)
	if err != nil {
		return err
	}
	l.root = root(whole)
	l.project, err = os.OpenRoot(l.root)
	return err
}

// root is the nearest folder, from a pattern's own upwards, that holds .git or
// a marker; else the pattern's own.
func root(folder string) string {
	for at, n := folder, 0; n < maxUp; n++ {
		for _, mark := range []string{".git", Marker} {
			if _, err := os.Lstat(filepath.Join(at, mark)); err == nil {
				return at
			}
		}
		up := filepath.Dir(at)
		if up == at {
			break
		}
		at = up
	}
	return folder
}
