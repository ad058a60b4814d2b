package generator

import (
	"context"
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// ChargeCeilingInput is what [ChargeCeiling] reads.
type ChargeCeilingInput struct {
	Generator      Machine
	Store          ChargedStore
	Cadence        float64  `unit:"rpm" range:"(0,)" help:"of the crank"`
	Gearing        float64  `unit:"1" range:"(0,)" help:"turns of the rotor to one of the crank"`
	To             *float64 `unit:"V" range:"[0,)" help:"where the builder means to stop, rested"`
	GearEfficiency float64  `unit:"1" default:"0.9" range:"(0,1]" help:"as for hand_charge, and so the limits: they slow the way to the rating"`
	Drag           float64  `unit:"N·m" default:"0 N·m" range:"[0,)" help:"of bearings and gears, at the crank"`
	PowerLimit     *float64 `unit:"W" range:"(0,)" help:"at the crank"`
	TorqueLimit    *float64 `unit:"N·m" range:"(0,)" help:"at the crank"`
}

// ChargeCeilingResult is how far cranking can charge.
type ChargeCeilingResult struct {
	Ceiling           float64  `unit:"V" show:"1" help:"where the current ends"`
	Rating            *float64 `unit:"V" help:"of the store, if known"`
	OverchargeCadence *float64 `unit:"rpm" show:"2" help:"above which cranking can pass the rating"`
	SecondsToRating   *float64 `unit:"s" show:"3" help:"from the target to the rating, if it gets there; the coils as they are at the start" asked:"rating"`
	model.Cautions
}

// ChargeCeiling is the voltage at which a cadence charges no further, against
// what the store may hold.
//
// Formula: V_max = E − 2·Vd, E = k·ω·u the emf's peak, of three phases that between two leads, u the gearing; diodes with a law drop nothing where the current ends, V_max = E; the cadence above which the rating is passed ω_r = (V_rated + 2·Vd)/(k·u)
//
// Letters: k generator.ceiling_constant; ω cadence; u gearing; Vd generator.diode_drop; V_rated store.rated_voltage; V_max = ceiling; ω_r = overcharge_cadence.
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
		require.Positive("store.capacitance", in.Store.Capacitance, "F"), require.Efficiency("gear_efficiency", in.GearEfficiency),
		require.In("store", in.Store.Check(in.Store.Capacitance, in.Store.RatedVoltage)))
	if err != nil {
		return ChargeCeilingResult{}, err
	}
	c := HandChargeInput{Generator: in.Generator, Store: in.Store, Cadence: in.Cadence, Gearing: in.Gearing, To: ptr(in.To, 0),
		GearEfficiency: in.GearEfficiency, Drag: in.Drag, PowerLimit: in.PowerLimit, TorqueLimit: in.TorqueLimit}
	if err := c.checkWarmth(); err != nil {
		return ChargeCeilingResult{}, err
	}
	c.Looks = model.BoundedLooks(mostLooks)
	out := ChargeCeilingResult{Ceiling: in.Generator.ceiling(in.Cadence * in.Gearing), Rating: in.Store.RatedVoltage}
	if in.Store.RatedVoltage != nil {
		cadence := c.overchargeCadence()
		out.OverchargeCadence = &cadence
		if out.SecondsToRating, err = in.untilRating(ctx, &c); err != nil {
			return ChargeCeilingResult{}, err
		}
	}
	c.target(&out.Cautions)
	c.overcharge(&out.Cautions)
	touchVoltage(&out.Cautions, in.Generator.CeilingConstant*in.Cadence*in.Gearing)
	return out, nil
}

// untilRating is how long cranking on takes, nil where there is nothing to say of it.
func (in *ChargeCeilingInput) untilRating(ctx context.Context, c *HandChargeInput) (*float64, error) {
	if !model.Asked(ctx, "rating") {
		return nil, nil
	}
	seconds, ok, err := c.secondsToRating(ctx)
	err = c.followed(err)
	switch {
	case err != nil:
		return nil, err
	case ok && in.To != nil:
		return &seconds, nil
	case !ok && c.To < *in.Store.RatedVoltage: // not where the target is past it
		return model.Never(), nil
	}
	return nil, nil
}

// overchargeCadence is the one whose ceiling is the store's rating.
func (in *HandChargeInput) overchargeCadence() float64 {
	return (*in.Store.RatedVoltage + 2*in.Generator.leastDrop()) / (in.Generator.CeilingConstant * in.Gearing)
}

// secondsToRating is how long cranking on takes from the target to the rating,
// with coils as at the start, so that one fact has one number; false if it does not get
// there, or is past it.
func (in *HandChargeInput) secondsToRating(ctx context.Context) (seconds float64, ok bool, err error) {
	if in.Store.RatedVoltage == nil || in.To >= *in.Store.RatedVoltage {
		return 0, false, nil
	}
	rating := *in.Store.RatedVoltage
	if !(in.at(rating).net > 0) {
		return 0, false, nil
	}
	c, err := in.follow(ctx, in.To, rating, in.start())
	if err != nil {
		return 0, false, ctx.Err()
	}
	return c.y[iTime], true, nil
}

// canOvercharge reports whether the wanted cadence charges past the rating.
func (in *HandChargeInput) canOvercharge() bool {
	return in.Store.RatedVoltage != nil && in.Generator.ceiling(in.Cadence*in.Gearing) > *in.Store.RatedVoltage
}

// overcharge says when cranking on would pass the store's rating.
func (in *HandChargeInput) overcharge(c *model.Cautions) {
	if !in.canOvercharge() || in.To > *in.Store.RatedVoltage {
		return
	}
	c.Raise(model.Caution{ID: "crank-can-overcharge", Level: model.Warning,
		Summary: "Cranking on charges to {0}, past the store's {1}.",
		Values: []model.Value{model.In(in.Generator.ceiling(in.Cadence*in.Gearing), "V"),
			model.In(*in.Store.RatedVoltage, "V"), model.In(in.overchargeCadence()*30/math.Pi, "rpm")},
		Why:    overchargeWhy,
		Hint:   "Watch a stop mark, clamp, or crank under {2}.",
		Source: overchargeSource})
}

const (
	overchargeWhy    = "A cell held above its rating gasses, swells and can vent; its electrolyte burns and is poisonous."
	overchargeSource = "makers' application guides for double-layer capacitors; the cell's own sheet comes first"
)

// soonSeconds is within what a hand on the crank misses a mark (common practice).
const soonSeconds = 10

// soon says when the rating comes so soon after the target that an arm that
// looks away passes it, and reports whether it does.
func (in *HandChargeInput) soon(ctx context.Context, c *model.Cautions) (bool, error) {
	seconds, ok, err := in.secondsToRating(ctx)
	if !ok || seconds > soonSeconds {
		return false, err
	}
	c.Raise(model.Caution{ID: "rating-soon-after-target", Level: model.Danger, Severity: soonSeconds - seconds,
		Summary: "{0} after the target the store passes its rated {1}.",
		Values:  []model.Value{model.In(seconds, "s"), model.In(*in.Store.RatedVoltage, "V")},
		Why:     overchargeWhy,
		Hint:    "Slow down before it, clamp, or aim lower.",
		Source:  overchargeSource})
	return true, nil
}

// target says when the target itself is past the rating of the store, or of its
// weakest cell.
func (in *HandChargeInput) target(c *model.Cautions) {
	rating, safe := in.Store.RatedVoltage, in.Store.SafeVoltage
	switch {
	case rating != nil && in.To > *rating:
		c.Raise(model.Caution{ID: "target-over-rating", Level: model.Danger,
			Summary: "The target of {0} is above the rating of {1}.",
			Values: []model.Value{model.In(in.To, "V"), model.In(*rating, "V"),
				model.In(100*in.To / *rating, "%")},
			Why:    "It is at {2} of it. " + overchargeWhy,
			Hint:   "Stop below it, or put more cells in series.",
			Source: overchargeSource})
	case safe != nil && in.To > *safe:
		c.Raise(model.Caution{ID: "charge-over-weakest-cell", Level: model.Danger,
			Summary: "At {0} the weakest cell may pass its rating, from {1} on.",
			Values:  []model.Value{model.In(in.To, "V"), model.In(*safe, "V")},
			Why:     "By its tolerance, 20 % unless given: all cells of a string take the same charge, so the smallest rises highest. " + overchargeWhy,
			Hint:    "Stop there, or match the cells.",
			Source:  overchargeSource})
	}
}
