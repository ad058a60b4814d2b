package present

import (
	"strings"

	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/working"
	"inkwing/units"
)

// inColumn writes the cells of one column: its numbers share their decimals. A text
// stands as it is, a number with its interval too, see withInterval.
func inColumn(unit units.Unit, digits int, cells []any) []string {
	texts, at, numbers := make([]string, len(cells)), []int{}, []float64{}
	for i, v := range cells {
		switch x := v.(type) {
		case float64:
			at, numbers = append(at, i), append(numbers, x)
		case bool:
			texts[i] = show.YesNo(x)
		case string:
			texts[i] = x
		default:
			texts[i] = "—"
		}
	}
	for k, text := range unit.InColumn(numbers, digits) {
		texts[at[k]] = text
	}
	return texts
}

// withInterval writes a number of a column whose interval decides where it ends.
func withInterval(x, expanded float64, unit units.Unit) string {
	return units.ShowSpread(unit.FromSI(x), unit.Difference().FromSI(expanded), units.MustParse("1"))
}

// align gives the numbers of one unit in a block's rows as many decimals as the others,
// where only zeros were left out: 25.0 V below 24.6 V.
func align(w *working.Evaluation, rows []report.Quantity) {
	most := map[string]int{}
	for _, q := range rows {
		if number, unit, ok := taken(q); ok {
			most[unit] = max(most[unit], decimals(number))
		}
	}
	for i, q := range rows {
		if number, unit, ok := taken(q); ok {
			rows[i].Shown = padded(number, most[unit], digits(w, q.Name)) + " " + unit
		}
	}
}

// taken apart are the number and the unit of a value that is sure; of a pure number,
// which may count something, and of one with a power of ten there is nothing to align.
func taken(q report.Quantity) (number, unit string, ok bool) {
	if _, isNumber := q.Value.(float64); !isNumber || q.Uncertainty.Expanded != 0 || q.Uncertainty.Drawn {
		return "", "", false
	}
	number, unit, ok = strings.Cut(q.Shown, " ")
	return number, unit, ok && !strings.Contains(number, "e")
}

func decimals(number string) int {
	_, behind, _ := strings.Cut(number, ".")
	return len(behind)
}

// padded has zeros at the end up to so many decimals, unless it would have more digits
// than are shown.
func padded(number string, most, digits int) string {
	missing := most - decimals(number)
	if missing == 0 || significant(number)+missing > digits {
		return number
	}
	if decimals(number) == 0 {
		number += "."
	}
	return number + strings.Repeat("0", missing)
}

// significant counts the digits from the first that is none of the leading zeros.
func significant(number string) int {
	whole, behind, _ := strings.Cut(strings.TrimPrefix(number, "-"), ".")
	return len(strings.TrimLeft(whole+behind, "0"))
}
