package explain

import (
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

// A reader collects the references of an expression. A function of the builder's own
// that it calls is one of them.
type reader struct {
	sheet  *program.Sheet
	hidden *scope
	found  []reference
	within bool
}

// A scope is the names that parameters or the columns of a table hide.
type scope struct {
	params  map[string]bool
	columns []program.Field
	outer   *scope
}

func (s *scope) has(name string) bool {
	for ; s != nil; s = s.outer {
		if s.params[name] || program.IndexOf(s.columns, name) >= 0 {
			return true
		}
	}
	return false
}

// references are those of an expression, and of the builder's own functions that
// it calls, each once.
func (e *explainer) references(s *program.Sheet, x syntax.Expr) (list []reference) {
	seen := map[*program.Def]bool{}
	var add func(found []reference)
	add = func(found []reference) {
		for _, r := range found {
			if !program.Is[*program.Function](r.def) {
				list = append(list, r)
			} else if !seen[r.def] {
				seen[r.def] = true
				add(e.inFunction(r.def))
			}
		}
	}
	add(outside(s, x))
	return list
}

// outside are the references of an expression, and the functions that it calls.
func outside(s *program.Sheet, x syntax.Expr) []reference {
	r := &reader{sheet: s}
	r.expr(x, false)
	return r.found
}

// inFunction are the references in the body of a function, which may use the sheet's
// quantities, and the functions that it calls. Many lines may call it: it is read once.
func (e *explainer) inFunction(fn *program.Def) []reference {
	found, known := e.bodies[fn]
	if known {
		return found
	}
	x := fn.Body.(*program.Function).Stmt
	r := &reader{sheet: fn.Sheet, hidden: &scope{params: map[string]bool{}}, within: true}
	for _, p := range x.Params {
		r.hidden.params[p.Name.Name] = true
	}
	r.expr(x.Body, false)
	if e.bodies == nil {
		e.bodies = map[*program.Def][]reference{}
	}
	e.bodies[fn] = r.found
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
	r.hidden = &scope{columns: r.columns(x.X), outer: r.hidden}
	r.expr(x.Of, false)
	r.hidden = r.hidden.outer
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

// call goes through the arguments, and notes a function of the builder's own.
func (r *reader) call(x *syntax.Call) {
	for _, a := range x.Args {
		r.expr(a.Value, false)
	}
	if def := r.sheet.Functions[x.Func.Name]; def != nil {
		r.add(reference{def: def})
	}
}

// named is the reference that an expression is: a name, a row, or a field of one.
func (r *reader) named(x syntax.Expr) (reference, bool) { return r.namedWithin(x, mostFields) }

// mostFields is how many fields in fields a reference has, far more than records have.
const mostFields = 50

func (r *reader) namedWithin(x syntax.Expr, deep int) (reference, bool) {
	if deep == 0 {
		return reference{}, false
	}
	switch x := x.(type) {
	case *syntax.Name:
		d := r.sheet.Names[x.Name]
		return reference{def: d}, d != nil && !r.hidden.has(x.Name)
	case *syntax.Index:
		f, ok := r.namedWithin(x.X, deep-1)
		if !ok || f.row != nil || len(f.fields) > 0 || !program.Is[*program.Data](f.def) || !syntax.IsKey(x.Key) {
			return reference{}, false
		}
		f.row = x.Key
		return f, true
	case *syntax.Field:
		if f, ok := r.namedWithin(x.X, deep-1); ok {
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
	if !ok || r.hidden.has(name.Name) || r.sheet.Uses[name.Name] == nil {
		return reference{}, false
	}
	d := r.sheet.Uses[name.Name].Names[x.Name.Name]
	return reference{def: d}, d != nil
}
