package eval

import "seamwright/lang/problem"

func statementCodes() []problem.Info {
	return []problem.Info{{
		Code:    PieceNumber,
		Title:   "a piece with another number than its turn",
		Rule:    "Pieces are numbered from 1 in the order in which they are sewn, and the numbers are printed.",
		Source:  "practice",
		Example: inBlock("  section A {\n    1 sky at c\n    3 sky along (0, 1) -- (4, 1)\n  }\n"),
		Cured:   inBlock("  section A {\n    1 sky at c\n    2 sky along (0, 1) -- (4, 1)\n  }\n"),
	}, {
		Code:    FirstAlong,
		Title:   "a line at the first piece",
		Rule:    "The first piece lies on the paper and is sewn to nothing; the lines of the later pieces give it its shape.",
		Source:  "practice",
		Example: inBlock("  section A { 1 sky along n -- s at w }\n"),
		Cured:   inBlock("  section A { 1 sky at c }\n"),
	}, {
		Code:    MissingAlong,
		Title:   "a later piece without a line",
		Rule:    "Every piece but the first is sewn along a line.",
		Source:  "practice",
		Example: inBlock("  section A {\n    1 sky at (3, 1)\n    2 sky at (1, 3)\n  }\n"),
		Cured:   inBlock("  section A {\n    1 sky at (3, 1)\n    2 sky along sw -- ne at (1, 3)\n  }\n"),
	}, {
		Code:    MissingAt,
		Title:   "no point where one is needed",
		Rule:    "A section lies where the point of its first piece is, and all its lines are seen from there; a placed unit lies where its `at` says.",
		Source:  "language",
		Example: inBlock("  section A {\n    1 sky\n    2 sky along sw -- ne\n  }\n"),
		Cured:   inBlock("  section A {\n    1 sky at (3, 1)\n    2 sky along sw -- ne\n  }\n"),
	}, {
		Code:    Misplaced,
		Title:   "a piece of the other sort of unit",
		Rule:    "In a section a piece has a line; in a drawn unit it has a point or corners, and its number is worked out, but that a piece which is to be the first of its section may begin with 1.",
		Source:  "language",
		Example: inBlock("  section A {\n    1 sky at (3, 1)\n    2 sky (0, 0), (0, 4), (4, 4)\n  }\n"),
		Cured:   inBlock("  section A {\n    1 sky at (3, 1)\n    2 sky along sw -- ne\n  }\n"),
	}, {
		Code:    EmptySection,
		Title:   "a section without pieces",
		Rule:    "A section is sewn from one piece at least.",
		Source:  "practice",
		Example: inBlock("  section A { for i in 1..0 { piece sky at (i, 1) } }\n"),
		Cured:   inBlock("  section A { for i in 1..1 { piece sky at (i, 1) } }\n"),
	}, {
		Code:    UnitCircle,
		Title:   "a unit inside itself",
		Rule:    "A unit that holds itself, by way of others or not, would never end.",
		Source:  "language",
		Example: sky + "unit p 2 x 2 { place q at sw }\nunit q 2 x 2 { place p at sw }\nblock b 2 x 2 finished 2in { place p at sw }\n",
		Cured:   sky + "unit p 2 x 2 { place q at sw }\nunit q 2 x 2 { section { 1 sky at c } }\nblock b 2 x 2 finished 2in { place p at sw }\n",
	}, {
		Code:    BadOutline,
		Title:   "an outline that encloses no single area",
		Rule:    "An outline walks once round its unit, in either direction, without meeting itself.",
		Source:  "geometry",
		Example: sky + "block b outline (0, 0), (4, 4), (4, 0), (0, 4) finished 4in {\n  section A { 1 sky at (1, 2) }\n}\n",
		Cured:   sky + "block b outline (0, 0), (4, 0), (4, 4), (0, 4) finished 4in {\n  section A { 1 sky at (1, 2) }\n}\n",
	}, {
		Code:    BadGrid,
		Title:   "a unit without width or height",
		Rule:    "A unit is wider and higher than 0, and at most 10,000 grid squares.",
		Source:  "geometry",
		Example: sky + "block b 4 x 0 finished 4in {\n  section A { 1 sky at c }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    SizeRange,
		Title:   "a finished size too small or too large",
		Rule:    "A finished size lies between a quarter of an inch and ten feet.",
		Source:  "limit of this program",
		Example: sky + "block b 4 x 4 finished 0in {\n  section A { 1 sky at c }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    SizeRatio,
		Title:   "a finished height that the grid does not have",
		Rule:    "A block keeps its shape at every size: its height follows from its width and its grid, to 1/64 in.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in x 6in {\n  section A { 1 sky at c }\n}\n",
		Cured:   sky + "block b 4 x 6 finished 4in x 6in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    SizeTwice,
		Title:   "one finished size twice",
		Rule:    "Each finished size is printed once.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in, 4in {\n  section A { 1 sky at c }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in, 5in {\n  section A { 1 sky at c }\n}\n",
	}}
}
