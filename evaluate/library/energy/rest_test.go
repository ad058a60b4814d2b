package energy

import (
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestSelfDischarge(t *testing.T) {
	const resistive = "V0 exp(−t/RC), textbook"
	for _, c := range []struct {
		in     SelfDischargeInput
		want   float64
		source string
	}{
		{SelfDischargeInput{Capacitance: 10, Voltage: 2.5, Time: 24 * 3600, Resistance: new(20e3)}, 1.62302344, resistive},
		{SelfDischargeInput{Capacitance: 3.3, Voltage: 5, Time: 72 * 3600, Resistance: new(47e3)}, 0.940125435, resistive},
		{SelfDischargeInput{Capacitance: 10, Voltage: 2.5, Time: 24 * 3600, Current: new(30e-6)}, 2.2408, "V0 − I t/C"},
		{SelfDischargeInput{Capacitance: 10, Voltage: 0.1, Time: 24 * 3600, Current: new(30e-6)}, 0, "a leak does not charge the other way"},
	} {
		got := kit.Must(SelfDischarge(c.in))(t)
		kit.Near(t, c.source, got.Voltage, c.want, kit.Exact)
		if c.in.Resistance != nil {
			rc := c.in.Capacitance * *c.in.Resistance
			fall := func(v float64) float64 { return -v / rc }
			kit.Near(t, "stepped", kit.RungeKutta(fall, c.in.Voltage, c.in.Time/1000, 1000), got.Voltage, 1e-10)
		}
	}
	_, err := SelfDischarge(SelfDischargeInput{Capacitance: 10, Voltage: 2.5, Time: 1})
	kit.Refuses(t, err, "")
	_, err = SelfDischarge(SelfDischargeInput{Capacitance: 10, Voltage: 2.5, Time: 1, Resistance: new(0.0)})
	kit.Refuses(t, err, "resistance")
}

// A short-lived constant leak and a resistance of V/I leak alike.
func TestLeaksAgreeAtFirst(t *testing.T) {
	in := SelfDischargeInput{Capacitance: 10, Voltage: 2.5, Time: 60, Current: new(25e-6)}
	byCurrent := kit.Must(SelfDischarge(in))(t).Voltage
	in.Current, in.Resistance = nil, new(100e3)
	kit.Near(t, "V/I", kit.Must(SelfDischarge(in))(t).Voltage, byCurrent, 1e-8)
}

// Without a leak nothing is lost.
func TestLeakGoesToNothing(t *testing.T) {
	in := SelfDischargeInput{Capacitance: 10, Voltage: 2.5, Time: 24 * 3600, Resistance: new(1e15)}
	kit.Near(t, "limit", kit.Must(SelfDischarge(in))(t).Voltage, 2.5, 1e-10)
	in.Resistance, in.Current = nil, new(0.0)
	kit.Near(t, "limit", kit.Must(SelfDischarge(in))(t).Voltage, 2.5, 0)
}

func TestSettledVoltage(t *testing.T) {
	in := SettledVoltageInput{Store: Store{Capacitance: 50, RatedVoltage: 2.7, Settling: 0.04}, Voltage: 2.5}
	got := kit.Must(SettledVoltage(in))(t)
	kit.Near(t, "4 % of 2.5 V lost, definition", got.Voltage, 2.4, kit.Exact)
	if !kit.Raised(got.List, "settles-after-charge") {
		t.Error("no caution to launch at once")
	}
	in.Store.Settling = 0
	if got := kit.Must(SettledVoltage(in))(t); got.Voltage != 2.5 || kit.Raised(got.List, "settles-after-charge") {
		t.Errorf("without settling: %+v", got)
	}
}

func TestSafeDischarge(t *testing.T) {
	got := kit.Must(SafeDischarge(SafeDischargeInput{Capacitance: 12.5, Voltage: 10, Resistance: 22, To: 0.1, Rating: new(5.0)}))(t)
	kit.Near(t, "V²/R, definition", got.PeakPower, 100./22, kit.Exact)
	kit.Near(t, "V/R, definition", got.PeakCurrent, 10./22, kit.Exact)
	kit.Near(t, "C (V1² − V2²)/2, definition", got.Heat, 12.5*(100-0.01)/2, kit.Exact)
	fall := func(v float64) float64 { return -v / (22 * 12.5) }
	kit.Near(t, "stepped", kit.RungeKutta(fall, 10, got.Time/4000, 4000), 0.1, 1e-9)
	through := kit.Must(Discharge(DischargeInput{Store: Store{Capacitance: 12.5, RatedVoltage: 11, Series: 1}, From: 10, To: 0.1, Load: new(22.0)}))(t)
	kit.Near(t, "the discharge through a load", got.Time, through.Time, 1e-12)
	kit.Near(t, "the discharge through a load", got.Heat, through.Delivered, 1e-12)
	if kit.Raised(got.List, "resistor-over-rating") || !kit.Raised(got.List, "residual-charge") {
		t.Errorf("cautions %v", got.List)
	}

	got = kit.Must(SafeDischarge(SafeDischargeInput{Capacitance: 12.5, Voltage: 10, Resistance: 10, To: 0.1, Rating: new(5.0)}))(t)
	if !kit.Raised(got.List, "resistor-over-rating") {
		t.Error("10 W in a resistor of 5 W without a caution")
	}
	_, err := SafeDischarge(SafeDischargeInput{Capacitance: 12.5, Voltage: 0.05, Resistance: 10, To: 0.1})
	kit.Refuses(t, err, "voltage")
}
