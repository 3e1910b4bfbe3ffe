package svg

import (
	"bytes"
	"flag"
	"fmt"
	"go/format"
	"os"
	"testing"

	"seamwright/emit/drawing"
)

var update = flag.Bool("update", false, "write outlines.go anew from the font")

// The tables of outlines.go are held to the font's own file, and written from it.
func TestTablesAreTheFonts(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("package svg\n\n// Written by `go test ./emit/svg -update` from the font's own outlines.\n")
	for _, weight := range []struct {
		name string
		bold bool
	}{{"outlinesRegular", false}, {"outlinesBold", true}} {
		fmt.Fprintf(&b, "\nvar %s = [...]string{\n", weight.name)
		for r := ' '; r <= '~'; r++ {
			fmt.Fprintf(&b, "%q, // %q\n", appendOutline(nil, drawing.GlyphOf(r, weight.bold).Segments), r)
		}
		b.WriteString("}\n")
	}
	want, err := format.Source(b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("outlines.go", want, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if got, _ := os.ReadFile("outlines.go"); !bytes.Equal(got, want) {
		t.Error("outlines.go is not what the font says; write it anew with -update")
	}
}
