package study

import (
	"math"

	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
)

// maxLeaves bounds how many numbers of one value carry a spread: those of a
// record and of a short list do, a history's do not.
const maxLeaves = 1000

// count is how many numbers a value has, as appendLeaves lists them.
func count(v any) (n int) {
	switch x := v.(type) {
	case nil, float64:
		return 1
	case library.Record:
		for _, f := range x {
			n += count(f)
		}
	case *Table:
		for _, row := range x.cells {
			n += len(row)
		}
	case library.List:
		for _, e := range x[:min(len(x), maxLeaves+1)] {
			n += count(e)
		}
		if len(x) > maxLeaves {
			n = 0
		}
	}
	return n
}

// appendLeaves lists the numbers of a value, in order: its own, a record's, a list's.
// A field that could not be worked is NaN, so that places stay the same.
func appendLeaves(list []float64, v any) []float64 {
	switch x := v.(type) {
	case nil:
		return append(list, math.NaN())
	case float64:
		return append(list, x)
	case library.Record:
		for _, f := range x {
			list = appendLeaves(list, f)
		}
	case *Table:
		return x.leaves(list)
	case library.List:
		if len(x) > maxLeaves {
			return list
		}
		for _, e := range x {
			list = appendLeaves(list, e)
		}
	}
	return list
}

// leaves of a vary's table are all of its cells, row by row.
func (t *Table) leaves(list []float64) []float64 {
	for _, row := range t.cells {
		for _, v := range row {
			x, ok := v.(float64)
			if !ok {
				x = math.NaN()
			}
			list = append(list, x)
		}
	}
	return list
}

// leavesOf lists the numbers of what a definition came to. A limit's and a
// reading's have the differences behind them: each from the first, or from the
// one before it where three are compared.
func leavesOf(d *program.Def, v any) []float64 {
	const differences = 2
	if n := count(v); n > 0 {
		return appendLeavesOf(make([]float64, 0, n+differences), d, v)
	}
	return appendLeavesOf(nil, d, v)
}

func appendLeavesOf(list []float64, d *program.Def, v any) []float64 {
	if s, ok := d.Body.(*program.Show); ok {
		return appendLeaves(list, ShownOf(s, v).values())
	}
	list = appendLeaves(list, v)
	switch {
	case program.Is[*program.Limit](d) && len(list) == len(v.(library.List)):
		for i := range len(list) - 1 {
			list = append(list, list[i+1]-list[i])
		}
	case program.Is[*program.Measurement](d):
		for _, x := range list[1:] {
			list = append(list, x-list[0])
		}
	}
	return list
}

// LeafAt is the place of a number in a value, by the fields and elements that
// lead to it.
func LeafAt(v any, path ...int) int {
	at := 0
	for _, i := range path {
		switch x := v.(type) {
		case library.Record:
			for _, f := range x[:i] {
				at += count(f)
			}
			v = x[i]
		case library.List:
			for _, e := range x[:i] {
				at += count(e)
			}
			v = x[i]
		}
	}
	return at
}
