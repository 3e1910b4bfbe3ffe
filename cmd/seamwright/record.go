package main

import (
	"fmt"
	"hash/crc32"
	"os"
	"strconv"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/emit"
	"seamwright/emit/booklet"
	"seamwright/lang/problem"
)

// recordOf describes a build for the next one: the texts that it was made from,
// and a key that stands for what they say, what was asked for, and the program. It
// is empty where a file was not there that may come.
func recordOf(asked string, texts []*problem.Source, ps []problem.Problem) files.Record {
	if asked == "" {
		return files.Record{}
	}
	var k key
	k.write([]byte(asked))
	var r files.Record
	for _, t := range texts {
		if strings.HasPrefix(t.Name, files.Shipped) {
			continue // part of the program
		}
		if t.Name == files.Stdin {
			return files.Record{}
		}
		r.Sources = append(r.Sources, t.Name)
		k.add(t.Name, []byte(t.Text))
	}
	if len(r.Sources) > 0 {
		k.addEditions(r.Sources[0], nil)
	}
	for i := range ps {
		if ps[i].Code == booklet.NoPicture {
			return files.Record{}
		}
		switch ps[i].Severity {
		case problem.Warning:
			r.Warnings++
		case problem.Note:
			r.Notes++
		}
	}
	r.Key = k.String()
	return r
}

// A key is a sum of bytes and their number. It guards against chance, not against
// malice: who can write into a folder of results needs no collision. Of this sum,
// processors do many bytes at once, and it needs no table that takes time to make.
type key struct{ sum, n uint32 }

func (k *key) write(b []byte) {
	k.sum = crc32.Update(k.sum, crc32.IEEETable, b)
	k.n += uint32(len(b))
}

func (k key) String() string {
	const digits = 16
	s := strconv.FormatUint(uint64(k.sum)<<32|uint64(k.n), 16)
	return strings.Repeat("0", digits-len(s)) + s
}

// add sums a text so that no other list of texts gives the same bytes.
func (k *key) add(name string, text []byte) {
	var room [128]byte
	b := append(strconv.AppendInt(room[:0], int64(len(name)), 10), ' ')
	b = append(append(b, name...), ' ')
	k.write(append(strconv.AppendInt(b, int64(len(text)), 10), ' '))
	k.write(text)
}

// addEditions sums what was released of a pattern, which it is held to.
func (k *key) addEditions(name string, room *files.Room) {
	at := editionsOf(name)
	if data, err := files.Glance(at, room, mostEditions); err == nil {
		k.add(at, data)
	}
}

// keyOf is the key of what was asked for of some files as they are now, which are read
// through the room.
func keyOf(asked string, sources []string, room *files.Room) (k key, ok bool) {
	k.write([]byte(asked))
	for _, s := range sources {
		data, err := files.Glance(s, room, files.MaxPicture)
		if err != nil {
			return k, false
		}
		k.add(s, data)
	}
	k.addEditions(sources[0], room)
	return k, true
}

// asBefore returns the record of a folder that holds just what this build of the
// pattern would make again.
func asBefore(asked, name, folder string, room *files.Room) (files.Record, bool) {
	last, ok := files.Last(folder, room)
	if asked == "" || !ok || len(last.Sources) == 0 || last.Sources[0] != name {
		return last, false
	}
	k, ok := keyOf(asked, last.Sources, room)
	return last, ok && k.String() == last.Key
}

// asked tells apart builds that make different things of the same texts: by
// what is asked for, and by the program. Without it nothing is taken for built.
func (c *call) asked(o emit.Options, strict bool) string {
	program := program()
	if program == "" {
		return ""
	}
	sheet := ""
	if o.Sheet != nil {
		sheet = fmt.Sprint(*o.Sheet)
	}
	o.Sheet, o.Store = nil, nil
	return fmt.Sprintf("%s %+v %s %t %s\n", program, o, sheet, strict, c.units)
}

// program tells this program from others, by its file's size and time; "" where
// they can't be had.
func program() string {
	program, err := os.Executable()
	if err != nil {
		return ""
	}
	info, err := os.Stat(program)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%d %d", info.Size(), info.ModTime().UnixNano())
}
