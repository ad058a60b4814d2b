package energy

import (
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
)

func TestChargingEfficiency(t *testing.T) {
	const source = "(V1 + V2)/(2 Vs), textbook"
	near(t, "one half, whatever the resistance: classic result",
		must(ChargingEfficiency(ChargingEfficiencyInput{Source: 5, To: 5}))(t).Efficiency, 0.5, exact)
	got := must(ChargingEfficiency(ChargingEfficiencyInput{Source: 6, From: 2, To: 5}))(t)
	near(t, source, got.Efficiency, 105./180, exact)
	near(t, source, got.Efficiency, 0.5833333, 1e-7)

	// By quadrature over the store's voltage: 10 F through 1 Ω.
	into := quad.Fixed(func(v float64) float64 { return 10 * v }, 2, 5, 20, nil, 0)
	heat := quad.Fixed(func(v float64) float64 { return 10 * (6 - v) }, 2, 5, 20, nil, 0)
	near(t, "quadrature", got.Efficiency, into/(into+heat), 1e-12)

	_, err := ChargingEfficiency(ChargingEfficiencyInput{Source: 5, To: 6})
	refuses(t, err, "to")
}

func TestSteadyChargeEfficiency(t *testing.T) {
	store := Store{Capacitance: 10, RatedVoltage: 2.7, Resistance: 0.2}
	got := must(SteadyChargeEfficiency(SteadyChargeEfficiencyInput{Store: store, Time: 20}))(t)
	near(t, "loss I²RT against C V²/2", got.Efficiency, 0.8333333, 1e-7)
	store.Resistance = 0
	near(t, "without resistance", must(SteadyChargeEfficiency(SteadyChargeEfficiencyInput{Store: store, Time: 20}))(t).Efficiency, 1, 0)
}

func TestJoinedCapacitors(t *testing.T) {
	const source = "loss C1 C2/(C1 + C2)·ΔV²/2"
	got := must(JoinedCapacitors(JoinedCapacitorsInput{FirstCapacitance: 10, FirstVoltage: 5, SecondCapacitance: 10}))(t)
	near(t, source, got.Voltage, 2.5, exact)
	near(t, source, got.Lost, 62.5, exact)
	got = must(JoinedCapacitors(JoinedCapacitorsInput{FirstCapacitance: 10, FirstVoltage: 5, SecondCapacitance: 5, SecondVoltage: 1}))(t)
	near(t, source, got.Voltage, 3.66666667, exact)
	near(t, source, got.Lost, 26.6666667, exact)
	near(t, "energies before and after", got.Lost, 125+2.5-15*got.Voltage*got.Voltage/2, 1e-9)
}
