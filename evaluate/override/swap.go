package override

import (
	"slices"

	"inkwing/evaluate/check"
	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// swap puts the new values into a sheet that was read anew; the one that was tried
// stays as it is.
func (t *trial) swap(in *check.Input) {
	for _, r := range t.list {
		switch {
		case r.file() != in.Name:
		case r.cell != nil:
			in.Tables = withCell(in.Tables, r)
		case in.Tree != nil:
			swapIn(in.Tree, r)
		}
	}
}

// file is that in which a target stands: a file of data is one of its own.
func (t *target) file() string {
	if t.cell != nil {
		return t.def.Body.(*program.Data).Source.Head[0].Span.File
	}
	return t.def.Sheet.Name
}

// swapIn replaces the right side of a definition, or an argument in it.
func swapIn(tree *syntax.Tree, r replacement) {
	for i, stmt := range tree.Statements {
		d, ok := stmt.(*syntax.Definition)
		if !ok || r.def.Place != d.Name.Span {
			continue
		}
		if r.inside() {
			swapArgument(d.Value, r.arg, r.value)
			return
		}
		replaced := *d
		replaced.Value = r.value
		tree.Statements[i] = &replaced
		return
	}
}

// swapArgument replaces the argument that stands at a place.
func swapArgument(in syntax.Expr, at message.Span, value syntax.Expr) {
	if call, ok := in.(*syntax.Call); ok {
		for i := range call.Args {
			if call.Args[i].Value.Place() == at {
				call.Args[i].Value = value
			}
		}
	}
	for _, child := range syntax.Children(in) {
		swapArgument(child, at, value)
	}
}

// withCell is a list of tables with another text in a cell of one.
func withCell(list []*syntax.Table, r replacement) []*syntax.Table {
	list = slices.Clone(list)
	source := r.def.Body.(*program.Data).Source
	for i, t := range list {
		if len(t.Head) == 0 || t.Head[0].Span != source.Head[0].Span {
			continue // a file of data goes under another name where it is used
		}
		changed := *t
		changed.Rows = slices.Clone(t.Rows)
		changed.Rows[r.cell.row] = slices.Clone(t.Rows[r.cell.row])
		changed.Rows[r.cell.row][r.cell.column] = syntax.Cell{At: syntax.At{Span: r.at}, Text: r.text}
		list[i] = &changed
	}
	return list
}
