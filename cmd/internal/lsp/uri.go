package lsp

import (
	"path/filepath"
	"runtime"
	"strings"

	"seamwright/cmd/internal/files"
)

// nameOf returns the name of the source that a URI stands for: a path, or that of
// standard input for a text that is on no disk. A shipped family that the editor
// shows is what it is called in a `use`.
func (s *server) nameOf(uri string) string {
	path, ok := strings.CutPrefix(uri, "file://")
	if !ok {
		return files.Stdin
	}
	if i := strings.IndexByte(path, '/'); i > 0 {
		path = path[i:] // behind the name of this machine
	}
	path = unescaped(path)
	if runtime.GOOS == "windows" {
		path = strings.TrimPrefix(path, "/")
	}
	path = filepath.Clean(filepath.FromSlash(path))
	if name, ok := strings.CutSuffix(filepath.Base(path), files.Extension); ok && s.families != "" && filepath.Dir(path) == s.families {
		return files.Shipped + name
	}
	return path
}

// uriOf returns the URI of a source by its name, "" where it is no file.
func (s *server) uriOf(name string) string {
	if d := s.byName[name]; d != nil {
		return d.uri // as the editor writes it
	}
	if name == files.Stdin {
		return ""
	}
	if family, ok := strings.CutPrefix(name, files.Shipped); ok {
		return s.familyURI(family)
	}
	whole, err := filepath.Abs(name)
	if err != nil {
		return ""
	}
	path := filepath.ToSlash(whole)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path
	}
	return "file://" + escaped(path)
}

const hexDigits = "0123456789ABCDEF"

// escaped writes a path as the protocol's editors do: letters, digits and -._~/
// stand for themselves (RFC 3986, unreserved characters).
func escaped(path string) string {
	var b strings.Builder
	for i := 0; i < len(path); i++ {
		c := path[i]
		if c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte("-._~/", c) >= 0 {
			b.WriteByte(c)
			continue
		}
		b.WriteByte('%')
		b.WriteByte(hexDigits[c>>4])
		b.WriteByte(hexDigits[c&15])
	}
	return b.String()
}

// unescaped undoes what escaped and other programs do. A % that is none stays.
func unescaped(s string) string {
	digit := func(c byte) int { return strings.IndexByte(hexDigits, strings.ToUpper(string(rune(c)))[0]) }
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] == '%' && i+2 < len(s) {
			if high, low := digit(s[i+1]), digit(s[i+2]); high >= 0 && low >= 0 {
				b.WriteByte(byte(high<<4 | low))
				i += 2
				continue
			}
		}
		b.WriteByte(s[i])
	}
	return b.String()
}
