package main

import (
	"fmt"
	"slices"
	"strings"

	"inkwing/cmd/inkwing/layout"
	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// fewest is how many changes are shown of a worksheet that names none of them.
const fewest = 10

// A listed is a row of what changed, and whether the builder names its quantity.
type listed struct {
	layout.Change
	asked bool
}

// listChanges prints what changed: what the builder names, and how much more there is;
// with all, or behind --show, everything. Where none of it is named, the first rows.
func (t *tool) listChanges(rows []listed, all bool) {
	var shown []layout.Change
	for _, row := range rows {
		if all || row.asked {
			shown = append(shown, row.Change)
		}
	}
	if len(shown) == 0 {
		for _, row := range rows[:min(fewest, len(rows))] {
			shown = append(shown, row.Change)
		}
	}
	t.out.printf("%s", layout.Changes(shown, t.out.width))
	if more := len(rows) - len(shown); more > 0 {
		t.out.printf("%s", t.out.dim(t.out.wrap(fmt.Sprintf("and %d more, named in no sentence, bracket or limit: --all shows them", more), "  ")))
	}
}

// showChanges prints a line for each change: name  old → new  +17 %.
func (t *tool) showChanges(p *paths, r *worksheet.Result) {
	var rows []listed
	limits := map[[2]string][]string{} // by old and new value
	for _, c := range r.Changes {
		name := c.Name
		switch values := [2]string{c.Old, c.New}; {
		case c.Limit:
			limits[values] = append(limits[values], name)
			name = "limit " + name
		case !p.all && slices.ContainsFunc(limits[values], func(l string) bool { return tests(l, name) }):
			continue // its limit, which comes first, has said it
		}
		rows = append(rows, listed{t.changeRow(name, c.Old, c.New, report.Percent(c.Share)), c.Asked || c.Limit})
	}
	t.listChanges(rows, p.all)
}

// tests reports whether a limit sets a bound to a name, and not to what is worked
// from it.
func tests(limit, name string) bool {
	before, after, found := strings.Cut(" "+limit+" ", " "+name+" ")
	return found && (before == "" || strings.HasSuffix(before, "=") || strings.HasSuffix(before, "<") || strings.HasSuffix(before, ">")) &&
		(after == "" || strings.HasPrefix(after, "<") || strings.HasPrefix(after, ">") || strings.HasPrefix(after, "="))
}
