package evaluate

import (
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// A reference is a place in a formula that names a definition, a field of one,
// or a row or cell of a table.
type reference struct {
	def    *program.Def
	row    syntax.Expr // a literal key or number; nil without
	fields []string
	at     message.Span
	tight  bool // what binds tighter than a unit stands beside it
	within bool // in the body of a function that is called, or in a study: not to be replaced
}

// A reader collects the references of an expression.
type reader struct {
	sheet  *program.Sheet
	hidden map[string]bool // parameters
	open   map[string]bool // functions being read
	found  []reference
	within bool
}

// references are those of an expression, and of the builder's own functions that
// it calls.
func (e *explainer) references(s *program.Sheet, x syntax.Expr) []reference {
	r := &reader{sheet: s, hidden: map[string]bool{}, open: map[string]bool{}}
	r.expr(x, false)
	return r.found
}

func (r *reader) add(f reference) {
	f.within = r.within
	r.found = append(r.found, f)
}

func (r *reader) expr(x syntax.Expr, tight bool) {
	if f, ok := r.named(x); ok {
		f.at, f.tight = x.Place(), tight
		r.add(f)
		return
	}
	switch x := x.(type) {
	case *syntax.Call:
		r.call(x)
	case *syntax.With:
		r.apart(x.X)
		for _, replaced := range x.Replaces {
			r.expr(replaced.Value, false)
		}
	case *syntax.Vary, *syntax.Adjust, *syntax.Tune:
		r.apart(syntax.Children(x)...)
	case *syntax.Binary:
		r.expr(x.X, x.Op == "^")
		r.expr(x.Y, x.Op == "^")
	case *syntax.Unary:
		r.expr(x.X, true)
	default:
		for _, child := range syntax.Children(x) {
			r.expr(child, false)
		}
	}
}

// apart reads what is worked for other values than those that stand there now.
func (r *reader) apart(list ...syntax.Expr) {
	defer func(within bool) { r.within = within }(r.within)
	r.within = true
	for _, x := range list {
		r.expr(x, false)
	}
}

// call goes through the arguments, and the body of a function of the builder's
// own, which may use the sheet's quantities.
func (r *reader) call(x *syntax.Call) {
	for _, a := range x.Args {
		r.expr(a.Value, false)
	}
	def := r.sheet.Functions[x.Func.Name]
	if def == nil || r.open[x.Func.Name] {
		return
	}
	r.open[x.Func.Name] = true
	fn := def.Body.(*program.Function)
	inner := &reader{sheet: r.sheet, hidden: map[string]bool{}, open: r.open, within: true}
	for _, p := range fn.Stmt.Params {
		inner.hidden[p.Name.Name] = true
	}
	inner.expr(fn.Stmt.Body, false)
	r.found = append(r.found, inner.found...)
}

// named is the reference that an expression is: a name, a row, or a field of one.
func (r *reader) named(x syntax.Expr) (reference, bool) {
	switch x := x.(type) {
	case *syntax.Name:
		d := r.sheet.Names[x.Name]
		return reference{def: d}, d != nil && !r.hidden[x.Name]
	case *syntax.Index:
		f, ok := r.named(x.X)
		if !ok || f.row != nil || len(f.fields) > 0 || !program.Is[*program.Data](f.def) || !isKey(x.Key) {
			return reference{}, false
		}
		f.row = x.Key
		return f, true
	case *syntax.Field:
		if f, ok := r.named(x.X); ok {
			f.fields = append(f.fields, x.Name.Name)
			return f, true
		}
		return r.through(x)
	}
	return reference{}, false
}

// through follows parts.strap into a used sheet.
func (r *reader) through(x *syntax.Field) (reference, bool) {
	name, ok := x.X.(*syntax.Name)
	if !ok || r.hidden[name.Name] || r.sheet.Uses[name.Name] == nil {
		return reference{}, false
	}
	d := r.sheet.Uses[name.Name].Names[x.Name.Name]
	return reference{def: d}, d != nil
}

// values are the single values to be put in the places of their names.
func (e *explainer) values(found []reference) []replacement {
	var list []replacement
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
		list = append(list, replacement{r.at, text})
	}
	return list
}

func isTextValue(v any) bool {
	_, ok := v.(string)
	return ok
}

// valueOf is the type and value of a reference.
func (e *explainer) valueOf(r reference) (program.Type, any, bool) {
	if r.row == nil && isColumn(r.def, r.fields) {
		return e.columnOf(r)
	}
	if r.row == nil {
		t, value, _, ok := e.lookup(r.def, r.fields)
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
	for c, column := range table.Columns {
		if column.Name == r.fields[0] {
			return column.Type, r.def.Rows().Cell(i, c), true
		}
	}
	return nil, nil, false
}

// columnOf is a table's column as a list.
func (e *explainer) columnOf(r reference) (program.Type, any, bool) {
	rows, ok := e.machine.Value(r.def).(library.Rows)
	if !ok {
		return nil, nil, false
	}
	columns := r.def.Type.(*program.Table).Columns
	i := (&program.Record{Fields: columns}).Index(r.fields[0])
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
