package files

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"
)

// Listing is the file in a folder of results that lists what is ours in it.
const Listing = ".seamwright-files"

const listingHead = "# Written by seamwright, which replaces and removes these files and no others.\n"

// IsOut reports whether a folder holds results of an earlier call.
func IsOut(folder string) bool {
	info, err := os.Lstat(filepath.Join(folder, Listing))
	return err == nil && info.Mode().IsRegular()
}

// listed reads the names that earlier calls have written.
func (w *writer) listed() (map[string]bool, error) {
	ours := map[string]bool{}
	w.name = Listing
	f, err := w.root.Open(Listing)
	if errors.Is(err, fs.ErrNotExist) {
		return ours, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := readAll(f, 0, MaxSize)
	if err != nil {
		return nil, err
	}
	for _, name := range listedIn(string(data)) {
		ours[name] = true
	}
	return ours, nil
}

// listedIn returns the files that a listing names.
func listedIn(listing string) []string {
	var all []string
	for line := range strings.Lines(listing) {
		if line = strings.TrimSuffix(line, "\n"); line != "" && line[0] != '#' && fs.ValidPath(line) {
			all = append(all, line)
		}
	}
	return all
}

// same reports whether a file already holds an output's bytes.
func (w *writer) same(path string, data []byte, ours bool, d *desk) (bool, error) {
	info, err := w.root.Lstat(filepath.FromSlash(path))
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	if info.Mode().IsRegular() && info.Size() == int64(len(data)) {
		f, err := w.root.Open(filepath.FromSlash(path))
		if err != nil {
			return false, err
		}
		defer f.Close()
		if cap(d.old) < len(data) {
			d.old = make([]byte, len(data)+len(data)/4)
		}
		old := d.old[:len(data)]
		if _, err := io.ReadFull(f, old); err != nil {
			return false, err
		}
		if bytes.Equal(old, data) {
			return true, nil
		}
	}
	if !ours || !info.Mode().IsRegular() {
		return false, errForeign
	}
	return false, nil
}

// list makes the new list of our files, and names those that are no longer made.
func list(outputs []Output, ours map[string]bool, whole bool, r Record) (list Output, stale []string) {
	names := make([]string, 0, len(outputs)+len(ours))
	now := make(map[string]bool, len(outputs))
	for _, o := range outputs {
		now[o.Path] = true
		names = append(names, o.Path)
	}
	for name := range ours {
		switch {
		case now[name]:
		case whole:
			stale = append(stale, name)
		default:
			names = append(names, name)
		}
	}
	sort.Strings(names)
	sort.Strings(stale)
	return Output{Path: Listing, Data: []byte(listingHead + r.text() + strings.Join(names, "\n") + "\n")}, stale
}
