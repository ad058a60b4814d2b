package energy

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/internal/twobranch"
	"inkwing/evaluate/library/model"
)

// unbalancedShare is the share of a string's rating above which it wants
// matched or clamped cells (common practice).
const unbalancedShare = 0.8

// A Store is a cell or a pack of cells, as seen from its terminals.
//
// Capacitance, resistance, leakage and mass are the whole store's; Tolerance is
// the spread between its cells, and Series says how many rows share the voltage.
type Store struct {
	Capacitance       float64  `unit:"F" range:"(0,)" show:"1" help:"at the terminals; constant without a capacitance_slope" symbol:"C"`
	RatedVoltage      float64  `unit:"V" range:"(0,)" help:"highest voltage that the maker allows" symbol:"V_rated"`
	Resistance        float64  `unit:"Ω" range:"[0,)" default:"0 Ω" help:"in series, for direct current" symbol:"R"`
	Mass              *float64 `unit:"g" range:"(0,)" help:"of all cells" symbol:"m"`
	LeakageResistance *float64 `unit:"Ω" range:"(0,)" help:"what the store seems to have across it at rest"`
	Tolerance         float64  `unit:"%" range:"[0,)" default:"20 %" help:"spread of capacitance between cells, to either side"`
	Settling          float64  `unit:"%" range:"[0,)" default:"0 %" help:"share of the voltage that a fast charge loses as it settles"`
	ThermalResistance *float64 `unit:"K/W" range:"(0,)" help:"from the cells to the air"`
	Series            int      `range:"[1,)" default:"1" help:"rows in series"`
	Parallel          int      `range:"[1,)" default:"1" help:"cells side by side in a row"`
	Cells             int      `range:"[1,)" default:"1" help:"how many cells"`
	Clamped           bool     `default:"false" help:"each row is held at its rating by a clamp or balancer"`
	twobranch.Fields
}

// law is the store's branches.
func (s Store) law() twobranch.Law { return s.Law(s.Capacitance, &s.RatedVoltage) }

// EnergyAt is what the store holds at a rested voltage, in joules, its charge
// settled.
func (s Store) EnergyAt(voltage float64) float64 { return s.law().Held(voltage, voltage) }

// WorstCell is the highest voltage that a cell of the string may see when the
// string stands at voltage: one row low by the tolerance, all others high by
// it, charged from empty by one and the same charge.
func (s Store) WorstCell(voltage float64) float64 {
	n, d := float64(s.rows()), s.Tolerance
	return voltage * (1 + d) / ((n-1)*(1-d) + 1 + d)
}

// safeVoltage is the highest voltage at which no cell can pass its rating.
func (s Store) safeVoltage() float64 {
	return s.cellRating() / s.WorstCell(1)
}

// Charged says what is wrong with standing at a rested voltage, and what
// stands to fear from any store that does.
func (s Store) Charged(voltage float64) []model.Caution {
	var list model.Cautions
	worst := s.WorstCell(voltage)
	switch {
	case voltage > s.RatedVoltage:
		list.Raise(storeOverRating(voltage, s.RatedVoltage))
	case s.rows() > 1 && worst > s.cellRating():
		list.Raise(cellOverRating(worst, s.cellRating(), s.safeVoltage(), s.Tolerance))
	}
	if s.wantsBalance(voltage) {
		list.Raise(unbalancedString(voltage, s.RatedVoltage))
	}
	if voltage > touchVolts {
		list.Raise(touchVoltage(voltage))
	}
	if voltage > 0 {
		list.Raise(s.standing(voltage))
	}
	return list.List
}

// wantsBalance reports whether a string is so full that nothing but a balance keeps its
// cells alike. Over its rating that is no longer what there is to say.
func (s Store) wantsBalance(voltage float64) bool {
	return s.rows() > 1 && s.Tolerance > 0 && !s.Clamped &&
		voltage > unbalancedShare*s.RatedVoltage && voltage <= s.RatedVoltage
}

// standing is the hazard of any charged store.
func (s Store) standing(voltage float64) model.Caution {
	if s.Resistance > 0 {
		return shortCircuit(voltage/s.Resistance, s.EnergyAt(voltage))
	}
	return heldEnergy(s.EnergyAt(voltage))
}

// check refuses a store that no formula can use; record is its name in the
// language, or empty where its fields are the inputs themselves.
func (s Store) check(record string) error {
	return require.In(record, require.Positive("capacitance", s.Capacitance, "F"), require.Positive("rated_voltage", s.RatedVoltage, "V"),
		require.NotNegative("resistance", s.Resistance, "Ω"), require.Share("tolerance", s.Tolerance), require.Share("settling", s.Settling),
		s.Fields.Check(s.Capacitance, &s.RatedVoltage))
}

// rows is Series, where a Go caller that leaves it out means a single cell.
func (s Store) rows() int { return max(s.Series, 1) }

func (s Store) cellRating() float64 { return s.RatedVoltage / float64(s.rows()) }

// times scales what may not be known.
func times(v *float64, by float64) *float64 {
	if v == nil {
		return nil
	}
	scaled := *v * by
	return &scaled
}

// known is a value that stands only if it is a finite number.
func known(v float64) *float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil
	}
	return &v
}
