package trace

import "seamwright/lang/problem"

// What can be wrong with a drawing.
const (
	NoDrawing problem.Code = "F106" // not an SVG, or nothing in it that can be taken
	PartsLeft problem.Code = "F107" // elements that were not taken
)

// Codes explains each of them, with commands as examples.
func Codes() []problem.Info {
	const svg = `<svg xmlns="http://www.w3.org/2000/svg"><rect width="8" height="8" fill="#dfeaf0"/><line x1="0" y1="0" x2="8" y2="8" stroke="#000"/>`
	return []problem.Info{
		{
			Code: NoDrawing, Title: "a drawing that can't be used",
			Rule: "A drawing is an SVG file with straight lines in it: lines, polylines, polygons, rectangles, and paths of straight parts, " +
				"in any groups and transforms. They enclose the patches; fills are the fabrics.",
			Source:  "practice",
			Example: "$ printf 'sketch' > d.svg\n$ seamwright new star --from d.svg",
			Cured:   "$ printf '" + svg + "</svg>' > d.svg\n$ seamwright new star --from d.svg",
		},
		{
			Code: PartsLeft, Title: "parts of a drawing that are left out",
			Rule: "Seams are straight, and nothing of a drawing is guessed. Curves, texts, pictures and clones of symbols are not taken; " +
				"each is named by its id. Draw curves as straight parts and unlink such clones.",
			Source:  "practice",
			Example: "$ printf '" + svg + "<circle id=\"sun\" cx=\"4\" cy=\"4\" r=\"1\"/></svg>' > d.svg\n$ seamwright new star --from d.svg",
			Cured:   "$ printf '" + svg + "</svg>' > d.svg\n$ seamwright new star --from d.svg",
		},
	}
}
