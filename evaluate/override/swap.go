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
	lines, cells := map[message.Span][]replacement{}, map[message.Span][]replacement{}
	for _, r := range t.list {
		switch {
		case r.file() != in.Name:
		case r.cell != nil:
			at := r.def.Body.(*program.Data).Source.Head[0].Span
			cells[at] = append(cells[at], r)
		default:
			lines[r.def.Place] = append(lines[r.def.Place], r)
		}
	}
	if len(cells) > 0 {
		in.Tables = withCells(in.Tables, cells)
	}
	if in.Tree != nil {
		swapIn(in.Tree, lines)
	}
}

// swaps reports whether a statement is one that swap writes to.
func (t *trial) swaps(s syntax.Statement) bool {
	d, ok := s.(*syntax.Definition)
	return ok && slices.ContainsFunc(t.list, func(r replacement) bool { return r.cell == nil && r.def.Place == d.Name.Span })
}

// file is that in which a target stands: a file of data is one of its own.
func (t *target) file() string {
	if t.cell != nil {
		return t.def.Body.(*program.Data).Source.Head[0].Span.File
	}
	return t.def.Sheet.Name
}

// swapIn replaces right sides of definitions, by the places of their names, or
// arguments in them.
func swapIn(tree *syntax.Tree, lines map[message.Span][]replacement) {
	for i, stmt := range tree.Statements {
		d, ok := stmt.(*syntax.Definition)
		if !ok || len(lines[d.Name.Span]) == 0 {
			continue
		}
		replaced := *d
		inside := map[message.Span]syntax.Expr{}
		for _, r := range lines[d.Name.Span] {
			if r.inside() {
				inside[r.arg] = r.value
			} else {
				replaced.Value = r.value
			}
		}
		swapArguments(replaced.Value, inside)
		tree.Statements[i] = &replaced
	}
}

// swapArguments replaces the arguments that stand at some places.
func swapArguments(in syntax.Expr, at map[message.Span]syntax.Expr) {
	if len(at) == 0 {
		return
	}
	if call, ok := in.(*syntax.Call); ok {
		for i := range call.Args {
			if value, ok := at[call.Args[i].Value.Place()]; ok {
				call.Args[i].Value = value
			}
		}
	}
	for _, child := range syntax.Children(in) {
		swapArguments(child, at)
	}
}

// withCells is a list of tables with other texts in cells, by the places of their
// tables' first headings.
func withCells(list []*syntax.Table, cells map[message.Span][]replacement) []*syntax.Table {
	list = slices.Clone(list)
	for i, t := range list {
		if len(t.Head) > 0 && len(cells[t.Head[0].Span]) > 0 { // a file of data goes under another name where it is used
			list[i] = withTexts(t, cells[t.Head[0].Span])
		}
	}
	return list
}

// withTexts is a table with other texts in some cells.
func withTexts(t *syntax.Table, cells []replacement) *syntax.Table {
	changed := *t
	changed.Rows = slices.Clone(t.Rows)
	own := map[int]bool{} // rows that are no longer those of the table that was tried
	for _, r := range cells {
		if !own[r.cell.row] {
			changed.Rows[r.cell.row], own[r.cell.row] = slices.Clone(t.Rows[r.cell.row]), true
		}
		changed.Rows[r.cell.row][r.cell.column] = syntax.Cell{At: syntax.At{Span: r.at}, Text: r.text}
	}
	return &changed
}
