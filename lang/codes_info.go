package lang

import (
	"strings"

	"seamwright/lang/problem"
)

// Codes explains every code of this package.
func Codes() []problem.Info {
	infos := append(lexerCodes(), sentenceCodes()...)
	return append(infos, orderCodes()...)
}

// small is a whole pattern with these two pieces; in it each example has its
// one mistake.
func small(pieces ...string) string {
	return pennant("4 x 4 finished 4in", "  section A {\n    "+strings.Join(pieces, "\n    ")+"\n  }\n")
}

// pennant is a whole pattern whose block has this size and body.
func pennant(size, body string) string {
	return "fabric sky light #dfeaf0\nfabric sea dark #20406a\n\nblock pennant " + size + " {\n" + body + "}\n"
}

// info makes an Info whose rule is one of the language.
func info(code problem.Code, title, rule, example, cured string) problem.Info {
	return problem.Info{Code: code, Title: title, Rule: rule, Source: "language", Example: example, Cured: cured}
}

// The text itself: characters, numbers, texts, comments.
func lexerCodes() []problem.Info {
	fine := small("1 sky at n + (0, -1)", "2 sea along w -- e")
	slip := func(bad string) string { return strings.Replace(fine, "along w -- e", bad, 1) }
	sized := func(size string) string {
		return pennant("4 x 4 finished "+size, "  section { 1 sky at n + (0, -1); 2 sea along w -- e }\n")
	}
	return []problem.Info{
		info(TooLarge, "a text that is too large",
			"A pattern is at most 1 MiB of text, more than 10,000 pieces written out one by one. Anything larger is some other file. There is no example, as it would be as large.",
			"", ""),
		info(NotText, "a file that is no text",
			"A pattern is plain text in UTF-8. Other encodings lose letters, and files of other programs hold no text at all.",
			strings.Replace(fine, "fabric sky", "fabric sky \"cl\xe9ar\"", 1), strings.Replace(fine, "fabric sky", "fabric sky \"cléar\"", 1)),
		info(StrangeSign, "a sign that means nothing",
			"Only letters, digits, blanks and the signs of the language may stand outside of texts and comments, so that nothing invisible or unknown changes what is sewn.",
			slip("along w -- e ?"), fine),
		info(Typographic, "a sign of a word processor",
			"Word processors and web pages put long dashes, curly quotes and fractions in one character in place of what was typed. The language has the plain signs only: what looks alike must be alike.",
			slip("along w — e"), fine),
		info(UnitSpelling, "a unit in other words",
			"Units are in, cm, mm and deg, right behind the number. Marks like those of inches and degrees are easily taken for quotes or zeros.",
			sized(`4"`), sized("4in")),
		info(UnitApart, "a blank before a unit",
			"A unit stands right behind its number, so that a number without one is seen at once.",
			sized("4 in"), sized("4in")),
		info(NumberGlued, "a number run into a word",
			"Between a number and a word stands a blank; only a unit stands right behind its number.",
			strings.Replace(fine, "4 x 4", "4x4", 1), fine),
		info(BadNumber, "a number that is none",
			"Numbers are kept exact: at most 12 digits, 6 in each part of a fraction. A number begins with a digit, the fraction behind a whole number is less than 1, and nothing is divided into 0 parts.",
			slip("along (0, 1 3/2) -- e"), slip("along (0, 2 1/2) -- e")),
		info(BadString, "a text that is not closed",
			"A text stands between two straight double quotes on one line. In it a quote is written \\\" and a backslash \\\\.",
			strings.Replace(fine, "fabric sky light #dfeaf0", "fabric sky \"clear sky", 1), strings.Replace(fine, "fabric sky", "fabric sky \"clear sky\"", 1)),
		info(BadColour, "a color that is none",
			"A color is # and six hexadecimal digits, two each for red, green and blue. It is how a fabric is shown on screen and in diagrams.",
			strings.Replace(fine, "#dfeaf0", "#def", 1), strings.Replace(fine, "#dfeaf0", "#ddeeff", 1)),
		info(BadComment, "another language's comment",
			"A comment begins with // and ends with its line.",
			"# a flag\n"+fine, "// a flag\n"+fine),
		info(CommentDashes, "two dashes for a comment",
			"`--` joins two points to a line wherever it stands; a comment begins with //.",
			slip("along w -- e -- where the water is"), slip("along w -- e  // where the water is")),
	}
}

// What a statement is made of.
func sentenceCodes() []problem.Info {
	fine := small("1 sky at n + (0, -1)", "2 sea along w -- e")
	slip := func(bad string) string { return strings.Replace(fine, "along w -- e", bad, 1) }
	return []problem.Info{
		info(NoStatement, "something that does not belong here",
			"Every statement begins with its word (let, join, section, piece and so on) or with the number of a piece, and goes on as the reference says.",
			slip("along w -- e = n"), fine),
		info(Misspelt, "a word misspelt",
			"The words of the language are fixed. A letter wrong, a blank too many or too few make another word, which means nothing.",
			strings.Replace(fine, "section", "secton", 1), fine),
		info(ValueMissing, "a value is missing",
			"After =, after a comma, an operator or a word like at stands a value. A line may go on below, so that a value may stand there too; the next statement is none.",
			slip("along w --"), fine),
		info(WordMissing, "a word is missing",
			"Words like along, at, finished and from say what the value behind them is for.",
			slip("w -- e"), fine),
		info(CommaMissing, "a comma is missing",
			"Values in a row have commas between them: the two numbers of a point, the corners of a patch, the sizes of a block.",
			slip("along (0 2) -- e"), slip("along (0, 2) -- e")),
		info(ParenTrouble, "a parenthesis that has no other",
			"Every parenthesis that is opened is closed, in the same statement. That of a helper stands right behind its name.",
			slip("along (0, 2 -- e"), slip("along (0, 2) -- e")),
		info(NameMissing, "a name is missing",
			"Units, sections, fabrics and values have names: letters, digits and _, beginning with a letter. The words of the language are no names.",
			strings.Replace(fine, "sea dark", "sea", 1), fine),
		info(JoinsTwo, "points that are not joined",
			"A line is two points with `--` between them, and more than one line has commas between them.",
			slip("along w e"), fine),
		info(ChainedTest, "a comparison with three sides",
			"A comparison has two sides. Of three values, two comparisons are joined with `and`.",
			strings.Replace(fine, "  section", "  check 1 < 2 < 3 \"so it is\"\n  section", 1), strings.Replace(fine, "  section", "  check 1 < 2 and 2 < 3 \"so it is\"\n  section", 1)),
		info(PointNumbers, "a point of three numbers",
			"A point is how far to the right and how far up, seen from the front. A decimal fraction is written with a point, not with a comma.",
			slip("along (0,2,5) -- e"), slip("along (0, 2.5) -- e")),
		info(SignMissing, "a sign is missing, or another is meant",
			"`=` gives a name its value, `==` compares two values, `:` stands between a parameter and its kind and between an argument's name and its value.",
			strings.Replace(fine, "  section", "  check 1 = 1 \"so it is\"\n  section", 1), strings.Replace(fine, "  section", "  check 1 == 1 \"so it is\"\n  section", 1)),
	}
}

// How statements are put together.
func orderCodes() []problem.Info {
	fine := small("1 sky at n + (0, -1)", "2 sea along w -- e")
	slip := func(clauses string) string { return strings.Replace(fine, "along w -- e", clauses, 1) }
	deep := func(n int) string {
		return strings.Replace(fine, "w -- e", "w -- "+strings.Repeat("(", n)+"e"+strings.Repeat(")", n), 1)
	}
	return []problem.Info{
		info(BraceMissing, "a brace is missing",
			"Every brace that is opened is closed. Where one is missing is seen by how far the lines are indented, and by what cannot stand in the braces.",
			strings.Replace(fine, "  }\n}", "}", 1), fine),
		info(BraceTooMany, "a brace too many",
			"Braces come in pairs, around what belongs to a unit, a section, a loop or a condition.",
			fine+"}\n", fine),
		info(WrongPlace, "a statement in the wrong place",
			"Fabrics, units and blocks stand at the top of the file; joins, sections and placed units in a unit or block; a section holds its pieces and what governs them. Only a block has finished sizes.",
			strings.Replace(fine, "    1 sky", "    join w -- e\n    1 sky", 1), fine),
		info(MixedUnit, "a unit both drawn and sewn",
			"A unit either gives its lines and patches, from which sections and their order are found, or its joins, sections and placed units, in the order in which they are sewn.",
			strings.Replace(fine, "  }\n}", "  }\n  line n -- s\n}", 1), fine),
		info(CornersFew, "a patch of two corners",
			"A drawn piece is told by a point inside it, after `at`, or by its corners: three points at least.",
			slip("(0, 0), (4, 0)"), slip("along w -- e at (0.5, 0.5), (3.5, 0.5)")),
		info(BadSize, "a size that is none",
			"A size is width x height. Without parameters it is two plain numbers, so that what stands behind a unit's name is never in doubt.",
			strings.Replace(fine, "4 x 4", "4 by 4", 1), fine),
		info(ClauseOrder, "words in another order",
			"A piece has `along` and its line, then `at` and its points. Each word stands once.",
			slip("at s + (0, 1) along w -- e"), slip("along w -- e at s + (0, 1)")),
		info(TooDeep, "nested too deep",
			"Parentheses, braces and operators are nested at most 200 deep; no pattern comes near it, and the program's memory stays bounded.",
			deep(201), deep(2)),
		info(TooMany, "many problems",
			"The first 100 problems of a run are told; mend some and run again. There is no example, as it would raise 100 other codes first.",
			"", ""),
	}
}
