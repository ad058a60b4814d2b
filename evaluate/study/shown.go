package study

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
)

// A Shown is what a show lists, as cells: a record has one row, a list one a value.
type Shown struct {
	Cells  [][]any
	Totals []any // by column, nil where nothing is added up; nil for no such row
	Rows   int   // how many there are
	Left   int   // rows that are missing since what was asked of them is not known
	// Sampled reports that the rows are points along a curve, and no quantities.
	Sampled bool
}

// ShownOf is what a show lists of the values that its operands came to.
func ShownOf(s *program.Show, v any) *Shown {
	operands := v.(library.List)
	out := &Shown{}
	switch of := operands[0].(type) {
	case library.Rows:
		out.rows(s, of)
	case library.List:
		out.Rows = len(of)
		for _, x := range of[:min(len(of), s.Most)] {
			out.Cells = append(out.Cells, row(s, x))
		}
	default:
		out.Rows, out.Cells = 1, [][]any{row(s, of)}
	}
	out.add(s, operands[1:])
	return out
}

func (out *Shown) rows(s *program.Show, rows library.Rows) {
	out.Rows, out.Left, out.Sampled = rows.Len(), program.LeftOut(rows), program.IsSampled(rows, isOwn)
	for i := range min(rows.Len(), s.Most) {
		cells := make([]any, len(s.Columns))
		for k, c := range s.Columns {
			cells[k] = rows.Cell(i, c.Path[0])
		}
		out.Cells = append(out.Cells, cells)
	}
}

// isOwn reports whether a table is what a vary came to.
func isOwn(rows library.Rows) bool {
	_, ok := rows.(*Table)
	return ok
}

// row follows each column's path into a value.
func row(s *program.Show, v any) []any {
	cells := make([]any, len(s.Columns))
	for k, c := range s.Columns {
		cells[k] = v
		for _, i := range c.Path {
			record, ok := cells[k].(library.Record)
			if !ok {
				cells[k] = nil
				break
			}
			cells[k] = record[i]
		}
	}
	return cells
}

// add puts the totals under their columns.
func (out *Shown) add(s *program.Show, totals []any) {
	if len(totals) == 0 {
		return
	}
	out.Totals = make([]any, len(s.Columns))
	for k, t := range s.Totals {
		if t != nil {
			out.Totals[k], totals = totals[0], totals[1:]
		}
	}
}

// values are all that may have an interval, row by row and the totals last.
func (out *Shown) values() library.List {
	var list library.List
	for _, cells := range out.Cells {
		for _, v := range cells {
			if _, isNumber := v.(float64); !isNumber || out.Sampled {
				v = nil
			}
			list = append(list, v)
		}
	}
	return append(list, out.Totals...)
}
