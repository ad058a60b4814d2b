package program

import (
	"math"
	"strings"

	"inkwing/units"
)

// Settle finds out what a value keeps of those that its formula names, which must be
// settled themselves.
func (v *Value) Settle() {
	if v.Node != nil {
		v.lasting, v.count = LastingUnit(v.Node), isCount(v.Node)
		if q, ok := v.Node.Type().(Quantity); ok && v.lasting.IsZero() && q.Dim.HasMoney() {
			v.lasting = paidIn(v.Node, q.Dim)
		}
	}
}

// paidIn is the unit in which a part of a sum of money is written, so that the sum is
// written like it: in € where a part is, and with the sign before the number where
// that part has it there.
func paidIn(n Node, d units.Dimension) units.Unit {
	if n == nil {
		return units.Unit{}
	}
	u := writtenBy(n)
	if coin, ok := u.Coin(); ok && coin.Kind.Dim == d {
		return coin
	}
	if u.Kind.Dim == d {
		return u
	}
	for _, part := range Children(n) {
		if u := paidIn(part, d); !u.IsZero() {
			return u
		}
	}
	return units.Unit{}
}

// writtenBy is the unit that a node itself is written in.
func writtenBy(n Node) units.Unit {
	switch x := n.(type) {
	case *Const:
		return x.Unit
	case *Ref:
		return x.Def.Written()
	case *ColumnOf:
		return x.X.Type().(*Table).Columns[x.Index].Unit
	case *FieldOf:
		if r, ok := x.X.Type().(*Record); ok {
			return r.Fields[x.Index].Unit
		}
	}
	return units.Unit{}
}

// LastingUnit is the unit that a quantity keeps through sums and multiples, where
// its dimension alone does not say what it is: a torque is no energy, and an emf
// constant no flux. It is the zero unit for any other, which is shown in one that
// fits its number.
func LastingUnit(n Node) units.Unit {
	switch x := Nominal(n).(type) {
	case *Const:
		return lasting(x.Unit)
	case *Ref:
		return lasting(x.Def.Written())
	case *FieldOf:
		if r, ok := x.X.Type().(*Record); ok {
			return lasting(r.Fields[x.Index].Unit)
		}
	case *Op:
		return lastingOf(x)
	}
	return units.Unit{}
}

// lasting keeps the units of torques and of emf constants, and no others.
func lasting(u units.Unit) units.Unit {
	if text := u.String(); strings.Contains(text, "/rad") || strings.Contains(text, "N·m") {
		return u
	}
	return units.Unit{}
}

// lastingOf is that of a sum, a multiple or a part.
func lastingOf(x *Op) units.Unit {
	if len(x.Args) != 2 {
		return units.Unit{}
	}
	a, b := LastingUnit(x.Args[0]), LastingUnit(x.Args[1])
	switch {
	case x.Name == "+" || x.Name == "-":
		if a.IsZero() {
			return b
		}
		return a
	case (x.Name == "*" || x.Name == "/") && isCount(x.Args[1]):
		return a
	case x.Name == "*" && isCount(x.Args[0]):
		return b
	}
	return units.Unit{}
}

// isCount reports whether a node is a pure number that is no angle: by an angle a
// torque becomes work, and an emf constant a flux.
func isCount(n Node) bool {
	q, ok := n.Type().(Quantity)
	if !ok || !q.Dim.IsNumber() {
		return false
	}
	switch x := Nominal(n).(type) {
	case *Const:
		return isPlain(x.Unit) && x.Value != math.Pi
	case *Ref:
		v, ok := x.Def.Body.(*Value)
		return ok && v.count && isPlain(v.Unit)
	case *FieldOf:
		r, ok := x.X.Type().(*Record)
		return ok && isPlain(r.Fields[x.Index].Unit)
	case *Op:
		for _, a := range x.Args {
			if !isCount(a) {
				return false
			}
		}
		return true
	}
	return false
}

// isPlain reports whether a unit is that of a number of things, or a share.
func isPlain(u units.Unit) bool {
	return u.IsZero() || u.String() == "" || u.String() == "1" || u.String() == "%"
}
