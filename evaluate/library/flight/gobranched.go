package flight

import (
	"context"
	"errors"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// Settled is how a pack stands at the launch.
type Settled struct {
	SlowShare float64 `unit:"%" range:"[0,100]" default:"100 %" help:"voltage of the store's slow branch at the launch, by the pack's: 100 % where it has rested, less straight from the crank: hand_charge's slow_voltage by its target"`
}

func (s Settled) check() error {
	if s.SlowShare >= 0 && s.SlowShare <= 1 {
		return nil
	}
	return &model.Error{Field: "slow_share", Summary: "is {0}, and must lie from 0 % to 100 %", Values: []model.Value{model.In(100*s.SlowShare, "%")},
		Hint: "give 100 % for a pack that has rested"}
}

// climbWants is what the top of a climb must leave, and how the launch begins.
type climbWants struct{ cutOff, least, control, slowShare float64 }

// goTolerance is to which the launch is found, by itself.
const goTolerance = 1e-9

// climbBoth is the least launch of a store with a slow branch: followed forward, since
// only there both branches are known.
func (l *leg) climbBoth(ctx context.Context, w climbWants, out *GoVoltageResult) (float64, error) {
	at := func(from float64) (v, slow float64, by string, err error) {
		v, slow, err = l.ahead(ctx, from, w.slowShare*from, w.cutOff, out.ClimbTime)
		return v, slow, l.lacks(v, slow, w), err
	}
	low, high := w.cutOff, 2*w.cutOff
	for ; ; low, high = high, 2*high {
		if high > 1e6 {
			return 0, noVoltage()
		}
		_, _, by, err := at(high)
		if err != nil {
			return 0, err
		}
		if by == "" {
			break
		}
	}
	for high-low > goTolerance*high {
		mid := (low + high) / 2
		_, _, by, err := at(mid)
		switch {
		case err != nil:
			return 0, err
		case by == "":
			high = mid
		default:
			low, out.LimitedBy = mid, by
		}
	}
	v, slow, _, err := at(high)
	out.Voltage, out.TopVoltage = high, v
	return slow, err
}

// lacks is what keeps the top of a climb from serving; empty if nothing does.
func (l *leg) lacks(v, slow float64, w climbWants) string {
	m := l.at(v)
	switch {
	case m.terminal < w.cutOff:
		return "cut-off"
	case m.spare < 0:
		return "full throttle"
	case w.least > 0 && l.controlTime(v, slow, w.least) < w.control:
		return "radio"
	}
	return ""
}

// ahead is where both branches stand after a time in the climb; at the cut-off it ends.
func (l *leg) ahead(ctx context.Context, from, late, cutOff, time float64) (v, slow float64, err error) {
	s, err := numeric.Integrate(ctx, func(_ float64, y, dy []float64) {
		m := l.at(y[0])
		into := l.law.Into(y[0], y[1])
		dy[0] = -(m.pack + m.radio + l.store.leak(y[0]) + into) / l.law.At(y[0])
		dy[1] = into / l.law.Slow
	}, 0, []float64{from, late}, time, numeric.Options{Relative: flightTolerance, Absolute: flightScale, Steps: 20_000,
		Events: []numeric.Event{{Of: func(_ float64, y []float64) float64 { return y[0] - 0.99*cutOff }, Direction: numeric.Falling, Terminal: true}}})
	var stall *numeric.Stall
	if errors.As(err, &stall) && stall.Cause != numeric.Cancelled {
		return 0.99 * cutOff, 0.99 * cutOff, nil // the climb asks for more than there is
	}
	if err != nil {
		return 0, 0, stalled(err)
	}
	return s.Y[0], s.Y[1], nil
}

func noVoltage() error {
	return &model.Error{Field: "store", Summary: "no voltage is enough for this climb",
		Hint: "give a store of less resistance or more capacitance, or a slower climb"}
}
