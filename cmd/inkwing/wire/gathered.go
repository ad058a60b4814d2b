package wire

import (
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
)

// A Gathered is what a search found in many worksheets.
type Gathered struct {
	Schema int   `json:"schema"`
	Table  Table `json:"table"`
}

// OfTable is the form of a table that stands on no page.
func OfTable(t report.Table) Gathered { return Gathered{Schema, former{places: nowhere{}}.table(t)} }

// nowhere has no lines.
type nowhere struct{}

func (nowhere) At(message.Span) (line, column, end int) { return 0, 0, 0 }
func (nowhere) Display(file string) string              { return file }
