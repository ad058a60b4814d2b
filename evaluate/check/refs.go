package check

import "inkwing/evaluate/syntax"

// references are the numbers of all definitions and functions that a
// definition names. Names that are unknown are left to the checker.
func (d *Def) references() []int {
	if d.Role == Offset {
		return nil // a leaf; its statement is its owner's
	}
	f := finder{sheet: d.Sheet, seen: map[int]bool{}}
	switch x := d.Stmt.(type) {
	case *syntax.Definition:
		f.expr(x.Value)
	case *syntax.Limit:
		f.expr(x.Bound)
	case *syntax.Measured:
		f.expr(x.Of)
		f.expr(x.Value)
	case *syntax.Budget:
		f.expr(x.Of)
	case *syntax.Study:
		f.expr(x.What)
	case *syntax.Chart:
		for _, from := range x.From {
			f.expr(from)
		}
	}
	for _, cell := range d.cellOffsets() {
		f.add(cell.ID)
	}
	return f.found
}

func (fn *Function) references() []int {
	f := finder{sheet: fn.Sheet, seen: map[int]bool{}, hidden: map[string]bool{}}
	for _, p := range fn.Stmt.Params {
		f.hidden[p.Name.Name] = true
	}
	f.expr(fn.Stmt.Body)
	return f.found
}

type finder struct {
	sheet  *Sheet
	hidden map[string]bool
	seen   map[int]bool
	found  []int
}

func (f *finder) add(id int) {
	if !f.seen[id] {
		f.seen[id] = true
		f.found = append(f.found, id)
	}
}

func (f *finder) expr(e syntax.Expr) {
	for _, d := range f.sheet.offsets[e] {
		f.add(d.ID)
	}
	switch x := e.(type) {
	case *syntax.Name:
		f.name(x.Name)
	case *syntax.Field:
		f.field(x)
	case *syntax.Call:
		f.call(x)
	case *syntax.With:
		f.with(x)
	default:
		for _, child := range syntax.Children(e) {
			f.expr(child)
		}
	}
}

func (f *finder) name(name string) {
	if d := f.sheet.Names[name]; d != nil && !f.hidden[name] {
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
func (s *Sheet) throughUse(x *syntax.Field, hidden map[string]bool) *Def {
	name, ok := x.X.(*syntax.Name)
	if !ok || hidden[name.Name] || s.Names[name.Name] != nil || s.Uses[name.Name] == nil {
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
