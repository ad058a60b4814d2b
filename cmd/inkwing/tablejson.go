package main

import (
	"math"
	"slices"
	"strings"

	"inkwing/evaluate/report"
)

// jsonTable is what a statement came to that is no single value.
type jsonTable struct {
	Verb    string       `json:"verb"`
	Name    string       `json:"name"` // empty for none
	Line    int          `json:"line"`
	Columns []jsonColumn `json:"columns"`
	Rows    []jsonRow    `json:"rows"` // none where it waits
	Notes   []string     `json:"notes"`
}

type jsonColumn struct {
	Head   string `json:"head"`
	SIUnit string `json:"si_unit"` // of the numbers among the values
}

type jsonRow struct {
	Values []any    `json:"values"` // numbers in SI, truths, texts; null for what is not worked or infinite
	Shown  []string `json:"shown"`
}

func (p *places) table(t report.Table) jsonTable {
	x := jsonTable{Verb: t.Verb, Name: t.Name, Line: p.line(t.Span), Columns: []jsonColumn{}, Rows: []jsonRow{}, Notes: append([]string{}, t.Notes...)}
	for _, c := range t.Columns {
		x.Columns = append(x.Columns, jsonColumn{strings.Trim(c.Head, "`"), c.SIUnit})
	}
	for i, shown := range t.Rows {
		x.Rows = append(x.Rows, jsonRow{finite(t.Values[i]), shown})
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
