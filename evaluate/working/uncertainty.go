package working

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/study"
)

// UncertaintyOf is how sure one number of what a definition came to is: the one at
// the end of a path of fields.
func (e *Evaluation) UncertaintyOf(d *program.Def, path []int) study.Combined {
	return e.Uncertainty.Of(d, study.LeafAt(e.Machine.Value(d), path...))
}

// Leaf is how sure a number of a definition is, counted from its first one.
func (e *Evaluation) Leaf(d *program.Def, leaf int) study.Combined {
	return e.Uncertainty.Of(d, leaf)
}

// Difference is how sure the difference of two operands of a limit is, taken as
// one quantity: what bears on both counts once.
func (e *Evaluation) Difference(d *program.Def, a, b int) study.Combined {
	return e.Leaf(d, len(d.Body.Operands())+min(a, b))
}

// Cell is the expanded uncertainty of a cell of a sweep, of a data table, or of rows
// chosen from one; 0 where it has none. A history has none: its rows are no
// quantities.
func (e *Evaluation) Cell(table program.Node, rows library.Rows, row, column int) float64 {
	switch x := table.(type) {
	case *program.Ref:
		return e.cellOf(x, rows, row, column)
	case *program.Chosen:
		if s, ok := rows.(*program.Selection); ok {
			return e.Cell(x.X, s.From, s.Index[row], column)
		}
	case *program.Joined:
		s, ok := rows.(*program.Stack)
		if n := row - s.Above.Len(); ok && n >= 0 {
			return e.Cell(x.Y, s.Below, n, s.Columns[column])
		}
		return e.Cell(x.X, s.Above, row, column)
	}
	return 0
}

// cellOf is that of a table with a name.
func (e *Evaluation) cellOf(ref *program.Ref, rows library.Rows, row, column int) float64 {
	switch of := rows.(type) {
	case *study.Table:
		if len(of.Levels) > 0 && program.Is[*program.Study](ref.Def) {
			return e.Leaf(ref.Def, row*len(ref.Def.Type.(*program.Table).Columns)+column).Expanded
		}
	case *program.Rows:
		if data, ok := ref.Def.Body.(*program.Data); ok {
			if cell := data.WorkedAt(row, column); cell != nil {
				return e.Leaf(cell, 0).Expanded
			}
			return e.Uncertainty.Cell(of, row, column)
		}
	}
	if n := ref.Def.Node(); n != nil {
		return e.Cell(n, rows, row, column)
	}
	return 0
}
