package message

import (
	"strings"
	"unicode/utf8"
)

// Nearest is the candidate that name was most probably meant to be, "" if none
// is near. One slip is allowed for every three characters, and one at least
// from two characters on; a candidate that differs in case alone always wins.
// Of candidates equally near the first is taken.
func Nearest(name string, candidates []string) string {
	best, least := "", slips(name)+1
	folded := strings.ToLower(name)
	for _, c := range candidates {
		if c == name {
			continue
		}
		if strings.EqualFold(c, name) {
			return c
		}
		// Case counts for nothing here: v_ful is as near to V_full as to v_full.
		if d := distance(folded, strings.ToLower(c), least); d < least {
			best, least = c, d
		}
	}
	return best
}

// slips is how many slips a name of that length may have.
func slips(name string) int {
	n := utf8.RuneCountInString(name)
	if n < 2 {
		return 0
	}
	return max(1, n/3)
}

// distance counts the letters to insert, delete, replace or swap with their
// neighbour to turn a into b (optimal string alignment: no part is edited
// twice). It gives up at enough.
func distance(a, b string, enough int) int {
	x, y := []rune(a), []rune(b)
	if len(x)-len(y) >= enough || len(y)-len(x) >= enough {
		return enough
	}
	before, above, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(y)]
}
