package eval

import "seamwright/lang/problem"

// inBlock puts statements into a whole file.
func inBlock(statements string) string {
	return sky + "block b 4 x 4 finished 4in {\n" + statements + "}\n"
}

// withUnit is a file in which a unit of two parameters is placed by a statement.
func withUnit(place string) string {
	return sky + "unit tile(cloth: fabric, gap: number = 1) 4 x 4 {\n  section { 1 cloth at (gap, gap) }\n}\n" +
		"block b 4 x 4 finished 4in {\n  " + place + "\n}\n"
}

func kindCodes() []problem.Info {
	return []problem.Info{{
		Code:    KindClash,
		Title:   "two kinds that do not fit together",
		Rule:    "Numbers, lengths, angles and points are different kinds. Lines and points are given in grid squares, as plain numbers; inches come in with `finished`.",
		Source:  "language",
		Example: inBlock("  let edge = 2 + 1in\n  section A { 1 sky at (edge, 1) }\n"),
		Cured:   inBlock("  let edge = 2 + 1\n  section A { 1 sky at (edge, 1) }\n"),
	}, {
		Code:    WrongKind,
		Title:   "a value of another kind than is asked for",
		Rule:    "Every place asks for one kind: `turn` for an angle, `along` for a line, `at` for a point.",
		Source:  "language",
		Example: withUnit("place tile(sky) by c at c turn 90"),
		Cured:   withUnit("place tile(sky) by c at c turn 90deg"),
	}, {
		Code:    MinusForLine,
		Title:   "minus where a line is meant",
		Rule:    "`p -- q` is the line from p to q; `p - q` takes one point from another and gives a point.",
		Source:  "language",
		Example: inBlock("  join w - e\n  section A { 1 sky at (2, 1) }\n  section B { 1 sky at (2, 3) }\n"),
		Cured:   inBlock("  join w -- e\n  section A { 1 sky at (2, 1) }\n  section B { 1 sky at (2, 3) }\n"),
	}, {
		Code:    NotPoints,
		Title:   "`--` between things that are not points",
		Rule:    "`--` is one sign everywhere, and joins two points to a line.",
		Source:  "language",
		Example: inBlock("  let m = 3--1\n  section A { 1 sky at (m, 1) }\n"),
		Cured:   inBlock("  let m = 3 - 1\n  section A { 1 sky at (m, 1) }\n"),
	}, {
		Code:    NotACount,
		Title:   "a number that is not whole where things are counted",
		Rule:    "A count is 0, 1, 2 and so on; both ends of a range are whole numbers.",
		Source:  "language",
		Example: inBlock("  section A {\n    1 sky at (3, 3)\n    for i in 1..1.5 { piece sky along (0, i) -- (4, i) }\n  }\n"),
		Cured:   inBlock("  section A {\n    1 sky at (3, 3)\n    for i in 1..2 { piece sky along (0, 2 - i / 2) -- (4, 2 - i / 2) }\n  }\n"),
	}, {
		Code:    BareFinished,
		Title:   "a finished size without a unit",
		Rule:    "A finished size is a length on cloth: 8in, or 20cm.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4 {\n  section A { 1 sky at c }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    KindsDiffer,
		Title:   "values of different kinds in one place",
		Rule:    "Both sides of `if ... then ... else ...`, and all values of a list, are of one kind.",
		Source:  "language",
		Example: inBlock("  section A { 1 sky at if true then c else 2 }\n"),
		Cured:   inBlock("  section A { 1 sky at if true then c else (2, 2) }\n"),
	}, {
		Code:    TooManyArguments,
		Title:   "more arguments than a unit takes",
		Rule:    "A unit takes one argument for each of its parameters.",
		Source:  "language",
		Example: withUnit("place tile(sky, 1, 2) at sw"),
		Cured:   withUnit("place tile(sky, 1) at sw"),
	}, {
		Code:    MissingArgument,
		Title:   "an argument left out",
		Rule:    "A parameter without a value of its own must be given one where the unit is placed.",
		Source:  "language",
		Example: withUnit("place tile at sw"),
		Cured:   withUnit("place tile(sky) at sw"),
	}, {
		Code:    UnknownArgument,
		Title:   "an argument of a name that no parameter has",
		Rule:    "An argument's name is that of a parameter of the unit.",
		Source:  "language",
		Example: withUnit("place tile(clothe: sky) at sw"),
		Cured:   withUnit("place tile(cloth: sky) at sw"),
	}, {
		Code:    ArgumentTwice,
		Title:   "an argument given twice",
		Rule:    "A parameter gets one value.",
		Source:  "language",
		Example: withUnit("place tile(sky, cloth: sky) at sw"),
		Cured:   withUnit("place tile(cloth: sky) at sw"),
	}, {
		Code:    ArgumentOrder,
		Title:   "an argument without a name after one with a name",
		Rule:    "Arguments without a name go by their order, so they come first.",
		Source:  "language",
		Example: withUnit("place tile(cloth: sky, 1) at sw"),
		Cured:   withUnit("place tile(sky, gap: 1) at sw"),
	}, {
		Code:    BlockArgument,
		Title:   "a block's parameter without a value",
		Rule:    "Nobody places a block, so its parameters need values of their own.",
		Source:  "language",
		Example: sky + "block b(rows: count) 4 x 4 finished 4in {\n  section A { 1 sky at (rows, 1) }\n}\n",
		Cured:   sky + "block b(rows: count = 2) 4 x 4 finished 4in {\n  section A { 1 sky at (rows, 1) }\n}\n",
	}, {
		Code:    HelperArguments,
		Title:   "arguments that a helper does not take",
		Rule:    "Each helper takes certain arguments, by order, without names.",
		Source:  "language",
		Example: inBlock("  section A { 1 sky at mid(n, s, c) }\n"),
		Cured:   inBlock("  section A { 1 sky at mid(n, s) }\n"),
	}, {
		Code:    DividedByZero,
		Title:   "a division by 0",
		Rule:    "Nothing can be divided by 0.",
		Source:  "language",
		Example: inBlock("  let parts = 0\n  section A { 1 sky at (4 / parts, 1) }\n"),
		Cured:   inBlock("  let parts = 2\n  section A { 1 sky at (4 / parts, 1) }\n"),
	}, {
		Code:    NoResult,
		Title:   "a helper without an answer",
		Rule:    "Some questions have no answer: where two lines meet that run the same way, the root of a number below 0, the fourth of three.",
		Source:  "language",
		Example: inBlock("  section A { 1 sky at meet(north, south) }\n"),
		Cured:   inBlock("  section A { 1 sky at meet(w -- e, n -- s) }\n"),
	}, {
		Code:    OutOfReach,
		Title:   "a number or point too large to work with",
		Rule:    "Points lie within 10,000 grid squares of the unit's origin, and numbers within what can be reckoned.",
		Source:  "limit of this program",
		Example: inBlock("  section A {\n    1 sky at c\n    2 sky along (0, 1) -- (40000, 1)\n  }\n"),
		Cured:   inBlock("  section A {\n    1 sky at c\n    2 sky along (0, 1) -- (4, 1)\n  }\n"),
	}, {
		Code:    NoLengthLine,
		Title:   "a line from a point to itself",
		Rule:    "A line needs two different points, otherwise it runs nowhere.",
		Source:  "geometry",
		Example: inBlock("  section A {\n    1 sky at c\n    2 sky along (0, 1) -- (4 - 4, 1)\n  }\n"),
		Cured:   inBlock("  section A {\n    1 sky at c\n    2 sky along (0, 1) -- (4, 1)\n  }\n"),
	}, {
		Code:    CheckFailed,
		Title:   "a check of the author's that does not hold",
		Rule:    "`check` states what must hold for a unit to be good; those on parameters are made before anything else.",
		Source:  "the author of the unit",
		Example: sky + "unit tile(gap: number) 4 x 4 {\n  check gap < 4 \"the gap must be inside the tile\"\n  section { 1 sky at (gap, 1) }\n}\nblock b 4 x 4 finished 4in {\n  place tile(5) at sw\n}\n",
		Cured:   sky + "unit tile(gap: number) 4 x 4 {\n  check gap < 4 \"the gap must be inside the tile\"\n  section { 1 sky at (gap, 1) }\n}\nblock b 4 x 4 finished 4in {\n  place tile(3) at sw\n}\n",
	}}
}
