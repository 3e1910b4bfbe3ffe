package edition

import "seamwright/lang/problem"

// Unreadable is a record of editions that can't be read.
const Unreadable problem.Code = "F301"

// Codes explains the code of this package.
func Codes() []problem.Info {
	return []problem.Info{{
		Code: Unreadable, Title: "a record of editions that can't be read",
		Rule: "What was released is kept in NAME.editions.json beside the pattern. Where it is damaged, or two versions of it were merged by hand, " +
			"nobody can say any more whether what is printed is what was sold, so nothing is built until it is whole again.",
		Source:  "practice",
		Example: "$ seamwright new boat\n$ printf '{' > boat.editions.json\n$ seamwright check boat.seam",
		Cured:   "$ seamwright new boat\n$ seamwright release boat.seam\n$ seamwright check boat.seam",
	}}
}
