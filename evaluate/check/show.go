package check

import (
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// show checks show x: a [unit], b total a.
func (a *analysis) show(d *program.Def, s *program.Show, x *syntax.Show) {
	c := a.checker(d)
	if of := c.shown(s, x); of != nil {
		s.Of, d.Type = of, program.Bool{}
	}
	c.finish()
}

func (c *checker) shown(s *program.Show, x *syntax.Show) program.Node {
	of := c.expr(x.Of)
	if of == nil {
		return nil
	}
	of = meant(of, x)
	ok := false
	switch t := of.Type().(type) {
	case *program.Table:
		ok = c.shownColumns(s, x, t) && c.totals(s, x, of)
	case *program.Record:
		ok = c.noTotal(x, of) && c.shownFields(s, x, t)
	default:
		ok = c.noTotal(x, of) && c.shownAlone(s, x, of)
	}
	if !ok {
		return nil
	}
	s.Most = program.MaxShown
	if last, ok := x.Of.(*syntax.Chosen); ok && last.How == syntax.First {
		s.Most = program.MaxShownFirst
	}
	return of
}

// meant is the table of a record that has one, where a column is named that the
// record has not.
func meant(of program.Node, x *syntax.Show) program.Node {
	r, isRecord := of.Type().(*program.Record)
	table := onlyTable(of)
	if !isRecord || table == nil {
		return of
	}
	isField := func(e syntax.Expr) bool {
		name, _ := syntax.Dotted(e)
		first, _, _ := strings.Cut(name, ".")
		return r.Index(first) >= 0
	}
	for _, o := range x.Columns {
		if !isField(o.Of) {
			return table
		}
	}
	if len(x.Total) > 0 {
		return table
	}
	return of
}

// shownColumns are the columns named, or all that hold single values.
func (c *checker) shownColumns(s *program.Show, x *syntax.Show, t *program.Table) bool {
	if x.Columns == nil {
		allColumns(s, t)
	}
	for _, o := range x.Columns {
		name, _ := syntax.Dotted(o.Of)
		i := c.whole.place(t.Columns, name)
		if i < 0 {
			c.noShown(o.Of, name, t.Columns)
			return false
		}
		if !c.addShown(s, o, name, []int{i}, t.Columns[i]) {
			return false
		}
	}
	return true
}

func allColumns(s *program.Show, t *program.Table) {
	for i, f := range t.Columns {
		if isScalar(f.Type) {
			s.Columns = append(s.Columns, program.ShownColumn{Name: f.Name, Path: []int{i}, Type: f.Type, Unit: f.Unit})
		}
	}
}

// shownFields are the fields named, or all that are single values.
func (c *checker) shownFields(s *program.Show, x *syntax.Show, r *program.Record) bool {
	name := syntax.Source(syntax.Unparen(x.Of))
	if x.Columns == nil {
		allFields(s, r, name, nil)
	}
	for _, o := range x.Columns {
		path, f, ok := c.fieldPath(o.Of, r)
		if !ok {
			return false
		}
		field, _ := syntax.Dotted(o.Of)
		if !c.addShown(s, o, name+"."+field, path, f) {
			return false
		}
	}
	if len(s.Columns) == 0 {
		c.fail(x.Of.Place(), message.Quote(name)+" has no single value to show", "name one of its fields: "+program.FieldNames(r.Fields))
	}
	return len(s.Columns) > 0
}

func allFields(s *program.Show, r *program.Record, name string, path []int) {
	for i, f := range r.Fields {
		at := append(slices.Clone(path), i)
		if inner, ok := f.Type.(*program.Record); ok {
			allFields(s, inner, name+"."+f.Name, at)
		} else if isScalar(f.Type) {
			s.Columns = append(s.Columns, program.ShownColumn{Name: name + "." + f.Name, Path: at, Type: f.Type, Unit: f.Unit})
		}
	}
}

// fieldPath follows work or cell.mass into a record.
func (c *checker) fieldPath(e syntax.Expr, r *program.Record) (path []int, f program.Field, ok bool) {
	fields := r.Fields
	name, _ := syntax.Dotted(e)
	for _, part := range strings.Split(name, ".") {
		i := program.IndexOf(fields, part)
		if i < 0 {
			c.noShown(e, part, fields)
			return nil, f, false
		}
		f, path = fields[i], append(path, i)
		fields = nil
		if inner, isRecord := f.Type.(*program.Record); isRecord {
			fields = inner.Fields
		}
	}
	return path, f, true
}

// addShown adds a column or a field that is named.
func (c *checker) addShown(s *program.Show, o syntax.Output, name string, path []int, f program.Field) bool {
	if c.listed[name] {
		c.fail(o.Of.Place(), message.Quote(name)+" stands twice", "name it once")
		return false
	}
	node := &program.FieldOf{Typed: typed(o.Of.Place(), f.Type)}
	if !isScalar(f.Type) {
		c.fail(o.Of.Place(), message.Quote(name)+" is "+f.Type.String()+", and has a table of its own", "write "+message.Quote("show …."+f.Name))
		return false
	}
	column := program.ShownColumn{Name: name, Path: path, Type: f.Type, Unit: f.Unit}
	if unit, has := c.bracket(o.Unit); has {
		if c.failed || c.shownIn(node, o.Of, unit) == nil {
			return false
		}
		column.Unit = unit
	}
	if c.listed == nil {
		c.listed = map[string]bool{}
	}
	s.Columns, c.listed[name] = append(s.Columns, column), true
	return true
}

// shownAlone is a list by its index, or a single value.
func (c *checker) shownAlone(s *program.Show, x *syntax.Show, of program.Node) bool {
	name := syntax.Source(syntax.Unparen(x.Of))
	if x.Columns != nil {
		c.fail(x.Columns[0].Of.Place(), message.Quote(name)+" is "+of.Type().String()+", which has no columns", "write "+message.Quote("show "+name))
		return false
	}
	elem, _ := program.Element(of.Type())
	if r, ok := elem.(*program.Record); ok {
		for i, f := range r.Fields {
			if isScalar(f.Type) {
				s.Columns = append(s.Columns, program.ShownColumn{Name: f.Name, Path: []int{i}, Type: f.Type, Unit: f.Unit})
			}
		}
		return true
	}
	s.Columns = []program.ShownColumn{{Name: name, Type: elem, Unit: writtenUnit(of)}}
	return true
}

// writtenUnit is the unit in which the builder sees a quantity.
func writtenUnit(n program.Node) units.Unit {
	if ref, ok := n.(*program.Ref); ok {
		return ref.Def.Written()
	}
	return units.Unit{}
}

func (c *checker) noTotal(x *syntax.Show, of program.Node) bool {
	if len(x.Total) > 0 {
		c.fail(x.Total[0].Span, "`total` adds up the columns of a table, this is "+of.Type().String(), "leave it out")
	}
	return len(x.Total) == 0
}

// totals adds up what is asked for, of the rows that are chosen.
func (c *checker) totals(s *program.Show, x *syntax.Show, of program.Node) bool {
	s.Totals = make([]program.Node, len(s.Columns))
	places := map[string]int{}
	for i, k := range s.Columns {
		places[k.Name] = i
	}
	for _, name := range x.Total {
		i, known := places[name.Name]
		if !known {
			c.noShown(&syntax.Name{Ident: name}, name.Name, fieldsOf(s.Columns))
			return false
		}
		q, isNumber := s.Columns[i].Type.(program.Quantity)
		if !isNumber {
			c.fail(name.Span, "the column "+message.Quote(name.Name)+" holds "+plural(s.Columns[i].Type)+", which have no total", "name a column of numbers")
			return false
		}
		if q.Point {
			c.fail(name.Span, "temperatures on a scale have no total", "leave it out, or take the `mean` of the column")
			return false
		}
		s.Totals[i] = sumOf(of, s.Columns[i], name.Span)
	}
	return true
}

// sumOf adds up a column.
func sumOf(of program.Node, k program.ShownColumn, at message.Span) program.Node {
	sum, ok := library.Lookup("sum")
	if !ok {
		panic("check: the library adds nothing up")
	}
	column := &program.ColumnOf{Typed: typed(at, program.List{Elem: k.Type}), X: of, Index: k.Path[0]}
	return &program.Call{Typed: typed(at, k.Type), Func: sum, Args: []program.Node{column}}
}

func fieldsOf(columns []program.ShownColumn) []program.Field {
	list := make([]program.Field, len(columns))
	for i, k := range columns {
		list[i] = program.Field{Name: k.Name, Type: k.Type}
	}
	return list
}

// noShown says that something has no such column or field, with the nearest.
func (c *checker) noShown(e syntax.Expr, name string, fields []program.Field) {
	hint := "it has " + program.FieldNames(fields)
	if near := c.nearField(name, fields); near != "" {
		hint = didYouMean(near, hint)
	}
	if len(fields) == 0 {
		hint = "it is a single value"
	}
	c.fail(e.Place(), "no "+message.Quote(name)+" in what is shown", hint)
}

// isScalar reports whether a value has one cell's room.
func isScalar(t program.Type) bool {
	switch t.(type) {
	case program.Quantity, program.Bool, program.Text:
		return true
	}
	return false
}
