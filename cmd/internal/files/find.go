package files

import (
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"seamwright/lang/problem"
)

// MaxFound is how many patterns are taken from one folder, so that a slip of
// the hand (`check /`) ends soon and clearly.
const MaxFound = 10_000

// Find replaces each folder among the names by the patterns in and below it, in
// the order of their names, and leaves every other name as it is. Folders whose
// names begin with a dot or end in "-out" are passed over, and so are symbolic
// links.
func Find(names []string) ([]string, []problem.Problem) {
	var found []string
	var ps []problem.Problem
	for _, name := range names {
		info, err := os.Stat(name)
		if name == Stdin || err != nil || !info.IsDir() {
			found = append(found, name)
			continue
		}
		in, p := below(name)
		if p != nil {
			ps = append(ps, *p)
		}
		found = append(found, in...)
	}
	return found, ps
}

func below(folder string) ([]string, *problem.Problem) {
	var found []string
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && path != folder && (strings.HasPrefix(d.Name(), ".") || strings.HasSuffix(d.Name(), OutSuffix)) {
			return fs.SkipDir
		}
		if d.Type().IsRegular() && filepath.Ext(path) == Extension {
			found = append(found, path)
		}
		if len(found) > MaxFound {
			return fs.SkipAll
		}
		return nil
	})
	switch {
	case err != nil:
		return nil, unreadable(folder, err)
	case len(found) > MaxFound:
		return nil, fault(NotAFile, folder, "more than 10,000 patterns are in this folder", "name a smaller folder")
	case len(found) == 0:
		return nil, fault(NotAFile, folder, "no pattern is in this folder", "names of patterns end in .seam")
	}
	sort.Strings(found)
	return found, nil
}
