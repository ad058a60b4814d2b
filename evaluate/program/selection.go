package program

import "inkwing/evaluate/library"

// A Selection is rows of a table, in an order of its own.
type Selection struct {
	From  library.Rows
	Index []int
	Left  int // rows left out because what was asked of them is not known

	base library.Rows // of a selection of selections, what they all come from, and
	at   []int        // the rows of that
}

// Settle says that Index is whole.
func (s *Selection) Settle() *Selection {
	from, ok := s.From.(*Selection)
	if !ok {
		return s
	}
	s.base, s.at = from.From, make([]int, len(s.Index))
	inner := from.Index
	if from.base != nil {
		s.base, inner = from.base, from.at
	}
	for i, row := range s.Index {
		s.at[i] = inner[row]
	}
	return s
}

// Len is the number of rows.
func (s *Selection) Len() int { return len(s.Index) }

// Cell is the value in a row and column, both from 0.
func (s *Selection) Cell(row, column int) any {
	if s.base != nil {
		return s.base.Cell(s.at[row], column)
	}
	return s.From.Cell(s.Index[row], column)
}

// Row finds a row by its key.
func (s *Selection) Row(key string) (int, bool) { return rowOf(s, key) }

// A Stack is one table under another.
type Stack struct {
	Above, Below library.Rows
	Columns      []int // places in Below of the columns of Above
}

// Len is the number of rows.
func (s *Stack) Len() int { return s.Above.Len() + s.Below.Len() }

// Cell is the value in a row and column, both from 0.
func (s *Stack) Cell(row, column int) any {
	if n := s.Above.Len(); row >= n {
		return s.Below.Cell(row-n, s.Columns[column])
	}
	return s.Above.Cell(row, column)
}

// Row finds a row by its key.
func (s *Stack) Row(key string) (int, bool) { return rowOf(s, key) }

// rowOf finds a row by its first cell.
func rowOf(rows library.Rows, key string) (int, bool) {
	for i := range rows.Len() {
		if rows.Cell(i, 0) == key {
			return i, true
		}
	}
	return 0, false
}

// LeftOut is how many rows are missing in a table because what was asked of them is
// not known.
func LeftOut(rows library.Rows) int {
	switch x := rows.(type) {
	case *Selection:
		return x.Left + LeftOut(x.From)
	case *Stack:
		return LeftOut(x.Above) + LeftOut(x.Below)
	}
	return 0
}

// IsSampled reports whether a table's rows are points along a curve that is worked
// anew with every input, so that a row is no quantity of its own: those of a
// function of the library.
func IsSampled(rows library.Rows, own func(library.Rows) bool) bool {
	switch x := rows.(type) {
	case *Selection:
		return IsSampled(x.From, own)
	case *Stack:
		return IsSampled(x.Above, own) || IsSampled(x.Below, own)
	case *Rows:
		return false
	}
	return !own(rows)
}
