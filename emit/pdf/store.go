package pdf

import (
	"bytes"
	"compress/zlib"
	"hash/maphash"
	"sync"

	"seamwright/emit/drawing"
)

// leastPacked is what a stream must hold to be worth packing: a shorter one
// comes out hardly smaller, and the tables of the packing cost more than it.
const leastPacked = 400

// A stream is what stands between stream and endstream.
type stream struct {
	data     []byte
	deflated bool
}

// A Store keeps what several files have in common, and what files have in
// common with those made before: pages that stand in two files are drawn and
// packed once, and bytes that were packed for the last build are not packed
// again. It changes no file, only how long it takes to make. The zero Store is
// ready; it may be used by several goroutines.
type Store struct {
	mu    sync.Mutex
	seed  maphash.Seed
	keys  bool // the seed is set
	now   map[key]stream
	last  map[key]stream
	pages map[*drawing.Page]*page

	zips, buffers sync.Pool
}

// A key stands for the bytes of a stream: two independent hashes of 64 bits and
// their number, so that two streams are taken for one in no lifetime.
type key struct {
	a, b uint64
	n    int
}

// Next begins another build: what the last one did not use is forgotten.
func (s *Store) Next() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.last, s.now = s.now, nil
	s.pages = nil
}

// shared returns what is kept of a page that stands in several files.
func (s *Store) shared(p *drawing.Page) *page {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.pages == nil {
		s.pages = map[*drawing.Page]*page{}
	}
	if s.pages[p] == nil {
		s.pages[p] = &page{}
	}
	return s.pages[p]
}

// pack makes a stream of bytes, which it does not keep.
func (s *Store) pack(data []byte) stream {
	if len(data) < leastPacked {
		return stream{data: bytes.Clone(data)}
	}
	k := s.key(data)
	s.mu.Lock()
	kept, ok := s.now[k]
	if !ok {
		if kept, ok = s.last[k]; ok {
			s.keep(k, kept)
		}
	}
	s.mu.Unlock()
	if ok {
		return kept
	}
	kept = stream{s.deflate(data), true}
	s.mu.Lock()
	s.keep(k, kept)
	s.mu.Unlock()
	return kept
}

func (s *Store) keep(k key, kept stream) {
	if s.now == nil {
		s.now = map[key]stream{}
	}
	s.now[k] = kept
}

func (s *Store) key(data []byte) key {
	s.mu.Lock()
	if !s.keys {
		s.seed, s.keys = maphash.MakeSeed(), true
	}
	seed := s.seed
	s.mu.Unlock()
	var h maphash.Hash
	h.SetSeed(seed)
	h.Write(data)
	a := h.Sum64()
	h.WriteByte(1)
	return key{a, h.Sum64(), len(data)}
}

// A zipper is a writer with its tables, which are large, and what it wrote.
type zipper struct {
	w   *zlib.Writer
	out bytes.Buffer
}

func (s *Store) deflate(data []byte) []byte {
	z, _ := s.zips.Get().(*zipper)
	if z == nil {
		z = &zipper{}
		z.w, _ = zlib.NewWriterLevel(&z.out, zlib.BestSpeed) // the level is a constant: no error
	}
	z.out.Reset()
	z.w.Reset(&z.out)
	z.w.Write(data) // a bytes.Buffer takes everything
	z.w.Close()
	packed := bytes.Clone(z.out.Bytes())
	s.zips.Put(z)
	return packed
}

// buffer returns room for a content; spare gives it back.
func (s *Store) buffer() []byte {
	if b, _ := s.buffers.Get().(*[]byte); b != nil {
		return (*b)[:0]
	}
	return make([]byte, 0, 1<<15)
}

func (s *Store) spare(b []byte) { s.buffers.Put(&b) }
