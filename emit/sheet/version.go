package sheet

import (
	"encoding/binary"
	"hash"
	"hash/crc64"
	"math"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// markLength is the number of characters of a version mark: 30 bits, enough to
// tell any two editions of a pattern apart.
const markLength = 6

// markAlphabet has no letter that is read as a digit.
const markAlphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// markGrain is the fineness with which the mark looks at lengths: what is
// printed alike has one mark, whatever the last bits of the numbers.
const markGrain = 0.01 * pattern.Millimetre

// markTip keeps what lies halfway between two steps, as an eighth of an inch does,
// from being rounded by the noise of its last bits, which is not the same on every
// processor.
const markTip = 1e-4

// versionMark is computed from what is printed on the sheets, all of it: lines,
// numbers, words. A correction in a comment of the text leaves it alone. The sum
// guards against accident, not malice, so it is one that costs no start-up time.
func versionMark(sheets []Sheet) string {
	m := marker{seen: map[*drawing.Group]bool{}, sum: crc64.New(crc64.MakeTable(crc64.ECMA)), buf: make([]byte, 0, 4096)}
	for i := range sheets {
		m.length(sheets[i].Page.Size.W)
		m.length(sheets[i].Page.Size.H)
		m.items(sheets[i].Page.Items)
	}
	m.sum.Write(m.buf)
	bits := m.sum.Sum64()
	out := make([]byte, markLength)
	for i := range out {
		out[i] = markAlphabet[bits>>59]
		bits <<= 5
	}
	return string(out)
}

type marker struct {
	seen map[*drawing.Group]bool
	sum  hash.Hash64
	buf  []byte
}

func (m *marker) items(items []drawing.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			m.number('p', int64(item.Style), int64(item.Fill), int64(len(item.Points)))
			m.length(item.Circle)
			for _, p := range item.Points {
				m.length(p.X)
				m.length(p.Y)
			}
		case *drawing.Text:
			m.number('t', int64(len(item.Text)), int64(item.Anchor), int64(math.Round(item.Turn*100)))
			m.buf = append(m.buf, item.Text...)
			m.length(item.At.X)
			m.length(item.At.Y)
			m.length(item.Size)
		case *drawing.Group:
			m.number('g', int64(len(item.Items)))
			if item.Shared { // the same on many pages, and its name stands for it
				m.buf = append(m.buf, item.ID...)
				if m.seen[item] {
					continue
				}
				m.seen[item] = true
			}
			m.items(item.Items)
		}
		if len(m.buf) > 4000 {
			m.sum.Write(m.buf)
			m.buf = m.buf[:0]
		}
	}
}

func (m *marker) number(vs ...int64) {
	for _, v := range vs {
		m.buf = binary.LittleEndian.AppendUint32(m.buf, uint32(v))
	}
}

func (m *marker) length(l length) {
	m.buf = binary.LittleEndian.AppendUint32(m.buf, uint32(int64(math.Round(float64(l/markGrain)+markTip))))
}
