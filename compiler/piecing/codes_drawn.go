package piecing

import "seamwright/lang/problem"

func drawnCodes() []problem.Info {
	block := func(body string) string { return sky + sea + "block b 4 x 4 finished 4in {\n" + body + "}\n" }
	const halves = "  line s -- n\n  piece sky at (1, 1)\n  piece sea at (3, 1)\n"
	const swirl = "  line (1, 0) -- (1, 3), (0, 3) -- (3, 3), (3, 4) -- (3, 1), (4, 1) -- (1, 1)\n"
	return []problem.Info{{
		Code:    LooseLine,
		Title:   "a line that ends in the middle of a patch",
		Rule:    "In a drawn unit lines are seams. A seam runs from line to line or to the edge; one that ends in the middle of a patch could not be sewn.",
		Source:  "language",
		Example: block("  line s -- (2, 3)\n  piece sky at (1, 1)\n  piece sea at (3, 1)\n"),
		Cured:   block(halves),
	}, {
		Code:    FloatingLine,
		Title:   "lines that touch nothing else",
		Rule:    "Every line of a drawn unit is connected with the unit's edge. Lines that float inside make a patch with a hole, which no straight seams can sew.",
		Source:  "language",
		Example: block("  line (1, 1) -- (3, 1) -- (2, 3) -- (1, 1)\n  piece sky at (0.5, 0.5)\n  piece sea at (2, 2)\n"),
		Cured:   block("  line (0, 1) -- (4, 1), (1, 1) -- (2.5, 4), (3, 1) -- (1.5, 4)\n  piece sky at (2, 0.5), (0.5, 3), (3.5, 3)\n  piece sea at (2, 2), (2, 3.8)\n"),
	}, {
		Code:    NotConvex,
		Title:   "a patch that turns inwards",
		Rule:    "Every patch lies wholly on one side of each of its seams. A patch with an inward corner would have to be set in, which a foundation does not allow.",
		Source:  "geometry",
		Example: block("  line w -- c -- s\n  piece sky at (1, 1)\n  piece sea at (3, 3)\n"),
		Cured:   block("  line w -- e, c -- s\n  piece sky at (1, 1)\n  piece sea at (3, 1), (2, 3)\n"),
	}, {
		Code:    NotSewable,
		Title:   "seams that stop inside each other",
		Rule:    "Sewing ends with one straight seam right across, and so does each part before it. Where seams stop inside each other in a round, or no seam runs straight through a point, there is no such seam. Where patches wind about a middle one, a partial seam helps: `partial` behind a line allows its seams to be sewn part of the way first.",
		Source:  "geometry",
		Example: block(swirl + "  piece sky at (0.5, 1), (1, 3.5), (3.5, 3), (2, 0.5)\n  piece sea at c\n"),
		Cured:   block("  line (1, 0) -- (1, 4), (1, 3) -- (3, 3), (3, 4) -- (3, 1), (4, 1) -- (1, 1)\n  piece sky at (0.5, 1), (2, 3.5), (3.5, 3), (2, 0.5)\n  piece sea at c\n"),
	}, {
		Code:    NamedTwice,
		Title:   "a patch with two fabrics",
		Rule:    "Each patch of a drawn unit is named once.",
		Source:  "language",
		Example: block("  line s -- n\n  piece sky at (1, 1)\n  piece sea at (3, 1), (1, 3)\n"),
		Cured:   block(halves),
	}, {
		Code:    Unnamed,
		Title:   "a patch without a fabric",
		Rule:    "Each patch of a drawn unit is named once; else there would be a hole in the block.",
		Source:  "language",
		Example: block("  line s -- n, c -- e\n  piece sky at (1, 1)\n  piece sea at (3, 1)\n"),
		Cured:   block(halves),
	}, {
		Code:    PointOnLine,
		Title:   "a point that is in no patch",
		Rule:    "A point after `at` says which patch is meant, so it lies well inside one: not on a line or on the edge, and not outside.",
		Source:  "language",
		Example: block("  line s -- n\n  piece sky at (1, 1)\n  piece sea at (3, 1), c\n"),
		Cured:   block(halves),
	}, {
		Code:    AlmostOne,
		Title:   "points that are almost one",
		Rule:    "Lines that meet are given the same point. Two points nearer than 1/64 in at the smallest size are most likely one that was written in two ways; the program does not guess.",
		Source:  "common practice, no source",
		Example: block("  line s -- c, (2, 2.003) -- n\n  piece sky at (1, 1)\n  piece sea at (3, 1)\n"),
		Cured:   block("  line s -- c, c -- n\n  piece sky at (1, 1)\n  piece sea at (3, 1)\n"),
	}, {
		Code:    CornersDiffer,
		Title:   "corners that are not those of a patch",
		Rule:    "A piece given by its corners is one patch: its sides are drawn by it, and no other line runs through it.",
		Source:  "language",
		Example: block("  line s -- n\n  piece sky (0, 0), (4, 0), (4, 2), (0, 2)\n  piece sea at (1, 3), (3, 3)\n"),
		Cured:   block("  line c -- n\n  piece sky (0, 0), (4, 0), (4, 2), (0, 2)\n  piece sea at (1, 3), (3, 3)\n"),
	}, {
		Code:    Sections,
		Title:   "how a drawn unit is sewn",
		Rule:    "The sections of a drawn unit are worked out: as few as can be, with no more than 20 pieces each, and none larger than the sheet. Patches no two of which can share a section prove that there can't be fewer. `seamwright number` writes the sections into the text, where they stay as they are.",
		Source:  "geometry",
		Example: block(halves),
		Cured:   block("  section {\n    1 sky at (1, 1)\n    2 sea along s -- n\n  }\n"),
	}, {
		Code:    IdleLine,
		Title:   "a line that divides nothing",
		Rule:    "A line of a drawn unit parts patches. One that lies on the edge or outside is a slip, or to be left out.",
		Source:  "language",
		Example: block("  line w -- sw\n" + halves),
		Cured:   block(halves),
	}, {
		Code:    WishRefused,
		Title:   "sections as they can't be had",
		Rule:    "In a drawn unit `section at` says which patches share a section, `section along` which seam is no join, and a piece that begins with 1 is the first of its section. What can be had is done, whatever it costs in sections; what can't is refused. Where seams cross, one of them always joins what is sewn already.",
		Source:  "geometry",
		Example: block("  line w -- e, s -- n\n  piece sky at (1, 1), (3, 3)\n  piece sea at (3, 1), (1, 3)\n  section at (1, 1), (3, 3)\n"),
		Cured:   block("  line w -- e, s -- n\n  piece sky at (1, 1), (3, 3)\n  piece sea at (3, 1), (1, 3)\n  section at (1, 1), (1, 3)\n"),
	}, {
		Code:    WishIdle,
		Title:   "a wish for sections that is about nothing",
		Rule:    "`section at` has points in two patches or more, or gives a section its name; `section along` has a line on which seams lie.",
		Source:  "language",
		Example: block(halves + "  section along w -- e\n"),
		Cured:   block(halves + "  section along s -- n\n"),
	}}
}
