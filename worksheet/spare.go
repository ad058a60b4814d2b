package worksheet

import (
	"bytes"

	"inkwing/worksheet/chart"
	"inkwing/worksheet/markdown"
)

// Spare reports whether a text that a run left behind can go: it is the beginning
// of what the worksheet holds, or differs from it only in what a run owns, so that
// nothing of the builder's goes with it.
func Spare(text, now []byte) bool {
	return bytes.HasPrefix(now, text) || len(text) <= MaxFile && sameOwn(text, now)
}

// sameOwn reports whether two texts hold the same but for their regions and the
// values inside the prose.
func sameOwn(a, b []byte) bool {
	one, ok := own(a)
	other, too := own(b)
	return ok && too && bytes.Equal(one, other)
}

// own is what of a text is the builder's; not ok where that cannot be told.
func own(text []byte) (rest []byte, ok bool) {
	doc := markdown.Parse("", text)
	edits := regionsOut(doc)
	for _, v := range doc.Inline {
		edits = append(edits, edit{start: v.Value.Start, end: v.Value.End})
	}
	return splice(text, edits), len(doc.Refused) == 0
}

// SpareChart reports whether a chart that a run left behind can go: it is ours, or
// the beginning of one.
func SpareChart(text []byte) bool { return chart.IsOurs(text) || chart.Begins(text) }
