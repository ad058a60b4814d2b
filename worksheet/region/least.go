package region

import (
	"inkwing/evaluate/report"
	"unicode/utf8"
)

// Least is a size in bytes that the tables of a block are not laid out under, give
// or take their marks: it is known before anything is laid out, so that what is
// too large never is.
func Least(b report.Block) (size int) {
	for _, t := range b.Tables {
		widths := make([]int, len(t.Columns))
		for i, c := range t.Columns {
			widths[i] = utf8.RuneCountInString(c.Head)
		}
		for _, row := range t.Rows {
			for i := range min(len(row), len(widths)) {
				widths[i] = max(widths[i], utf8.RuneCountInString(row[i]))
			}
		}
		for _, w := range widths {
			size += len(t.Rows) * (w + len(" | "))
		}
	}
	return size
}
