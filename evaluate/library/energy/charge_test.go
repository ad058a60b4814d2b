package energy

import (
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
)

func TestChargingEfficiency(t *testing.T) {
	const source = "(V1 + V2)/(2 Vs), textbook"
	kit.Near(t, "one half, whatever the resistance: classic result",
		kit.Must(ChargingEfficiency(ChargingEfficiencyInput{Source: 5, To: 5}))(t).Efficiency, 0.5, kit.Exact)
	got := kit.Must(ChargingEfficiency(ChargingEfficiencyInput{Source: 6, From: 2, To: 5}))(t)
	kit.Near(t, source, got.Efficiency, 105./180, kit.Exact)
	kit.Near(t, source, got.Efficiency, 0.5833333, 1e-7)

	// By quadrature over the store's voltage: 10 F through 1 Ω.
	into := quad.Fixed(func(v float64) float64 { return 10 * v }, 2, 5, 20, nil, 0)
	heat := quad.Fixed(func(v float64) float64 { return 10 * (6 - v) }, 2, 5, 20, nil, 0)
	kit.Near(t, "quadrature", got.Efficiency, into/(into+heat), 1e-12)

	_, err := ChargingEfficiency(ChargingEfficiencyInput{Source: 5, To: 6})
	kit.Refuses(t, err, "to")
}

func TestSteadyChargeEfficiency(t *testing.T) {
	store := Store{Capacitance: 10, RatedVoltage: 2.7, Resistance: 0.2}
	got := kit.Must(SteadyChargeEfficiency(SteadyChargeEfficiencyInput{Store: store, Time: 20}))(t)
	kit.Near(t, "loss I²RT against C V²/2", got.Efficiency, 0.8333333, 1e-7)
	store.Resistance = 0
	kit.Near(t, "without resistance", kit.Must(SteadyChargeEfficiency(SteadyChargeEfficiencyInput{Store: store, Time: 20}))(t).Efficiency, 1, 0)
}

func TestJoinedCapacitors(t *testing.T) {
	const source = "loss C1 C2/(C1 + C2)·ΔV²/2"
	got := kit.Must(JoinedCapacitors(JoinedCapacitorsInput{FirstCapacitance: 10, FirstVoltage: 5, SecondCapacitance: 10}))(t)
	kit.Near(t, source, got.Voltage, 2.5, kit.Exact)
	kit.Near(t, source, got.Lost, 62.5, kit.Exact)
	got = kit.Must(JoinedCapacitors(JoinedCapacitorsInput{FirstCapacitance: 10, FirstVoltage: 5, SecondCapacitance: 5, SecondVoltage: 1}))(t)
	kit.Near(t, source, got.Voltage, 3.66666667, kit.Exact)
	kit.Near(t, source, got.Lost, 26.6666667, kit.Exact)
	kit.Near(t, "energies before and after", got.Lost, 125+2.5-15*got.Voltage*got.Voltage/2, 1e-9)
}
