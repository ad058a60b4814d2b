package working

import (
	"inkwing/evaluate/program"
	"inkwing/evaluate/study"
)

// UncertaintyOf is how sure one number of what a definition came to is: the one at
// the end of a path of fields.
func (e *Evaluation) UncertaintyOf(d *program.Def, path []int) study.Spread {
	return e.Uncertainty.Of(d, study.LeafAt(e.Machine.Value(d), path...))
}

// Leaf is how sure a number of a definition is, counted from its first one.
func (e *Evaluation) Leaf(d *program.Def, leaf int) study.Spread {
	return e.Uncertainty.Of(d, leaf)
}

// Difference is how sure the difference of two operands of a limit is, taken as
// one quantity: what bears on both counts once.
func (e *Evaluation) Difference(d *program.Def, a, b int) study.Spread {
	return e.Leaf(d, len(d.Body.Operands())+min(a, b))
}

// Cell is the expanded uncertainty of a cell of a sweep, or of a data table; 0
// where it has none. A history has none: its rows are no quantities.
func (e *Evaluation) Cell(table program.Node, row, column int) float64 {
	ref, ok := table.(*program.Ref)
	if !ok {
		return 0
	}
	switch rows := e.Machine.Value(ref.Def).(type) {
	case *study.Table:
		return e.Leaf(ref.Def, row*len(ref.Def.Type.(*program.Table).Columns)+column).Expanded
	case *program.Rows:
		if data, ok := ref.Def.Body.(*program.Data); ok {
			if cell := data.WorkedAt(row, column); cell != nil {
				return e.Leaf(cell, 0).Expanded
			}
		}
		return e.Uncertainty.Cell(rows, row, column)
	}
	return 0
}
