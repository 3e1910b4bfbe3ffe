package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	stdpng "image/png"
	"os"
	"path/filepath"
	"strings"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet"
	"seamwright/emit/booklet/words"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/png"
	"seamwright/emit/sheet"
	"seamwright/emit/table"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

const (
	columns = 10
	gap     = 8  // dots between pages
	caption = 18 // dots above a page
)

// A shown is one page of the sheet, and what stands above it.
type shown struct {
	page *drawing.Page
	name string
}

// contact puts the pages of all patterns of a folder on one picture.
func contact(folder, of string, width int) ([]byte, error) {
	names, err := filepath.Glob(filepath.Join(folder, "*.seam"))
	if err != nil || len(names) == 0 {
		return nil, fmt.Errorf("there are no patterns in %s", folder)
	}
	var all []shown
	for _, name := range names {
		p, err := compile(name)
		if err != nil {
			return nil, err
		}
		for b := range p.Blocks {
			pages, err := pagesOf(p, &p.Blocks[b], of)
			if err != nil {
				return nil, err
			}
			all = append(all, pages...)
		}
	}
	return compose(all, width)
}

func pagesOf(p *pattern.Pattern, b *pattern.Block, of string) (all []shown, err error) {
	for i := range b.Sizes {
		s := &b.Sizes[i]
		set, problems := sheet.Lay(p, b, s, p.Settings.Sheet)
		if problem.Failed(problems) {
			return nil, fmt.Errorf("%s: %s", b.Name, problems[0].Message)
		}
		name := b.Name + " " + s.Finished.W.Exact()
		switch of {
		case "booklet":
			said, _ := words.In(words.Default)
			for _, page := range booklet.Make(booklet.Parts{Pattern: p, Block: b, Sized: s, Sheets: &set, Cuts: table.List(p, s), Words: said}) {
				all = append(all, shown{page.Page, name})
			}
		case "sheets":
			if i == 0 {
				for _, picture := range diagram.Pictures(p, b) {
					all = append(all, shown{picture.Make(nil), b.Name})
				}
			}
			for k := range set.Sheets {
				all = append(all, shown{&set.Sheets[k].Page, name})
			}
		default:
			return nil, fmt.Errorf("-of takes sheets or booklet, not %q", of)
		}
	}
	return all, nil
}

// compose lays pages out in rows, each as high as its highest page.
func compose(all []shown, width int) ([]byte, error) {
	var rows [][]image.Image
	for i := 0; i < len(all); i += columns {
		var row []image.Image
		for _, s := range all[i:min(i+columns, len(all))] {
			tile, err := tileOf(s, width)
			if err != nil {
				return nil, err
			}
			row = append(row, tile)
		}
		rows = append(rows, row)
	}
	size, heights := image.Point{X: gap + columns*(width+gap), Y: gap}, make([]int, len(rows))
	for i, row := range rows {
		for _, tile := range row {
			heights[i] = max(heights[i], tile.Bounds().Dy())
		}
		size.Y += heights[i] + gap
	}
	out := image.NewRGBA(image.Rectangle{Max: size})
	draw.Draw(out, out.Rect, image.NewUniform(color.Gray{Y: 0x90}), image.Point{}, draw.Src)
	y := gap
	for i, row := range rows {
		for k, tile := range row {
			at := image.Pt(gap+k*(width+gap), y)
			draw.Draw(out, tile.Bounds().Add(at), tile, image.Point{}, draw.Src)
		}
		y += heights[i] + gap
	}
	var b bytes.Buffer
	err := stdpng.Encode(&b, out)
	return b.Bytes(), err
}

// tileOf draws one page below its name.
func tileOf(s shown, width int) (image.Image, error) {
	const dpi = 96
	head := &drawing.Page{Name: "head", Size: pattern.Size{W: pattern.Length(width) / dpi, H: caption * pattern.Inch / dpi}}
	head.Items = []drawing.Item{&drawing.Text{Size: 0.75 * head.Size.H, At: pattern.Pos{X: 0.02, Y: 0.75 * head.Size.H},
		Text: drawing.Shorten(s.name, 0.75*head.Size.H, false, head.Size.W)}}
	above, err := dots(head, width)
	if err != nil {
		return nil, err
	}
	page := *s.page
	page.Items = withoutPhotos(page.Items)
	below, err := dots(&page, width)
	if err != nil {
		return nil, err
	}
	tile := image.NewRGBA(image.Rect(0, 0, width, above.Bounds().Dy()+below.Bounds().Dy()))
	draw.Draw(tile, above.Bounds(), above, image.Point{}, draw.Src)
	draw.Draw(tile, below.Bounds().Add(image.Pt(0, above.Bounds().Dy())), below, image.Point{}, draw.Src)
	return tile, nil
}

func dots(page *drawing.Page, width int) (image.Image, error) {
	data, err := png.Render(page, width)
	if err != nil {
		return nil, err
	}
	return stdpng.Decode(bytes.NewReader(data))
}

// withoutPhotos puts a grey box in the place of each picture of the author's.
func withoutPhotos(items []drawing.Item) (out []drawing.Item) {
	for _, item := range items {
		if i, ok := item.(*drawing.Image); ok {
			item = &drawing.Path{Fill: 0xC0C0C0, Closed: true, Points: []pattern.Pos{i.At, {X: i.At.X + i.Size.W, Y: i.At.Y},
				{X: i.At.X + i.Size.W, Y: i.At.Y + i.Size.H}, {X: i.At.X, Y: i.At.Y + i.Size.H}}}
		}
		out = append(out, item)
	}
	return out
}

// compile compiles an example.
func compile(name string) (*pattern.Pattern, error) {
	text, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	p, problems := compiler.Compile(&problem.Source{Name: name, Text: string(text)}, beside{})
	if p == nil {
		return nil, fmt.Errorf("%s has errors: %s", name, problems[0].Message)
	}
	return p, nil
}

// beside loads shipped families, and files beside the one that asks.
type beside struct{}

func (beside) Load(from *problem.Source, path string) (*problem.Source, string) {
	if name, std := strings.CutPrefix(path, "std/"); std {
		text, ok := families.Source(name)
		if !ok {
			return nil, "there is no such family"
		}
		return &problem.Source{Name: path, Text: text}, ""
	}
	name := filepath.Join(filepath.Dir(from.Name), path+".seam")
	text, err := os.ReadFile(name)
	if err != nil {
		return nil, err.Error()
	}
	return &problem.Source{Name: name, Text: string(text)}, ""
}

func (beside) Picture(from *problem.Source, path string) (data, why string) {
	read, err := os.ReadFile(filepath.Join(filepath.Dir(from.Name), path))
	if err != nil {
		return "", err.Error()
	}
	return string(read), ""
}
