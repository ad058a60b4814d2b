package library

import (
	"fmt"
	"math"
)

// What the adapters of the catalogue are made of. A value of another kind than
// the signature says is a bug of the caller, hence the assertions that panic.

// number is a quantity or a whole number.
func number(v any) float64 { return v.(float64) }

// optional is what was given, or nil.
func optional[T any](v any, take func(any) T) *T {
	if v == nil {
		return nil
	}
	t := take(v)
	return &t
}

// given is what an optional field of a result holds, or nil.
func given[T any](v *T, give func(T) any) any {
	if v == nil {
		return nil
	}
	if x, isNumber := any(*v).(float64); isNumber && math.IsInf(x, 1) {
		return Never{}
	}
	return give(*v)
}

// listIn reads a list; nil for none.
func listIn[T any](v any, take func(any) T) []T {
	if v == nil {
		return nil
	}
	list := v.(List)
	out := make([]T, len(list))
	for i, x := range list {
		out[i] = take(x)
	}
	return out
}

// listOut makes a list.
func listOut[T any](list []T, give func(T) any) List {
	out := make(List, len(list))
	for i, x := range list {
		out[i] = give(x)
	}
	return out
}

// rowsIn reads a table of so many columns, given as Rows or as a list of
// records; nil for none.
func rowsIn[T any](v any, columns int, take func(Record) T) []T {
	switch v := v.(type) {
	case nil:
		return nil
	case Rows:
		return rowsOf(v, columns, take)
	case List:
		return listIn(v, func(x any) T { return take(x.(Record)) })
	}
	panic(fmt.Sprintf("library: %T where a table was wanted", v))
}

func rowsOf[T any](v Rows, columns int, take func(Record) T) []T {
	out := make([]T, v.Len())
	row := make(Record, columns)
	for i := range out {
		for c := range row {
			row[c] = v.Cell(i, c)
		}
		out[i] = take(row)
	}
	return out
}

func noColumn(column int) string { return fmt.Sprintf("library: a table has no column %d", column) }
