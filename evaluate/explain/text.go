package explain

import (
	"fmt"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/show"
	"inkwing/evaluate/study"
	"inkwing/units"
)

// shown is the text of a value; true for a single one, that can stand in a
// formula.
func (e *explainer) shown(r reference) (string, bool) {
	t, value, ok := e.valueOf(r)
	if !ok || value == nil {
		return "—", false
	}
	if r.row == nil && r.def.Sheet == e.w.Program.Main {
		if e.byName == nil {
			e.index()
		}
		if q := e.byName[e.nameOf(r)]; q != nil {
			return q.Shown, q.State == report.Evaluated
		}
	}
	unit := units.Unit{}
	if len(r.fields) == 0 {
		unit = r.def.Written()
	} else if i := e.columnAt(r); r.row == nil && i >= 0 {
		unit = r.def.Type.(*program.Table).Columns[i].Unit
	}
	if _, isNumber := value.(float64); isNumber {
		s := e.uncertaintyOf(r)
		return show.Uncertain(t, value, s, unit, e.digits())
	}
	return e.text(t, value, unit)
}

// uncertaintyOf is how sure a quantity, a field or a cell is.
func (e *explainer) uncertaintyOf(r reference) study.Combined {
	if r.row == nil {
		_, _, path, _ := e.w.Lookup(r.def, r.fields)
		return e.w.UncertaintyOf(r.def, path)
	}
	row, ok := rowOf(r.def.Rows(), r.row)
	if !ok || len(r.fields) == 0 {
		return study.Combined{}
	}
	return study.Combined{Expanded: e.w.Uncertainty.Cell(r.def.Rows(), row, e.columnAt(r))}
}

// text writes any value, a large one in short.
func (e *explainer) text(t program.Type, value any, unit units.Unit) (string, bool) {
	if text, ok := show.Value(t, value, unit, e.digits()); ok {
		return text, true
	}
	switch v := value.(type) {
	case program.Unknown:
		return "not known", false
	case library.List:
		return e.listText(t, v, unit), false
	case library.Record:
		return e.recordText(t.(*program.Record), v), false
	case library.Rows:
		return "a table of " + message.Rows(v.Len()), false
	}
	return "—", false
}

// shownItems bounds how many elements or fields are written out.
const shownItems = 5

func (e *explainer) listText(t program.Type, list library.List, unit units.Unit) string {
	of, ok := t.(program.List)
	if !ok || len(list) > shownItems {
		return fmt.Sprintf("a list of %d", len(list))
	}
	parts := make([]string, len(list))
	for i, v := range list {
		parts[i], _ = e.text(of.Elem, v, unit)
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

func (e *explainer) recordText(t *program.Record, record library.Record) string {
	var parts []string
	for _, i := range show.InOrder(t.Fields) {
		if record[i] == nil {
			continue
		}
		if len(parts) == shownItems {
			parts = append(parts, "…")
			break
		}
		text, _ := e.text(t.Fields[i].Type, record[i], t.Fields[i].Unit)
		parts = append(parts, t.Fields[i].Name+" "+text)
	}
	return strings.Join(parts, ", ")
}

// digits is how many are shown where a step has no name of its own.
func (e *explainer) digits() int { return show.Digits(e.w.Program.Main, "") }
