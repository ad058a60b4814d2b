package override

import (
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/reach"
	"inkwing/evaluate/syntax"
)

// A target is what a change replaces: the right side of a definition, an argument in
// it, or a cell of a table.
type target struct {
	def     *program.Def // the definition, or the table
	address string       // in its one form
	arg     message.Span // of the argument's value; empty for none
	cell    *cellPlace   // nil for none
	old     syntax.Expr  // what stands there; nil for a cell
}

// A cellPlace is a cell, counted from 0.
type cellPlace struct {
	row, column int
	numbers     bool // its column holds numbers
	commas      bool // and those have decimal commas
}

// target finds what an address means, nil where it means nothing.
func (t *trial) target(name string, at message.Span) *target {
	if !isAddress(name) {
		d := t.find(syntax.Canonical(name), at)
		if d == nil {
			return nil
		}
		return &target{def: d, address: d.Shown(t.program.Main), old: d.Stmt.(*syntax.Definition).Value}
	}
	x, problem := syntax.ParseAddress(at.File, name, at.Start)
	if problem != nil {
		t.problems = append(t.problems, *problem)
		return nil
	}
	if argument, ok := x.(*syntax.Argument); ok {
		return t.argument(argument, at)
	}
	table, key, column, _ := reach.CellOf(x)
	return t.cell(table, key, column, at)
}

func isAddress(name string) bool {
	for _, r := range name {
		if r == '(' || r == '[' {
			return true
		}
	}
	return false
}

// argument finds an argument of a call.
func (t *trial) argument(x *syntax.Argument, at message.Span) *target {
	of := syntax.Source(x.Of)
	d, sheet := t.named(of)
	if d == nil {
		t.nothing(of, x.Of.Place(), sheet)
		return nil
	}
	stmt, ok := d.Stmt.(*syntax.Definition)
	if !ok || syntax.StudyOf(stmt) != nil {
		t.fail(at, message.Quote(of)+" is no call, and has no arguments", "name a quantity that is what a function gives")
		return nil
	}
	found, trouble := t.reach.Find(x, stmt.Value, functionsOf(d.Sheet))
	if trouble != nil {
		t.fail(at, trouble.Summary, trouble.Hint)
		return nil
	}
	value := found.Arg.Value
	return &target{def: d, address: of + "(" + found.Path + ")", arg: value.Place(), old: value}
}

func functionsOf(s *program.Sheet) reach.Functions {
	return func(name string) *syntax.Function {
		if d := s.Functions[name]; d != nil {
			return d.Body.(*program.Function).Stmt
		}
		return nil
	}
}

// cell finds a cell that is typed. One that is not known may be filled in.
func (t *trial) cell(table, key syntax.Expr, column string, at message.Span) *target {
	name := syntax.Source(table)
	d, sheet := t.named(name)
	if d == nil {
		t.nothing(name, table.Place(), sheet)
		return nil
	}
	data, ok := d.Body.(*program.Data)
	if !ok {
		t.fail(at, message.Quote(name)+" is no table of the page", "replace a plain value that it is worked from")
		return nil
	}
	if len(data.Source.Problems) > 0 || len(data.Source.Head) == 0 {
		t.fail(at, message.Quote(name)+" cannot be read as a table, as is said there", "mend it first")
		return nil
	}
	row, k, trouble := t.reach.Cell(data.Source, name, data.Ahead(), key, column)
	if trouble != nil && !trouble.Unknown {
		t.fail(at, trouble.Summary, trouble.Hint)
		return nil
	}
	_, numbers := data.Source.ColumnUnit(k)
	address := name + "[" + data.RowKey(row) + "]." + column
	return &target{def: d, address: address, cell: &cellPlace{row, k, numbers, data.HasCommas(k)}}
}

// nothing says that there is no such quantity or table, whatever it is made from.
func (t *trial) nothing(name string, at message.Span, in *program.Sheet) {
	if near := t.names.speller.Nearest(name, t.names.of(in)); near != "" {
		t.fail(at, "no quantity "+message.Quote(name)+" in "+in.Name, "did you mean "+message.Quote(near)+"?")
		return
	}
	t.unknown(name, at, in)
}
