package pdf

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"hash/fnv"
	"math"
	"strconv"
	"unicode/utf16"
)

// A file is a PDF file as it grows. Objects are numbered from 1 in the order in
// which they are begun; numbers may be reserved and used in references before.
type file struct {
	buf     bytes.Buffer
	offsets []int        // of object i+1; 0 while it is only reserved
	zip     *zlib.Writer // kept, for its tables are large
	packed  bytes.Buffer
}

// ref is an indirect reference to an object.
type ref int

func (r ref) String() string { return strconv.Itoa(int(r)) + " 0 R" }

func newFile() *file {
	f := &file{}
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

// stream writes a compressed stream; dict is what stands in its dictionary
// besides length and filter.
func (f *file) stream(r ref, dict string, data []byte) {
	f.packed.Reset()
	if f.zip == nil {
		f.zip, _ = zlib.NewWriterLevel(&f.packed, zlib.BestSpeed) // the level is a constant: no error
	} else {
		f.zip.Reset(&f.packed)
	}
	f.zip.Write(data) // a bytes.Buffer takes everything
	f.zip.Close()
	f.raw(r, dict+" /Filter /FlateDecode", f.packed.Bytes())
}

// raw writes a stream as it is.
func (f *file) raw(r ref, dict string, data []byte) {
	f.offsets[r-1] = f.buf.Len()
	fmt.Fprintf(&f.buf, "%d 0 obj\n<<%s /Length %d>>\nstream\n", int(r), dict, len(data))
	f.buf.Write(data)
	f.buf.WriteString("\nendstream\nendobj\n")
}

// finish writes the cross-reference table and returns the whole file.
func (f *file) finish(root, info ref) []byte {
	h := fnv.New128a() // the file's identity is its content; no secret, so a plain hash does
	h.Write(f.buf.Bytes())
	id := h.Sum(nil)
	start := f.buf.Len()
	fmt.Fprintf(&f.buf, "xref\n0 %d\n0000000000 65535 f \n", len(f.offsets)+1)
	for _, at := range f.offsets {
		fmt.Fprintf(&f.buf, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(&f.buf, "trailer\n<</Size %d /Root %s /Info %s /ID [<%x> <%x>]>>\nstartxref\n%d\n%%%%EOF\n",
		len(f.offsets)+1, root, info, id, id, start)
	return f.buf.Bytes()
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

// number appends a coordinate with a ten-thousandth of a point, plainly: PDF
// knows no exponents.
func number(b []byte, v float64) []byte {
	const parts, digits, most = 10_000, 4, 1e12
	if !(math.Abs(v) < most) { // on no paper, but still a number
		return strconv.AppendFloat(b, v, 'f', digits, 64)
	}
	n := int64(math.Round(v * parts))
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/parts, 10)
	if n %= parts; n == 0 {
		return b
	}
	b = append(b, '.')
	for step := int64(parts / 10); n > 0; step /= 10 {
		b = append(b, byte('0'+n/step))
		n %= step
	}
	return b
}
