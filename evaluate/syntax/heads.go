package syntax

import (
	"strconv"
	"strings"
)

// CutUnit parts the heading "mass [g]" into name and unit.
func CutUnit(head string) (name, unit string, has bool) {
	open := strings.LastIndexByte(head, '[')
	if open < 0 || !strings.HasSuffix(strings.TrimSpace(head), "]") {
		return head, "", false
	}
	rest := strings.TrimSpace(head[open+1:])
	return head[:open], strings.TrimSuffix(rest, "]"), true
}

// Heading is the name that a heading gives its column.
func (c Cell) Heading() string {
	name, _, _ := CutUnit(c.Text)
	return Canonical(strings.ReplaceAll(strings.Join(strings.Fields(name), "_"), "\u00a0", "_"))
}

// Headings are the names that the columns of a table go under.
func (t *Table) Headings() []string {
	var names []string
	if t.Columns != nil {
		for _, p := range t.Columns {
			names = append(names, p.Name.Name)
		}
		return names
	}
	for _, h := range t.Head {
		names = append(names, h.Heading())
	}
	return names
}

// ColumnUnit is the unit of a column as written, and whether it has one: then it holds
// numbers. What a use statement says of the columns comes before the headings.
func (t *Table) ColumnUnit(column int) (unit string, numbers bool) {
	if t.Columns == nil {
		_, unit, numbers = CutUnit(t.Head[column].Text)
		return unit, numbers
	}
	if column >= len(t.Columns) || t.Columns[column].Unit == nil {
		return "", false
	}
	return t.Columns[column].Unit.Text, true
}

// RowKey is a row's key as a builder would write it: its first cell, or its number.
func (t *Table) RowKey(row int) string {
	if _, numbers := t.ColumnUnit(0); numbers || len(t.Rows[row]) == 0 {
		return strconv.Itoa(row + 1)
	}
	return quoteText(t.Rows[row][0].Text)
}
