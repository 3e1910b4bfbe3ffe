package emit

import "sync"

// Files are written one after the other into long stretches of memory: a buffer
// of its own for each would be moved every time it grows, and all that memory
// be touched for the first time, which costs more than writing it.
const (
	stretch = 256 << 10 // bytes; what is not used of one is never touched
	usual   = 128 << 10 // what a file may need without being moved
)

// A room holds stretches that are not full.
type room struct{ rest sync.Pool }

// take returns an empty slice to append a file to.
func (r *room) take() []byte {
	if b, ok := r.rest.Get().(*[]byte); ok {
		return *b
	}
	return make([]byte, 0, stretch)
}

// back takes back all of a stretch whose file is no longer needed.
func (r *room) back(file []byte) {
	file = file[:0]
	r.rest.Put(&file)
}

// give takes back what is left behind a file.
func (r *room) give(file []byte) {
	rest := file[len(file):]
	if cap(rest) >= usual {
		r.rest.Put(&rest)
	}
}
