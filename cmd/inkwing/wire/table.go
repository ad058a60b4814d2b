package wire

import (
	"math"
	"slices"
	"strings"

	"inkwing/evaluate/report"
)

// A Table is what a statement came to that is no single value.
type Table struct {
	Verb    string   `json:"verb"`
	Name    string   `json:"name"` // empty for none
	Line    int      `json:"line"`
	Columns []Column `json:"columns"`
	Rows    []Row    `json:"rows"` // none where it waits
	Notes   []string `json:"notes"`
}

// A Column is a heading and the unit of its numbers.
type Column struct {
	Head   string `json:"head"`
	SIUnit string `json:"si_unit"` // of the numbers among the values
}

// A Row is a row, as values and as texts.
type Row struct {
	Values []any    `json:"values"` // numbers in SI, truths, texts; null for what is not worked or infinite
	Shown  []string `json:"shown"`
}

func (f former) table(t report.Table) Table {
	x := Table{Verb: t.Verb, Name: t.Name, Line: f.line(t.Span), Columns: []Column{}, Rows: []Row{}, Notes: append(append([]string{}, t.Notes...), t.Details...)}
	for _, c := range t.Columns {
		x.Columns = append(x.Columns, Column{strings.Trim(c.Head, "`"), c.SIUnit})
	}
	for i, shown := range t.Rows {
		x.Rows = append(x.Rows, Row{finite(t.Values[i]), shown})
	}
	return x
}

// finite is a row with null for what no JSON number can be, such as infinite
// degrees of freedom.
func finite(row []any) []any {
	out := slices.Clone(row)
	for i, v := range out {
		if x, isNumber := v.(float64); isNumber && (math.IsInf(x, 0) || math.IsNaN(x)) {
			out[i] = nil
		}
	}
	return out
}
