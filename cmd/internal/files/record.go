package files

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
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
// written last, so a file that is newer was changed later. What is read goes through
// the room.
func Last(folder string, room *Room) (r Record, ok bool) {
	data, changed, err := glanceDated(folder+string(filepath.Separator)+Listing, room[:], MaxSize)
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
			warnings, notes, _ := strings.Cut(told, " ")
			r.Warnings, _ = strconv.Atoi(warnings)
			r.Notes, _ = strconv.Atoi(notes)
		} else if quoted, is := strings.CutPrefix(line, sourceMark); is {
			name, err := strconv.Unquote(quoted)
			if err != nil {
				return r, false
			}
			r.Sources = append(r.Sources, name)
		}
	}
	for _, name := range listedIn(text) {
		if !olderThan(folder+string(filepath.Separator)+filepath.FromSlash(name), changed) {
			return r, false
		}
	}
	return r, r.Key != ""
}

// glanced is how large a file is that is read without asking for memory: most
// patterns and listings are smaller.
const glanced = 16 << 10

// A Room is where [Glance] puts a usual file.
type Room [glanced]byte

// Rooms are those of several that look at files one after another, each with its own.
type Rooms struct{ free sync.Pool }

// Take returns a room, which is given back when what is in it has been looked at.
func (r *Rooms) Take() *Room {
	if room, ok := r.free.Get().(*Room); ok {
		return room
	}
	return new(Room)
}

// Back takes a room back.
func (r *Rooms) Back(room *Room) { r.free.Put(room) }

// Glance returns the bytes of a file, in the room where there is one and they fit. It is
// quicker than [Read], and refuses without a word what is no file of at most so many
// bytes.
func Glance(name string, room *Room, most int64) ([]byte, error) {
	if room == nil {
		return glance(name, nil, most)
	}
	return glance(name, room[:], most)
}
