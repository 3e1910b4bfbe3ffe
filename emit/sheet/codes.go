package sheet

import "seamwright/lang/problem"

// The codes of paper.
const (
	TooLarge   problem.Code = "S101" // a section fits the sheet at no angle
	SmallPaper problem.Code = "S102" // the sheet has no room for any section beside what is printed on it
	InParts    problem.Code = "S103" // a section is printed in parts that are glued together
	NoLabel    problem.Code = "S201" // a space has no room for its label
	NoGlyph    problem.Code = "S202" // the font has no such character
)

const fabrics = "fabric sky \"sky\" light #dfeaf0\nfabric sea \"sea\" dark #25525e\n"

// Codes explains every code of this package.
func Codes() []problem.Info {
	return []problem.Info{
		{
			Code:  TooLarge,
			Title: "a section is too large for the sheet",
			Rule: "Sheets are printed at 100 %, so a section with its allowance must fit inside the margins, beside the head of the sheet, " +
				"at some angle. Paper that is taped together is double under the needle, and the tape melts under the iron; " +
				"so divide the section by a join at the sizes where it is too large, or take larger paper. " +
				"Where neither will do, `tile yes` prints it in parts.",
			Source: "practice; the order join, larger sheet, tiling is common practice, no source",
			Example: "pattern \"Sky\" { sheet letter }\n" + fabrics + "block b 9 x 7 finished 9in {\n" +
				"  section A {\n    1 sky at n + (0, -1)\n    2 sea along w -- e\n  }\n}\n",
			Cured: "pattern \"Sky\" { sheet letter }\n" + fabrics + "block b 9 x 7 finished 9in {\n" +
				"  section A {\n    1 sky at n + (-1, -1)\n    2 sea along w -- e\n  }\n  join n -- s from 9in\n}\n",
		},
		{
			Code:  SmallPaper,
			Title: "the sheet is too small for what must be printed on it",
			Rule: "Every sheet carries the scales, the legend, the front view and the notice that it is reversed, for sheets get parted from each other. " +
				"Paper that has no room for a section beside them cannot be used.",
			Source:  "practice",
			Example: "pattern \"Sky\" { sheet 4in x 4in }\n" + fabrics + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at n + (0, -1)\n    2 sea along w -- e\n  }\n}\n",
			Cured:   "pattern \"Sky\" { sheet 6in x 9in }\n" + fabrics + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at n + (0, -1)\n    2 sea along w -- e\n  }\n}\n",
		},
		{
			Code:  InParts,
			Title: "a section is printed in parts that are glued together",
			Rule: "With `tile yes` a section too large for the sheet is printed on several, never smaller: each part shows a strip of the next, with joining lines and crosses that fall on each other. " +
				"It is more work for whoever sews it, less exact than one sheet, and paper lies double under the needle where the strips are; a join, or larger paper, saves all of that.",
			Source: "practice; the order join, larger sheet, tiling is common practice, no source",
			Example: "pattern \"Sky\" { tile yes }\n" + fabrics + "block b 9 x 7 finished 9in {\n" +
				"  section A {\n    1 sky at n + (0, -1)\n    2 sea along w -- e\n  }\n}\n",
			Cured: "pattern \"Sky\" { tile yes }\n" + fabrics + "block b 9 x 7 finished 9in {\n" +
				"  section A {\n    1 sky at n + (-1, -1)\n    2 sea along w -- e\n  }\n  join n -- s from 9in\n}\n",
		},
		{
			Code:  NoLabel,
			Title: "a space has no room for its label",
			Rule: "Every space shows its number, at least 2 mm high, and its fabric in words. Where it is too small they stand in the allowance, with a leader, " +
				"or below the sections. A space without a label is sewn in the wrong cloth.",
			Source: "practice; the least height of a label is common practice, no source",
			Example: "pattern \"Sky\" { miniature yes }\n" + fabrics + "block b 16 x 16 finished 1in {\n" +
				"  section A {\n    accept R101 \"ripples\"\n    accept R105 \"ripples\"\n    1 sky at (8, 14)\n    for i in 1..12 {\n" +
				"      piece if odd(i) then sea else sky along (0, 13 - i) -- (16, 13 - i)\n    }\n  }\n}\n",
			Cured: "pattern \"Sky\" { edition 1 }\n" + fabrics + "block b 16 x 16 finished 6in {\n" +
				"  section A {\n    1 sky at (8, 14)\n    for i in 1..12 {\n" +
				"      piece if odd(i) then sea else sky along (0, 13 - i) -- (16, 13 - i)\n    }\n  }\n}\n",
		},
		{
			Code:  NoGlyph,
			Title: "the font has no such character",
			Rule: "What is printed is set in a font that is part of the program, so that it looks the same everywhere. It has Latin, Greek, Cyrillic and more, " +
				"but not every script; a character that it lacks is printed as a box.",
			Source:  "the font's own list of characters",
			Example: "pattern \"\u706f\u53f0\" { edition 1 }\n" + fabrics + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at n + (0, -1)\n    2 sea along w -- e\n  }\n}\n",
			Cured:   "pattern \"Lighthouse\" { edition 1 }\n" + fabrics + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at n + (0, -1)\n    2 sea along w -- e\n  }\n}\n",
		},
	}
}
