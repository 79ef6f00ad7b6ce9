package source

import "strings"

// Nearest gives the word among those allowed that word was probably meant to
// be, or "" when nothing is near. Nearness is the number of slips (a letter
// wrong, missing, too many, or two neighbours swapped), upper and lower case
// and the joining sign (-, _, space) being free. One slip is allowed in three
// letters, up to three slips. Of several as near, the first given wins.
//
// The distance is the restricted Damerau-Levenshtein distance (F. J. Damerau,
// "A technique for computer detection and correction of spelling errors",
// Communications of the ACM 7(3), 1964).
func Nearest(word string, among []string) string {
	best, bestSlips := "", 0
	w := folded(word)
	for _, candidate := range among {
		c := folded(candidate)
		allowed := min(3, max(1, max(len(w), len(c))/3))
		if d := len(w) - len(c); d > allowed || -d > allowed || len(w) == 0 {
			continue
		}
		slips := distance(w, c)
		if slips <= allowed && slips < max(len(w), len(c)) && (best == "" || slips < bestSlips) {
			best, bestSlips = candidate, slips
		}
	}
	return best
}

// longestWord bounds the work on absurd input.
const longestWord = 80

func folded(s string) []rune {
	s = strings.NewReplacer("_", "-", " ", "-").Replace(strings.ToLower(s))
	r := []rune(s)
	return r[:min(len(r), longestWord)]
}

// distance counts the slips between a and b by the usual table, of which only
// three rows are kept.
func distance(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
