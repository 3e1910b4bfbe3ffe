package piecing

import "seamwright/lang/problem"

func placeCodes() []problem.Info {
	return []problem.Info{{
		Code:    Overlap,
		Title:   "placed units that overlap",
		Rule:    "Placed units fill their parent exactly.",
		Source:  "language",
		Example: sky + "unit g 2 x 2 { section A { 1 sky at c } }\nblock b 4 x 2 finished 4in {\n  join n -- s\n  place g at (0, 0)\n  place g at (1.5, 0)\n}\n",
		Cured:   sky + "unit g 2 x 2 { section A { 1 sky at c } }\nblock b 4 x 2 finished 4in {\n  join n -- s\n  place g at (0, 0)\n  place g at (2, 0)\n}\n",
	}, {
		Code:    ReachesOut,
		Title:   "a placed unit that reaches out of its parent",
		Rule:    "Placed units fill their parent exactly.",
		Source:  "language",
		Example: sky + "unit g 4 x 4 { section A { 1 sky at c } }\nblock b 4 x 4 finished 4in {\n  place g at (1, 0)\n}\n",
		Cured:   sky + "unit g 4 x 4 { section A { 1 sky at c } }\nblock b 4 x 4 finished 4in {\n  place g at sw\n}\n",
	}, {
		Code:    CrossesJoin,
		Title:   "a placed unit that lies across a join",
		Rule:    "A placed unit fills one region exactly; joins inside a unit are written in it.",
		Source:  "language",
		Example: sky + "unit g 4 x 2 { section A { 1 sky at c } }\nblock b 4 x 2 finished 4in {\n  join n -- s\n  place g at sw\n}\n",
		Cured:   sky + "unit g 4 x 2 { section A { 1 sky at c } }\nblock b 4 x 2 finished 4in {\n  place g at sw\n}\n",
	}, {
		Code:    Gap,
		Title:   "placed units that leave a gap",
		Rule:    "Placed units fill their parent exactly.",
		Source:  "language",
		Example: sky + "unit g 4 x 2 { section A { 1 sky at c } }\nblock b 4 x 4 finished 4in {\n  place g at sw\n}\n",
		Cured:   sky + "unit g 4 x 2 { section A { 1 sky at c } }\nblock b 4 x 4 finished 4in {\n  place g at sw\n  place g at w\n  join w -- e\n}\n",
	}, {
		Code:    NoStraightJoin,
		Title:   "placed units without a straight join between them",
		Rule:    "Parts are joined by straight seams from border to border. Units that stand round each other like the sails of a windmill have none.",
		Source:  "common practice, no source",
		Example: sky + sea + "unit long 2 x 1 { section A { 1 sky at c } }\nunit small 1 x 1 { section A { 1 sea at c } }\nblock b 3 x 3 finished 6in {\n  place long at (0, 0)\n  place long at (3, 0) turn 90deg\n  place long at (3, 3) turn 180deg\n  place long at (0, 3) turn 270deg\n  place small at (1, 1)\n}\n",
		Cured:   sky + sea + "unit long 2 x 1 { section A { 1 sky at c } }\nunit small 1 x 1 { section A { 1 sea at c } }\nblock b 3 x 3 finished 6in {\n  place long at (0, 0)\n  place long at (0, 1)\n  place long at (0, 2)\n  place long at (3, 0) turn 90deg\n  place small at (2, 2)\n  join (2, 2) -- (3, 2)\n  join (0, 1) -- (2, 1), (0, 2) -- (2, 2)\n  join (2, 0) -- (2, 3)\n}\n",
	}, {
		Code:    FoundJoins,
		Title:   "joins that were found, not written",
		Rule:    "Joins between placed units may be left out. Those that are found run straight across; to have others, or to be sure that they stay, write them.",
		Source:  "language",
		Example: sky + "unit g 4 x 2 { section A { 1 sky at c } }\nblock b 4 x 4 finished 4in {\n  place g at sw\n  place g at w\n}\n",
		Cured:   sky + "unit g 4 x 2 { section A { 1 sky at c } }\nblock b 4 x 4 finished 4in {\n  place g at sw\n  place g at w\n  join w -- e\n}\n",
	}}
}

func wholeCodes() []problem.Info {
	return []problem.Info{{
		Code:    NearPoints,
		Title:   "two points that are almost one",
		Rule:    "Points nearer than 1/64 in at the smallest finished size, but not the same, can't be told apart with a pencil: the program does not guess whether they are meant to be one.",
		Source:  "common practice, no source",
		Example: sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (3, 1)\n    2 sea along w -- e\n    3 sky along (0, 2.01) -- n\n  }\n}\n",
		Cured:   sky + sea + "block b 4 x 4 finished 4in {\n  section A {\n    1 sky at (3, 1)\n    2 sea along w -- e\n    3 sky along w -- n\n  }\n}\n",
	}, {
		Code:    Renamed,
		Title:   "a letter that is taken",
		Rule:    "Section letters run once through the whole pattern, so that A1 is one space only. A letter that is written again is replaced by the next free one.",
		Source:  "common practice, no source",
		Example: sky + sea + "block one 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\nblock two 4 x 4 finished 4in {\n  section A { 1 sea at c }\n}\n",
		Cured:   sky + sea + "block one 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\nblock two 4 x 4 finished 4in {\n  section B { 1 sea at c }\n}\n",
	}, {
		Code:   NotCovered,
		Title:  "pieces that do not add up",
		Rule:   "The areas of all pieces add up to the area of the block. This is checked for every block, and no pattern should be able to break it: there is no example.",
		Source: "geometry",
	}}
}
