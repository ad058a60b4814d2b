package worksheet

import (
	"bytes"
	"sort"

	"inkwing/worksheet/markdown"
)

// Moved tells where the places of a text stand now that a run has rewritten its
// regions and inline values; nil where somebody changed the rest of it.
func Moved(text, now []byte) func(offset int) int {
	before, after := ownLines(text), ownLines(now)
	if len(before) != len(after) {
		return nil
	}
	return func(offset int) int {
		i := sort.SearchInts(before, offset+1) - 1
		if i < 0 {
			return offset
		}
		return min(after[i]+offset-before[i], len(now))
	}
}

// ownLines are the starts of the lines outside of all regions.
func ownLines(text []byte) (starts []int) {
	regions := markdown.Parse("", text).Regions
	for at := 0; ; {
		for len(regions) > 0 && regions[0].Whole.End <= at {
			regions = regions[1:]
		}
		if len(regions) == 0 || at < regions[0].Whole.Start {
			starts = append(starts, at)
		}
		end := bytes.IndexByte(text[at:], '\n')
		if end < 0 {
			return starts
		}
		at += end + 1
	}
}
