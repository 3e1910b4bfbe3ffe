package main

import (
	"bytes"
	stdpng "image/png"
	"os"
	"os/exec"
	"strings"
	"testing"
)

const square = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" width="10mm" height="10mm"><path d="M1 1h%sv8h-8z"/></svg>`

func picture(side string) []byte { return []byte(strings.Replace(square, "%s", side, 1)) }

func TestLooksSame(t *testing.T) {
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	for name, c := range map[string]struct {
		before, now []byte
		same        bool
	}{
		"other bytes": {picture("8"), picture("8.0"), true}, "other lines": {picture("8"), picture("8.4"), false},
		"new": {nil, picture("8"), false}, "gone": {picture("8"), nil, false},
	} {
		if got := looksSame(&change{"a.svg", c.before, c.now}); got != c.same {
			t.Errorf("%s: %t", name, got)
		}
	}
}

func TestShow(t *testing.T) {
	data, err := show("One & two", []change{{`a"><script>.svg`, picture("8"), picture("7")}, {"b.svg", nil, picture("8")}}, 3)
	page := string(data)
	if err != nil || strings.Count(page, "<img") != 5 || strings.Contains(page, "<script>") || !strings.Contains(page, "One &amp; two") ||
		!strings.Contains(page, "2 changed, and 3 more in their bytes only") {
		t.Errorf("%v\n%.3000s", err, page)
	}
	if rest := strings.ReplaceAll(page, `src="data:image/svg`, ""); strings.Contains(rest, "src=") || strings.Contains(rest, "url(") {
		t.Error("the page asks for something else")
	}
}

func TestContact(t *testing.T) {
	t.Chdir("../..")
	data, err := contact("examples", "sheets", 100)
	if err != nil {
		t.Fatal(err)
	}
	img, err := stdpng.Decode(bytes.NewReader(data))
	if err != nil || img.Bounds().Dx() != gap+columns*(100+gap) || img.Bounds().Dy() < 1000 {
		t.Errorf("%v, %v", img.Bounds(), err)
	}
	if _, err := contact("lang", "sheets", 100); err == nil {
		t.Error("a folder without patterns makes a sheet")
	}
}
