package problem

import "unicode"

// longestGuess bounds the work of one comparison. A longer name is rarely
// mistyped and never worth a quadratic table.
const longestGuess = 64

// Nearest returns the candidate that name is most likely a slip for, or "" if
// none is near. One slip is a letter left out, put in, changed or exchanged
// with its neighbor; a name of up to two letters may have none but case, up to
// five letters one, up to nine two, beyond that three. Of equally near
// candidates the first wins.
func Nearest(name string, candidates []string) string {
	given := fold(name)
	if len(given) == 0 || len(given) > longestGuess {
		return ""
	}
	best, nearest := "", slips(len(given))+1
	for _, c := range candidates {
		want := fold(c)
		if c == name || len(want) == 0 || len(want) > longestGuess {
			continue
		}
		// A short target must not be reached by changing most of it.
		if d := distance(given, want); d < nearest && d <= slips(len(want)) {
			best, nearest = c, d
		}
	}
	return best
}

func slips(length int) int {
	switch {
	case length <= 2:
		return 0
	case length <= 5:
		return 1
	case length <= 9:
		return 2
	}
	return 3
}

func fold(s string) []rune {
	rs := make([]rune, 0, min(len(s), longestGuess+1))
	for _, r := range s {
		if len(rs) > longestGuess {
			break
		}
		rs = append(rs, unicode.ToLower(r))
	}
	return rs
}

// distance counts slips: the optimal string alignment distance (edit distance
// with exchange of neighbors; Damerau, "A technique for computer detection and
// correction of spelling errors", CACM 7(3), 1964; from memory).
func distance(a, b []rune) int {
	var rows [3][longestGuess + 1]int
	for j := range len(b) + 1 {
		rows[0][j] = j
	}
	before, last, now := &rows[2], &rows[0], &rows[1]
	for i := 1; i <= len(a); i++ {
		now[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			now[j] = min(change, last[j]+1, now[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last, now = last, now, before
	}
	return last[len(b)]
}
