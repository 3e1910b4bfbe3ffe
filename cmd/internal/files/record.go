package files

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// A Record is what a folder of results remembers of the build that made it. It
// stands in the folder's listing, so that it is written with the rest or not at
// all. The zero Record remembers nothing.
type Record struct {
	Key             string   // stands for everything that went into the build
	Sources         []string // the files it was made from, by the names under which they were read
	Warnings, Notes int      // that were told
}

const (
	keyMark    = "# key "
	toldMark   = "# told "
	sourceMark = "# from "
)

func (r *Record) text() string {
	if r.Key == "" {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s%s\n%s%d %d\n", keyMark, r.Key, toldMark, r.Warnings, r.Notes)
	for _, s := range r.Sources {
		b.WriteString(sourceMark + strconv.Quote(s) + "\n")
	}
	return b.String()
}

// Last returns what a folder remembers of its last build, if everything that was
// written then is still there and nobody has touched it since: the listing is
// written last, so a file that is newer was changed later.
func Last(folder string) (r Record, ok bool) {
	at := filepath.Join(folder, Listing)
	listing, err := os.Lstat(at)
	if err != nil || !listing.Mode().IsRegular() || listing.Size() > MaxSize {
		return r, false
	}
	data, err := os.ReadFile(at)
	if err != nil {
		return r, false
	}
	text := string(data)
	for line := range strings.Lines(text) {
		if !strings.HasPrefix(line, "#") {
			break
		}
		line = strings.TrimSuffix(line, "\n")
		if key, is := strings.CutPrefix(line, keyMark); is {
			r.Key = key
		} else if told, is := strings.CutPrefix(line, toldMark); is {
			fmt.Sscanf(told, "%d %d", &r.Warnings, &r.Notes)
		} else if quoted, is := strings.CutPrefix(line, sourceMark); is {
			name, err := strconv.Unquote(quoted)
			if err != nil {
				return r, false
			}
			r.Sources = append(r.Sources, name)
		}
	}
	for _, name := range listedIn(text) {
		info, err := os.Lstat(filepath.Join(folder, filepath.FromSlash(name)))
		if err != nil || !info.Mode().IsRegular() || info.ModTime().After(listing.ModTime()) {
			return r, false
		}
	}
	return r, r.Key != ""
}
