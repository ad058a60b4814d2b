package energy

import (
	"context"
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/internal/twobranch"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// run empties the store into a load.
func (in DischargeInput) run(load drain, end float64) (DischargeResult, error) {
	l := in.Store.law()
	if !l.Lags() {
		out := load.run(in.From, end)
		out.Left = l.Held(end, end)
		return out, nil
	}
	slow := in.From
	if in.SlowVoltage != nil {
		slow = *in.SlowVoltage
	}
	d, err := l.Drain(context.Background(), in.From, slow, end, load.flow)
	if err != nil {
		return DischargeResult{}, unfollowed(err)
	}
	settled := l.Settled(end, d.Slow)
	out := DischargeResult{Time: d.Time, EndVoltage: end, Lost: in.Store.Resistance * d.Square, Left: l.Held(end, d.Slow),
		Settling: &d.Lost, SettledVoltage: &settled}
	out.Delivered = l.Held(in.From, slow) - out.Left - out.Lost - d.Lost
	return out, nil
}

// fillSlowly is fill with a slow branch: time and its voltage are followed over the
// fast one's, which only rises.
func (in ChargeTimeInput) fillSlowly(l twobranch.Law, a float64) (time, stored float64, err error) {
	s, err := numeric.Integrate(context.Background(), func(v float64, y, dy []float64) {
		root := v + math.Hypot(v, a)
		dy[0] = l.At(v) * root / max(2*in.Power-root*l.Into(v, y[1]), 0)
		dy[1] = l.Into(v, y[1]) / l.Slow * dy[0]
	}, in.From, []float64{0, in.From}, in.To, numeric.Options{Relative: 1e-10, Absolute: 1e-10, Steps: slowSteps})
	if err != nil {
		return 0, 0, unfollowed(err)
	}
	return s.Y[0], l.Held(in.To, s.Y[1]) - l.Held(in.From, in.From), nil
}

// slowSteps bounds how a charge with a slow branch is followed: a common one takes some
// tens, and a step a microsecond.
const slowSteps = 3000

// unfollowed puts a stall of the stepping in the builder's terms.
func unfollowed(error) error {
	return &model.Error{Field: "store", Summary: "has a slow branch that could not be followed", Hint: "check slow_capacitance and slow_resistance, and the load, for a value far out of the usual"}
}

// settled is where the store has come to after the time.
func (in SettledVoltageInput) settled() (float64, error) {
	l := in.Store.law()
	if !l.Lags() {
		return in.Voltage * (1 - in.Store.Settling), nil
	}
	if in.Time == nil {
		return l.Settled(in.Voltage, in.SlowVoltage), nil
	}
	if err := require.NotNegative("time", *in.Time, "s"); err != nil {
		return 0, err
	}
	v, _, err := l.Rest(context.Background(), in.Voltage, in.SlowVoltage, *in.Time)
	if err != nil {
		return 0, unfollowed(err)
	}
	return v, nil
}
