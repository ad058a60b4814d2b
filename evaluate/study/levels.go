package study

import (
	"math"
	"strconv"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/run"
)

// levels are the values that a variable takes, and how each stands in its
// column: the value itself, or the key or number of a row.
type levels struct{ values, shown []any }

// levelsOf works a variable's list, rows, or range with a step.
func levelsOf(m *run.Machine, o program.Variable) (levels, *run.Fault) {
	if o.In != nil {
		return among(m, o)
	}
	from, to, f := ends(m, o)
	if f != nil {
		return levels{}, f
	}
	v, f := m.Node(o.By)
	if f != nil {
		return levels{}, f
	}
	return ranged(o, from, to, math.Abs(v.(float64)))
}

// ends works both ends of a range.
func ends(m *run.Machine, o program.Variable) (from, to float64, f *run.Fault) {
	a, f := m.Node(o.From)
	if f != nil {
		return 0, 0, f
	}
	b, f := m.Node(o.To)
	if f != nil {
		return 0, 0, f
	}
	return a.(float64), b.(float64), nil
}

// nearly is how far a range's end may lie from its last step, in steps: 1 in by
// steps of 0.1 in has ten of them whatever binary arithmetic says.
const nearly = 1e-9

// ranged steps from one end to the other, downwards too.
func ranged(o program.Variable, from, to, by float64) (levels, *run.Fault) {
	if by == 0 {
		return levels{}, run.Fail(o.By.Place(), "a step of nothing gets nowhere", "say by how much `"+o.Name+"` rises")
	}
	steps := math.Floor(math.Abs(to-from)/by + nearly)
	if steps >= program.MaxPoints {
		return levels{}, tooMany(o.By, steps+1)
	}
	if to < from {
		by = -by
	}
	var l levels
	for i := range int(steps) + 1 {
		l.add(from + float64(i)*by)
	}
	return l, nil
}

func tooMany(at program.Node, n float64) *run.Fault {
	return run.Fail(at.Place(), "this makes "+strconv.FormatFloat(n, 'f', 0, 64)+" rows, and a study has at most 10,000", "take a larger step or a shorter range")
}

func (l *levels) add(v any) {
	l.values, l.shown = append(l.values, v), append(l.shown, v)
}

// among takes the values of a list, or the rows of a table.
func among(m *run.Machine, o program.Variable) (levels, *run.Fault) {
	v, f := m.Node(o.In)
	if f != nil {
		return levels{}, f
	}
	if rows, ok := v.(library.Rows); ok {
		return rowsOf(o, rows), nil
	}
	var l levels
	for i, x := range v.(library.List) {
		l.add(x)
		if _, isRow := x.(library.Record); isRow {
			l.shown[i] = float64(i + 1)
		}
	}
	return l, nil
}

// rowsOf are a table's rows as records, each under its key or number.
func rowsOf(o program.Variable, rows library.Rows) levels {
	t := o.In.Type().(*program.Table)
	var l levels
	for i := range rows.Len() {
		row := make(library.Record, len(t.Columns))
		for c := range row {
			row[c] = rows.Cell(i, c)
		}
		l.add(row)
		l.shown[i] = float64(i + 1)
		if t.Keyed {
			l.shown[i] = row[0]
		}
	}
	return l
}

// A grid is all combinations of some levels, the last varying fastest.
type grid []levels

func gridOf(m *run.Machine, at program.Node, over []program.Variable) (grid, *run.Fault) {
	var g grid
	size := 1.0
	for _, o := range over {
		l, f := levelsOf(m, o)
		if f != nil {
			return nil, f
		}
		size *= float64(len(l.values))
		g = append(g, l)
	}
	if size > program.MaxPoints {
		return nil, tooMany(at, size)
	}
	return g, nil
}

func (g grid) size() int {
	n := 1
	for _, l := range g {
		n *= len(l.values)
	}
	return n
}

// at is the combination with a number: values, and how they are shown.
func (g grid) at(i int) (values, shown []any) {
	values, shown = make([]any, len(g)), make([]any, len(g))
	for k := len(g) - 1; k >= 0; k-- {
		n := len(g[k].values)
		values[k], shown[k] = g[k].values[i%n], g[k].shown[i%n]
		i /= n
	}
	return values, shown
}
