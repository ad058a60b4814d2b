package run

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
)

// local is a parameter: an argument, or a column in the row being looked at, which
// need not be known.
func (m *Machine) local(x *program.Local) (any, *Fault) {
	switch v := m.params[x.Param].(type) {
	case nil:
		f := notKnown(x.Param.Name, x)
		f.Missing = true
		return nil, f
	case program.Unknown:
		_, f := known(v, x)
		f.Missing = !f.Told
		return nil, f
	default:
		return v, nil
	}
}

// chosen is some rows of a table, or one.
func (m *Machine) chosen(x *program.Chosen) (any, *Fault) {
	v, f := m.value(x.X)
	if f != nil {
		return nil, f
	}
	rows := v.(library.Rows)
	if f := m.spend(rows.Len(), x); f != nil {
		return nil, f
	}
	switch x.How {
	case syntax.First:
		return m.first(x, rows)
	case syntax.Where:
		return m.where(x, rows)
	case syntax.Rising, syntax.Falling:
		return m.sorted(x, rows)
	case syntax.Least, syntax.Most:
		return m.extreme(x, rows)
	}
	panic("run: no rows are chosen by " + string(x.How))
}

// inRow evaluates what is asked of a row; ok is false where that needs a cell that
// is not known.
func (m *Machine) inRow(x *program.Chosen, rows library.Rows, row int) (v any, ok bool, f *Fault) {
	for _, p := range x.Row {
		m.params[p.Param] = rows.Cell(row, p.Column)
	}
	v, f = m.value(x.Of)
	if f != nil && f.Missing {
		return nil, false, nil
	}
	return v, f == nil, f
}

func (m *Machine) first(x *program.Chosen, rows library.Rows) (any, *Fault) {
	v, f := m.value(x.Of)
	if f != nil {
		return nil, f
	}
	n := v.(float64)
	if n < 0 || n != math.Trunc(n) {
		return nil, Fail(x.Of.Place(), "`first` wants a whole number of rows", "write `first 5`")
	}
	s := &program.Selection{From: rows}
	for i := range min(int(min(n, program.MaxRows)), rows.Len()) {
		s.Index = append(s.Index, i)
	}
	return s.Settle(), nil
}

// where keeps the rows of which it is known that they meet the condition.
func (m *Machine) where(x *program.Chosen, rows library.Rows) (any, *Fault) {
	s := &program.Selection{From: rows}
	for i := range rows.Len() {
		v, ok, f := m.inRow(x, rows, i)
		switch {
		case f != nil:
			return nil, f
		case !ok:
			s.Left++
		case v.(bool):
			s.Index = append(s.Index, i)
		}
	}
	return s.Settle(), nil
}

// sorted puts rows in order; those of which the key is not known stand last, and
// those alike stay as they stand.
func (m *Machine) sorted(x *program.Chosen, rows library.Rows) (any, *Fault) {
	s := &program.Selection{From: rows}
	keys := make([]any, rows.Len())
	for i := range keys {
		v, ok, f := m.inRow(x, rows, i)
		if f != nil {
			return nil, f
		}
		if ok {
			keys[i] = sortKey(v)
		}
		s.Index = append(s.Index, i)
	}
	slices.SortStableFunc(s.Index, func(i, j int) int {
		a, b := keys[i], keys[j]
		switch {
		case a == nil || b == nil:
			return unknownLast(a, b)
		case x.How == syntax.Falling:
			return order(b, a)
		}
		return order(a, b)
	})
	return s.Settle(), nil
}

// alike is how many digits numbers share that are alike in an order: what is the same
// by its formulas differs in the last ones from processor to processor.
const alike = 12

// sortKey rounds a number to the digits by which rows are put in order.
func sortKey(v any) any {
	x, isNumber := v.(float64)
	if !isNumber || math.IsInf(x, 0) {
		return v
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', alike-1, 64), 64)
	if err != nil {
		return v
	}
	return rounded
}

func unknownLast(a, b any) int {
	switch {
	case a == nil && b == nil:
		return 0
	case a == nil:
		return 1
	}
	return -1
}

// order compares two numbers or two texts.
func order(a, b any) int {
	if x, isNumber := a.(float64); isNumber {
		return cmp.Compare(x, b.(float64))
	}
	return strings.Compare(a.(string), b.(string))
}

// extreme is the row with the least or most of something, the first of several.
func (m *Machine) extreme(x *program.Chosen, rows library.Rows) (any, *Fault) {
	best, at := math.Inf(1), -1
	for i := range rows.Len() {
		v, ok, f := m.inRow(x, rows, i)
		if f != nil {
			return nil, f
		}
		if !ok {
			continue
		}
		size := v.(float64)
		if x.How == syntax.Most {
			size = -size
		}
		if at < 0 || size < best {
			best, at = size, i
		}
	}
	if at < 0 {
		return nil, Fail(x.Place(), "there is no row to choose from", "see which rows are left with `show`")
	}
	record := make(library.Record, len(x.Type().(*program.Record).Fields))
	for c := range record {
		record[c] = rows.Cell(at, c)
	}
	return record, nil
}

// joined is one table under another.
func (m *Machine) joined(x *program.Joined) (any, *Fault) {
	above, f := m.value(x.X)
	if f != nil {
		return nil, f
	}
	below, f := m.value(x.Y)
	if f != nil {
		return nil, f
	}
	s := &program.Stack{Above: above.(library.Rows), Below: below.(library.Rows), Columns: x.Columns}
	if s.Len() > program.MaxRows {
		return nil, Fail(x.Place(), "the two together have more than 100,000 rows", "choose among their rows first")
	}
	if f := m.spend(s.Len(), x); f != nil {
		return nil, f
	}
	if x.Type().(*program.Table).Keyed {
		if f := twice(x, s); f != nil {
			return nil, f
		}
	}
	return s, nil
}

// twice is the fault of a key that both tables have.
func twice(x *program.Joined, s *program.Stack) *Fault {
	seen := map[any]bool{}
	for i := range s.Len() {
		key := s.Cell(i, 0)
		if seen[key] {
			text, _ := key.(string)
			return Fail(x.Place(), "the key \""+text+"\" stands in both tables", "rows are found by their first cell: make them differ")
		}
		seen[key] = true
	}
	return nil
}
