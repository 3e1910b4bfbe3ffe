package diagram

import (
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

// colorways lists a picture of the block for each colorway besides the pattern's
// own, which is the front.
func colorways(said *words.Catalogue, p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) (all []Picture) {
	for i := 1; i < len(p.Colorway); i++ {
		all = append(all, Picture{"colorway-" + p.Colorway[i].Name, nil, func(pen *drawing.Pen) *drawing.Page { return colorway(pen, said, p, i, b, s) }})
	}
	return all
}

// colorway is the block in the cloths of one colorway. Roles that are dressed in
// one cloth share an entry of the key.
func colorway(pen *drawing.Pen, said *words.Catalogue, p *pattern.Pattern, way int, b *pattern.Block, s *pattern.Sized) *drawing.Page {
	way0 := &p.Colorway[way]
	dressed := p.Dressed(way)
	pic := newPicture(said, "colorway-"+way0.Name, p, b, every(b), said.Say("colorway", "words", drawing.Clean(way0.Words)))
	f := pic.fit(boxOf(s.Outline)).with(pen)
	pic.add(&drawing.Group{ID: "block", Class: "block", Items: Colored(dressed, s).draw(f)})
	var cloths []int
	told := map[pattern.Cloth]bool{}
	for _, i := range usedFabrics(p, s) {
		if !told[way0.Dress[i]] {
			told[way0.Dress[i]] = true
			cloths = append(cloths, i)
		}
	}
	pic.key(hatcher{}, cloths, func(i int) (string, drawing.Colour, string) {
		return way0.Dress[i].Words, drawing.Colour(way0.Dress[i].Colour), ""
	})
	return pic.done()
}

// tallestPlain is how much higher than wide a plain picture gets: shops show
// pictures in squares, and no screen shows a taller one whole.
const tallestPlain = 2

// Plain lists the pictures of a block that show nothing but the block, to be shown
// beside words of their own: the front, the line drawing, each colorway. A page
// is as wide as a diagram; around the block is a narrow edge.
func Plain(p *pattern.Pattern, b *pattern.Block) []Picture {
	if len(b.Sizes) == 0 {
		return nil
	}
	s := &b.Sizes[0]
	all := []Picture{
		{"front", nil, func(*drawing.Pen) *drawing.Page { return plain("front", b.Title, Colored(p, s)) }},
		{"line-drawing", nil, func(*drawing.Pen) *drawing.Page { return plain("line-drawing", b.Title, Lines(s)) }},
	}
	for i := 1; i < len(p.Colorway); i++ {
		name := "colorway-" + p.Colorway[i].Name
		all = append(all, Picture{name, nil, func(*drawing.Pen) *drawing.Page { return plain(name, b.Title, Colored(p.Dressed(i), s)) }})
	}
	return all
}

func plain(name, title string, figure *Figure) *drawing.Page {
	const edge = pageWidth / 60
	const width = pageWidth - 2*edge
	size := pattern.Size{W: width, H: width * length(min(figure.Proportion(), tallestPlain))}
	return &drawing.Page{
		Name: name, Title: drawing.Clean(title),
		Size:  pattern.Size{W: pageWidth, H: size.H + 2*edge},
		Items: figure.In(pos{X: edge, Y: edge}, size),
	}
}
