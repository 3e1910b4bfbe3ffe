package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"

	"seamwright/emit/drawing"
)

// Markers of a JPEG (ITU-T T.81, table B.1).
const (
	startOfFrame = 0xC0 // C0 to C2 are what documents carry: baseline, extended, progressive
	progressive  = 0xC2
	lastFrame    = 0xCF // up to here frames, but for three markers
	huffman      = 0xC4
	extension    = 0xC8
	arithmetic   = 0xCC
	restart      = 0xD0 // to D7: within the coded picture
	lastRestart  = 0xD7
	endOfImage   = 0xD9
	startOfScan  = 0xDA
	app          = 0xE0 // to EF
	app1         = 0xE1 // Exif and XMP: camera, time and place
	profile      = 0xE2 // a color profile
	adobe        = 0xEE // how colors are stored
)

var errDamaged = errors.New("it is damaged, or was not copied whole")

// readJPEG goes through the segments of a JPEG and keeps those that the picture
// is made of. The coded picture itself is not looked at.
func readJPEG(data []byte) (*drawing.Raster, error) {
	r := &drawing.Raster{JPEG: append(make([]byte, 0, len(data)), data[:2]...)}
	scanned := false
	for rest := data[2:]; ; {
		for len(rest) > 1 && rest[0] == 0xFF && rest[1] == 0xFF { // filling
			rest = rest[1:]
		}
		if len(rest) < 2 || rest[0] != 0xFF {
			return nil, errDamaged
		}
		marker := rest[1]
		if marker == endOfImage {
			if !scanned || r.W == 0 {
				return nil, errDamaged
			}
			r.JPEG = append(r.JPEG, rest[:2]...)
			return r, nil
		}
		if len(rest) < 4 {
			return nil, errDamaged
		}
		length := 2 + int(binary.BigEndian.Uint16(rest[2:]))
		if length < 4 || length > len(rest) {
			return nil, errDamaged
		}
		segment := rest[:length]
		switch {
		case marker == startOfScan:
			scanned = true
			length += coded(rest[length:])
			segment = rest[:length]
		case marker >= startOfFrame && marker <= lastFrame && marker != huffman && marker != extension && marker != arithmetic:
			if err := frame(r, marker, segment[4:]); err != nil {
				return nil, err
			}
		case marker == arithmetic:
			return nil, errUncommon
		case marker == app1:
			r.Turn = turn(segment[4:], r.Turn)
		case marker == adobe:
			r.Inverted = bytes.HasPrefix(segment[4:], []byte("Adobe"))
		}
		if marker == app || marker == profile || marker == adobe || marker < app {
			r.JPEG = append(r.JPEG, segment...)
		}
		rest = rest[length:]
	}
}

// coded is how many bytes of the coded picture follow: up to the next marker that
// is none of its own.
func coded(rest []byte) int {
	for i := 0; i+1 < len(rest); i++ {
		if rest[i] == 0xFF && rest[i+1] != 0 && rest[i+1] != 0xFF && (rest[i+1] < restart || rest[i+1] > lastRestart) {
			return i
		}
	}
	return len(rest)
}

var errUncommon = errors.New("it is a JPEG of an uncommon kind; save it anew as an ordinary one")

// frame reads the size and the channels (T.81, B.2.2).
func frame(r *drawing.Raster, marker byte, b []byte) error {
	if marker > progressive {
		return errUncommon
	}
	if len(b) < 6 || r.W != 0 {
		return errDamaged
	}
	if b[0] != 8 {
		return errUncommon
	}
	r.H, r.W, r.Channels = int(binary.BigEndian.Uint16(b[1:])), int(binary.BigEndian.Uint16(b[3:])), int(b[5])
	if r.Channels != 1 && r.Channels != 3 && r.Channels != 4 {
		return fmt.Errorf("it has %d colors in each dot, where a picture has 1, 3 or 4", r.Channels)
	}
	return fits(r.W, r.H)
}

// turn finds how the camera was held (Exif 2.3, tag 0x0112, in the first
// directory of what is laid out as a TIFF); known stays where nothing is told.
func turn(b []byte, known int) int {
	b, ok := bytes.CutPrefix(b, []byte("Exif\x00\x00"))
	if !ok || len(b) < 8 {
		return known
	}
	var order binary.ByteOrder = binary.BigEndian
	if b[0] == 'I' {
		order = binary.LittleEndian
	}
	at := int64(order.Uint32(b[4:]))
	if at < 8 || at+2 > int64(len(b)) {
		return known
	}
	const entry, orientation, short = 12, 0x0112, 3
	list := b[at+2:]
	for n := order.Uint16(b[at:]); n > 0 && len(list) >= entry; n-- {
		if order.Uint16(list) == orientation && order.Uint16(list[2:]) == short {
			if v := int(order.Uint16(list[8:])); v >= 1 && v <= 8 {
				return v
			}
			return known
		}
		list = list[entry:]
	}
	return known
}
