package check

import (
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// references are the numbers of all that a definition names. Names that are
// unknown are left to the checker.
func (a *analysis) references(d *program.Def) []int {
	if _, ok := d.Body.(*program.Deviation); ok {
		return nil // an input; its statement is its owner's
	}
	if a.looked > maxLooked {
		return nil // nothing more is worked
	}
	f := finder{sheet: a.of(d), def: d, seen: map[int]bool{}}
	switch b := d.Body.(type) {
	case *program.Cell:
		f.cell(b, a.cells[b.Table])
		return f.found
	case *program.Argument:
		f.expr(b.Value)
		return f.found
	}
	for _, e := range named(d.Stmt) {
		f.expr(e)
	}
	if x, ok := d.Stmt.(*syntax.Function); ok {
		f.function(x)
	}
	for _, cell := range a.deviationsOf(d) {
		f.add(cell.ID)
	}
	return f.found
}

// named are the expressions of a statement in which names may stand.
func named(stmt syntax.Statement) []syntax.Expr {
	switch x := stmt.(type) {
	case *syntax.Definition:
		return []syntax.Expr{x.Value}
	case *syntax.Limit:
		return []syntax.Expr{x.Bound}
	case *syntax.Measured:
		return []syntax.Expr{x.Of, x.Value}
	case *syntax.Budget:
		return []syntax.Expr{x.Of}
	case *syntax.Study:
		return []syntax.Expr{x.What}
	case *syntax.Chart:
		return x.From
	case *syntax.Show:
		return []syntax.Expr{x.Of}
	}
	return nil
}

// A finder collects what expressions name.
type finder struct {
	sheet  *sheet
	def    *program.Def // nil where no number inside it has a definition of its own
	hidden *hidden
	seen   map[int]bool
	found  []int
}

func (f *finder) isHidden(name string) bool { return f.hidden.has(name) }

// part adds a table with the cells of it that are looked at.
func (f *finder) part(p part) {
	f.add(p.table.ID)
	for _, d := range p.cells() {
		f.add(d.ID)
	}
}

// cell adds what a cell of a table needs: what it holds, or how far it may be off.
func (f *finder) cell(b *program.Cell, uncertain map[message.Span]*program.Def) {
	f.add(b.Table.ID)
	if b.Of != nil {
		f.expr(b.Of.Of)
		return
	}
	if d := uncertain[b.Table.Body.(*program.Data).Source.Rows[b.Row][b.Column].Span]; d != nil {
		f.add(d.ID)
	}
}

func (f *finder) add(id int) {
	if !f.seen[id] {
		f.seen[id] = true
		f.found = append(f.found, id)
	}
}

func (f *finder) expr(e syntax.Expr) {
	if d := f.sheet.stands[e]; d != nil && d != f.def {
		f.add(d.ID)
		return
	}
	for _, d := range f.sheet.deviations[e] {
		f.add(d.ID)
	}
	if p, ok := f.sheet.partOf(e, f.isHidden); ok {
		f.part(p)
		return
	}
	switch x := e.(type) {
	case *syntax.Name:
		f.name(x.Name)
	case *syntax.Field:
		f.field(x)
	case *syntax.Call:
		f.call(x)
	case *syntax.Chosen:
		f.chosen(x)
	case *syntax.With:
		f.with(x)
	default:
		for _, child := range syntax.Children(e) {
			f.expr(child)
		}
	}
}

// function goes through a body, where the parameters hide names.
func (f *finder) function(x *syntax.Function) {
	f.hidden = &hidden{names: map[string]bool{}}
	for _, p := range x.Params {
		f.hidden.names[p.Name.Name] = true
	}
	f.expr(x.Body)
}

func (f *finder) name(name string) {
	if d := f.sheet.Names[name]; d != nil && !f.hidden.has(name) {
		f.add(d.ID)
	}
}

func (f *finder) field(x *syntax.Field) {
	if d := f.sheet.throughUse(x, f.hidden); d != nil {
		f.add(d.ID)
		return
	}
	f.expr(x.X)
}

// throughUse is the definition that parts.n_series means, nil if it is not one.
func (s *sheet) throughUse(x *syntax.Field, hidden *hidden) *program.Def {
	name, ok := x.X.(*syntax.Name)
	if !ok || hidden.has(name.Name) || s.Names[name.Name] != nil || s.Uses[name.Name] == nil {
		return nil
	}
	return s.Uses[name.Name].Names[x.Name.Name]
}

func (f *finder) call(x *syntax.Call) {
	if fn := f.sheet.Functions[x.Func.Name]; fn != nil {
		f.add(fn.ID)
	}
	for _, a := range x.Args {
		f.expr(a.Value)
	}
}

func (f *finder) with(x *syntax.With) {
	f.expr(x.X)
	for _, r := range x.Replaces {
		f.expr(r.Of)
		f.expr(r.Value)
	}
}
