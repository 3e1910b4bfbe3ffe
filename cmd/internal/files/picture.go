package files

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"seamwright/lang/problem"
)

// MaxPicture is the largest picture that is read, in bytes: a photograph of 12
// million dots is about half of it, and a booklet that carries more is too large
// to be sent.
const MaxPicture = 10 << 20

// Picture reads one of the author's pictures, in the file from, by the same rules
// as a text: from the pattern's own folder, inside its project. Where there is
// none to be had it returns "" and says why.
func (l *Loader) Picture(from *problem.Source, name string) (data, why string) {
	if name == "" {
		return "", "its name is empty; write for example \"boat.jpg\""
	}
	if message := spelling(name); message != "" {
		return "", message
	}
	at := filepath.FromSlash(name)
	if from.Name != Stdin {
		at = filepath.Join(filepath.Dir(from.Name), at)
	}
	if p, ok := l.pictures[at]; ok {
		return p.Text, ""
	}
	if l.Before != nil {
		l.Before(at)
	}
	read, why := l.bytes(from, at, MaxPicture, l.noPicture)
	switch {
	case why != "":
		return "", why
	case len(read) == 0:
		return "", "there is nothing in " + at
	}
	if l.pictures == nil {
		l.pictures = map[string]*problem.Source{}
	}
	p := &problem.Source{Name: at, Text: string(read)}
	l.pictures[at] = p
	return p.Text, ""
}

// noPicture words the failure to open a picture.
func (l *Loader) noPicture(at string, err error) string {
	if !errors.Is(err, fs.ErrNotExist) {
		return l.missing(at, err)
	}
	entries, _ := os.ReadDir(filepath.Dir(at))
	var names []string
	for _, e := range entries {
		kind := strings.ToLower(filepath.Ext(e.Name()))
		if !e.IsDir() && slices.Contains([]string{".png", ".jpg", ".jpeg"}, kind) {
			names = append(names, e.Name())
		}
	}
	if near := problem.Nearest(filepath.Base(at), names); near != "" {
		return "there is no file " + at + "; did you mean " + near + "?"
	}
	return "there is no file " + at
}
