package study

import (
	"strconv"

	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// A Table is what a vary came to: the variables' columns, then the outputs'. A
// cell that could not be worked is a program.Unknown that says why.
type Table struct {
	cells  [][]any
	Broken [][]*program.Def // by row: limits that do not hold there
	Silent [][]*program.Def // by row: limits that could not be worked there
	Faults []*run.Fault     // by row: the first, nil for none
	Levels [][]any          // by variable: what its column runs through
	keyed  bool
}

// Len is the number of rows.
func (t *Table) Len() int { return len(t.cells) }

// Cell is the value in a row and column, both from 0.
func (t *Table) Cell(row, column int) any { return t.cells[row][column] }

// Row finds a row by the key of the part in it.
func (t *Table) Row(key string) (int, bool) {
	for i, cells := range t.cells {
		if t.keyed && cells[0] == key {
			return i, true
		}
	}
	return 0, false
}

// vary works the outputs for each combination of its variables' values.
func vary(m *run.Machine, x *program.Vary) (any, *run.Fault) {
	g, f := gridOf(m, x, x.Over)
	if f != nil {
		return nil, f
	}
	if f := m.Hold(g.size()*(len(x.Over)+len(x.Outputs)), x); f != nil {
		return nil, f
	}
	nominal, moved := m.AtNominal(x).(*Table)
	if moved && (nominal.Len() > m.Rows() || !m.Moves(program.Children(x)...)) {
		return nominal, nil
	}
	nodes := make([]program.Node, len(x.Outputs))
	for i, o := range x.Outputs {
		nodes[i] = o.Node
	}
	p := newPlan(m, x, x.Def, x.Over, nodes...)
	if moved {
		p.limits = nil // they are tested at the nominal
	}
	points, f := p.all(g.size(), func(i int) []any { values, _ := g.at(i); return values })
	if f != nil {
		return nil, f
	}
	t := &Table{keyed: x.Type().(*program.Table).Keyed}
	for _, l := range g {
		t.Levels = append(t.Levels, l.shown)
	}
	for i := range points {
		_, shown := g.at(i)
		t.add(x, shown, &points[i])
	}
	if f := t.empty(x); f != nil {
		return nil, f
	}
	return t, nil
}

// add puts a row in.
func (t *Table) add(x *program.Vary, shown []any, p *point) {
	var first *run.Fault
	for i, v := range p.values {
		if f := p.faults[i]; f != nil {
			v = program.Unknown{What: "`" + x.Outputs[i].Name + "` in row " + strconv.Itoa(len(t.cells)+1), Why: f.Summary, Hint: f.Hint}
			if first == nil {
				first = f
			}
		}
		shown = append(shown, v)
	}
	t.cells = append(t.cells, shown)
	t.Broken, t.Silent, t.Faults = append(t.Broken, p.broken), append(t.Silent, p.silent), append(t.Faults, first)
}

// empty is the fault of a table in which nothing could be worked.
func (t *Table) empty(x *program.Vary) *run.Fault {
	for i, cells := range t.cells {
		for _, v := range cells[len(x.Over):] {
			if _, unknown := v.(program.Unknown); !unknown {
				return nil
			}
		}
		if i == len(t.cells)-1 {
			return run.Fail(x.Place(), "no row of this can be worked; in the first, "+t.Faults[0].Summary, t.Faults[0].Hint)
		}
	}
	return nil
}
