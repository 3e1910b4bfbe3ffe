package testsew

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// point is a PDF's unit in inches, and in millimetres (ISO 32000-1, 8.3.2.3).
const point, pointMM = 1.0 / 72, 25.4 / 72

// A pdfFile is a PDF, by objects.
type pdfFile struct {
	data []byte
	at   map[int]int // where an object begins
}

// readPDF reads the pages of a PDF file: the lines on them, as readSheet tells of those
// of a sheet. Of the file it takes what sheets are made of: a table of objects (ISO 32000-1,
// 7.5.4), pages, and contents that are packed or not.
func readPDF(data []byte) (pages []*group, err error) {
	f := &pdfFile{data, map[int]int{}}
	at := bytes.LastIndex(data, []byte("startxref"))
	if at < 0 {
		return nil, fmt.Errorf("it is no PDF")
	}
	start := numbers(data[at:])
	if len(start) == 0 || int(start[0]) >= at {
		return nil, fmt.Errorf("it has no table of objects")
	}
	table := data[int(start[0]):at]
	entries := words(table)
	for i := 0; i+2 < len(entries); i++ {
		const place, generation = 10, 5 // digits
		if kind := entries[i+2]; len(entries[i]) == place && len(entries[i+1]) == generation && (kind == "n" || kind == "f") {
			f.at[len(f.at)], _ = strconv.Atoi(entries[i])
		}
	}
	root := f.refs(table, "Root")
	if len(root) != 1 {
		return nil, fmt.Errorf("it has no root")
	}
	kids := f.refs(f.object(root[0]), "Pages")
	for n := 0; len(kids) > 0; n++ {
		if n > len(f.at) {
			return nil, fmt.Errorf("its pages go round in circles")
		}
		page := f.object(kids[0])
		kids = append(f.refs(page, "Kids"), kids[1:]...)
		if box := numbers(after(page, "MediaBox")); len(box) >= 4 {
			c := &contents{page: &group{}, high: box[3]}
			for _, ref := range f.refs(page, "Contents") {
				if err := c.read(f, ref); err != nil {
					return nil, err
				}
			}
			pages = append(pages, c.page)
		}
	}
	return pages, nil
}

// object returns an object from its number to the end of the file, nil if there is none.
func (f *pdfFile) object(n int) []byte {
	at, ok := f.at[n]
	if !ok || at <= 0 || at >= len(f.data) {
		return nil
	}
	return f.data[at:]
}

// after returns what stands behind a key of an object.
func after(object []byte, key string) []byte {
	end := bytes.Index(object, []byte("endobj"))
	if stream := bytes.Index(object, []byte("stream")); stream >= 0 && (stream < end || end < 0) {
		end = stream
	}
	if end < 0 {
		end = len(object)
	}
	name := []byte("/" + key)
	for rest := object[:end]; ; {
		at := bytes.Index(rest, name)
		if at < 0 {
			return nil
		}
		if rest = rest[at+len(name):]; len(rest) == 0 || bytes.IndexByte([]byte(between), rest[0]) >= 0 {
			return rest // and not of a longer name
		}
	}
}

// between are the characters that part the words of a PDF file (ISO 32000-1, 7.2.2), but
// for those of texts.
const between = " \r\n\t[]<>/"

// words returns the words of a part of the file.
func words(text []byte) []string {
	return strings.FieldsFunc(string(text), func(r rune) bool { return strings.ContainsRune(between, r) })
}

// refs returns the objects that a key refers to: one or a list of them.
func (f *pdfFile) refs(object []byte, key string) (refs []int) {
	for list := words(after(object, key)); len(list) > 2 && list[2] == "R"; list = list[3:] {
		n, err := strconv.Atoi(list[0])
		if err != nil {
			break
		}
		refs = append(refs, n)
	}
	return refs
}

// numbers reads the numbers that come next, in brackets or not.
func numbers(text []byte) (list []float64) {
	for _, word := range words(text[:min(len(text), 200)]) {
		n, err := strconv.ParseFloat(word, 64)
		if err != nil && len(list) > 0 {
			break
		}
		if err == nil {
			list = append(list, n)
		}
	}
	return list
}

// Contents are what has been read of a page.
type contents struct {
	page     *group
	high     float64 // of the page, points
	look     stroke  // how the next chain is stroked
	window   *box
	kept     []contents // states that were saved
	path     []stroke
	clipping bool
}

// read draws a content stream (ISO 32000-1, 7.8.2).
func (c *contents) read(f *pdfFile, ref int) error {
	object := f.object(ref)
	long := numbers(after(object, "Length"))
	at := bytes.Index(object, []byte("stream\n"))
	if len(long) == 0 || at < 0 || at+7+int(long[0]) > len(object) {
		return fmt.Errorf("object %d is no stream", ref)
	}
	text := object[at+7 : at+7+int(long[0])]
	if after(object, "FlateDecode") != nil {
		r, err := zlib.NewReader(bytes.NewReader(text))
		if err == nil {
			text, err = io.ReadAll(r)
		}
		if err != nil {
			return fmt.Errorf("object %d can't be unpacked: %w", ref, err)
		}
	}
	var args []float64
	for len(text) > 0 {
		var word string
		word, text = token(text)
		if n, err := strconv.ParseFloat(word, 64); err == nil {
			args = append(args, n)
		} else if word != "[" && word != "]" && word != "" && word[0] != '/' && word[0] != '(' {
			if err := c.do(word, args); err != nil {
				return err
			}
			args = args[:0]
		}
	}
	return nil
}

// token takes the next word of a content stream: a text in brackets is one.
func token(text []byte) (word string, rest []byte) {
	text = bytes.TrimLeft(text, " \r\n\t")
	if len(text) == 0 {
		return "", nil
	}
	switch text[0] {
	case '[', ']':
		return string(text[:1]), text[1:]
	case '(':
		for i, open := 0, 0; i < len(text); i++ {
			switch text[i] {
			case '\\':
				i++
			case '(':
				open++
			case ')':
				if open--; open == 0 {
					return "(", text[i+1:]
				}
			}
		}
		return "(", nil
	}
	end := bytes.IndexAny(text[1:], " \r\n\t[](/") + 1
	if end == 0 {
		end = len(text)
	}
	return string(text[:end]), text[end:]
}

// at is a place of the page in inches, y down.
func (c *contents) at(x, y float64) pt { return pt{x * point, (c.high - y) * point} }

// needs is how many numbers an operator has, of those that are looked at.
func needs(operator string) int {
	switch operator {
	case "m", "l":
		return 2
	case "c":
		return 6
	case "w":
		return 1
	}
	return 0
}

// do carries out an operator.
func (c *contents) do(operator string, args []float64) error {
	if len(args) < needs(operator) {
		return fmt.Errorf("the operator %q lacks numbers", operator)
	}
	last := len(c.path) - 1
	if last < 0 && strings.Contains("l c h", operator) {
		return fmt.Errorf("a path begins with %q", operator)
	}
	switch operator {
	case "w":
		c.look.width = args[0] * pointMM
	case "d":
		c.look.dash, c.look.gap = 0, 0
		if len(args) == 3 {
			c.look.dash, c.look.gap = args[0]*pointMM, args[1]*pointMM
		}
	case "m":
		c.path = append(c.path, stroke{points: []pt{c.at(args[0], args[1])}})
	case "l":
		c.path[last].points = append(c.path[last].points, c.at(args[0], args[1]))
	case "c":
		c.path[last].circle = true
		c.path[last].points = append(c.path[last].points, c.at(args[4], args[5]))
	case "h":
		c.path[last].closed = true
	case "W":
		c.clipping = true
	case "S":
		c.paint(true, false)
	case "f":
		c.paint(false, true)
	case "B":
		c.paint(true, true)
	case "n":
		return c.clip()
	case "q":
		c.kept = append(c.kept, contents{look: c.look, window: c.window})
	case "Q":
		if n := len(c.kept) - 1; n >= 0 {
			c.look, c.window, c.kept = c.kept[n].look, c.kept[n].window, c.kept[:n]
		}
	case "cm", "re", "v", "y", "s", "b", "F", "f*", "B*", "b*", "W*", "Do":
		return fmt.Errorf("sheets have no use for the operator %q", operator)
	}
	return nil
}

// paint draws the chains of the path.
func (c *contents) paint(stroked, filled bool) {
	g := &group{}
	for _, s := range c.path {
		if stroked {
			s.width, s.dash, s.gap = c.look.width, c.look.dash, c.look.gap
		}
		s.filled = filled
		if s.circle && len(s.points) > 2 { // its middle, between opposite points
			s.points = []pt{s.points[0].add(s.points[2]).mul(0.5)}
		}
		g.strokes = append(g.strokes, s)
	}
	if g.window = c.window; g.window != nil {
		g.whole, g.strokes = g.strokes, nil
	}
	c.page.groups, c.path = append(c.page.groups, g), nil
}

// clip ends a path that nothing is drawn with: what comes is seen in it alone.
func (c *contents) clip() error {
	if c.clipping {
		if len(c.path) != 1 || len(c.path[0].points) != 4 {
			return fmt.Errorf("what a clip path leaves is no rectangle")
		}
		b := poly(c.path[0].points).box()
		if c.window != nil {
			b = box{math.Max(b.x0, c.window.x0), math.Max(b.y0, c.window.y0), math.Min(b.x1, c.window.x1), math.Min(b.y1, c.window.y1)}
		}
		c.window = &b
	}
	c.path, c.clipping = nil, false
	return nil
}
