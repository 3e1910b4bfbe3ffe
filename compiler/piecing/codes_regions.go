package piecing

import "seamwright/lang/problem"

func regionCodes() []problem.Info {
	return []problem.Info{{
		Code:    LooseEnd,
		Title:   "a join that stops short",
		Rule:    "A join is sewn from border to border of the part it finishes. An end inside the part could not be sewn. Joins are listed in the order in which they are sewn, so one that ends on another stands above it.",
		Source:  "language",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  join (2, 1) -- n\n  section A { 1 sky at (1, 1) }\n  section B { 1 sea at (3, 1) }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  join s -- n\n  section A { 1 sky at (1, 1) }\n  section B { 1 sea at (3, 1) }\n}\n",
	}, {
		Code:    IdleJoin,
		Title:   "a join that divides nothing",
		Rule:    "Every join divides at least one region. One that lies on the edge, on another join or outside is a slip.",
		Source:  "language",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  join sw -- nw\n  join n -- s\n  section A { 1 sky at (1, 1) }\n  section B { 1 sea at (3, 1) }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  join n -- s\n  section A { 1 sky at (1, 1) }\n  section B { 1 sea at (3, 1) }\n}\n",
	}, {
		Code:    AnchorOutside,
		Title:   "a section's point outside the unit",
		Rule:    "The point of piece 1 says which region the section fills, so it lies inside the unit.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at (5, 1) }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at (3, 1) }\n}\n",
	}, {
		Code:    AnchorOnJoin,
		Title:   "a section's point on a join or edge",
		Rule:    "The point of piece 1 says which region the section fills. On a join or on the edge it could mean either side.",
		Source:  "language",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  join w -- e\n  section A { 1 sky at c }\n  section B { 1 sea at (1, 1) }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  join w -- e\n  section A { 1 sky at (1, 3) }\n  section B { 1 sea at (1, 1) }\n}\n",
	}, {
		Code:    TwoInOne,
		Title:   "two sections in one region",
		Rule:    "Every region has exactly one section or placed unit.",
		Source:  "language",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  section A { 1 sky at (1, 1) }\n  section B { 1 sea at (3, 1) }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  join n -- s\n  section A { 1 sky at (1, 1) }\n  section B { 1 sea at (3, 1) }\n}\n",
	}, {
		Code:    EmptyRegion,
		Title:   "a region without a section",
		Rule:    "Every region has exactly one section or placed unit; else there would be a hole in the block.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  join w -- e\n  section A { 1 sky at (1, 1) }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  join w -- e\n  section A { 1 sky at (1, 1) }\n  section B { 1 sea at (1, 3) }\n}\n",
	}, {
		Code:    DividesUnit,
		Title:   "a join `from` a size through a placed unit",
		Rule:    "A join that acts from some size on divides a section that has grown too large. A placed unit is divided by joins of its own.",
		Source:  "language",
		Example: sky + "unit half 4 x 2 { section { 1 sky at c } }\nblock b 4 x 4 finished 4in {\n  place half at sw\n  place half at w\n  join s -- c from 4in\n  join w -- e\n}\n",
		Cured:   sky + "unit half 4 x 2 { section { 1 sky at c } }\nblock b 4 x 4 finished 4in {\n  place half at sw\n  place half at w\n  join w -- e\n}\n",
	}, {
		Code:    TooMany,
		Title:   "more lines than can be worked out",
		Rule:    "The joins of one unit make at most 25,000 regions, and the lines of a pattern do not cross each other many millions of times. Nobody sews that; a loop that runs too often makes it.",
		Source:  "language",
		Example: sky + "block b 8 x 8 finished 8in {\n  for i in 1..159 { join (0, i / 20) -- (8, i / 20), (i / 20, 0) -- (i / 20, 8) }\n  section A { 1 sky at (0.01, 0.01) }\n}\n",
		Cured:   sky + "block b 8 x 8 finished 8in {\n  section A { 1 sky at (0.01, 0.01) }\n}\n",
	}}
}

func pieceCodes() []problem.Info {
	return []problem.Info{{
		Code:    AnchorOnSeam,
		Title:   "a section's point on one of its seams",
		Rule:    "All lines are seen from the point of piece 1: the new piece lies on the far side. On the line there is no far side.",
		Source:  "language",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at c\n    2 sea along w -- e\n  }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (2, 1)\n    2 sea along w -- e\n  }\n}\n",
	}, {
		Code:    PieceMissing,
		Title:   "a seam that misses its section",
		Rule:    "A seam crosses the section's region; else there is no room for the piece beyond it.",
		Source:  "language",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at c\n    2 sea along (0, 5) -- (4, 5)\n  }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at c\n    2 sea along (0, 3) -- (4, 3)\n  }\n}\n",
	}, {
		Code:    PieceSwallowed,
		Title:   "a piece that later ones cover",
		Rule:    "Pieces are cut from the last seam back. What later seams have cut away is no longer there for an earlier piece.",
		Source:  "language",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (2, 0.5)\n    2 sea along (0, 3) -- (4, 3)\n    3 sky along (0, 2) -- (4, 2)\n  }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (2, 0.5)\n    2 sea along (0, 2) -- (4, 2)\n    3 sky along (0, 3) -- (4, 3)\n  }\n}\n",
	}, {
		Code:    PieceScattered,
		Title:   "a seam that crosses its section twice",
		Rule:    "Each piece, and all earlier ones together, is in one part. In a section with an inward corner a line may cut off two.",
		Source:  "language",
		Example: sky + sea + "block b outline (0, 0), (6, 0), (6, 4), (4, 4), (4, 2), (2, 2), (2, 4), (0, 4) finished 6in {\n  section A {\n    1 sky at (3, 1)\n    2 sea along (0, 2) -- (6, 2)\n  }\n}\n",
		Cured:   sky + sea + "block b outline (0, 0), (6, 0), (6, 4), (4, 4), (4, 2), (2, 2), (2, 4), (0, 4) finished 6in {\n  join (0, 2) -- (6, 2)\n  section A { 1 sky at (3, 1) }\n  section B { 1 sea at (1, 3) }\n  section D { 1 sea at (5, 3) }\n}\n",
	}, {
		Code:    NotInPiece,
		Title:   "a point that its piece does not hold",
		Rule:    "A point written after `at` lies in its piece. If it does not, either it is wrong or the point of piece 1, from which all lines are seen.",
		Source:  "language",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (3.5, 3.5)\n    2 sea along n -- e at (3.9, 3.9)\n  }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (1, 1)\n    2 sea along n -- e at (3.9, 3.9)\n  }\n}\n",
	}, {
		Code:    AnchorNear,
		Title:   "a section's point almost on a seam",
		Rule:    "All lines are seen from the point of piece 1. Almost on a line it looks as if it lay on it, and a slip would turn the piece to the other side unseen.",
		Source:  "language",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (1.95, 1)\n    2 sea along s -- n\n  }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (1, 1)\n    2 sea along s -- n\n  }\n}\n",
	}, {
		Code:    RunsOn,
		Title:   "a seam that runs on beyond what is written",
		Rule:    "The line of a seam is endless: the seam runs to the border of what has been sewn so far. Where its written part stops at the end of one piece, the next may not have been meant.",
		Source:  "language",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (1, 1)\n    2 sea along s -- n\n    3 sky along (0, 3) -- (2, 3)\n  }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (1, 1)\n    2 sea along s -- n\n    3 sky along (0, 3) -- (4, 3)\n  }\n}\n",
	}, {
		Code:  PartialSeam,
		Title: "a partial seam that can't be sewn so",
		Rule: "A partial seam is sewn in two goes: at first from an end where both parts are flush, only as far as is written; later the rest, as a join on the same line. " +
			"In between, one join runs right across the end where it began, and whatever ends on the seam does so where it is still open.",
		Source:  "common practice, no source",
		Example: basin("(1, 3) -- (1, 1)"),
		Cured:   basin("(1, 3) -- (1, 2)"),
	}}
}

// basin is a square with four strips around it, of which the first is joined as far
// as is given at first.
func basin(first string) string {
	return sky + sea + "block b 4 x 4 finished 4in {\n  join " + first + " partial\n  join (0, 3) -- (3, 3), (3, 4) -- (3, 1), (4, 1) -- (1, 1)\n  join (1, 0) -- (1, 3)\n" +
		"  section { 1 sea at c }\n  for p in (0.5, 1), (1, 3.5), (3.5, 3), (3, 0.5) { section { 1 sky at p } }\n}\n"
}
