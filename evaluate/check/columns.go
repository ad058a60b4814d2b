package check

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// chosen hides the names of the columns in what is asked of a row: a quantity of
// such a name is not meant, and what it is worked from is no circle.
func (f *finder) chosen(x *syntax.Chosen) {
	f.expr(x.X)
	f.hidden = &hidden{f.sheet.columnsOf(x.X, maxNamed), f.hidden}
	f.expr(x.Of)
	f.hidden = f.hidden.outer
}

// maxNamed bounds how many names are followed to the columns of a table.
const maxNamed = 20

// columnsOf are the names of a table's columns, as far as they can be told before
// anything is checked.
func (s *sheet) columnsOf(e syntax.Expr, deep int) map[string]bool {
	if deep == 0 {
		return nil
	}
	switch x := e.(type) {
	case *syntax.Paren:
		return s.columnsOf(x.X, deep-1)
	case *syntax.Chosen:
		return s.columnsOf(x.X, deep-1)
	case *syntax.Binary:
		return s.columnsOf(x.X, deep-1)
	case *syntax.Name:
		return s.columnsOfDef(s.Names[x.Name], deep-1)
	case *syntax.Field:
		return s.columnsOfField(x, deep-1)
	case *syntax.Vary:
		return setOf(columnsOfVary(x))
	case *syntax.Call:
		return setOf(columnsOfShape(resultOf(x), ""))
	}
	return nil
}

func (s *sheet) columnsOfDef(d *program.Def, deep int) map[string]bool {
	if d == nil {
		return nil
	}
	if data, ok := d.Body.(*program.Data); ok {
		return data.Named()
	}
	if x, ok := d.Stmt.(*syntax.Definition); ok {
		return s.columnsOf(x.Value, deep)
	}
	return nil
}

// columnsOfField are those of a table in what a function gives, or of one that a
// sheet in use has.
func (s *sheet) columnsOfField(x *syntax.Field, deep int) map[string]bool {
	if d := s.throughUse(x, nil); d != nil {
		if data, ok := d.Body.(*program.Data); ok {
			return data.Named()
		}
		return nil
	}
	name, ok := x.X.(*syntax.Name)
	if !ok || s.Names[name.Name] == nil {
		return nil
	}
	def, ok := s.Names[name.Name].Stmt.(*syntax.Definition)
	if !ok {
		return nil
	}
	if call, ok := def.Value.(*syntax.Call); ok {
		return setOf(columnsOfShape(resultOf(call), x.Name.Name))
	}
	return nil
}

func columnsOfVary(x *syntax.Vary) []string {
	var names []string
	add := func(e syntax.Expr) { names = append(names, column(syntax.Source(e))) }
	for _, s := range x.Over {
		add(s.Of)
	}
	for _, o := range x.Outputs {
		add(o.Of)
	}
	return names
}

// resultOf is the shape of what a library function gives.
func resultOf(x *syntax.Call) library.Shape {
	f, ok := library.Lookup(x.Func.Name)
	if !ok {
		return library.Shape{}
	}
	return f.Result
}

// columnsOfShape are the columns of a table, or of a record's table of that name;
// without a name, of any that it has.
func columnsOfShape(shape library.Shape, field string) []string {
	var names []string
	for _, p := range shape.Params {
		switch {
		case shape.Kind == library.Table:
			names = append(names, p.Name)
		case p.Shape.Kind == library.Table && (field == "" || field == p.Name):
			names = append(names, columnsOfShape(p.Shape, "")...)
		}
	}
	return names
}
