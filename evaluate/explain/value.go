package explain

import (
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// values are the single values to be put in the places of their names.
func (e *explainer) values(found []reference) []sheet.Replacement {
	var list []sheet.Replacement
	for _, r := range found {
		text, single := e.shown(r)
		if !single || r.within {
			continue
		}
		if _, value, _ := e.valueOf(r); isTextValue(value) {
			text = syntax.Source(&syntax.Text{Value: text})
		} else if strings.HasPrefix(text, "-") || strings.Contains(text, " ± ") && !strings.HasPrefix(text, "(") || r.tight && strings.Contains(text, " ") {
			text = "(" + text + ")"
		}
		list = append(list, sheet.Replacement{At: r.at, Text: text})
	}
	return list
}

func isTextValue(v any) bool {
	_, ok := v.(string)
	return ok
}

// valueOf is the type and value of a reference.
func (e *explainer) valueOf(r reference) (program.Type, any, bool) {
	if r.row == nil && e.columnAt(r) >= 0 {
		return e.columnOf(r)
	}
	if r.row == nil {
		t, value, _, ok := e.w.Lookup(r.def, r.fields)
		return t, value, ok
	}
	table, ok := r.def.Type.(*program.Table)
	if !ok {
		return nil, nil, false
	}
	i, ok := rowOf(r.def.Rows(), r.row)
	if !ok {
		return nil, nil, false
	}
	if len(r.fields) == 0 {
		record := make(library.Record, len(table.Columns))
		for c := range record {
			record[c] = r.def.Rows().Cell(i, c)
		}
		return &program.Record{Fields: table.Columns}, record, true
	}
	if c := e.columnAt(r); c >= 0 {
		return table.Columns[c].Type, r.def.Rows().Cell(i, c), true
	}
	return nil, nil, false
}

// columnAt is where the first field of a reference stands among the columns of a table,
// -1 for any other: of a table with many columns many lines may name one.
func (e *explainer) columnAt(r reference) int {
	table, ok := r.def.Type.(*program.Table)
	if !ok || len(r.fields) == 0 || r.row == nil && len(r.fields) > 1 {
		return -1
	}
	places := e.columns[r.def]
	if places == nil {
		places = make(map[string]int, len(table.Columns))
		for i := len(table.Columns) - 1; i >= 0; i-- {
			places[table.Columns[i].Name] = i
		}
		if e.columns == nil {
			e.columns = map[*program.Def]map[string]int{}
		}
		e.columns[r.def] = places
	}
	if i, known := places[r.fields[0]]; known {
		return i
	}
	return -1
}

// columnOf is a table's column as a list.
func (e *explainer) columnOf(r reference) (program.Type, any, bool) {
	rows, ok := e.w.Machine.Value(r.def).(library.Rows)
	if !ok {
		return nil, nil, false
	}
	columns := r.def.Type.(*program.Table).Columns
	i := e.columnAt(r)
	list := make(library.List, rows.Len())
	for row := range list {
		list[row] = rows.Cell(row, i)
	}
	return program.List{Elem: columns[i].Type}, list, true
}

func rowOf(rows *program.Rows, key syntax.Expr) (int, bool) {
	switch k := key.(type) {
	case *syntax.Text:
		i, ok := rows.Keys[k.Value]
		return i, ok
	case *syntax.Number:
		i := int(k.Value) - 1
		return i, i >= 0 && i < rows.Len()
	}
	return 0, false
}

// isColumn reports whether the field of a table is one of its columns.
func isColumn(d *program.Def, fields []string) bool {
	t, ok := d.Type.(*program.Table)
	return ok && len(fields) == 1 && slices.ContainsFunc(t.Columns, func(c program.Field) bool { return c.Name == fields[0] })
}
