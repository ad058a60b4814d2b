package region

import "strings"

// A Value is a row of a region's table of quantities.
type Value struct{ Name, Shown string }

// Values reads the table of quantities back out of a region: old as it stands in
// the file, with as many quote marks before every line as its containers put there.
func Values(old []string, quotes int) (list []Value) {
	inside := false
	for _, line := range old {
		text, _ := unquote(line, quotes)
		cells := cellsOf(text)
		switch {
		case len(cells) < 2:
			inside = false
		case cells[0] == quantityHead && cells[1] == valueHead:
			inside = true
		case inside && len(cells[0]) > 2 && cells[0][0] == '`':
			list = append(list, Value{strings.Trim(cells[0], "`"), unwritten(cells[1])})
		}
	}
	return list
}

// unwritten is a cell's text without what [free] wrote around its parts.
func unwritten(cell string) string {
	cell = strings.NewReplacer("`", "", "&amp;", "&").Replace(cell)
	return strings.TrimSpace(cell)
}
