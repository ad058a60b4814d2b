package main

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"inkwing/evaluate"
	"inkwing/units"
	"inkwing/worksheet"
)

// A change is a quantity that a file showed before and shows otherwise now.
type change struct{ name, from, to string }

// changes compares the values that the regions of a file showed before with
// those that they show now. A quantity that was not shown before is no change.
func changes(r *worksheet.Result) []change {
	if !r.Changed() {
		return nil
	}
	before := map[string]string{}
	for _, row := range rows(r.Source) {
		before[row.name] = row.to
	}
	var out []change
	for _, row := range rows(r.Output) {
		if from, ok := before[row.name]; ok && from != row.to {
			out = append(out, change{row.name, from, row.to})
		}
	}
	return out
}

// resultRow is a row of a region's table of quantities, in whatever container
// and however padded: | `name` | value | and perhaps a note.
var resultRow = regexp.MustCompile("^[ \t>*+.0-9-]*\\|[ \t]*`([\\pL_][\\pL\\pN_.]*)`[ \t]*\\|[ \t]*((?:[^|\\\\]|\\\\.)*?)[ \t]*\\|")

// quantityHead is the head of that table: what else a region lists is no
// quantity of the sheet.
var quantityHead = regexp.MustCompile("\\|[ \t]*Quantity[ \t]*\\|[ \t]*Value[ \t]*\\|")

// rows reads the rows of all regions of a text. It knows regions by their marker
// lines only: one that is shown as an example reads the same before and after.
func rows(text []byte) []change {
	var out []change
	inside, quantities := false, false
	for line := range strings.Lines(string(text)) {
		switch {
		case strings.Contains(line, "<!-- worked"):
			inside, quantities = true, false
		case strings.Contains(line, "<!-- /worked"):
			inside = false
		case inside && quantityHead.MatchString(line):
			quantities = true
		case !strings.Contains(line, "|"):
			quantities = false
		case inside && quantities:
			if m := resultRow.FindStringSubmatch(line); m != nil {
				out = append(out, change{name: m[1], to: plain(m[2])})
			}
		}
	}
	return out
}

// plain undoes the Markdown escapes of a cell.
func plain(cell string) string {
	var out strings.Builder
	for i := 0; i < len(cell); i++ {
		if cell[i] == '\\' && i+1 < len(cell) && strings.IndexByte("\\`*_[]<>|~$", cell[i+1]) >= 0 {
			i++
		}
		out.WriteByte(cell[i])
	}
	return strings.ReplaceAll(out.String(), "&amp;", "&")
}

// showChanges prints a line for each change: name  old → new  (+17 %).
func (t *tool) showChanges(s *stream, r *worksheet.Result) {
	for _, c := range changes(r) {
		s.printf("  %s\n", s.change(c, percent(c.from, c.to)))
	}
}

// change writes name  old → new  (+17 %).
func (s *stream) change(c change, percent string) string {
	line := visible(c.name) + "  " + visible(c.from) + " → " + visible(c.to)
	if percent != "" {
		line += "  " + s.dim("("+percent+")")
	}
	return line
}

// percent is by how much a value grew, when both have one dimension; empty
// where that means nothing: from zero, or on a temperature scale.
func percent(from, to string) string {
	a, kind, ok := reading(from)
	b, other, ok2 := reading(to)
	if !ok || !ok2 || kind.Dim != other.Dim || kind.Point || other.Point || a == 0 {
		return ""
	}
	return evaluate.Percent((b - a) / math.Abs(a))
}

// shownNumber is a number, perhaps with its uncertainty, and then a unit.
var shownNumber = regexp.MustCompile(`^\(?([+-]?[0-9][0-9.]*(?:[eE][+-]?[0-9]+)?)(?: ± [^)]*\))?(.*)$`)

// reading is the SI value and kind of a shown text.
func reading(shown string) (float64, units.Kind, bool) {
	m := shownNumber.FindStringSubmatch(shown)
	if m == nil {
		return 0, units.Kind{}, false
	}
	x, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		return 0, units.Kind{}, false
	}
	unit := strings.TrimSpace(m[2])
	if unit == "" {
		return x, units.Kind{}, true
	}
	u, err := units.Parse(unit)
	if err != nil {
		return 0, units.Kind{}, false
	}
	return u.ToSI(x), u.Kind, true
}
