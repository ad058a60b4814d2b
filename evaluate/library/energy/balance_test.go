package energy

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

const balanceSource = "V_k = V/n + R (mean leakage − I_k), steady state of the circuit"

func TestBalancedVoltages(t *testing.T) {
	got := kit.Must(BalancedVoltages(BalancedVoltagesInput{Voltage: 5, Resistance: 1e3, Leakage: []float64{10e-6, 60e-6}}))(t)
	kit.Near(t, balanceSource, got.Voltage[0], 2.525, kit.Exact)
	kit.Near(t, balanceSource, got.Voltage[1], 2.475, kit.Exact)

	// Stepped: cell 1 of two 10 F cells held at 5 V together; the same current
	// passes through both, so 2·C·dv/dt is the difference of what bypasses them.
	net := func(v float64) float64 { return ((5-v)/1e3 + 60e-6 - v/1e3 - 10e-6) / (2 * 10) }
	kit.Near(t, "stepped", got.Voltage[0], kit.RungeKutta(net, 3, 100, 4000), 1e-9)

	_, err := BalancedVoltages(BalancedVoltagesInput{Voltage: 5, Resistance: 1e3})
	kit.Refuses(t, err, "leakage")
}

func TestBalanceResistor(t *testing.T) {
	in := BalanceResistorInput{Resistors: "E24", Cell: Store{Capacitance: 10, RatedVoltage: 2.7}, Series: 2,
		Deviation: 0.05, LeakageDifference: 50e-6, ChargeTime: 120}
	got := kit.Must(BalanceResistor(in))(t)
	kit.Near(t, balanceSource+", n = 2", got.Resistance, 2e3, kit.Exact)
	kit.Near(t, "bleed at 2.7 V", got.Current, 1.35e-3, kit.Exact)
	kit.Near(t, "ln 2·R·C", got.HalfTime, 13863, 1e-4)
	kit.Near(t, "half of the voltage left after it", math.Exp(-got.HalfTime/got.TimeConstant), 0.5, 1e-12)
	kit.Near(t, "V²/R", got.Loss, 2.7*1.35e-3, kit.Exact)
	if !kit.Raised(got.List, "balance-resistor-slow") {
		t.Error("no caution that it does not act within a charge")
	}
	kit.Near(t, "in stock as E24", got.Preferred, 2e3, 1e-12)
	in.Resistors = "E12"
	kit.Near(t, "the next down of E12", kit.Must(BalanceResistor(in))(t).Preferred, 1.8e3, 1e-12)
	in.Resistors = "E13"
	_, err := BalanceResistor(in)
	kit.Refuses(t, err, "resistors")
	in.Resistors = "E24"
	in.ChargeTime = 24 * 3600
	if got := kit.Must(BalanceResistor(in))(t); kit.Raised(got.List, "balance-resistor-slow") {
		t.Error("a caution for a charge of a day")
	}
	in.Series = 1
	_, err = BalanceResistor(in)
	kit.Refuses(t, err, "series")
}

// The resistor put into the string holds the leaky cell at the deviation.
func TestBalanceResistorHoldsTheDeviation(t *testing.T) {
	for n := 2; n <= 8; n++ {
		r := kit.Must(BalanceResistor(BalanceResistorInput{Resistors: "E24", Cell: Store{Capacitance: 10, RatedVoltage: 2.7}, Series: n,
			Deviation: 0.05, LeakageDifference: 50e-6, ChargeTime: 60}))(t).Resistance
		leaks := make([]float64, n)
		leaks[0] = 50e-6
		got := kit.Must(BalancedVoltages(BalancedVoltagesInput{Voltage: 2.5 * float64(n), Resistance: r, Leakage: leaks}))(t)
		kit.Near(t, balanceSource, 2.5-got.Voltage[0], 0.05, 1e-9)
	}
}

func TestClamp(t *testing.T) {
	in := ClampInput{Voltage: 2.5, Current: 2, ThermalResistance: 10, Ambient: zeroCelsius + 25, Limit: zeroCelsius + 125}
	got := kit.Must(Clamp(in))(t)
	kit.Near(t, "V·I, definition", got.Power, 5, kit.Exact)
	kit.Near(t, "P·R_th, definition", got.Rise, 50, kit.Exact)
	if !kit.Raised(got.List, "hot-to-touch") {
		t.Error("75 °C without a caution")
	}
	// Stepped: a clamp of 5 J/K warms towards the same rise.
	warm := func(rise float64) float64 { return (5 - rise/10) / 5 }
	kit.Near(t, "stepped", kit.RungeKutta(warm, 0, 1, 2000), got.Rise, 1e-9)

	in.Current = 5
	if got := kit.Must(Clamp(in))(t); !kit.Raised(got.List, "clamp-too-hot") {
		t.Error("150 °C without a caution")
	}
	in.Current = 1
	if got := kit.Must(Clamp(in))(t); len(got.List) != 0 {
		t.Errorf("50 °C raises %v", got.List)
	}
}
