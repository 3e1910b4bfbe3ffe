package eval

import (
	"strconv"
	"strings"

	"seamwright/lang/problem"
)

func limitCodes() []problem.Info {
	return []problem.Info{{
		Code:    TooManySizes,
		Title:   "too many finished sizes",
		Rule:    "A block has at most 24 finished sizes.",
		Source:  "limit of this program",
		Example: sky + "block b 4 x 4 finished " + sizes(maxSizes+1) + " {\n  section A { 1 sky at c }\n}\n",
		Cured:   sky + "block b 4 x 4 finished 4in {\n  section A { 1 sky at c }\n}\n",
	}, {
		Code:    NoFile,
		Title:   "a file that cannot be used",
		Rule:    "`use` names a file beside or below the one it stands in, without .seam, or one that is shipped: \"std/...\".",
		Source:  "language",
		Example: "use wave from \"no_such_file\"\n" + inBlock("  place wave at sw\n"),
		Cured:   inBlock("  section A { 1 sky at c }\n"),
	}, {
		Code:   FileCircle,
		Title:  "files that use each other in a circle",
		Rule:   "Of two files one comes first: what both need belongs into a third. (This takes several files, so no example is shown.)",
		Source: "language",
	}, {
		Code:    NotInFile,
		Title:   "a unit that the other file does not have",
		Rule:    "`use` takes units and blocks that are written in the file it names.",
		Source:  "language",
		Example: "use log_cabinet from \"std/log_cabin\"\n" + inBlock("  place log_cabinet(heart: sky, warm: sky, cool: sky, rounds: 1) at sw\n"),
		Cured:   "use log_cabin from \"std/log_cabin\"\n" + inBlock("  place log_cabin(heart: sky, warm: sky, cool: sky, rounds: 1) at sw\n"),
	}, {
		Code:   TooManyFiles,
		Title:  "too many files",
		Rule:   "A pattern uses at most 100 other files. (This takes many files, so no example is shown.)",
		Source: "limit of this program",
	}, {
		Code:    LongRange,
		Title:   "a range that runs too often",
		Rule:    "A range runs at most 100,000 times.",
		Source:  "limit of this program",
		Example: inBlock("  for i in 1..1000000000 { join (0, i) -- (4, i) }\n  section A { 1 sky at c }\n"),
		Cured:   inBlock("  for i in 1..1 { join (0, i) -- (4, i) }\n  section A { 1 sky at c }\n  section B { 1 sky at (2, 0.5) }\n"),
	}, {
		Code:    TooManySteps,
		Title:   "too much to work out",
		Rule:    "A pattern is worked out in at most 5,000,000 steps; loops inside loops multiply.",
		Source:  "limit of this program",
		Example: inBlock("  for i in 1..100000 { for j in 1..100000 { check i + j > 0 \"above 0\" } }\n  section A { 1 sky at c }\n"),
		Cured:   inBlock("  for i in 1..10 { for j in 1..10 { check i + j > 0 \"above 0\" } }\n  section A { 1 sky at c }\n"),
	}, {
		Code:    TooDeep,
		Title:   "too many units inside units",
		Rule:    "Units stand inside units at most 64 deep.",
		Source:  "limit of this program",
		Example: sky + chain(maxDepth+1) + "block b 4 x 4 finished 4in { place u1 at sw }\n",
		Cured:   sky + chain(1) + "block b 4 x 4 finished 4in { place u1 at sw }\n",
	}, {
		Code:    TooManyPieces,
		Title:   "too many pieces",
		Rule:    "A unit has at most 200,000 pieces, joins and places, those of its placed units counted each time.",
		Source:  "limit of this program",
		Example: inBlock("  for i in 1..500 { for j in 1..500 { join (0, i) -- (4, j) } }\n  section A { 1 sky at c }\n"),
		Cured:   inBlock("  for i in 1..1 { join (0, i) -- (4, i) }\n  section A { 1 sky at c }\n  section B { 1 sky at (2, 0.5) }\n"),
	}}
}

func sizes(n int) string {
	var list []string
	for i := range n {
		list = append(list, strconv.Itoa(i+2)+"in")
	}
	return strings.Join(list, ", ")
}

// chain is n units, each placed in the one before.
func chain(n int) string {
	var b strings.Builder
	for i := 1; i < n; i++ {
		b.WriteString("unit u" + strconv.Itoa(i) + " 4 x 4 { place u" + strconv.Itoa(i+1) + " at sw }\n")
	}
	return b.String() + "unit u" + strconv.Itoa(n) + " 4 x 4 { section { 1 sky at c } }\n"
}
