package testsew

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"math"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// unpacked writes a PDF anew with its contents not packed, changed by a function that
// gets the how-manyeth it is.
func unpacked(t *testing.T, data []byte, change func(page int, text string) string) []byte {
	t.Helper()
	out := []byte("%PDF-1.7\n")
	var at []int
	end := bytes.LastIndex(data, []byte("xref\n0 ")) // the table
	pages := 0
	for _, object := range regexp.MustCompile(`(?s)(\d+) 0 obj\n.*?endobj\n`).FindAllSubmatchIndex(data[:end], -1) {
		n, _ := strconv.Atoi(string(data[object[2]:object[3]]))
		for len(at) <= n {
			at = append(at, 0)
		}
		text := data[object[0]:object[1]]
		if s := bytes.Index(text, []byte("stream\n")); s >= 0 && bytes.Contains(text[:s], []byte("FlateDecode")) {
			r, err := zlib.NewReader(bytes.NewReader(text[s+7:]))
			if err != nil {
				t.Fatal(err)
			}
			plain, err := io.ReadAll(r)
			if err != nil {
				t.Fatal(err)
			}
			if bytes.HasPrefix(plain, []byte("1 j\n")) {
				plain = []byte(change(pages, string(plain)))
				pages++
				text = fmt.Appendf(nil, "%d 0 obj\n<</Length %d>>\nstream\n%s\nendstream\nendobj\n", n, len(plain), plain)
			}
		}
		at[n] = len(out)
		out = append(out, text...)
	}
	if pages == 0 {
		t.Fatal("no page was found")
	}
	table := len(out)
	out = fmt.Appendf(out, "xref\n0 %d\n", len(at))
	for _, a := range at {
		out = fmt.Appendf(out, "%010d 00000 n \n", a)
	}
	trailer := data[end+bytes.Index(data[end:], []byte("trailer")):]
	out = append(out, trailer[:bytes.Index(trailer, []byte("startxref"))]...)
	return fmt.Appendf(out, "startxref\n%d\n%%%%EOF\n", table)
}

// reprinted returns the files with all files to print changed.
func reprinted(t *testing.T, files []File, change func(page int, text string) string) []File {
	out := make([]File, len(files))
	for i, f := range files {
		if out[i] = f; path.Base(f.Path) == printFile {
			out[i].Data = unpacked(t, f.Data, change)
		}
	}
	return out
}

// printable builds an example with the file that is printed.
func printable(t *testing.T, name string) []File {
	t.Helper()
	file := filepath.Join("..", "..", "examples", name+".seam")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return buildIn(t, file, string(text), "")
}

var aLine = regexp.MustCompile(`([-\d.]+) ([-\d.]+) l\n`)

// The file that is printed has to be the sheets: what is damaged in it alone is found,
// though the sheets that are sewn are as they were.
func TestPrintedOtherwise(t *testing.T) {
	for _, name := range []string{"harbour_boat", "long_beam"} {
		files := printable(t, name)
		whole, err := Sew(reprinted(t, files, func(_ int, text string) string { return text }))
		if err != nil {
			t.Fatal(name, err)
		}
		if whole.Failed() || whole.Blocks[0].Printed < 100 {
			t.Fatal(name, err, findings(whole))
		}
		last := ""
		for what, change := range map[string]func(page int, text string) string{
			"a line ends 0.02 in further": func(_ int, text string) string {
				at := aLine.FindStringSubmatchIndex(text[len(text)/2:])
				x, _ := strconv.ParseFloat(text[len(text)/2+at[2]:len(text)/2+at[3]], 64)
				return text[:len(text)/2+at[2]] + strconv.FormatFloat(x+1.44, 'f', 2, 64) + text[len(text)/2+at[3]:]
			},
			"a line is left out": func(_ int, text string) string {
				i := strings.LastIndex(text, " l\n")
				return text[:strings.LastIndex(text[:i], "\n")+1] + text[i+3:]
			},
			"printed at 97 %": func(_ int, text string) string {
				return regexp.MustCompile(`[-\d.]+ [-\d.]+ [ml]\n`).ReplaceAllStringFunc(text, func(at string) string {
					word := strings.Fields(at)
					x, _ := strconv.ParseFloat(word[0], 64)
					y, _ := strconv.ParseFloat(word[1], 64)
					return fmt.Sprintf("%.2f %.2f %s\n", x*0.97, y*0.97, word[2])
				})
			},
			"dashed lines are solid": func(_ int, text string) string {
				return regexp.MustCompile(`\[[\d.]+ [\d.]+\]0 d`).ReplaceAllString(text, "[]0 d")
			},
			"a page is another's": func(_ int, text string) string {
				if last == "" {
					last = text
				}
				return last
			},
		} {
			last = ""
			if r, err := Sew(reprinted(t, files, change)); err != nil || !r.Failed() {
				t.Errorf("%s, %s: %v", name, what, err)
			}
		}
		for i, f := range files {
			if path.Base(f.Path) == "sheet-2.svg" { // the last one is not on paper, but is printed
				fewer := append(append([]File(nil), files[:i]...), files[i+1:]...)
				if r, err := Sew(fewer); err == nil && !r.Failed() {
					t.Errorf("%s: %s is gone", name, f.Path)
				}
			}
		}
	}
}

// What is no such PDF is an error, never a crash.
func TestUnreadablePrint(t *testing.T) {
	for _, f := range printable(t, "harbour_boat") {
		if path.Base(f.Path) != printFile {
			continue
		}
		whole, err := readPDF(f.Data)
		if err != nil || len(whole) == 0 {
			t.Fatal(err)
		}
		for i := 0; i < len(f.Data); i += 97 {
			_, _ = readPDF(f.Data[:i])
			broken := bytes.Clone(f.Data)
			broken[i] ^= 0x5a
			_, _ = readPDF(broken)
		}
		return
	}
	t.Fatal("nothing is printed")
}

// A line that was cut beside a corner keeps the corner, wherever it begins.
func TestStraightened(t *testing.T) {
	square := []pt{{0, 0}, {2, 0}, {4, 0}, {4, 3.9996}, {4, 4}, {0, 4}, {0, 2}}
	for turn := range square {
		turned := append(append([]pt(nil), square[turn:]...), square[:turn]...)
		if got := straightened(turned, true); len(got) != 4 || math.Abs(poly(got).area()-16) > 0.01 {
			t.Errorf("begun at %v: %v", square[turn], got)
		}
	}
	if got := straightened(square[1:], false); len(got) != 5 {
		t.Errorf("open: %v", got)
	}
}
