package drawing

import (
	"bytes"
	"flag"
	"fmt"
	"go/format"
	"os"
	"testing"
)

var update = flag.Bool("update", false, "write ascii.go anew from the font")

// The tables of ascii.go are held to the font's own file, and written from it.
func TestTablesAreTheFonts(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("package drawing\n\n// Written by `go test ./emit/drawing -update` from the font's own tables.\n")
	for _, weight := range []struct {
		name string
		bold bool
	}{{"asciiRegular", false}, {"asciiBold", true}} {
		fmt.Fprintf(&b, "\nvar %s = [...]measures{\n", weight.name)
		for r := ' '; r <= '~'; r++ {
			g := GlyphOf(r, weight.bold)
			m := measures{int16(g.Advance), int16(g.Ink.X0), int16(g.Ink.Y0), int16(g.Ink.X1), int16(g.Ink.Y1)}
			if exact := (Box{float64(m.x0), float64(m.y0), float64(m.x1), float64(m.y1)}); float64(m.advance) != g.Advance || exact != g.Ink {
				t.Fatalf("%q has measures that are no whole units: %v %v", r, g.Advance, g.Ink)
			}
			fmt.Fprintf(&b, "{%d, %d, %d, %d, %d}, // %q\n", m.advance, m.x0, m.y0, m.x1, m.y1, r)
		}
		b.WriteString("}\n")
	}
	want, err := format.Source(b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("ascii.go", want, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if got, _ := os.ReadFile("ascii.go"); !bytes.Equal(got, want) {
		t.Error("ascii.go is not what the font says; write it anew with -update")
	}
}
