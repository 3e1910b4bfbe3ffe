package main

import (
	"bytes"
	"fmt"
	"image/color"
	stdpng "image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"seamwright/cmd/internal/files"
	"seamwright/cmd/internal/live"
	"seamwright/compiler"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/png"
	"seamwright/emit/sheet"
)

// The tutorial, done in a fresh folder just as it is written: its commands are run,
// its changes made, its answers and pictures compared. With -update they are written
// anew; look at them then.
func TestTutorial(t *testing.T) {
	const page = "../../examples/tutorial/README.md"
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	w := &walk{T: t, dir: t.TempDir(), pictures: filepath.Dir(page)}
	after := regexp.MustCompile("(?ms)^```(sh|text|seam)\n(.*?)^```$|^!\\[[^]]*\\]\\(([^)]*)\\)$").ReplaceAllStringFunc(string(text), w.step)
	w.stop()
	if w.find != "" || w.commands < 6 || w.changes < 8 || w.shown < 3 {
		t.Errorf("%d commands, %d changes, %d pictures; left over: %q", w.commands, w.changes, w.shown, w.find)
	}
	if *update && after != string(text) {
		if err := os.WriteFile(page, []byte(after), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// A walk is somebody who follows the page.
type walk struct {
	*testing.T
	dir, pictures            string
	answer                   string // to the last command
	find                     string // lines to be changed; "" if none were shown
	commands, changes, shown int
	page                     string // the address of the live page; "" while nothing is watched
	end                      func()
}

// step follows one block of the page, and returns what it should be.
func (w *walk) step(block string) string {
	w.Helper()
	if strings.HasPrefix(block, "![") {
		_, name, _ := strings.Cut(block, "](")
		w.picture(strings.TrimSuffix(name, ")"))
		return block
	}
	head, body, _ := strings.Cut(strings.TrimSuffix(block, "```"), "\n")
	switch head {
	case "```sh":
		args := strings.Fields(body)
		w.stop()
		w.commands++
		if args[1] == "watch" {
			w.watch(args[1:])
			return block
		}
		r := runIn(w.T, w.dir, args[1:]...)
		w.answer = r.stderr + r.stdout
	case "```text":
		if body != w.answer && !*update {
			w.Errorf("the page shows\n%sand the answer is\n%s", body, w.answer)
		}
		return head + "\n" + w.answer + "```"
	case "```seam":
		w.change(body)
	}
	return block
}

// watch begins to watch, but opens no browser of whoever runs the test. The page may
// have another port than the usual.
func (w *walk) watch(args []string) {
	w.answer, w.page, w.end = running(w.T, w.dir, slices.DeleteFunc(args, func(a string) bool { return a == "--open" })...)
	w.answer = strings.Replace(w.answer, w.page, fmt.Sprintf("http://127.0.0.1:%d/", live.Port), 1)
}

// stop presses Ctrl-C where something is watched.
func (w *walk) stop() {
	if w.page != "" {
		w.end()
		w.page = ""
	}
}

// live compares a picture of the live page with what a browser shows of it, where there
// is one.
func (w *walk) live(path string) {
	if _, err := exec.LookPath("chromium"); err != nil && os.Getenv("CI") != "true" {
		return
	}
	b := startChromium(w.T)
	b.screen(1080, 700, "light")
	b.open(w.page)
	b.until("document.documentElement.dataset.shown && document.querySelectorAll('#sheets img').length === 1")
	b.click("#drawing [data-piece='2']")
	b.until("[...document.querySelectorAll('#sheets img')].every((i) => i.complete && i.naturalWidth > 0)")
	b.eval("scrollTo(0, 0)", nil)
	got := b.shot()
	want, err := os.ReadFile(path)
	if off := difference(want, got); err == nil && off < mostOff {
		return
	} else if !*update {
		w.Errorf("%s is old, or this browser draws otherwise (%.1f of 255 off): run the test with -update and look at it", path, off)
	} else if err := os.WriteFile(path, got, 0o644); err != nil {
		w.Fatal(err)
	}
}

// mostOff is how far pictures of one page may be from each other on an average, in
// steps of 255: other versions of a browser, and other fonts, draw letters otherwise.
// A page that is laid out anew is farther.
const mostOff = 8

// difference is how far two pictures are from each other; 255 if they can't be compared.
func difference(a, b []byte) float64 {
	x, err1 := stdpng.Decode(bytes.NewReader(a))
	y, err2 := stdpng.Decode(bytes.NewReader(b))
	if err1 != nil || err2 != nil || x.Bounds() != y.Bounds() {
		return 255
	}
	sum := 0
	for v := range x.Bounds().Dy() {
		for u := range x.Bounds().Dx() {
			p, q := color.GrayModel.Convert(x.At(u, v)).(color.Gray).Y, color.GrayModel.Convert(y.At(u, v)).(color.Gray).Y
			sum += int(max(p, q) - min(p, q))
		}
	}
	return float64(sum) / float64(x.Bounds().Dx()*x.Bounds().Dy())
}

// change takes the first of two blocks as what is found, the second as what is
// written in its place.
func (w *walk) change(lines string) {
	name := filepath.Join(w.dir, "pennant.seam")
	text, err := os.ReadFile(name)
	if err != nil {
		w.Fatal(err)
	}
	if w.find == "" {
		if n := strings.Count(string(text), lines); n != 1 {
			w.Errorf("these lines stand %d times in the pattern:\n%s", n, lines)
		}
		w.find = lines
		return
	}
	if err := os.WriteFile(name, []byte(strings.Replace(string(text), w.find, lines, 1)), 0o666); err != nil {
		w.Fatal(err)
	}
	w.find = ""
	w.changes++
}

// picture compares a picture of the pattern as it is now: front-N.png,
// sheet-SIZE.png, or page-N.png of the live page.
func (w *walk) picture(name string) {
	if strings.HasPrefix(name, "page-") {
		w.shown++
		w.live(filepath.Join(w.pictures, name))
		return
	}
	src, fault := files.Read(filepath.Join(w.dir, "pennant.seam"), nil)
	if fault != nil {
		w.Fatal(fault.Message)
	}
	loader := newLoader()
	defer loader.Close()
	p, problems := compiler.Compile(src, loader)
	if p == nil {
		w.Fatal(problems)
	}
	b := &p.Blocks[0]
	var page *drawing.Page
	what, which, _ := strings.Cut(strings.TrimSuffix(name, ".png"), "-")
	switch what {
	case "front":
		page = diagram.Plain(p, b)[0].Make(nil)
	case "sheet":
		for i := range b.Sizes {
			if strings.ReplaceAll(b.Sizes[i].Finished.W.Exact(), " ", "") == which {
				set, _ := sheet.Lay(p, b, &b.Sizes[i], p.Settings.Sheet)
				page = &set.Sheets[0].Page
			}
		}
	}
	if page == nil {
		w.Fatalf("%s is a picture of nothing", name)
	}
	got, err := png.Render(page, 480)
	if err != nil {
		w.Fatal(err)
	}
	w.shown++
	path := filepath.Join(w.pictures, name)
	want, err := os.ReadFile(path)
	if same := err == nil && samePicture(want, got); !same && *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			w.Fatal(err)
		}
	} else if !same {
		w.Errorf("%s is old: run the test with -update and look at it", path)
	}
}

// samePicture compares two pictures to within a step of 255, for processors round
// the last digit otherwise.
func samePicture(a, b []byte) bool {
	x, err1 := stdpng.Decode(bytes.NewReader(a))
	y, err2 := stdpng.Decode(bytes.NewReader(b))
	if err1 != nil || err2 != nil || x.Bounds() != y.Bounds() {
		return false
	}
	near := func(p, q uint8) bool { return max(p, q)-min(p, q) <= 1 }
	for v := range x.Bounds().Dy() {
		for u := range x.Bounds().Dx() {
			p, q := color.RGBAModel.Convert(x.At(u, v)).(color.RGBA), color.RGBAModel.Convert(y.At(u, v)).(color.RGBA)
			if !near(p.R, q.R) || !near(p.G, q.G) || !near(p.B, q.B) {
				return false
			}
		}
	}
	return true
}
