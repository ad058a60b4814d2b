package present

import (
	"math"
	"strconv"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/show"
	"inkwing/units"
)

// What a list or table holds is told in one line: so many columns by their names,
// so few values one by one.
const (
	mostColumns = 4
	mostValues  = 4
)

// several says in one line what a list or table holds; false for anything else.
func several(t program.Type, value any, unit units.Unit, digits int) (string, bool) {
	switch v := value.(type) {
	case library.Rows:
		table, ok := t.(*program.Table)
		if !ok {
			return "", false
		}
		return rowsOf(v.Len(), table.Columns), true
	case library.List:
		list, ok := t.(program.List)
		if !ok {
			return "", false
		}
		if record, ok := list.Elem.(*program.Record); ok {
			return rowsOf(len(v), record.Fields), true
		}
		return values(list.Elem, v, unit, digits), true
	}
	return "", false
}

func rowsOf(n int, columns []program.Field) string {
	text := strconv.Itoa(n) + " rows: "
	if n == 1 {
		text = "1 row: "
	}
	return text + names(columns)
}

// names are those of columns, the first of many.
func names(columns []program.Field) string {
	var list []string
	for i, c := range columns {
		if i == mostColumns && len(columns) > mostColumns+1 {
			list = append(list, "…")
			break
		}
		list = append(list, strings.ReplaceAll(c.Name, "_", " "))
	}
	return strings.Join(list, ", ")
}

// values are those of a list: all of a few, else from the least to the greatest.
func values(of program.Type, list library.List, unit units.Unit, digits int) string {
	text := strconv.Itoa(len(list)) + " values"
	if len(list) <= mostValues {
		if few, ok := each(of, list, unit, digits); ok {
			return few
		}
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range list {
		if x, ok := v.(float64); ok {
			low, high = min(low, x), max(high, x)
		}
	}
	if q, isNumber := of.(program.Quantity); isNumber && low <= high {
		if unit.IsZero() {
			unit = units.Fitting(q.Kind, max(math.Abs(low), math.Abs(high)))
		}
		text += ": " + units.Show(low, unit, digits) + " to " + units.Show(high, unit, digits)
	}
	return text
}

// each writes the values of a short list.
func each(of program.Type, list library.List, unit units.Unit, digits int) (string, bool) {
	var texts []string
	for _, v := range list {
		text, ok := show.Value(of, v, unit, digits)
		if !ok {
			return "", false
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, ", "), len(texts) > 0
}
