package program

import "inkwing/units"

// A Deviation is how far an uncertain value lies off its nominal: 0 unless a
// study of uncertainty moves it. Its Source is nil where its line failed.
type Deviation struct{ Source *Source }

// Operands are none: a deviation is an input.
func (d *Deviation) Operands() []Node { return nil }

// A Source of uncertainty is what is known of an uncertain value: Value ± Spread,
// the hard limits Value ± Spread where Rectangular is set, or a Field of the
// answer of a Call. Relative is a spread that is a part of the value.
type Source struct {
	Name        string     // what it is named after
	Words       bool       // that is what the builder wrote, and no name
	Owner       *Def       // in which it stands
	Unit        units.Unit // that it is written in; the zero unit where none is
	Value       Node
	Spread      Node
	Rectangular bool
	Triangular  bool // of hard limits: the middle is likelier
	// How much the spread covers: Factor standard uncertainties, or the part Level of
	// all values; 0 where that is not said. DegreesOfFreedom is +Inf where no ν is.
	Factor, Level, DegreesOfFreedom float64
	Relative                        bool
	Call                            *UncertainCall
	Field                           int // among Call.Fields
}

// Nominal is what a value with an uncertainty lies off.
func Nominal(n Node) Node {
	if u, ok := n.(*Uncertain); ok {
		return u.X
	}
	return n
}
