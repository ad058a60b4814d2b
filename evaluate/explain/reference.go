package explain

import (
	"maps"

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
func references(s *program.Sheet, x syntax.Expr) []reference {
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
	case *syntax.Chosen:
		r.chosen(x)
	default:
		for _, child := range syntax.Children(x) {
			r.expr(child, false)
		}
	}
}

// apart reads what is evaluated for other values than those that stand there now.
func (r *reader) apart(list ...syntax.Expr) {
	defer func(within bool) { r.within = within }(r.within)
	r.within = true
	for _, x := range list {
		r.expr(x, false)
	}
}

// chosen reads what is asked of a row, where the table's columns hide names.
func (r *reader) chosen(x *syntax.Chosen) {
	r.expr(x.X, false)
	hidden := r.hidden
	defer func() { r.hidden = hidden }()
	r.hidden = maps.Clone(hidden)
	for _, f := range r.columns(x.X) {
		r.hidden[f.Name] = true
	}
	r.expr(x.Of, false)
}

// columns are those of the table that an expression is, where it has a name.
func (r *reader) columns(x syntax.Expr) []program.Field {
	switch x := x.(type) {
	case *syntax.Chosen:
		return r.columns(x.X)
	case *syntax.Binary:
		return r.columns(x.X)
	case *syntax.Paren:
		return r.columns(x.X)
	}
	f, ok := r.named(x)
	if !ok {
		return nil
	}
	t := f.def.Type
	for _, name := range f.fields {
		record, ok := t.(*program.Record)
		if !ok || record.Index(name) < 0 {
			return nil
		}
		t = record.Fields[record.Index(name)].Type
	}
	if table, ok := t.(*program.Table); ok {
		return table.Columns
	}
	return nil
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
		if !ok || f.row != nil || len(f.fields) > 0 || !program.Is[*program.Data](f.def) || !syntax.IsKey(x.Key) {
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
