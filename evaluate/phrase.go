package evaluate

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"inkwing/units"
)

// ticked is a name as messages have it.
func ticked(name string) string { return "`" + name + "`" }

// head is a column's heading: name and unit, as the language writes it.
func head(name string, u units.Unit) string {
	if text := u.String(); !u.IsZero() && text != "" && text != "1" {
		name += " [" + text + "]"
	}
	return ticked(name)
}

// joined puts what is to be said side by side, empty parts left out.
func joined(parts ...string) string {
	var list []string
	for _, p := range parts {
		if p != "" {
			list = append(list, p)
		}
	}
	return strings.Join(list, "; ")
}

// enumerated writes a, b and c.
func enumerated(parts []string) string {
	last := len(parts) - 1
	if last < 1 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:last], ", ") + " and " + parts[last]
}

// each names one quantity, or several of which the same is said.
func each(names []string) string {
	if len(names) > 1 {
		return "each of " + enumerated(names)
	}
	return enumerated(names)
}

// grouped writes a whole number with its thousands apart.
func grouped(n int) string {
	text := strconv.Itoa(n)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}

// listed bounds how many names a hint lists.
const listed = 8

func nameList(names []string) string {
	if len(names) > listed {
		names = append(slices.Clone(names[:listed]), "…")
	}
	return strings.Join(names, ", ")
}

func rowCount(n int) string {
	if n == 1 {
		return "1 row"
	}
	return fmt.Sprintf("%d rows", n)
}
