package eval

import (
	"seamwright/compiler/pattern"
	"seamwright/lang"
)

// picture reads the name of a picture's file, and the words below it. What is in
// the file is not looked at here.
func (p *props) picture(s *lang.Prop) {
	const help = "write it so: picture \"boat.jpg\", \"Sewn in linen.\""
	var texts []string
	for i, v := range s.Values {
		if !p.allowed(s, v, 0) {
			return
		}
		t, ok := v.Value.(*lang.String)
		_, hole := v.Value.(*lang.BadExpr)
		switch {
		case i > 1:
			p.wrong(v.Where(), s, "takes a file and the words below it; another picture is another line", help)
			return
		case !ok && !hole:
			p.wrong(v.Where(), s, "takes the name of a file in quotes, and the words below it in quotes", help)
			return
		case hole:
			return
		}
		texts = append(texts, t.Text)
	}
	if len(texts) == 0 {
		return // told by the parser
	}
	picture := pattern.Picture{File: texts[0], At: p.file.place(s.Values[0].Where())}
	if len(texts) == 2 {
		picture.Words = texts[1]
		p.printed(p.file, texts[1], s.Values[1].Where())
	}
	about := &p.out.Pattern.About
	about.Pictures = append(about.Pictures, picture)
}
