package photo

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/png"

	"seamwright/emit/drawing"
)

// Small returns a picture as a file for a screen, and its kind: "image/jpeg" as it
// is stored, or "image/png" at most so many dots wide. A JPEG is told again how the
// camera was held, and carries nothing else that the camera wrote.
func Small(r *drawing.Raster, wide int) (file []byte, kind string) {
	if r.JPEG != nil {
		return held(r), "image/jpeg"
	}
	n := max(1, (r.W+wide-1)/wide) // so many dots become one, each way
	img := image.NewNRGBA(image.Rect(0, 0, max(1, r.W/n), max(1, r.H/n)))
	for y := range img.Rect.Max.Y {
		for x := range img.Rect.Max.X {
			copy(img.Pix[img.PixOffset(x, y):], mean(r, x*n, y*n, n))
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil { // nothing fails when bytes are collected
		panic(err)
	}
	return b.Bytes(), "image/png"
}

// mean is the color of a square of dots, as far as the picture reaches; clear dots
// have no color.
func mean(r *drawing.Raster, x, y, n int) []byte {
	var sum [3]int
	alpha, dots := 0, 0
	for j := y; j < min(y+n, r.H); j++ {
		for i := x; i < min(x+n, r.W); i++ {
			a := 255
			if r.Alpha != nil {
				a = int(r.Alpha[j*r.W+i])
			}
			for c := range sum {
				sum[c] += a * int(r.RGB[3*(j*r.W+i)+c])
			}
			alpha, dots = alpha+a, dots+1
		}
	}
	if alpha == 0 {
		return []byte{0, 0, 0, 0}
	}
	return []byte{byte(sum[0] / alpha), byte(sum[1] / alpha), byte(sum[2] / alpha), byte(alpha / dots)}
}

// held puts an Exif segment into a JPEG that holds nothing but how it is to be seen
// (Exif 2.3, 4.5.4 and 4.6.4), behind the segment that says JFIF, where there is one.
func held(r *drawing.Raster) []byte {
	if r.Turn < 2 {
		return r.JPEG
	}
	at := 2
	if len(r.JPEG) > 4 && r.JPEG[2] == 0xFF && r.JPEG[3] == app {
		at += 2 + int(binary.BigEndian.Uint16(r.JPEG[4:]))
	}
	exif := []byte("\xff\xe1\x00\x22Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x00\x00\x00\x00\x00\x00\x00")
	exif[29] = byte(r.Turn) // the value of the one entry
	out := append(make([]byte, 0, len(r.JPEG)+len(exif)), r.JPEG[:at]...)
	return append(append(out, exif...), r.JPEG[at:]...)
}
