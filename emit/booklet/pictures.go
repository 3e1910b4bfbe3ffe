package booklet

import (
	"fmt"
	"unicode/utf8"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/photo"
	"seamwright/lang/problem"
)

// A Picture is one of the author's, as it is printed.
type Picture struct {
	Of    *drawing.Raster
	Words string // below it; "" for none
}

// Pictures reads the author's pictures. One that cannot be read is left out, and
// the problem says why.
func Pictures(p *pattern.Pattern) (all []Picture, problems []problem.Problem) {
	for i := range p.About.Pictures {
		from := &p.About.Pictures[i]
		why := from.Why
		if from.Data != "" {
			raster, err := photo.Read(from.Data)
			if err == nil {
				all = append(all, Picture{raster, from.Words})
				continue
			}
			why = err.Error()
		}
		if why == "" {
			why = "no file is read here"
		}
		problems = append(problems, problem.Problem{
			Code: NoPicture, Severity: problem.Warning, At: from.At,
			Message: fmt.Sprintf("the picture %q is not printed: %s", shortName(from.File), why),
			Help:    "name a PNG or JPEG by its path from this pattern's folder, with / between folders: picture \"pictures/boat.jpg\"",
		})
	}
	return all, problems
}

// shortName keeps a message readable.
func shortName(name string) string {
	const most = 60
	if n := utf8.RuneCountInString(name); n > most {
		return string([]rune(name)[:most]) + "..."
	}
	return name
}

// Bounds of a printed picture: two stand on a page, and dots that are larger than
// 1/150 in are seen.
const (
	tallestPicture = 3.8 * pattern.Inch
	leastDots      = 150
)

// pictures sets the author's pictures, each with its words.
func (m *maker) pictures() {
	for _, p := range m.Pictures {
		w, h := p.Of.Seen()
		width := min(m.Width(), pattern.Length(w)/leastDots)
		if tall := min(tallestPicture, m.Height()/2); width*pattern.Length(h)/pattern.Length(w) > tall {
			width = tall * pattern.Length(w) / pattern.Length(h)
		}
		size := pattern.Size{W: width, H: width * pattern.Length(h) / pattern.Length(w)}
		m.Need(size.H + wordsRoom)
		m.Picture(size.H, func(at pattern.Pos, _ pattern.Size) []drawing.Item {
			return []drawing.Item{&drawing.Image{At: at, Size: size, Of: p.Of}}
		})
		m.Note(p.Words)
	}
}

// wordsRoom is kept free for the words of a picture, so that they stand below it.
const wordsRoom = 0.4 * pattern.Inch
