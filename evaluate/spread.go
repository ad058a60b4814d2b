package evaluate

import (
	"slices"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/study"
	"inkwing/evaluate/syntax"
)

// spread is how sure one number of what a definition came to is.
func (w *worker) spread(d *program.Def, path []int) study.Spread {
	return w.sure.Of(d, study.LeafAt(w.machine.Value(d), path...))
}

// cellSpread is the expanded uncertainty of a cell of a sweep, or of a data
// table; 0 where it has none. A history has none: its rows are no quantities.
func (w *worker) cellSpread(table program.Node, row, column int) float64 {
	ref, ok := table.(*program.Ref)
	if !ok {
		return 0
	}
	switch rows := w.machine.Value(ref.Def).(type) {
	case *study.Table:
		return w.leaf(ref.Def, row*len(ref.Def.Type.(*program.Table).Columns)+column).Expanded
	case *program.Rows:
		return w.sure.Cell(rows, row, column)
	}
	return 0
}

// difference is how sure the difference of two operands of a limit is.
func (w *worker) difference(d *program.Def, a, b int) study.Spread {
	return w.leaf(d, len(d.Body.Operands())+min(a, b))
}

// said is a spread in the report.
func said(s study.Spread) report.Uncertainty {
	if s.Expanded == 0 && !s.Drawn {
		return report.Uncertainty{}
	}
	return report.Uncertainty{U: s.U, Expanded: s.Expanded, DegreesOfFreedom: s.Freedom, Drawn: s.Drawn, Low: s.Low, High: s.High}
}

// doubt collects, by block and reason, what first order may mislead about.
func (w *worker) doubt(block int, why, name string) {
	for i := range w.misled {
		m := &w.misled[i]
		if m.block == block && m.why == why {
			if name = ticked(name); !slices.Contains(m.names, name) {
				m.names = append(m.names, name)
			}
			return
		}
	}
	w.misled = append(w.misled, misled{block, why, []string{ticked(name)}})
}

// misled is quantities whose spread may be wrong for one reason.
type misled struct {
	block int
	why   string
	names []string
}

// doubts says in each block what its intervals may mislead about, and where the
// draws statement stands what was drawn.
func (w *worker) doubts() {
	for _, m := range w.misled {
		b := &w.out.Blocks[m.block]
		b.Notes = append(b.Notes, "The interval of "+each(m.names)+" is rough: "+m.why+".")
		if n := len(b.Notes) - 1; w.program.Main.Draws == 0 {
			b.Notes[n] += " A line `draws " + w.drawsAdvised() + "` works it from whole distributions."
		}
	}
	for _, stmt := range w.statements() {
		if x, ok := stmt.(*syntax.Draws); ok {
			b := &w.out.Blocks[x.Block]
			b.Notes = append(b.Notes, w.drawNote())
		}
	}
}

// drawsAdvised is how many draws to try: enough to settle two digits, or what a
// page that runs simulations works in a few seconds.
func (w *worker) drawsAdvised() string {
	for _, d := range w.program.Defs {
		if d.Node() != nil && simulates(d.Node()) {
			return "1_000"
		}
	}
	return "100_000"
}

// simulates reports whether a node calls a simulation: a function whose answer holds
// a history.
func simulates(n program.Node) bool {
	if call, ok := n.(*program.Call); ok {
		for _, field := range call.Func.Result.Params {
			if field.Shape.Kind == library.Table {
				return true
			}
		}
	}
	return slices.ContainsFunc(program.Children(n), simulates)
}

// drawNote says what the draws came to.
func (w *worker) drawNote() string {
	n, settled := w.sure.Draws()
	switch {
	case w.drawFault != nil:
		return "The draws could not be made: " + w.drawFault.Error() + "."
	case n == 0:
		return "There is nothing to draw: no input has a spread."
	case !settled:
		return "Intervals are the shortest that hold 95 % of " + grouped(n) + " draws (JCGM 101:2008). Their second digit has not settled everywhere; more draws would settle it."
	}
	return "Intervals are the shortest that hold 95 % of " + grouped(n) + " draws (JCGM 101:2008); two digits have settled."
}

// leaf is the spread of one number of a definition.
func (w *worker) leaf(d *program.Def, leaf int) study.Spread {
	return w.sure.Of(d, leaf)
}
