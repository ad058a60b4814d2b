package region

import "strings"

// A Value is a row of a region's table of quantities, or of its limits: a limit is
// named by its text and shows what is worked.
type Value struct {
	Name, Shown string
	Limit       bool
}

// Values reads the tables of quantities and limits back out of a region: old as it
// stands in the file, with as many quote marks before every line as its containers
// put there.
func Values(old []string, quotes int) (list []Value) {
	inside, limits := false, false
	for _, line := range old {
		text, _ := unquote(line, quotes)
		cells := cellsOf(text)
		switch {
		case len(cells) < 2:
			inside = false
		case cells[0] == quantityHead && cells[1] == valueHead, cells[0] == limitHead && cells[1] == workedHead:
			inside, limits = true, cells[0] == limitHead
		case inside && len(cells[0]) > 2 && cells[0][0] == '`':
			list = append(list, Value{strings.ReplaceAll(cells[0], "`", ""), unwritten(cells[1]), limits})
		}
	}
	return list
}

// unwritten is a cell's text without what [free] wrote around its parts.
func unwritten(cell string) string {
	cell = strings.NewReplacer("`", "", "&amp;", "&").Replace(cell)
	return strings.TrimSpace(cell)
}
