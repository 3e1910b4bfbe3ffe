package eval

import "seamwright/lang/problem"

// sky begins most examples.
const sky = "fabric sky light #dfeaf0\n"

func nameCodes() []problem.Info {
	return []problem.Info{{
		Code:    UnknownName,
		Title:   "a name that nothing has",
		Rule:    "A name must be declared where it can be seen: a `let` from its line to the end of the braces it stands in, a parameter in its unit, a fabric in its file.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at (far, 1) }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  let far = 3\n  section A { 1 sky at (far, 1) }\n}\n",
	}, {
		Code:    UnknownUnit,
		Title:   "a unit that does not exist",
		Rule:    "`place` needs a unit of this file, or one that a `use` has taken from another.",
		Source:  "language",
		Example: sky + "unit quarter 2 x 2 {\n  section { 1 sky at c }\n}\nblock b 2 x 2 finished 4in {\n  place quater at sw\n}\n",
		Cured:   sky + "unit quarter 2 x 2 {\n  section { 1 sky at c }\n}\nblock b 2 x 2 finished 4in {\n  place quarter at sw\n}\n",
	}, {
		Code:    UnknownHelper,
		Title:   "a helper that does not exist",
		Rule:    "A name before a bracket is a helper, and the language has a fixed list of them.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at middle(n, s) }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at mid(n, s) }\n}\n",
	}, {
		Code:    TakenName,
		Title:   "the name of a point or side of the unit",
		Rule:    "n ne e se s sw w nw c and north east south west mean the same in every unit, so nothing else can have these names.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  let s = 2\n  section A { 1 sky at (s, s) }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  let half = 2\n  section A { 1 sky at (half, half) }\n}\n",
	}, {
		Code:    NameTwice,
		Title:   "one name for two things",
		Rule:    "Nothing is given a new value, and no name hides another; only a parameter may have the name of a fabric.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  let x1 = 2\n  let x1 = 3\n  section A { 1 sky at (x1, 1) }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  let x1 = 2\n  let y1 = 3\n  section A { 1 sky at (x1, y1) }\n}\n",
	}, {
		Code:    UnknownFabric,
		Title:   "a fabric that does not exist",
		Rule:    "A colorway or quilt speaks of fabrics of its file.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\ncolorway night { skye dark #20304a }\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\ncolorway night { sky dark #20304a }\n",
	}, {
		Code:    SectionTwice,
		Title:   "two sections of one name",
		Rule:    "A section's name is printed on paper, so it is used once in a unit; in a loop leave it out.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  join n -- s\n  section A { 1 sky at w + (1, 0) }\n  section A { 1 sky at e - (1, 0) }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  join n -- s\n  section A { 1 sky at w + (1, 0) }\n  section B { 1 sky at e - (1, 0) }\n}\n",
	}, {
		Code:    Unused,
		Title:   "a name that is never used",
		Rule:    "A name that nothing uses is often a slip in another place.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  let half = 2\n  section A { 1 sky at c }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  let half = 2\n  section A { 1 sky at (half, half) }\n}\n",
	}, {
		Code:    NoCompass,
		Title:   "a point that this unit does not have",
		Rule:    "The points and sides named after the compass belong to units with a width and a height, and are known only inside the braces.",
		Source:  "language",
		Example: sky + "block b outline (0, 0), (4, 0), (0, 4) finished 4in {\n  section A { 1 sky at sw + (1, 1) }\n}\n",
		Cured:   sky + "block b outline (0, 0), (4, 0), (0, 4) finished 4in {\n  section A { 1 sky at (1, 1) }\n}\n",
	}, {
		Code:    UnknownKind,
		Title:   "a kind that does not exist",
		Rule:    "A parameter is a number, count, length, angle, point, line, fabric, text or bool.",
		Source:  "language",
		Example: sky + "block b(side: nummber = 1) 4 x 4 finished 4in {\n  section A { 1 sky at (side, 1) }\n}\n",
		Cured:   sky + "block b(side: number = 1) 4 x 4 finished 4in {\n  section A { 1 sky at (side, 1) }\n}\n",
	}, {
		Code:    UnknownSetting,
		Title:   "a setting that does not exist",
		Rule:    "`pattern`, `quilt` and `pad` have a fixed list of settings each.",
		Source:  "language",
		Example: "pattern \"Sky\" { alowance 1/4in }\n" + sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
		Cured:   "pattern \"Sky\" { allowance 1/4in }\n" + sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    SettingValue,
		Title:   "a value that a setting cannot take",
		Rule:    "Each setting says what it takes: a length, a text in quotes, a whole number, yes or no, the name of a paper.",
		Source:  "language",
		Example: "pattern \"Sky\" { sheet a9 }\n" + sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
		Cured:   "pattern \"Sky\" { sheet a4 }\n" + sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    UnknownField,
		Title:   "a part that a value does not have",
		Rule:    "A point has .x and .y; nothing else has parts.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at (c.z, 1) }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at (c.x, 1) }\n}\n",
	}, {
		Code:    SettingTwice,
		Title:   "a setting made twice",
		Rule:    "Of two settings one would be lost without a word. Notes, and the borders of a quilt, may be many.",
		Source:  "language",
		Example: "pattern \"Sky\" {\n  sheet a4\n  sheet letter\n}\n" + sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
		Cured:   "pattern \"Sky\" {\n  sheet a4\n}\n" + sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    UnknownBlock,
		Title:   "a block that does not exist",
		Rule:    "A quilt is made of blocks: units with finished sizes.",
		Source:  "language",
		Example: sky + "block boat 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\nquilt { blocks boot, 2 x 2 }\n",
		Cured:   sky + "block boat 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\nquilt { blocks boat, 2 x 2 }\n",
	}, {
		Code:    PatternTwice,
		Title:   "a second `pattern`",
		Rule:    "A file is one pattern, with one set of settings.",
		Source:  "language",
		Example: "pattern \"Sky\" { edition 1 }\npattern \"Sky\" { sheet a4 }\n" + sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
		Cured:   "pattern \"Sky\" { edition 1 sheet a4 }\n" + sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    FabricValue,
		Title:   "a fabric that is neither light, medium nor dark",
		Rule:    "How light a fabric is makes the picture, whatever its color; tables sort by it.",
		Source:  "practice",
		Example: "fabric sky bright #dfeaf0\nblock b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
		Cured:   "fabric sky light #dfeaf0\nblock b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    AcceptForm,
		Title:   "an `accept` without a code or a reason",
		Rule:    "`accept` silences one warning at one place, for a reason that others can read.",
		Source:  "language",
		Example: "accept narrow \"the mast is meant to be narrow\"\n" + sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
		Cured:   "accept R301 \"the mast is meant to be narrow\"\n" + sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    RecolourTwice,
		Title:   "two cloths for one fabric",
		Rule:    "A colorway gives a fabric one cloth.",
		Source:  "language",
		Example: sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\ncolorway night {\n  sky dark #20304a\n  sky dark #101020\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\ncolorway night {\n  sky dark #20304a\n}\n",
	}}
}
