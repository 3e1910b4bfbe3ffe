package main

import (
	"encoding/hex"
	"fmt"
	"hash"
	"hash/crc64"
	"os"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/emit"
	"seamwright/lang/problem"
)

// recordOf describes a build for the next one: the texts that it was made from,
// and a key that stands for what they say, what was asked for, and the program.
func recordOf(asked string, texts []*problem.Source, ps []problem.Problem) files.Record {
	if asked == "" {
		return files.Record{}
	}
	h := newKey()
	h.Write([]byte(asked))
	var r files.Record
	for _, t := range texts {
		if strings.HasPrefix(t.Name, files.Shipped) {
			continue // part of the program
		}
		if t.Name == files.Stdin {
			return files.Record{}
		}
		r.Sources = append(r.Sources, t.Name)
		add(h, t.Name, []byte(t.Text))
	}
	if len(r.Sources) > 0 {
		addEditions(h, r.Sources[0])
	}
	for i := range ps {
		switch ps[i].Severity {
		case problem.Warning:
			r.Warnings++
		case problem.Note:
			r.Notes++
		}
	}
	r.Key = hex.EncodeToString(h.Sum(nil))
	return r
}

// newKey begins a key. It guards against chance, not against malice: who can
// write into a folder of results needs no collision.
func newKey() hash.Hash { return crc64.New(crc64.MakeTable(crc64.ECMA)) }

// add hashes a text so that no other list of texts gives the same bytes.
func add(h hash.Hash, name string, text []byte) {
	fmt.Fprintf(h, "%d %s %d ", len(name), name, len(text))
	h.Write(text)
}

// addEditions hashes what was released of a pattern, which its build is held to.
func addEditions(h hash.Hash, name string) {
	if data, err := os.ReadFile(editionsOf(name)); err == nil {
		add(h, editionsOf(name), data)
	}
}

// asBefore returns the record of a folder that holds just what this build of the
// pattern would make again.
func asBefore(asked, name, folder string) (files.Record, bool) {
	last, ok := files.Last(folder)
	if asked == "" || !ok || len(last.Sources) == 0 || last.Sources[0] != name {
		return last, false
	}
	h := newKey()
	h.Write([]byte(asked))
	for _, s := range last.Sources {
		data, err := os.ReadFile(s)
		if err != nil {
			return last, false
		}
		add(h, s, data)
	}
	addEditions(h, name)
	return last, hex.EncodeToString(h.Sum(nil)) == last.Key
}

// asked tells apart builds that make different things of the same texts: by
// what is asked for, and by the program, which is known by its file's size and
// time. Without them nothing is taken for built.
func asked(o emit.Options, strict bool) string {
	program, err := os.Executable()
	if err != nil {
		return ""
	}
	info, err := os.Stat(program)
	if err != nil {
		return ""
	}
	sheet := ""
	if o.Sheet != nil {
		sheet = fmt.Sprint(*o.Sheet)
	}
	o.Sheet, o.Store = nil, nil
	return fmt.Sprintf("%d %d %+v %s %t\n", info.Size(), info.ModTime().UnixNano(), o, sheet, strict)
}
