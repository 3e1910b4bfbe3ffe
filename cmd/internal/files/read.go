package files

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"seamwright/lang/problem"
)

// MaxSize is the largest text that is read, in bytes: as much as the parser
// takes. A block of 10,000 written pieces is about half of it.
const MaxSize = 1 << 20

// Extension is how the name of a pattern ends.
const Extension = ".seam"

// Stdin is the name by which standard input is read.
const Stdin = "-"

// Read reads one text: a file, or stdin for the name "-". A text that can't be
// used comes back as nil with the problem that says why.
func Read(name string, stdin io.Reader) (*problem.Source, *problem.Problem) {
	if name == Stdin {
		data, err := io.ReadAll(io.LimitReader(stdin, MaxSize+1))
		if err != nil {
			return nil, unreadable(name, err)
		}
		return Text(name, data)
	}
	info, err := os.Stat(name)
	if err != nil {
		return nil, unreadable(name, err)
	}
	if p := usable(name, info); p != nil {
		return nil, p
	}
	f, err := openPlain(name, os.O_RDONLY, 0)
	if err != nil {
		return nil, unreadable(name, err)
	}
	defer f.Close()
	data, err := readAll(f, info.Size(), MaxSize)
	if err != nil {
		return nil, unreadable(name, err)
	}
	return Text(name, data)
}

// readAll reads a file of about the given size, and never much more than most,
// even if it grows.
func readAll(f io.Reader, size, most int64) ([]byte, error) {
	data := make([]byte, 0, min(size, most)+512)
	for {
		n, err := f.Read(data[len(data):cap(data)])
		data = data[:len(data)+n]
		if err == io.EOF || int64(len(data)) > most {
			return data, nil
		}
		if err != nil {
			return nil, err
		}
		if len(data) == cap(data) {
			data = append(data, 0)[:len(data)]
		}
	}
}

// usable refuses what is no file, and a file that is too large to be a pattern,
// before a byte of it is read: a pipe would wait for ever.
func usable(name string, info fs.FileInfo) *problem.Problem {
	switch {
	case info.IsDir():
		return fault(NotAFile, name, "this is a folder, where the name of a pattern is expected", "name a file in it, such as "+filepath.Join(name, "boat.seam"))
	case !info.Mode().IsRegular():
		return fault(NotAFile, name, "this is a "+kind(info.Mode())+", where the name of a pattern is expected",
			"to read a pattern from another program, write - for the name and pipe it in")
	case info.Size() > MaxSize:
		return tooLarge(name)
	}
	return nil
}

func kind(m fs.FileMode) string {
	switch {
	case m&fs.ModeNamedPipe != 0:
		return "pipe"
	case m&fs.ModeSocket != 0:
		return "socket"
	}
	return "device"
}

// Text checks that bytes are a text at all; what it says is the parser's work.
func Text(name string, data []byte) (*problem.Source, *problem.Problem) {
	if len(data) > MaxSize {
		return nil, tooLarge(name)
	}
	s := string(data)
	if what := binary(s); what != "" {
		return nil, fault(NotText, name, "this is "+what+", not a text", "a pattern is plain text in UTF-8, with a name that ends in .seam; any plain text editor writes it")
	}
	src := &problem.Source{Name: name, Text: s}
	if strings.TrimSpace(strings.TrimPrefix(s, "\uFEFF")) == "" {
		p := fault(Empty, name, "there is nothing in this file yet", "`seamwright new NAME` writes a small pattern to begin with")
		p.At.Source = src
		return nil, p
	}
	return src, nil
}

// binary says what some bytes are that are no text; "" for a text.
func binary(s string) string {
	for _, known := range []struct{ magic, what string }{
		{"%PDF-", "a PDF"},
		{"\x89PNG", "a picture"},
		{"\xff\xd8\xff", "a picture"},
		{"GIF8", "a picture"},
		{"PK\x03\x04", "a zip file or the document of a word processor"},
		{"\x1f\x8b", "a compressed file"},
		{"{\\rtf", "the document of a word processor"},
		{"\xff\xfe", "a text in UTF-16"},
		{"\xfe\xff", "a text in UTF-16"},
	} {
		if strings.HasPrefix(s, known.magic) {
			return known.what
		}
	}
	if strings.IndexByte(s, 0) >= 0 {
		return "a binary file"
	}
	return ""
}

func tooLarge(name string) *problem.Problem {
	return fault(TooLarge, name, fmt.Sprintf("this is larger than %d MB, the most that is read", MaxSize>>20),
		"a pattern of ten thousand pieces is half a megabyte; is this the right file?")
}

func unreadable(name string, err error) *problem.Problem {
	message, help := "this can't be read: "+reason(err), ""
	switch {
	case errors.Is(err, fs.ErrNotExist):
		message = "there is no such file"
		if near := problem.Nearest(filepath.Base(name), siblings(name)); near != "" {
			help = "did you mean " + filepath.Join(filepath.Dir(name), near) + "?"
		} else if filepath.Ext(name) == "" {
			help = "names of patterns end in .seam"
		}
	case errors.Is(err, fs.ErrPermission):
		message = "you have no permission to read this file"
	}
	return fault(Unreadable, name, message, help)
}

// reason is the plain words of an error, without the system call and path.
func reason(err error) string {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err.Error()
	}
	return err.Error()
}

func siblings(name string) []string {
	entries, _ := os.ReadDir(filepath.Dir(name))
	var names []string
	for _, e := range entries {
		if !e.IsDir() && filepath.Ext(e.Name()) == Extension {
			names = append(names, e.Name())
		}
	}
	return names
}

// fault is an error about a whole file.
func fault(code problem.Code, name, message, help string) *problem.Problem {
	return &problem.Problem{
		Code: code, Severity: problem.Error, Message: message, Help: help,
		At: problem.Place{Source: &problem.Source{Name: name}},
	}
}
