package worksheet

import (
	"bytes"
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/region"
)

// An Option changes what becomes of a text.
type Option uint8

// Force takes out what somebody typed inside of regions, for which a file is
// else left as it is.
const Force Option = 1

// Based asks for the [Basis] of what comes out, too.
const Based Option = 2

func forced(options []Option) bool { return slices.Contains(options, Force) }

// heads are the columns that the region of a search may have; one that lost its block may
// be of a search.
func heads(doc *markdown.Document, r markdown.Region) []string {
	if r.Block >= 0 && doc.Blocks[r.Block].Word != markdown.Gather {
		return nil
	}
	return columns()
}

// typedInside finds the words that somebody typed inside of regions, where they
// would be lost: one message a region. Say is what the blocks' regions will say;
// where it is nil, all regions go.
func typedInside(doc *markdown.Document, say [][]string) (found []message.Diagnostic) {
	for _, r := range doc.Regions {
		var lines []string
		if r.Block >= 0 && r.Block < len(say) {
			lines = say[r.Block]
		}
		inner := doc.Source[r.Inner.Start:r.Inner.End]
		old := strings.Split(string(inner), "\n")
		quotes := strings.Count(r.Prefix, ">")
		if lines != nil && region.Same(old, quotes, lines) {
			continue // it stays as it stands, so nothing is lost
		}
		i := region.Typed(old, quotes, lines, heads(doc, r)...)
		if i < 0 {
			continue
		}
		start := r.Inner.Start
		for _, line := range old[:i] {
			start += len(line) + 1
		}
		line := bytes.TrimRight([]byte(old[i]), " \t\r")
		left := len(line) - len(bytes.TrimLeft(line, " \t>"))
		found = append(found, message.Diagnostic{
			Span:    message.Span{File: doc.Name, Start: start + left, End: start + len(line)},
			Summary: "this stands inside a worked region, and no run wrote it: the next one would delete it",
			Hint:    "move it below the line <!-- /worked -->, or take it out with --force",
		})
	}
	return found
}
