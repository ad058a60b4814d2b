package units

import (
	"regexp"
	"strconv"
	"strings"
)

// shownNumber is a number, perhaps with its uncertainty or its interval, and
// then a unit.
var shownNumber = regexp.MustCompile(`^\(?([+-]?[0-9][0-9.]*(?:[eE][+-]?[0-9]+)?)(?: ± [^)]*\))?(.*)$`)

// ParseShown reads back what [Show] or [ShowSpread] wrote: the SI value, without
// its uncertainty, and what kind of number it is; false for any other text.
func ParseShown(text string) (si float64, kind Kind, ok bool) {
	text, sign := trailing(text)
	m := shownNumber.FindStringSubmatch(text)
	if m == nil {
		return 0, Kind{}, false
	}
	x, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		return 0, Kind{}, false
	}
	unit := strings.TrimSpace(m[2] + sign)
	if rest, bare := strings.CutPrefix(unit, "± "); bare {
		_, unit, _ = strings.Cut(rest, " ")
	}
	if before, interval, found := strings.Cut(unit, " ("); found && strings.Contains(interval, " to ") {
		unit = before
	}
	if unit == "" {
		return x, Kind{}, true
	}
	u, err := Parse(unit)
	if err != nil {
		return 0, Kind{}, false
	}
	return u.ToSI(x), u.Kind, true
}

// trailing takes a sign of money off the front of a number: "-€12.50".
func trailing(text string) (number, sign string) {
	rest, minus := strings.CutPrefix(text, "-")
	for _, c := range signed {
		if number, found := strings.CutPrefix(rest, c.sign); found && c.sign != "" {
			if minus {
				number = "-" + number
			}
			return number, c.sign
		}
	}
	return text, ""
}
