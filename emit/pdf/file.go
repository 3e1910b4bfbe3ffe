package pdf

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/adler32"
	"hash/crc32"
	"strconv"
	"unicode/utf16"
)

// A file is a PDF file as it grows. Objects are numbered from 1 in the order in
// which they are begun; numbers may be reserved and used in references before.
type file struct {
	buf     bytes.Buffer
	offsets []int // of object i+1; 0 while it is only reserved
	store   *Store
}

// ref is an indirect reference to an object.
type ref int

func (r ref) String() string { return strconv.Itoa(int(r)) + " 0 R" }

func newFile(store *Store) *file {
	f := &file{store: store}
	// The second line marks the file as binary, as ISO 32000-1, 7.5.2 asks.
	f.buf.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	return f
}

// reserve gives out the next object number.
func (f *file) reserve() ref {
	f.offsets = append(f.offsets, 0)
	return ref(len(f.offsets))
}

// put writes an object that has been reserved.
func (f *file) put(r ref, body string) {
	f.offsets[r-1] = f.buf.Len()
	fmt.Fprintf(&f.buf, "%d 0 obj\n%s\nendobj\n", int(r), body)
}

// add writes an object and returns its reference.
func (f *file) add(body string) ref {
	r := f.reserve()
	f.put(r, body)
	return r
}

// stream packs bytes and writes them; dict is what stands in the dictionary
// besides length and filter.
func (f *file) stream(r ref, dict string, data []byte) { f.packed(r, dict, f.store.pack(data)) }

// packed writes a stream that is packed already.
func (f *file) packed(r ref, dict string, s stream) {
	f.offsets[r-1] = f.buf.Len()
	filter := ""
	if s.deflated {
		filter = " /Filter /FlateDecode"
	}
	fmt.Fprintf(&f.buf, "%d 0 obj\n<<%s /Length %d%s>>\nstream\n", int(r), dict, len(s.data), filter)
	f.buf.Write(s.data)
	f.buf.WriteString("\nendstream\nendobj\n")
}

// finish writes the cross-reference table and returns the whole file.
func (f *file) finish(root, info ref) []byte {
	id := identity(f.buf.Bytes())
	start := f.buf.Len()
	fmt.Fprintf(&f.buf, "xref\n0 %d\n0000000000 65535 f \n", len(f.offsets)+1)
	for _, at := range f.offsets {
		fmt.Fprintf(&f.buf, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(&f.buf, "trailer\n<</Size %d /Root %s /Info %s /ID [<%x> <%x>]>>\nstartxref\n%d\n%%%%EOF\n",
		len(f.offsets)+1, root, info, id, id, start)
	return f.buf.Bytes()
}

// identity tells files with other contents apart. It keeps no secret, so sums that
// processors have instructions for will do.
func identity(data []byte) []byte {
	id := binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(data))
	id = binary.BigEndian.AppendUint32(id, crc32.Checksum(data, crc32.MakeTable(crc32.Castagnoli)))
	id = binary.BigEndian.AppendUint32(id, adler32.Checksum(data))
	return binary.BigEndian.AppendUint32(id, uint32(len(data)))
}

// text writes a text string: UTF-16 with its mark, in hexadecimal, so that
// nothing in the author's text can end the string.
func text(s string) string {
	b := []byte("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		b = fmt.Appendf(b, "%04X", u)
	}
	return string(append(b, '>'))
}
