package program

import "inkwing/units"

// How many rows a show lists: of a table as it stands, and where first says how many.
const (
	MaxShown      = 100
	MaxShownFirst = 1000
)

// Show is show x: what of a value a region lists.
type Show struct {
	Of      Node
	Columns []ShownColumn // of a table its columns, of a record its fields; of any other value one
	Totals  []Node        // by column; nil where it is not added up
	Most    int           // rows that are listed
}

// A ShownColumn is a column of a table or a field of a record.
type ShownColumn struct {
	Name string
	Path []int // into the record, or the column; empty for the value itself
	Type Type
	Unit units.Unit // the zero unit where a fitting one is chosen
}

// Operands are what is shown, and what is added up.
func (s *Show) Operands() []Node {
	list := []Node{s.Of}
	for _, t := range s.Totals {
		if t != nil {
			list = append(list, t)
		}
	}
	return list
}
