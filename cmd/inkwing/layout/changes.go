package layout

import (
	"strings"
)

// A Change is a row of a table of what changed. Without an old value there is no
// arrow, and the only value stands among the old ones; what stands under it is a
// paragraph.
type Change struct {
	Name, Old, New string
	Share          string // "+17 %"
	Aside          string
	Under          string
}

// arrow stands between an old value and the new one.
const arrow = " → "

// Changes sets rows in columns: names at the left, the old values against an arrow,
// the new ones behind it. A row with a part that is too wide for that stands on
// lines of its own.
func Changes(rows []Change, width int) string {
	c := columnsOf(rows, width)
	var out strings.Builder
	for _, row := range rows {
		if line, fits := c.line(row); fits {
			out.WriteString(line + "\n")
		} else {
			out.WriteString(loose(row, width))
		}
		if row.Under != "" {
			out.WriteString(Wrap(row.Under, "    ", width))
		}
	}
	return out.String()
}

// columns are the widths of a table's columns.
type columns struct{ name, old, new, share, width int }

// columnsOf gives names a third of the line at most, and shares the rest out
// between the values.
func columnsOf(rows []Change, width int) columns {
	c := columns{width: width}
	for _, row := range rows {
		c.name = max(c.name, within(row.Name, width/3))
		c.share = max(c.share, textWidth(row.Share))
	}
	room := (width - len("    ") - c.name - textWidth(arrow) - len("  ") - c.share) / 2
	for _, row := range rows {
		old, now := within(row.Old, room), within(row.New, room)
		if row.Old != "" && old > 0 && now > 0 && within(row.Name, c.name) > 0 {
			c.old, c.new = max(c.old, old), max(c.new, now)
		}
	}
	return c
}

// within is how wide a text is; 0 where it is wider than the room.
func within(text string, room int) int {
	if n := textWidth(text); n <= room {
		return n
	}
	return 0
}

// line sets a row in the columns, and reports whether it has room there.
func (c columns) line(row Change) (string, bool) {
	values, room := padLeft(row.New, c.old), c.width
	if row.Old != "" {
		values, room = padLeft(row.Old, c.old)+arrow+row.New, c.old+textWidth(arrow)+c.new
	}
	if textWidth(row.Name) > c.name || textWidth(values) > room {
		return "", false
	}
	line := "  " + pad(row.Name, c.name) + "  " + values
	if row.Share != "" {
		line = pad(line, len("    ")+c.name+room) + "  " + padLeft(row.Share, c.share)
	}
	if row.Aside != "" {
		line += "  " + row.Aside
	}
	return line, textWidth(line) <= c.width
}

// loose sets a row on lines of its own.
func loose(row Change, width int) string {
	pieces := []string{row.Name, row.New, row.Share, row.Aside}
	if values := row.Old + arrow + row.New; row.Old != "" && textWidth(values)+len("    ") <= width {
		pieces = []string{row.Name, values, row.Share, row.Aside}
	} else if row.Old != "" {
		pieces = []string{row.Name, row.Old, strings.TrimSpace(arrow) + " " + row.New, row.Share, row.Aside}
	}
	return Flow(pieces, "  ", "    ", width)
}

func pad(text string, width int) string {
	return text + strings.Repeat(" ", max(0, width-textWidth(text)))
}

func padLeft(text string, width int) string {
	return strings.Repeat(" ", max(0, width-textWidth(text))) + text
}
