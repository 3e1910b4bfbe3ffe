package main

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/lang/problem"
)

// A memo remembers, from one check of many patterns to the next, what was told of
// those that have no error, in a file of the user's cache for each folder that is
// worked in. One with an error is checked anew: a file that is not there may come.
// Where the cache can't be had nothing is remembered, and nothing is said of it.
type memo struct {
	at    string // the file; "" where there is none
	asked string
	known map[string]passed // by the name under which it was checked
	rooms files.Rooms
}

// A passed is a pattern without an error, and what was told of it.
type passed struct {
	key     string
	inShort string
	told    string   // see remember
	sources []string // the pattern first
}

// mostPassed bounds the file: more than is checked in one run (files.MaxFound).
const mostPassed = 2 * files.MaxFound

// memoLine is how long a line of the file usually is, at most, in bytes.
const memoLine = 1 << 10

// newMemo reads what is remembered.
func newMemo() *memo {
	m := &memo{known: map[string]passed{}}
	cache, err := os.UserCacheDir()
	if err != nil {
		return m
	}
	folder, err := os.Getwd()
	program := program()
	if err != nil || program == "" {
		return m
	}
	m.asked = "check " + program + " " + folder + "\n"
	var k key
	k.write([]byte(folder))
	m.at = filepath.Join(cache, "seamwright", "checked-"+k.String())
	data, err := files.Glance(m.at, nil, mostPassed*memoLine)
	if err != nil {
		return m
	}
	for line := range strings.Lines(string(data)) {
		if name, p, ok := parsePassed(strings.TrimSuffix(line, "\n")); ok {
			m.known[name] = p
		}
	}
	return m
}

// asBefore returns what was told of a pattern that is as it was.
func (m *memo) asBefore(name string) (d checked, ok bool) {
	p, ok := m.known[name]
	if !ok {
		return d, false
	}
	room := m.rooms.Take()
	defer m.rooms.Back(room)
	if k, ok := keyOf(m.asked, p.sources, room); !ok || k.String() != p.key {
		return d, false
	}
	d.inShort = p.inShort
	d.ps, ok = recall(p.told)
	return d, ok
}

// pass describes a pattern that was checked, if it can be passed over the next
// time: it has no error, and no file is missing.
func (m *memo) pass(texts []*problem.Source, d checked) (p passed) {
	if r := recordOf(m.asked, texts, d.ps); !problem.Failed(d.ps) && len(r.Sources) > 0 {
		p = passed{r.Key, d.inShort, remember(d.ps), r.Sources}
		if p.told == "" && len(d.ps) > 0 {
			p.sources = nil
		}
	}
	return p
}

// keep remembers some more, if there are any: of too many patterns those that were
// checked now.
func (m *memo) keep(more []passed, checked []string) {
	if m.at == "" || len(more) == 0 {
		return
	}
	for _, p := range more {
		m.known[p.sources[0]] = p
	}
	names := slices.Sorted(maps.Keys(m.known))
	if len(names) > mostPassed {
		names = checked
	}
	var b []byte
	for _, name := range names {
		p, ok := m.known[name]
		if !ok {
			continue
		}
		b = strconv.AppendQuote(append(append(b, p.key...), ' '), p.inShort)
		b = strconv.AppendQuote(append(b, ' '), p.told)
		for _, s := range p.sources {
			b = strconv.AppendQuote(append(b, ' '), s)
		}
		b = append(b, '\n')
	}
	if os.MkdirAll(filepath.Dir(m.at), 0o777) == nil {
		files.Put(m.at, b) // where it can't be written nothing is remembered
	}
}

// parsePassed reads a line of the file.
func parsePassed(line string) (name string, p passed, ok bool) {
	p.key, line, ok = strings.Cut(line, " ")
	for n := 0; ok && line != ""; n++ {
		quoted, err := strconv.QuotedPrefix(line)
		if err != nil {
			return "", p, false
		}
		line = strings.TrimPrefix(line[len(quoted):], " ")
		s, err := strconv.Unquote(quoted)
		if err != nil {
			return "", p, false
		}
		switch n {
		case 0:
			p.inShort = s
		case 1:
			p.told = s
		default:
			p.sources = append(p.sources, s)
		}
	}
	if !ok || len(p.sources) == 0 {
		return "", p, false
	}
	return p.sources[0], p, true
}
