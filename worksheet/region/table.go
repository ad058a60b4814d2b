package region

import (
	"slices"
	"strings"
)

// A column is a heading and how its cells stand.
type column struct {
	head  string
	right bool
}

// A table is laid out just as the common formatter prints it, so that neither
// ever changes what the other wrote. Cells are escaped already.
type table struct {
	columns []column
	rows    [][]string
}

// without takes a column off.
func (t *table) without(i int) {
	t.columns = slices.Delete(t.columns, i, i+1)
	for k, row := range t.rows {
		t.rows[k] = slices.Delete(row, i, i+1)
	}
}

// lines lays the table out, without a container's prefix.
func (t *table) lines() []string {
	head := make([]string, len(t.columns))
	widths := make([]int, len(t.columns))
	for i, c := range t.columns {
		head[i] = c.head
		widths[i] = max(3, Width(c.head))
		for _, row := range t.rows {
			widths[i] = max(widths[i], Width(row[i]))
		}
	}
	out := []string{t.line(head, widths), t.rule(widths)}
	for _, row := range t.rows {
		out = append(out, t.line(row, widths))
	}
	return out
}

func (t *table) line(cells []string, widths []int) string {
	padded := make([]string, len(cells))
	for i, cell := range cells {
		space := strings.Repeat(" ", widths[i]-Width(cell))
		if t.columns[i].right {
			padded[i] = space + cell
		} else {
			padded[i] = cell + space
		}
	}
	return "| " + strings.Join(padded, " | ") + " |"
}

// rule is the line of dashes, just as wide as its column.
func (t *table) rule(widths []int) string {
	cells := make([]string, len(widths))
	for i, w := range widths {
		dashes := strings.Repeat("-", w-1)
		if t.columns[i].right {
			cells[i] = dashes + ":"
		} else {
			cells[i] = ":" + dashes
		}
	}
	return "| " + strings.Join(cells, " | ") + " |"
}
