package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// What `watch` should take from a save to the last byte written, and how long it
// waits after a save for the editor to be done.
const debounce = 20 * time.Millisecond

type rebuilt struct {
	pieces int
	within time.Duration
}

func rebuilds() []rebuilt {
	return []rebuilt{{12, time.Millisecond}, {100, 2 * time.Millisecond}, {1000, 8 * time.Millisecond}}
}

// floorSize is of the file whose saving is the floor, in bytes.
const floorSize = 16 << 10

// rebuild measures `watch`: one number in the text of one section changes, the
// pattern is saved, and all but PDF files is made again. The page is served, and
// nobody looks at it. It is told beside the floor, a save of 16 kB in the same folder.
func (b *bench) rebuild() (notes []string) {
	fmt.Println("\n| pieces | `watch`: from the end of its wait to the last byte | all work of it | save of 16 kB |")
	fmt.Println("|---:|---:|---:|---:|")
	for _, r := range rebuilds() {
		w := b.watch(r.pieces)
		var inside, outside, floor []time.Duration
		for i := 1; i <= b.runs+5; i++ {
			in, out := w.save(i)
			if i > 5 {
				inside, outside = append(inside, in), append(outside, out)
			}
			floor = append(floor, w.floor(i))
		}
		w.end()
		in, out, fl := median(inside), median(outside), median(floor)
		fmt.Printf("| %d | %s | %s | %s |\n", r.pieces, fine(out), fine(in), fine(fl))
		notes = append(notes, b.note(out <= r.within, "a save of %d pieces is built %s after the wait; reach %v", r.pieces, fine(out), r.within))
	}
	return notes
}

// A watched is a `watch` at work.
type watched struct {
	pattern, text, dir string
	process            *exec.Cmd
	lines              *bufio.Reader
}

func (b *bench) watch(pieces int) *watched {
	dir := filepath.Join(b.dir, fmt.Sprintf("watch%d", pieces))
	must(os.MkdirAll(dir, 0o777))
	w := &watched{dir: dir, pattern: filepath.Join(dir, "wall.seam"), text: grid(pieces)}
	must(os.WriteFile(w.pattern, []byte(w.text), 0o666))
	w.process = exec.Command(b.self, "watch", w.pattern)
	out, err := w.process.StdoutPipe() // its problems are not asked for: a moved seam may break a rule
	must(err)
	must(w.process.Start())
	w.lines = bufio.NewReader(out)
	w.told("built in")
	w.told("PDF and report made in")
	return w
}

// told waits for a line and returns the time that it tells.
func (w *watched) told(what string) time.Duration {
	for {
		line, err := w.lines.ReadString('\n')
		if err == io.EOF {
			must(fmt.Errorf("watch has ended"))
		}
		must(err)
		if _, after, ok := strings.Cut(line, what+" "); ok {
			var ms float64
			_, err := fmt.Sscanf(after, "%f ms", &ms)
			must(err)
			return time.Duration(ms * 1e6)
		}
	}
}

// save changes where the first piece's first seam lies, so that this piece and
// its neighbors are otherwise everywhere. It returns the time of all the work, as the
// program tells it, and the time until it tells it less the wait, during which most
// of the work is done.
func (w *watched) save(i int) (inside, outside time.Duration) {
	time.Sleep(50 * time.Millisecond)
	const seam = "    2 "
	at := strings.Index(w.text, seam)
	line, _, _ := strings.Cut(w.text[at:], "\n")
	var fabric string
	var x, y, x2, y2 float64
	_, err := fmt.Sscanf(line, "    2 %s along (%f, %f) -- (%f, %f)", &fabric, &x, &y, &x2, &y2)
	must(err)
	by := float64(i%7) / 100
	if x == x2 {
		x, x2 = x+by, x2+by
	} else {
		y, y2 = y+by, y2+by
	}
	changed := fmt.Sprintf("    2 %s along (%s, %s) -- (%s, %s)", fabric, num(x), num(y), num(x2), num(y2))
	beside := w.pattern + "~"
	must(os.WriteFile(beside, []byte(w.text[:at]+changed+w.text[at+len(line):]), 0o666))
	must(os.Rename(beside, w.pattern))
	begun := time.Now()
	inside = w.told("built in")
	return inside, time.Since(begun) - debounce
}

func (w *watched) floor(i int) time.Duration {
	data := []byte(strings.Repeat(string(rune('a'+i%26)), floorSize))
	name := filepath.Join(w.dir, "floor")
	begun := time.Now()
	must(os.WriteFile(name+"~", data, 0o666))
	must(os.Rename(name+"~", name))
	return time.Since(begun)
}

func (w *watched) end() {
	must(w.process.Process.Signal(os.Interrupt))
	io.Copy(io.Discard, w.lines)
	must(w.process.Wait())
}

func fine(d time.Duration) string { return fmt.Sprintf("%.2f ms", float64(d)/1e6) }
