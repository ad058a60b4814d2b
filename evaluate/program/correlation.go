package program

import (
	"slices"

	"inkwing/evaluate/message"

	"gonum.org/v1/gonum/mat"
)

// A Correlation is that of the errors of two typed values, by their deviations.
type Correlation struct {
	A, B   *Def
	R      float64
	Span   message.Span
	Owners [2]*Def // in which the values stand
}

// Correlated are the deviations that go together, by way of others too, each group in
// the order in which it is named.
func Correlated(list []Correlation) [][]*Def {
	var groups [][]*Def
	of := func(d *Def) int {
		return slices.IndexFunc(groups, func(g []*Def) bool { return slices.Contains(g, d) })
	}
	for _, c := range list {
		i, j := of(c.A), of(c.B)
		switch {
		case i < 0 && j < 0:
			groups = append(groups, []*Def{c.A, c.B})
		case j < 0:
			groups[i] = append(groups[i], c.B)
		case i < 0:
			groups[j] = append(groups[j], c.A)
		case i != j:
			groups[i] = append(groups[i], groups[j]...)
			groups = slices.Delete(groups, j, j+1)
		}
	}
	return groups
}

// Matrix is how a group is correlated, in its order: 0 for what nobody says.
func Matrix(group []*Def, list []Correlation) mat.Symmetric {
	m := mat.NewSymDense(len(group), nil)
	for i := range group {
		m.SetSym(i, i, 1)
	}
	for _, c := range list {
		i, j := slices.Index(group, c.A), slices.Index(group, c.B)
		if i >= 0 && j >= 0 {
			m.SetSym(i, j, c.R)
		}
	}
	return m
}
