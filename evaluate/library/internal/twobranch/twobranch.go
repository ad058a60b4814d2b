// Package twobranch is a double-layer store as two branches: one whose
// capacitance rises with its voltage and takes charge at once, and one behind a
// resistance that takes its share slowly. [Fields] are what a store's record
// says of them, [Law] works them. The record's own resistance lies before both.
package twobranch

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// StandardShare is the middle of the fall from 80 % to 40 % of the rating, over
// which IEC 62391-1 measures a capacitance.
const StandardShare = 0.6

// quickest is the time of settling below which a branch is none of its own, s:
// the standard's measurement has it in the capacitance.
const quickest = 1.0

// Fields are what a store's record says beyond one capacitance.
type Fields struct {
	CapacitanceSlope *float64 `unit:"F/V" range:"[0,)" help:"rise of the capacitance by the volt; the capacitance is then that at 60 % of the rating, as the standard measures it"`
	SlowCapacitance  *float64 `unit:"F" range:"(0,)" help:"beside it, that takes its charge slowly: what a rest after a fast charge shows"`
	SlowResistance   *float64 `unit:"Ω" range:"(0,)" help:"through which it takes it"`
}

// Joined are the fields of so many rows in series, each of so many side by side.
func (f Fields) Joined(series, parallel float64) Fields {
	out := Fields{CapacitanceSlope: times(f.CapacitanceSlope, parallel/(series*series))}
	if f.SlowCapacitance != nil && f.SlowResistance != nil {
		out.SlowCapacitance, out.SlowResistance = times(f.SlowCapacitance, parallel/series), times(f.SlowResistance, series/parallel)
	}
	return out
}

// times scales what may not be known.
func times(v *float64, by float64) *float64 {
	if v == nil {
		return nil
	}
	scaled := *v * by
	return &scaled
}

// slope is the rise, 0 where it is not known.
func (f Fields) slope() float64 {
	if f.CapacitanceSlope == nil {
		return 0
	}
	return *f.CapacitanceSlope
}

// Check refuses fields that make no store of a capacitance and a rating.
func (f Fields) Check(capacitance float64, rated *float64) error {
	if err := require.NotNegative("capacitance_slope", f.slope(), "F/V"); err != nil {
		return err
	}
	l := f.Law(capacitance, rated)
	switch {
	case f.slope() > 0 && rated == nil:
		return &model.Error{Field: "rated_voltage", Summary: "is not given, and a capacitance that rises by {0} is that at 60 % of it",
			Values: []model.Value{model.In(f.slope(), "F/V")}, Hint: "give the rating, or leave out capacitance_slope"}
	case capacitance > 0 && !(l.C0 > 0):
		return &model.Error{Field: "capacitance_slope", Summary: "is {0}, by which {1} at 60 % of the rating leaves nothing at 0 V",
			Values: []model.Value{model.In(f.slope(), "F/V"), model.In(capacitance, "F")}, Hint: "give the rise by one volt: a quarter of the capacitance or less is usual"}
	}
	return f.checkSlow(l)
}

func (f Fields) checkSlow(l Law) error {
	switch {
	case f.SlowCapacitance == nil && f.SlowResistance == nil:
		return nil
	case f.SlowCapacitance == nil:
		return &model.Error{Field: "slow_capacitance", Summary: "is not given, but slow_resistance is", Hint: "give both or neither"}
	case f.SlowResistance == nil:
		return &model.Error{Field: "slow_resistance", Summary: "is not given, but slow_capacitance is", Hint: "give both or neither"}
	}
	if err := require.All(require.Positive("slow_capacitance", *f.SlowCapacitance, "F"), require.Positive("slow_resistance", *f.SlowResistance, "Ω")); err != nil {
		return err
	}
	if t := l.Time(0); t < quickest {
		return &model.Error{Field: "slow_resistance", Summary: "lets the charge settle within {0}, which is not slow",
			Values: []model.Value{model.In(t, "s")}, Hint: "count such a branch into the capacitance"}
	}
	return nil
}

// Plain reports whether the capacitance is worked as constant.
func (f Fields) Plain() bool { return f.slope() == 0 }

// A Law is a store's two branches, ready to work with.
type Law struct {
	C0, Slope     float64 // the fast branch: C0 + Slope·v, F and F/V
	Slow, Through float64 // the slow one, F and Ω; 0 if there is none
}

// Law is that of a capacitance and a rating.
func (f Fields) Law(capacitance float64, rated *float64) Law {
	l := Law{C0: capacitance, Slope: f.slope()}
	if rated != nil {
		l.C0 -= StandardShare * f.slope() * *rated
	}
	if f.SlowCapacitance != nil && f.SlowResistance != nil {
		l.Slow, l.Through = *f.SlowCapacitance, *f.SlowResistance
	}
	return l
}

// Lags reports whether there is a slow branch.
func (l Law) Lags() bool { return l.Slow > 0 }

// At is the fast branch's capacitance at a voltage: what a small charge by the
// volt is.
func (l Law) At(v float64) float64 { return l.C0 + l.Slope*v }

// Charge is what the fast branch takes from one voltage to another.
func (l Law) Charge(from, to float64) float64 {
	return (to - from) * (l.C0 + l.Slope*(from+to)/2)
}

// Energy is what the fast branch takes from one voltage to another.
func (l Law) Energy(from, to float64) float64 {
	e := l.C0 * (to + from) * (to - from) / 2
	if l.Slope == 0 {
		return e
	}
	return e + l.Slope*(to-from)*(to*to+to*from+from*from)/3
}

// Held is the energy of both branches, each at its voltage.
func (l Law) Held(v, slow float64) float64 { return l.Energy(0, v) + l.Slow*slow*slow/2 }

// Into is the current from the fast branch into the slow one.
func (l Law) Into(v, slow float64) float64 {
	if l.Slow == 0 {
		return 0
	}
	return (v - slow) / l.Through
}

// Settled is the voltage at which both branches end if left alone: what charge
// there is spreads over both.
func (l Law) Settled(v, slow float64) float64 {
	if l.Slow == 0 {
		return v
	}
	c, q := l.C0+l.Slow, l.Charge(0, v)+l.Slow*slow
	return 2 * q / (c + math.Sqrt(c*c+2*l.Slope*q))
}

// Time is the time constant of settling at a voltage.
func (l Law) Time(v float64) float64 {
	if l.Slow == 0 {
		return 0
	}
	c := l.At(v)
	return l.Through * c * l.Slow / (c + l.Slow)
}
