package flight

import (
	"context"
	"errors"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// goTolerance is to which the launch is found, by itself.
const goTolerance = 1e-9

// climbBoth is the least launch of a store with a slow branch: followed forward, since
// only there both branches are known to be settled.
func (l *leg) climbBoth(ctx context.Context, cutOff, least, margin float64, out *GoVoltageResult) (float64, error) {
	control := out.GlideTime + margin
	at := func(from float64) (v, slow float64, by string, err error) {
		v, slow, err = l.ahead(ctx, from, cutOff, out.ClimbTime)
		return v, slow, l.lacks(v, slow, cutOff, least, control), err
	}
	low, high := cutOff, 2*cutOff
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
func (l *leg) lacks(v, slow, cutOff, least, control float64) string {
	m := l.at(v)
	switch {
	case m.terminal < cutOff:
		return "cut-off"
	case m.spare < 0:
		return "full throttle"
	case least > 0 && l.controlTime(v, slow, least) < control:
		return "radio"
	}
	return ""
}

// ahead is where both branches stand after a time in the climb, at first settled; at
// the cut-off it ends.
func (l *leg) ahead(ctx context.Context, from, cutOff, time float64) (v, slow float64, err error) {
	s, err := numeric.Integrate(ctx, func(_ float64, y, dy []float64) {
		m := l.at(y[0])
		into := l.law.Into(y[0], y[1])
		dy[0] = -(m.pack + m.radio + l.store.leak(y[0]) + into) / l.law.At(y[0])
		dy[1] = into / l.law.Slow
	}, 0, []float64{from, from}, time, numeric.Options{Relative: flightTolerance, Absolute: flightScale, Steps: 20_000,
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
