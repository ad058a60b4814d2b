package run

import (
	"fmt"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
)

// value evaluates any node.
func (m *Machine) value(n program.Node) (any, *Fault) {
	if f := m.spend(1, n); f != nil {
		return nil, f
	}
	switch x := n.(type) {
	case *program.Const:
		return x.Value, nil
	case *program.Ref:
		return m.ref(x), nil
	case *program.Local:
		return m.local(x)
	case *program.Let:
		return m.let(x)
	case *program.Op:
		return m.operate(x)
	case *program.Call:
		return m.call(x)
	case *program.FieldOf:
		return m.field(x)
	case *program.ColumnOf:
		return m.column(x)
	case *program.ElementOf:
		return m.element(x)
	case *program.ListOf:
		list, f := m.list(x.Items)
		return list, f
	case *program.Fit:
		return m.fit(x)
	case *program.If:
		return m.choose(x)
	case *program.Chosen:
		return m.chosen(x)
	case *program.Joined:
		return m.joined(x)
	case *program.With:
		return m.with(x)
	case *program.Uncertain:
		return m.uncertain(x)
	case *program.UncertainCall:
		return m.uncertainCall(x)
	case *program.Vary, *program.Solve, *program.Optimise:
		return m.study(m, n)
	}
	panic(fmt.Sprintf("run: no way to work a %T", n))
}

// ref is what a definition came to; a table holds what its worked cells came to
// this time.
func (m *Machine) ref(x *program.Ref) any {
	v := m.values.at(x.Def.ID)
	rows, ok := v.(*program.Rows)
	if !ok || len(x.Cells) == 0 {
		return v
	}
	m.steps += len(x.Cells)
	return rows.Filled(x.Cells, func(d *program.Def) any { return m.values.at(d.ID) })
}

// list evaluates nodes side by side.
func (m *Machine) list(nodes []program.Node) (any, *Fault) {
	list := make(library.List, len(nodes))
	for i, n := range nodes {
		v, f := m.value(n)
		if f != nil {
			return nil, f
		}
		list[i] = v
	}
	return list, nil
}

func (m *Machine) let(x *program.Let) (any, *Fault) {
	values, f := m.list(x.Values)
	if f != nil {
		return nil, f
	}
	for i, p := range x.Params {
		m.params[p] = values.(library.List)[i]
	}
	v, f := m.value(x.Body)
	return v, calledHere(f, x)
}

// calledHere notes at a fault in a function of the builder's own which call failed.
func calledHere(f *Fault, call program.Node) *Fault {
	if f == nil || f.Missing {
		return f
	}
	noted := *f
	noted.Notes = append(f.Notes[:len(f.Notes):len(f.Notes)], message.Note{Span: call.Place(), Text: message.CalledHere})
	return &noted
}

func (m *Machine) choose(x *program.If) (any, *Fault) {
	cond, f := m.value(x.Cond)
	if f != nil {
		return nil, f
	}
	if cond.(bool) {
		return m.value(x.Then)
	}
	return m.value(x.Else)
}

// known turns an empty cell into the fault of using it.
func known(v any, at program.Node) (any, *Fault) {
	if _, never := v.(library.Never); never {
		return nil, notReached("one of these", at)
	}
	u, ok := v.(program.Unknown)
	switch {
	case v == any(library.LeftOut{}):
		return nil, Fail(at.Place(), "this was left out, as if nobody asked for it: the mistake is inkwing's", "please report it with this line")
	case !ok:
		return v, nil
	case u.Why != "":
		return nil, Fail(at.Place(), u.What+" could not be worked: "+u.Why, u.Hint)
	}
	f := Fail(u.Span, u.What+" is not known", "fill the cell in, or do without it")
	f.Cell, f.Told = u.Cell, u.Told
	return nil, f
}

func (m *Machine) field(x *program.FieldOf) (any, *Fault) {
	v, f := m.part(x)
	if f != nil {
		return nil, f
	}
	name := x.X.Type().(*program.Record).Fields[x.Index].Name
	switch v.(type) {
	case nil:
		return nil, notKnown(name, x)
	case library.Never:
		return nil, notReached("`"+name+"`", x)
	}
	return known(v, x)
}

// part is a field as it stands in its record. Of a row of a table nothing else is taken:
// it may have thousands of columns.
func (m *Machine) part(x *program.FieldOf) (any, *Fault) {
	if of, ok := x.X.(*program.ElementOf); ok {
		if _, isTable := of.X.Type().(*program.Table); isTable {
			return m.cellIn(of, x.Index)
		}
	}
	record, f := m.value(x.X)
	if f != nil {
		return nil, f
	}
	return record.(library.Record)[x.Index], nil
}

// cellIn is a cell of the row that is picked from a table.
func (m *Machine) cellIn(of *program.ElementOf, column int) (any, *Fault) {
	if f := m.spend(1, of); f != nil {
		return nil, f
	}
	rows, f := m.value(of.X)
	if f != nil {
		return nil, f
	}
	key, f := m.value(of.Key)
	if f != nil {
		return nil, f
	}
	i, f := rowIndex(of, rows.(library.Rows), key)
	if f != nil {
		return nil, f
	}
	return rows.(library.Rows).Cell(i, column), nil
}

// notReached is the fault of using what a function knows, and does not reach.
func notReached(what string, at program.Node) *Fault {
	f := Fail(at.Place(), what+" is never reached here", "a limit on it does not arise, and holds; leave out what else uses it")
	f.never = true
	return f
}

// notKnown is the fault of using a field that a function could not work.
func notKnown(name string, at program.Node) *Fault {
	return Fail(at.Place(), "`"+name+"` is not known here", "give what it is worked from, where the record is made")
}

func (m *Machine) column(x *program.ColumnOf) (any, *Fault) {
	table, f := m.value(x.X)
	if f != nil {
		return nil, f
	}
	rows := table.(library.Rows)
	if f := m.spend(rows.Len(), x); f != nil {
		return nil, f
	}
	list := make(library.List, rows.Len())
	for i := range list {
		if x.Index < 0 {
			list[i] = float64(i + 1)
			continue
		}
		if list[i], f = known(rows.Cell(i, x.Index), x); f != nil {
			return nil, f
		}
	}
	return list, nil
}

func (m *Machine) element(x *program.ElementOf) (any, *Fault) {
	if column, ok := x.X.(*program.ColumnOf); ok {
		return m.cellOf(x, column)
	}
	from, f := m.value(x.X)
	if f != nil {
		return nil, f
	}
	key, f := m.value(x.Key)
	if f != nil {
		return nil, f
	}
	if list, ok := from.(library.List); ok {
		i, f := counted(x, key, len(list))
		if f != nil {
			return nil, f
		}
		return list[i], nil
	}
	return row(x, from.(library.Rows), key)
}

// row is a row of a table as a record.
func row(x *program.ElementOf, rows library.Rows, key any) (any, *Fault) {
	i, f := rowIndex(x, rows, key)
	if f != nil {
		return nil, f
	}
	columns := x.Type().(*program.Record).Fields
	record := make(library.Record, len(columns))
	for c := range columns {
		record[c] = rows.Cell(i, c)
	}
	return record, nil
}

func rowIndex(x *program.ElementOf, rows library.Rows, key any) (int, *Fault) {
	text, isText := key.(string)
	if !isText {
		return counted(x, key, rows.Len())
	}
	if named, ok := rows.(interface{ Row(string) (int, bool) }); ok {
		if i, ok := named.Row(text); ok {
			return i, nil
		}
	}
	return 0, Fail(x.Key.Place(), "no row \""+text+"\"", "rows are found by their first cell")
}

// cellOf is one cell of a column: the others need not be known.
func (m *Machine) cellOf(x *program.ElementOf, column *program.ColumnOf) (any, *Fault) {
	table, f := m.value(column.X)
	if f != nil {
		return nil, f
	}
	key, f := m.value(x.Key)
	if f != nil {
		return nil, f
	}
	rows := table.(library.Rows)
	i, f := counted(x, key, rows.Len())
	if f != nil {
		return nil, f
	}
	return known(rows.Cell(i, column.Index), x)
}

// counted turns a number counted from 1 into an index.
func counted(x *program.ElementOf, key any, n int) (int, *Fault) {
	k := key.(float64)
	if k != float64(int(k)) {
		return 0, Fail(x.Key.Place(), fmt.Sprintf("%g is no whole number", k), "rows and elements are counted 1, 2, 3 …")
	}
	if k < 1 || int(k) > n {
		return 0, Fail(x.Key.Place(), fmt.Sprintf("there is no number %g, they go from 1 to %d", k, n), "")
	}
	return int(k) - 1, nil
}
