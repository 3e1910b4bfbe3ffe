package examples_test

import (
	"bytes"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/emit"
)

// The picture that the boat's booklet shows is the one that the program makes of
// it, to within the last step of a color: processors round otherwise.
func TestShownPicture(t *testing.T) {
	shown := filepath.Join("pictures", "two_fabrics.png")
	outputs, problems := emit.Build(compile(t, "harbour_boat.seam"), emit.Options{Only: []string{"diagrams"}, Forms: []string{"png"}, Width: 600})
	tell(t, problems)
	for _, o := range outputs {
		if !strings.HasSuffix(o.Path, "/colorway-two.png") {
			continue
		}
		if *update {
			if err := os.WriteFile(shown, o.Data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		data, err := os.ReadFile(shown)
		if err != nil {
			t.Fatal(err)
		}
		want, err1 := png.Decode(bytes.NewReader(data))
		got, err2 := png.Decode(bytes.NewReader(o.Data))
		if err1 != nil || err2 != nil || want.Bounds() != got.Bounds() {
			t.Fatal(err1, err2)
		}
		for y := range want.Bounds().Dy() {
			for x := range want.Bounds().Dx() {
				a, b := color.RGBAModel.Convert(want.At(x, y)).(color.RGBA), color.RGBAModel.Convert(got.At(x, y)).(color.RGBA)
				if max(a.R, b.R)-min(a.R, b.R) > 1 || max(a.G, b.G)-min(a.G, b.G) > 1 || max(a.B, b.B)-min(a.B, b.B) > 1 {
					t.Fatalf("%s is old: run the test with -update and look at it", shown)
				}
			}
		}
		return
	}
	t.Error("no such picture is made")
}
