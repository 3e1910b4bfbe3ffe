package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"seamwright/cmd/internal/files"
)

// A made is a folder of results, and the files that it was made from.
type made struct {
	folder  string
	sources []string
}

// writeDeps writes what results were made from as rules that make and ninja
// read. The target of each is the listing in the folder of results, which gets a
// new time, so that it is newer than its sources even where they make the same as
// before.
func (c *call) writeDeps(name string, all []made) int {
	var b strings.Builder
	now := time.Now()
	for _, m := range all {
		target := filepath.Join(m.folder, files.Listing)
		if err := os.Chtimes(target, now, now); err != nil {
			return c.noDeps(target, err)
		}
		b.WriteString(depName(target) + ":")
		for _, s := range m.sources {
			b.WriteString(" \\\n  " + depName(s))
		}
		b.WriteString("\n")
	}
	if err := os.WriteFile(name, []byte(b.String()), 0o666); err != nil {
		return c.noDeps(name, err)
	}
	return good
}

func (c *call) noDeps(name string, err error) int {
	fmt.Fprintf(c.stderr, "seamwright: %s can't be written: %v\n", name, err)
	return misuse
}

// depName writes a name so that make and ninja read it as one.
func depName(s string) string {
	return strings.NewReplacer(" ", `\ `, "#", `\#`, "$", "$$").Replace(filepath.ToSlash(s))
}
