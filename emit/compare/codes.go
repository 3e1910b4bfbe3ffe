package compare

import "seamwright/lang/problem"

// What can be wrong with an edition. It takes two files to raise them, so the
// examples are commands.
const (
	Drifted   problem.Code = "S401" // a released edition is printed otherwise
	Lowered   problem.Code = "S402" // an edition's number is below that of the last one
	NoEdition problem.Code = "S403" // a pattern without an edition is to be released
)

// Codes explains the codes of this package.
func Codes() []problem.Info {
	const begin = "$ seamwright new boat\n$ seamwright release boat.seam\n"
	return []problem.Info{
		{
			Code: Drifted, Title: "a released edition is printed otherwise",
			Rule: "Two makers who hold the same edition must hold the same lines, numbers, patches, words and sheets; only then can a letter be answered and a correction be published. " +
				"So once an edition is released nothing that is printed of it changes, whether the text or the program is the cause. What is to change gets the next edition.",
			Source:  "practice: editions and errata of printed patterns; common practice, no source",
			Example: begin + "$ sed -i 's/^  author .*/  author \"Somebody else\"/' boat.seam\n$ seamwright check boat.seam",
			Cured:   begin + "$ sed -i 's/^  author .*/  author \"Somebody else\"/; s/^  edition .*/  edition 2/' boat.seam\n$ seamwright check boat.seam",
		},
		{
			Code: Lowered, Title: "an edition below the last one released",
			Rule:    "Editions only count upwards: of two sheets, the one with the higher number is the corrected one. A number that was used stands for what was printed under it for ever.",
			Source:  "practice: editions of printed patterns; common practice, no source",
			Example: "$ seamwright new boat\n$ sed -i 's/^  edition .*/  edition 2/' boat.seam\n$ seamwright release boat.seam\n$ sed -i 's/^  edition .*/  edition 1/' boat.seam\n$ seamwright check boat.seam",
			Cured:   "$ seamwright new boat\n$ sed -i 's/^  edition .*/  edition 2/' boat.seam\n$ seamwright release boat.seam\n$ seamwright check boat.seam",
		},
		{
			Code: NoEdition, Title: "a pattern without an edition",
			Rule:    "What is released needs a number that is printed on every sheet: without it nobody can tell a sheet that was sold from a corrected one.",
			Source:  "practice: editions of printed patterns; common practice, no source",
			Example: "$ seamwright new boat\n$ sed -i '/^  edition /d' boat.seam\n$ seamwright release boat.seam",
			Cured:   begin[:len(begin)-1],
		},
	}
}
