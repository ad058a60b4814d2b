package evaluate

import (
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"

	"inkwing/evaluate/check"
	"inkwing/evaluate/library"
	"inkwing/evaluate/syntax"
)

// manyCells is how many cells of one table may differ and be told one by one;
// of more, the table as a whole is the cause.
const manyCells = 12

// find lists what differs between the two editions, sheet by sheet.
func (t *tracer) find() {
	t.at, t.cellwise, t.both = map[string]int{}, map[string]bool{}, map[string]bool{}
	names := slices.Sorted(maps.Keys(t.now.inputs))
	main := t.now.sheet.Name
	slices.SortStableFunc(names, func(a, b string) int {
		switch {
		case a == main:
			return -1
		case b == main:
			return 1
		}
		return 0
	})
	for _, name := range names {
		old, now := t.old.inputs[name], t.now.inputs[name]
		if old == nil {
			continue // its use is the cause
		}
		if now.Tree == nil || old.Tree == nil {
			t.data(name, old, now)
			continue
		}
		t.statements(name, old.Tree, now.Tree)
		t.tables(name, old.Tables, now.Tables)
	}
}

func (t *tracer) add(sheet, key string, c Cause) {
	t.at[sheet+"\x00"+key] = len(t.elements)
	t.elements = append(t.elements, element{c, sheet, key})
}

// data compares a file that is one table, as a whole.
func (t *tracer) data(name string, old, now *check.Input) {
	if len(old.Tables) == 1 && len(now.Tables) == 1 && !sameTable(old.Tables[0], now.Tables[0]) {
		t.add(name, tableKey(now.Tables[0]), Cause{path.Base(name), rowsOf(old.Tables[0]), rowsOf(now.Tables[0])})
	}
}

func rowsOf(table *syntax.Table) string {
	if table == nil {
		return ""
	}
	return rowCount(len(table.Rows))
}

func rowCount(n int) string {
	if n == 1 {
		return "1 row"
	}
	return fmt.Sprintf("%d rows", n)
}

// statements compares what stands under each key.
func (t *tracer) statements(sheet string, old, now *syntax.Tree) {
	before := map[string]syntax.Statement{}
	for _, s := range old.Statements {
		if key := statementKey(s); key != "" && before[key] == nil {
			before[key] = s
		}
	}
	seen := map[string]bool{}
	for _, s := range now.Statements {
		key := statementKey(s)
		if key == "" || seen[key] {
			continue
		}
		seen[key] = true
		if c, differs := t.differ(sheet, before[key], s); differs {
			t.put(sheet, key, c, before[key], s)
		}
	}
	for _, s := range old.Statements {
		if key := statementKey(s); key != "" && !seen[key] {
			seen[key] = true
			c, _ := t.differ(sheet, s, nil)
			t.put(sheet, key, c, s, nil)
		}
	}
}

// put keeps a cause. What stands in one edition only, under a name that means
// nothing in the other, can stand in every mixture: whoever uses it has changed.
func (t *tracer) put(sheet, key string, c Cause, old, now syntax.Statement) {
	name := nameIn(old, now)
	switch {
	case old == nil && !t.old.knows(sheet, name), now == nil && !t.now.knows(sheet, name):
		t.both[sheet+"\x00"+key] = true
		t.apart = append(t.apart, c)
	default:
		t.add(sheet, key, c)
	}
}

// knows says whether a name means something in a sheet of the edition.
func (e *edition) knows(sheet, name string) bool {
	s := e.sheetNamed(sheet)
	if s == nil {
		return true
	}
	_, _, constant := library.Constant(name)
	_, function := library.Lookup(name)
	return constant || function || s.Names[name] != nil || s.Uses[name] != nil || s.Functions[name] != nil
}

// differ compares two statements of one key, of which one may be nil.
func (t *tracer) differ(sheet string, old, now syntax.Statement) (Cause, bool) {
	a, b := written(old), written(now)
	if a == b {
		return Cause{}, false
	}
	name := t.shown(sheet, nameIn(old, now))
	textA, textB := t.old.formula(sheet, old), t.now.formula(sheet, now)
	x, okX := old.(*syntax.Definition)
	y, okY := now.(*syntax.Definition)
	switch {
	case okX && okY && check.Plain(x.Value) && check.Plain(y.Value):
		return t.plain(sheet, name, x, y)
	case !okX && okY && check.Plain(y.Value), !okY && okX && check.Plain(x.Value):
		return Cause{name, textA, textB}, true
	case okX || okY:
		return Cause{"the formula of " + name, textA, textB}, true
	}
	if _, isUse := either(old, now).(*syntax.Use); isUse {
		return Cause{"the use of " + name, a, b}, true
	}
	return Cause{"the formula of " + name + "(…)", textA, textB}, true
}

// formula is the right side of a statement as the builder wrote it.
func (e *edition) formula(sheet string, s syntax.Statement) string {
	switch x := s.(type) {
	case *syntax.Definition:
		return e.sheets[sheet].formula(x.Value.Place())
	case *syntax.Function:
		return e.sheets[sheet].formula(x.Body.Place())
	}
	return ""
}

func either(a, b syntax.Statement) syntax.Statement {
	if b != nil {
		return b
	}
	return a
}

func nameIn(old, now syntax.Statement) string {
	switch x := either(old, now).(type) {
	case *syntax.Definition:
		return x.Name.Name
	case *syntax.Function:
		return x.Name.Name
	}
	return check.UseName(either(old, now).(*syntax.Use))
}

// written is what a statement says, whatever its blanks.
func written(s syntax.Statement) string {
	switch x := s.(type) {
	case *syntax.Definition:
		return unitText(x.Unit) + syntax.Source(x.Value)
	case *syntax.Function:
		return paramsText(x.Params) + " = " + unitText(x.Unit) + syntax.Source(x.Body)
	case *syntax.Use:
		if x.Columns == nil {
			return x.Path.Value
		}
		return x.Path.Value + " " + paramsText(x.Columns)
	}
	return ""
}

func unitText(u *syntax.Unit) string {
	if u == nil {
		return ""
	}
	return "[" + u.Text + "] "
}

func paramsText(list []syntax.Param) string {
	var parts []string
	for _, p := range list {
		parts = append(parts, strings.TrimSpace(p.Name.Name+" "+unitText(p.Unit)))
	}
	return "(" + strings.Join(parts, ", ") + ")"
}

// plain compares two plain values by what they are, not by how they are written.
func (t *tracer) plain(sheet, name string, old, now *syntax.Definition) (Cause, bool) {
	a, textA := t.old.valueOf(sheet, old)
	b, textB := t.now.valueOf(sheet, now)
	_, surelyA := old.Value.(*syntax.Uncertain)
	_, surelyB := now.Value.(*syntax.Uncertain)
	if a != nil && isScalar(a) && isScalar(b) && sameValue(a, b) && !surelyA && !surelyB {
		return Cause{}, false
	}
	return Cause{name, textA, textB}, true
}

func isScalar(v any) bool {
	switch v.(type) {
	case float64, bool, string:
		return true
	}
	return false
}

// valueOf is what a plain value came to, and how it is shown.
func (e *edition) valueOf(sheet string, x *syntax.Definition) (any, string) {
	s := e.sheetNamed(sheet)
	if s == nil || s.Names[x.Name.Name] == nil {
		return nil, syntax.Source(x.Value)
	}
	d := s.Names[x.Name.Name]
	value := e.machine.Value(d)
	if _, sure := x.Value.(*syntax.Uncertain); isScalar(value) && !sure {
		if text, ok := e.show(d.Type, value, d.Written(), e.digits(d.Name)); ok {
			return value, text
		}
	}
	return value, syntax.Source(x.Value)
}

// shown is a name as the main sheet would write it.
func (t *tracer) shown(sheet, name string) string {
	if sheet == t.now.sheet.Name {
		return name
	}
	for _, e := range []*edition{t.now, t.old} {
		for use, used := range e.program.Main.Uses {
			if used.Name == sheet {
				return use + "." + name
			}
		}
	}
	return path.Base(sheet) + ": " + name
}

func tableNamed(list []*syntax.Table, name string) *syntax.Table {
	for _, t := range list {
		if t.Name.Name == name {
			return t
		}
	}
	return nil
}

func tableKey(t *syntax.Table) string { return "table " + t.Name.Name }

func cellKey(t *syntax.Table, row, column int) string {
	return fmt.Sprintf("cell %s %d %d", t.Name.Name, row, column)
}

// tables compares the tables of a worksheet, cell by cell where their headings
// and keys are the same.
func (t *tracer) tables(sheet string, old, now []*syntax.Table) {
	for _, b := range now {
		a := tableNamed(old, b.Name.Name)
		switch {
		case a != nil && sameTable(a, b):
		case a != nil && alike(a, b) && differing(a, b) <= manyCells:
			t.cells(sheet, a, b)
		default:
			t.add(sheet, tableKey(b), Cause{"the table " + t.shown(sheet, b.Name.Name), rowsOf(a), rowsOf(b)})
		}
	}
	for _, a := range old {
		if tableNamed(now, a.Name.Name) == nil {
			t.add(sheet, tableKey(a), Cause{"the table " + t.shown(sheet, a.Name.Name), rowsOf(a), ""})
		}
	}
}

func sameRow(a, b []syntax.Cell) bool {
	return slices.EqualFunc(a, b, func(x, y syntax.Cell) bool { return x.Text == y.Text })
}

func sameTable(a, b *syntax.Table) bool {
	return sameRow(a.Head, b.Head) && slices.EqualFunc(a.Rows, b.Rows, sameRow)
}

// isKeyed says whether a table's rows have names: its first column is text.
func isKeyed(t *syntax.Table) bool { return !strings.HasSuffix(strings.TrimSpace(t.Head[0].Text), "]") }

// alike says whether two tables have the same headings and rows of the same
// names.
func alike(a, b *syntax.Table) bool {
	return len(a.Head) > 0 && sameRow(a.Head, b.Head) && slices.EqualFunc(a.Rows, b.Rows, func(x, y []syntax.Cell) bool {
		return len(x) == len(y) && len(x) <= len(a.Head) && len(x) > 0 && (!isKeyed(a) || x[0].Text == y[0].Text)
	})
}

// differing counts the cells of two tables that are alike.
func differing(a, b *syntax.Table) int {
	n := 0
	for i, row := range b.Rows {
		for j := range row {
			if row[j].Text != a.Rows[i][j].Text {
				n++
			}
		}
	}
	return n
}

func (t *tracer) cells(sheet string, a, b *syntax.Table) {
	t.cellwise[sheet+"\x00"+tableKey(b)] = true
	for i, row := range b.Rows {
		for j := range row {
			if row[j].Text == a.Rows[i][j].Text || t.sameCell(sheet, b.Name.Name, i, j) {
				continue
			}
			key := fmt.Sprintf("[%d]", i+1)
			if isKeyed(b) {
				key = "[\"" + row[0].Text + "\"]"
			}
			column, unit, _ := strings.Cut(strings.TrimSuffix(strings.TrimSpace(b.Head[j].Text), "]"), "[")
			t.add(sheet, cellKey(b, i, j), Cause{t.shown(sheet, b.Name.Name) + key + "." + strings.Join(strings.Fields(column), "_"),
				cellText(a.Rows[i][j].Text, unit), cellText(row[j].Text, unit)})
		}
	}
}

// sameCell says whether a cell holds the same value in both editions, though it
// is written otherwise.
func (t *tracer) sameCell(sheet, table string, row, column int) bool {
	a, b := t.old.sheetNamed(sheet), t.now.sheetNamed(sheet)
	if a == nil || b == nil || a.Names[table] == nil || b.Names[table] == nil {
		return false
	}
	x, y := a.Names[table].Rows, b.Names[table].Rows
	if x == nil || y == nil || x.Len() <= row || y.Len() <= row {
		return false
	}
	u, v := x.Cell(row, column), y.Cell(row, column)
	return isScalar(u) && isScalar(v) && sameValue(u, v)
}

// cellText is a cell with the unit of its heading, unless it has one of its own.
func cellText(text, unit string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return "not known"
	}
	if unit == "" || unit == "1" || strings.ContainsAny(text, " ?–") {
		return text
	}
	return text + " " + strings.TrimSpace(unit)
}
