package program

import (
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

// Correlated are the deviations that go together, by way of others too. The groups
// stand in the order in which they are first named, and so do those in each.
func Correlated(list []Correlation) [][]*Def {
	of := map[*Def]*[]*Def{}
	var all []*[]*Def
	for _, c := range list {
		a, b := of[c.A], of[c.B]
		switch {
		case a == nil && b == nil:
			a = &[]*Def{c.A, c.B}
			all = append(all, a)
			of[c.A], of[c.B] = a, a
		case b == nil:
			*a, of[c.B] = append(*a, c.B), a
		case a == nil:
			*b, of[c.A] = append(*b, c.A), b
		case a != b:
			for _, d := range *b {
				*a, of[d] = append(*a, d), a
			}
			*b = nil
		}
	}
	var groups [][]*Def
	for _, g := range all {
		if *g != nil {
			groups = append(groups, *g)
		}
	}
	return groups
}

// Matrix is how a group is correlated, in its order: 0 for what nobody says.
func Matrix(group []*Def, list []Correlation) mat.Symmetric {
	m, at := mat.NewSymDense(len(group), nil), map[*Def]int{}
	for i, d := range group {
		m.SetSym(i, i, 1)
		at[d] = i
	}
	for _, c := range list {
		i, first := at[c.A]
		j, second := at[c.B]
		if first && second {
			m.SetSym(i, j, c.R)
		}
	}
	return m
}
