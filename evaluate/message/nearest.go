package message

import (
	"math/bits"
	"strings"
	"unicode/utf8"
)

// A Speller finds the names that were probably meant, as long as that is not too
// much work: a page of a hundred thousand misspelt names is helped with the first of
// them only.
type Speller struct{ looked int }

// maxLooked is how many candidates a speller looks at before its last search.
const maxLooked = 500_000

// Nearest is [Nearest], or "" where too much was looked at before.
func (s *Speller) Nearest(name string, candidates []string) string {
	if !s.Look(len(candidates)) {
		return ""
	}
	return Nearest(name, candidates)
}

// Look counts n more candidates; false where too much was looked at before.
func (s *Speller) Look(n int) bool {
	if s.looked > maxLooked {
		return false
	}
	s.looked += n
	return true
}

// NearestOf is [Speller.Nearest] of n candidates, for whom they would first have to be
// put together.
func (s *Speller) NearestOf(name string, n int, candidate func(i int) string) string {
	if !s.Look(n) {
		return ""
	}
	candidates := make([]string, n)
	for i := range candidates {
		candidates[i] = candidate(i)
	}
	return Nearest(name, candidates)
}

// Nearest is the candidate that name was most probably meant to be, "" if none
// is near. One slip is allowed for every three characters, and one at least
// from two characters on; a candidate that differs in case alone always wins.
// Of candidates equally near the first is taken.
func Nearest(name string, candidates []string) string {
	best, least := "", slips(name)+1
	folded := strings.ToLower(name)
	letters := lettersOf(name)
	var d distance
	for _, c := range candidates {
		if c == name {
			continue
		}
		if strings.EqualFold(c, name) {
			return c
		}
		if far(c, name, letters, least) {
			continue
		}
		// Case counts for nothing here: v_ful is as near to V_full as to v_full.
		if slips := d.between(folded, strings.ToLower(c), least); slips < least {
			best, least = c, slips
		}
	}
	return best
}

// OneSlip reports whether a word is another one, whatever its case, or one slip of a key
// from it.
func OneSlip(word, other string) bool {
	var d distance
	return d.between(strings.ToLower(word), strings.ToLower(other), 2) < 2
}

// far reports, at a glance, whether two names are enough slips apart: of the letters
// that only one of them has, each needs one.
func far(c, name string, letters uint64, enough int) bool {
	if len(c)-len(name) >= utf8.UTFMax*enough || len(name)-len(c) >= utf8.UTFMax*enough {
		return true
	}
	other := lettersOf(c)
	return letters != unknown && other != unknown && max(bits.OnesCount64(letters&^other), bits.OnesCount64(other&^letters)) >= enough
}

// unknown are the letters of a name in another script, which folds case in ways of
// its own.
const unknown = ^uint64(0)

// lettersOf is the set of a name's characters, each as one of 64, large and small
// letters alike.
func lettersOf(name string) (set uint64) {
	for i := range len(name) {
		c := name[i]
		if 'A' <= c && c <= 'Z' {
			c |= ' '
		}
		if c >= utf8.RuneSelf {
			return unknown
		}
		set |= 1 << (c & 63)
	}
	return set
}

// slips is how many slips a name of that length may have.
func slips(name string) int {
	n := utf8.RuneCountInString(name)
	if n < 2 {
		return 0
	}
	return max(1, n/3)
}

// A distance is what is needed to count slips, kept from one candidate to the next.
type distance struct {
	x, y               []rune
	before, above, row []int
}

// between counts the letters to insert, delete, replace or swap with their
// neighbour to turn a into b (optimal string alignment: no part is edited
// twice). It gives up at enough.
func (d *distance) between(a, b string, enough int) int {
	d.x, d.y = runes(d.x, a), runes(d.y, b)
	x, y := d.x, d.y
	if len(x)-len(y) >= enough || len(y)-len(x) >= enough {
		return enough
	}
	if len(d.row) <= len(y) {
		d.before, d.above, d.row = make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	}
	before, above, row := d.before, d.above, d.row
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

// runes are those of a text, in a list that is used again.
func runes(list []rune, text string) []rune {
	list = list[:0]
	for _, r := range text {
		list = append(list, r)
	}
	return list
}
