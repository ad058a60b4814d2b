package attribute

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"inkwing/evaluate/check"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
)

// manyCells is how many cells of one table may differ and be told one by one;
// of more, the table as a whole is the cause.
const manyCells = 12

// data compares a file that is one table, as a whole.
func (t *tracer) data(name string, old, now *check.Input) {
	if len(old.Tables) == 1 && len(now.Tables) == 1 && !sameTable(old.Tables[0], now.Tables[0]) {
		t.add(name, tableKey(now.Tables[0]), report.Cause{Name: path.Base(name), Old: rowsOf(old.Tables[0]), New: rowsOf(now.Tables[0])})
	}
}

// tables compares the tables of a worksheet, cell by cell where their headings
// and keys are the same.
func (t *tracer) tables(sheet string, old, now []*syntax.Table) {
	for _, b := range now {
		a := tableNamed(old, b.Name.Name)
		switch {
		case a != nil && sameTable(a, b):
		case a != nil && alike(a, b) && differing(a, b) <= manyCells:
			t.cells(sheet, a, b)
		default:
			t.add(sheet, tableKey(b), report.Cause{Name: "the table " + t.shown(sheet, b.Name.Name), Old: rowsOf(a), New: rowsOf(b)})
		}
	}
	for _, a := range old {
		if tableNamed(now, a.Name.Name) == nil {
			t.add(sheet, tableKey(a), report.Cause{Name: "the table " + t.shown(sheet, a.Name.Name), Old: rowsOf(a), New: ""})
		}
	}
}

func (t *tracer) cells(sheet string, a, b *syntax.Table) {
	t.cellwise[sheet+"\x00"+tableKey(b)] = true
	for i, row := range b.Rows {
		for j := range row {
			if row[j].Text == a.Rows[i][j].Text || t.sameCell(sheet, b.Name.Name, i, j) {
				continue
			}
			key := fmt.Sprintf("[%d]", i+1)
			if isKeyed(b) {
				key = "[\"" + row[0].Text + "\"]"
			}
			column, unit, _ := strings.Cut(strings.TrimSuffix(strings.TrimSpace(b.Head[j].Text), "]"), "[")
			t.add(sheet, cellKey(b, i, j), report.Cause{Name: t.shown(sheet, b.Name.Name) + key + "." + strings.Join(strings.Fields(column), "_"),
				Old: cellText(a.Rows[i][j].Text, unit), New: cellText(row[j].Text, unit)})
		}
	}
}

// sameCell reports whether a cell holds the same value in both editions, though it
// is written otherwise.
func (t *tracer) sameCell(sheet, table string, row, column int) bool {
	a, b := t.old.sheetNamed(sheet), t.now.sheetNamed(sheet)
	if a == nil || b == nil || a.Names[table] == nil || b.Names[table] == nil {
		return false
	}
	x, y := a.Names[table].Rows(), b.Names[table].Rows()
	if x == nil || y == nil || x.Len() <= row || y.Len() <= row {
		return false
	}
	u, v := x.Cell(row, column), y.Cell(row, column)
	return isScalar(u) && isScalar(v) && report.SameValue(u, v)
}

// cellText is a cell with the unit of its heading, unless it has one of its own.
func cellText(text, unit string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return "not known"
	}
	if unit == "" || unit == "1" || strings.ContainsAny(text, " ?–") {
		return text
	}
	return text + " " + strings.TrimSpace(unit)
}

func rowsOf(table *syntax.Table) string {
	if table == nil {
		return ""
	}
	return message.Rows(len(table.Rows))
}

func tableNamed(list []*syntax.Table, name string) *syntax.Table {
	for _, t := range list {
		if t.Name.Name == name {
			return t
		}
	}
	return nil
}

func tableKey(t *syntax.Table) string { return "table " + t.Name.Name }

func cellKey(t *syntax.Table, row, column int) string {
	return fmt.Sprintf("cell %s %d %d", t.Name.Name, row, column)
}

func sameRow(a, b []syntax.Cell) bool {
	return slices.EqualFunc(a, b, func(x, y syntax.Cell) bool { return x.Text == y.Text })
}

func sameTable(a, b *syntax.Table) bool {
	return sameRow(a.Head, b.Head) && slices.EqualFunc(a.Rows, b.Rows, sameRow)
}

// isKeyed reports whether a table's rows have names: its first column is text.
func isKeyed(t *syntax.Table) bool { return !strings.HasSuffix(strings.TrimSpace(t.Head[0].Text), "]") }

// alike reports whether two tables have the same headings and rows of the same
// names.
func alike(a, b *syntax.Table) bool {
	return len(a.Head) > 0 && sameRow(a.Head, b.Head) && slices.EqualFunc(a.Rows, b.Rows, func(x, y []syntax.Cell) bool {
		return len(x) == len(y) && len(x) <= len(a.Head) && len(x) > 0 && (!isKeyed(a) || x[0].Text == y[0].Text)
	})
}

// differing counts the cells of two tables that are alike.
func differing(a, b *syntax.Table) int {
	n := 0
	for i, row := range b.Rows {
		for j := range row {
			if row[j].Text != a.Rows[i][j].Text {
				n++
			}
		}
	}
	return n
}
