package flight

import (
	"context"
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/internal/twobranch"
)

// law is the store's branches.
func (s FlightStore) law() twobranch.Law { return s.Law(s.Capacitance, s.RatedVoltage) }

// settle is what a slow branch changes in what a moment adds to the state.
func (k *circuit) settle(y, dy []float64) {
	if !k.law.Lags() {
		return
	}
	into := k.law.Into(y[yVoltage], y[ySlow])
	dy[ySlow], dy[ySettling] = into/k.law.Slow, into*into*k.law.Through
	dy[yVoltage] -= into / k.law.At(y[yVoltage])
}

// slow is the slow branch's voltage, that of the fast one where there is none.
func (k *circuit) slow(y []float64) float64 {
	if !k.law.Lags() {
		return y[yVoltage]
	}
	return y[ySlow]
}

// launched is the state at the launch.
func (k *circuit) launched(in *FlightInput) ([]float64, error) {
	slow := in.StartVoltage
	if in.SlowVoltage != nil {
		if err := require.NotNegative("slow_voltage", *in.SlowVoltage, "V"); err != nil {
			return nil, err
		}
		slow = *in.SlowVoltage
	}
	y := make([]float64, yCount)
	if k.law.Lags() {
		y = make([]float64, yBranched)
		y[ySlow] = slow
	}
	y[yVoltage], y[yHeight] = in.StartVoltage, in.LaunchHeight
	return y, nil
}

// given is what the pack has given since the launch, its settling included, and what
// that has lost.
func (k *circuit) given(in *FlightInput, y []float64) (given, settling float64) {
	given = k.law.Energy(y[yVoltage], in.StartVoltage)
	if !k.law.Lags() {
		return given, 0
	}
	from := in.StartVoltage
	if in.SlowVoltage != nil {
		from = *in.SlowVoltage
	}
	return given + k.law.Slow*(from+y[ySlow])*(from-y[ySlow])/2, y[ySettling]
}

// drainBoth is drain with a slow branch; +Inf where it never gets there.
func (k *circuit) drainBoth(from, slow, end float64) float64 {
	d, err := k.law.Drain(context.Background(), from, slow, end, func(v float64) float64 {
		_, radio := k.terminal(v, 0, 0)
		return radio + k.store.leak(v)
	})
	if err != nil {
		return math.Inf(1)
	}
	return d.Time
}
