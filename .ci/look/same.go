package main

import (
	"bytes"
	"image"
	stdpng "image/png"
	"os/exec"
	"strings"
)

// compared is how wide two drawings are when they are compared, in dots, and
// clearly how far a dot must be off to be seen, of 65,535. Rounding in the last
// decimal of a place moves an edge by a hundredth of a dot.
const (
	compared = "800"
	clearly  = 0x2000
)

// looksSame reports whether a drawing whose bytes have changed shows what it
// showed. Without librsvg's rsvg-convert nobody can say, and it reports false.
func looksSame(c *change) bool {
	if c.Before == nil || c.Now == nil {
		return false
	}
	a, b := toDots(c.Name, c.Before), toDots(c.Name, c.Now)
	if a == nil || b == nil || a.Bounds() != b.Bounds() {
		return false
	}
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			r1, g1, b1, _ := a.At(x, y).RGBA()
			r2, g2, b2, _ := b.At(x, y).RGBA()
			if apart(r1, r2) || apart(g1, g2) || apart(b1, b2) {
				return false
			}
		}
	}
	return true
}

func apart(a, b uint32) bool { return max(a, b)-min(a, b) > clearly }

// toDots draws an SVG, or reads a PNG; nil where that fails.
func toDots(name string, data []byte) image.Image {
	if strings.HasSuffix(name, ".svg") {
		c := exec.Command("rsvg-convert", "-w", compared, "-b", "white")
		c.Stdin = bytes.NewReader(data)
		out, err := c.Output()
		if err != nil {
			return nil
		}
		data = out
	}
	img, err := stdpng.Decode(bytes.NewReader(data))
	if err != nil {
		return nil
	}
	return img
}
