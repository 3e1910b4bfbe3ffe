package lsp

import (
	"hash/fnv"
	"os"
	"path/filepath"
	"strconv"

	"seamwright/cmd/internal/files"
	"seamwright/lang/families"
)

// familyURI returns the URI of a shipped family's text, for an editor to show. An
// editor shows files, so the families are written into the user's cache when one is
// first asked for, in a folder named after what they say. "" where that can't be.
func (s *server) familyURI(name string) string {
	if s.families == "" {
		s.families = writeFamilies()
	}
	if _, ok := families.Source(name); !ok || s.families == "" {
		return ""
	}
	return s.uriOf(filepath.Join(s.families, name+files.Extension))
}

func writeFamilies() string {
	cache, err := os.UserCacheDir()
	if err != nil {
		return ""
	}
	sum := fnv.New64a() // tells versions apart, keeps nothing secret; crypto would slow every start
	for _, name := range families.Names() {
		text, _ := families.Source(name)
		sum.Write([]byte(name + "\x00" + text + "\x00"))
	}
	folder := filepath.Join(cache, "seamwright", "families-"+strconv.FormatUint(sum.Sum64(), 16))
	if _, err := os.Stat(folder); err == nil {
		return folder
	}
	// Written beside and renamed, so that no half of it is ever seen.
	if os.MkdirAll(filepath.Dir(folder), 0o777) != nil {
		return ""
	}
	stage, err := os.MkdirTemp(filepath.Dir(folder), "families-")
	if err != nil {
		return ""
	}
	for _, name := range families.Names() {
		text, _ := families.Source(name)
		if os.WriteFile(filepath.Join(stage, name+files.Extension), []byte(text), 0o444) != nil {
			os.RemoveAll(stage)
			return ""
		}
	}
	if os.Rename(stage, folder) != nil {
		os.RemoveAll(stage) // another server was faster, perhaps
		if _, err := os.Stat(folder); err != nil {
			return ""
		}
	}
	return folder
}
