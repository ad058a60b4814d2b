package generator

import (
	"context"
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// ChargeCeilingInput is what [ChargeCeiling] reads.
type ChargeCeilingInput struct {
	Generator Machine
	Store     ChargedStore
	Cadence   float64  `unit:"rpm" range:"(0,)" help:"of the crank"`
	Gearing   float64  `unit:"1" range:"(0,)" help:"turns of the rotor to one of the crank"`
	To        *float64 `unit:"V" range:"[0,)" help:"where the builder means to stop, rested"`
}

// ChargeCeilingResult is how far cranking can charge.
type ChargeCeilingResult struct {
	Ceiling           float64  `unit:"V" show:"1" help:"where the current ends"`
	Rating            *float64 `unit:"V" show:"2" help:"of the store, if known"`
	OverchargeCadence *float64 `unit:"rpm" show:"3" help:"above which cranking can pass the rating"`
	SecondsToRating   *float64 `unit:"s" show:"4" help:"from the target (else from empty) to the rating, if it gets there"`
	model.Cautions
}

// ChargeCeiling is the voltage at which a cadence charges no further, against
// what the store may hold.
//
// Formula: E − 2·Vd with one phase, √3·E − 2·Vd with three, E the emf's peak;
// diodes with a law drop nothing where the current ends
//
// Validity: no leakage; a store holds what it is given, so cranking on past its rating overcharges it.
//
// Source: the bridge conducts only while the emf is above the store's voltage
// and two diode drops
//
// Example:
//
//	c = coil(60, awg(21), 10 mm, 9 mm, 8 mm)
//	gen = generator(c, 9, 12, emf_constant: 0.03 V·s/rad, phases: 3)
//	store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
//	top = charge_ceiling(gen, store, 75 rpm, 12)
//	V_top [V] = top.ceiling
func ChargeCeiling(ctx context.Context, in ChargeCeilingInput) (ChargeCeilingResult, error) {
	err := require.All(require.Positive("generator.ceiling_constant", in.Generator.CeilingConstant, "V·s/rad"),
		require.Positive("cadence", in.Cadence, "rad/s"), require.Positive("gearing", in.Gearing, "1"),
		require.Positive("store.capacitance", in.Store.Capacitance, "F"))
	if err != nil {
		return ChargeCeilingResult{}, err
	}
	c := HandChargeInput{Generator: in.Generator, Store: in.Store, Cadence: in.Cadence, Gearing: in.Gearing, GearEfficiency: 1, To: ptr(in.To, 0)}
	out := ChargeCeilingResult{Ceiling: in.Generator.ceiling(in.Cadence * in.Gearing), Rating: in.Store.RatedVoltage}
	seconds := math.Inf(1)
	if in.Store.RatedVoltage != nil {
		cadence := c.overchargeCadence()
		if seconds, err = c.secondsToRating(ctx); err != nil {
			return ChargeCeilingResult{}, err
		}
		out.OverchargeCadence = &cadence
		if !math.IsInf(seconds, 0) {
			out.SecondsToRating = &seconds
		}
	}
	c.weakest(&out.Cautions)
	c.overcharge(&out.Cautions, seconds)
	touchVoltage(&out.Cautions, in.Generator.CeilingConstant*in.Cadence*in.Gearing)
	return out, nil
}

// overchargeCadence is the one whose ceiling is the store's rating.
func (in *HandChargeInput) overchargeCadence() float64 {
	return (*in.Store.RatedVoltage + 2*in.Generator.leastDrop()) / (in.Generator.CeilingConstant * in.Gearing)
}

// secondsToRating is how long cranking on takes from the target to the rating.
func (in *HandChargeInput) secondsToRating(ctx context.Context) (float64, error) {
	rating := *in.Store.RatedVoltage
	switch {
	case rating <= in.To:
		return 0, nil
	case in.at(rating).net <= 0:
		return math.Inf(1), nil
	}
	sum, err := in.between(ctx, in.To, rating, 2, nil)
	return sum[iTime], err
}

// overcharge says when cranking on would pass the store's rating, and how soon.
// The seconds are those from the target to the rating, +Inf where they are not
// to be told.
func (in *HandChargeInput) overcharge(c *model.Cautions, seconds float64) {
	if !in.overcharges() {
		return
	}
	x := model.Caution{ID: "crank-can-overcharge", Level: model.Danger,
		Summary: "Cranking on would charge the store to {0}, past its rating of {1}; that begins at {2}.",
		Values: []model.Value{model.In(in.Generator.ceiling(in.Cadence*in.Gearing), "V"), model.In(*in.Store.RatedVoltage, "V"),
			model.In(in.overchargeCadence()*30/math.Pi, "rpm")},
		Why:    "A cell held above its rating gasses, swells and can vent.",
		Hint:   "Paint a stop mark on the voltmeter and watch it, clamp the store, or use fewer turns or a lower gearing.",
		Source: "makers' application guides for double-layer capacitors"}
	if !math.IsInf(seconds, 0) {
		x.Summary += " From the target it takes {3} to the rating."
		x.Values = append(x.Values, model.In(seconds, "s"))
	}
	c.Raise(x)
}

func (in *HandChargeInput) overcharges() bool {
	return in.Store.RatedVoltage != nil && in.Generator.ceiling(in.Cadence*in.Gearing) > *in.Store.RatedVoltage
}

// weakest says when the target itself may put the weakest cell of an unbalanced
// string over its rating, although the string is within its own.
func (in *HandChargeInput) weakest(c *model.Cautions) {
	safe, rating := in.Store.SafeVoltage, in.Store.RatedVoltage
	if safe == nil || in.To <= *safe || rating != nil && in.To > *rating {
		return
	}
	c.Raise(model.Caution{ID: "charge-over-weakest-cell", Level: model.Danger,
		Summary: "A charge to {0} may put the weakest cell above its rating: by the tolerance of the cells that begins at {1}.",
		Values:  []model.Value{model.In(in.To, "V"), model.In(*safe, "V")},
		Why:     "All cells of a string take the same charge, so the smallest rises highest; over its rating it makes gas, and may vent or burst.",
		Hint:    "Stop at {1}, match the cells and say so by their tolerance, or clamp each of them; measure every cell, not only the sum.",
		Source:  "makers' application guides for double-layer capacitors"})
}
