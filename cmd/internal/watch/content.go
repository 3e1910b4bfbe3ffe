package watch

import (
	"hash/maphash"
	"io"
	"os"
)

// most is how many bytes of a file are looked at. It is more than is ever read
// of a pattern.
const most = 2 << 20

// A content is what a file holds, in short.
type content struct {
	there bool // as a file that can be read
	size  int
	hash  uint64
}

// look reads a file. One that is no regular file is not opened: reading a pipe
// would wait.
func look(name string, seed maphash.Seed) content {
	info, err := os.Stat(name)
	if err != nil || !info.Mode().IsRegular() {
		return content{}
	}
	f, err := os.Open(name)
	if err != nil {
		return content{}
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most))
	if err != nil {
		return content{}
	}
	return content{true, len(data), maphash.Bytes(seed, data)}
}

// A change says whether a file is another than it was.
type change int8

const (
	none    change = iota
	perhaps        // gone or empty, which it often is for a moment while it is saved
	surely
)

// changed compares all files with what they held before they were read.
func (w *watcher) changed() change {
	worst := none
	for name, was := range w.seen {
		switch now := look(name, w.seed); {
		case now == was:
		case now.size == 0:
			worst = max(worst, perhaps)
		default:
			return surely
		}
	}
	return worst
}
