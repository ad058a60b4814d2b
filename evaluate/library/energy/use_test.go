package energy

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestLifeFactor(t *testing.T) {
	const source = "makers' guides, rule from memory: twice per 10 K, twice per 0.1 V or 0.2 V; 1000 h at 65 °C and 2.7 V"
	in := LifeFactorInput{Temperature: 308.15, RatedTemperature: 338.15, Voltage: 2.3, RatedVoltage: 2.7,
		TemperatureStep: 10, VoltageStep: 0.2}
	kit.Near(t, source, 1000*kit.Must(LifeFactor(in))(t).Factor, 32000, kit.Exact)
	in.VoltageStep = 0.1
	kit.Near(t, source, 1000*kit.Must(LifeFactor(in))(t).Factor, 128000, kit.Exact)

	// Doubled step by step.
	life := 1000.0
	for kelvin := 338.15; kelvin > 308.15+1; kelvin -= 10 {
		life *= 2
	}
	for volts := 2.7; volts > 2.3+0.01; volts -= 0.1 {
		life *= 2
	}
	kit.Near(t, "step by step", 1000*kit.Must(LifeFactor(in))(t).Factor, life, 1e-9)

	in.Voltage = 2.8
	if got := kit.Must(LifeFactor(in))(t); !kit.Raised(got.List, "life-beyond-rating") {
		t.Error("above the rating without a caution")
	}
	in.VoltageStep = 0
	_, err := LifeFactor(in)
	kit.Refuses(t, err, "voltage_step")
}

func TestCellHeating(t *testing.T) {
	store := Store{Capacitance: 50, RatedVoltage: 2.7, Resistance: 16e-3, Mass: new(12.4e-3), ThermalResistance: new(30.0)}
	in := CellHeatingInput{Store: store, Current: 5, Time: 90, HeatCapacity: 1000, AllowedRise: 10}
	got := kit.Must(CellHeating(in))(t)
	kit.Near(t, "I²R, definition", got.Power, 0.4, kit.Exact)
	kit.Near(t, "P·t/(m·c), definition", *got.AdiabaticRise, 36/12.4, kit.Exact)
	kit.Near(t, "P·R_th, definition", *got.SteadyRise, 12, kit.Exact)
	warm := func(rise float64) float64 { return (0.4 - rise/30) / 12.4 }
	kit.Near(t, "stepped", got.Rise, kit.RungeKutta(warm, 0, 0.09, 1000), 1e-10)
	kit.Near(t, "10 K rule", got.LifeFactor, math.Pow(2, -got.Rise/10), 1e-12)

	in.Current = *got.SteadyCurrent
	kit.Near(t, "the steady current keeps the allowed rise", *kit.Must(CellHeating(in))(t).SteadyRise, 10, 1e-12)
	in.Current, in.Time = 10, 3600
	if got := kit.Must(CellHeating(in))(t); !kit.Raised(got.List, "cells-warm") {
		t.Errorf("a rise of %g K without a caution", got.Rise)
	}
}

func TestCellHeatingByWhatIsKnown(t *testing.T) {
	in := CellHeatingInput{Store: Store{Capacitance: 50, RatedVoltage: 2.7, Resistance: 16e-3, Mass: new(12.4e-3)},
		Current: 5, Time: 90, HeatCapacity: 1000, AllowedRise: 10}
	got := kit.Must(CellHeating(in))(t)
	kit.Near(t, "adiabatic", got.Rise, *got.AdiabaticRise, 0)
	in.Store.Mass, in.Store.ThermalResistance = nil, new(30.0)
	got = kit.Must(CellHeating(in))(t)
	kit.Near(t, "steady", got.Rise, *got.SteadyRise, 0)
	in.Store.Mass, in.Store.Resistance = new(12.4e-3), 0
	if got = kit.Must(CellHeating(in))(t); got.Rise != 0 || got.SteadyCurrent != nil {
		t.Errorf("without resistance: %+v", got)
	}
	in.Store.Mass, in.Store.ThermalResistance = nil, nil
	_, err := CellHeating(in)
	kit.Refuses(t, err, "store")
}

func TestLead(t *testing.T) {
	// AWG 20 and 24 by their kit.Exact diameters: resistance per metre.
	const copper = "ASTM B258 formula; IACS; NBS Handbook 100 / Circular 31 tables"
	for _, c := range []struct{ diameter, perMetre float64 }{
		{0.811821e-3, 33.309e-3},
		{0.5105592e-3, 84.2151e-3},
		{1.290846e-3, 13.1745e-3},
	} {
		got := kit.Must(Lead(LeadInput{Wire: Conductor{c.diameter}, Length: 1, Current: 2, Runs: 1, Strands: 1, Temperature: 293.15}))(t)
		kit.Near(t, copper, got.Resistance, c.perMetre, 1e-5)
		kit.Near(t, "I²R, definition", got.Loss, 4*c.perMetre, 1e-5)
		kit.Near(t, "I/A, definition", got.Density*got.Section, 2, 1e-12)
	}
	// 120 turns of 94 mm as one long lead, cold and warm.
	coil := LeadInput{Wire: Conductor{0.5105592e-3}, Length: 120 * 0.094, Runs: 1, Strands: 1, Temperature: 293.15}
	kit.Near(t, "R = ρ·N·l/A", kit.Must(Lead(coil))(t).Resistance, 0.949946, 2e-6)
	coil.Temperature = 353.15
	kit.Near(t, "R = ρ·N·l/A at 80 °C", kit.Must(Lead(coil))(t).Resistance, 1.17394, 5e-6)
}

func TestFusingCurrent(t *testing.T) {
	const source = "W. H. Preece, Proc. Royal Soc. 1884-88; tabulation at a pulsed-power handbook page"
	kit.Near(t, source+", in millimetres", preece*math.Pow(1e-3, 1.5), 80.0238, 1e-6)
	for _, c := range []struct{ amperes, inches, tolerance float64 }{
		{10, 0.0098406, 1e-4}, {50, 0.028774, 1e-4}, {100, 0.045676, 1e-4},
		{122.88, 0.0524, 1e-4},
	} {
		got := kit.Must(Lead(LeadInput{Wire: Conductor{c.inches * 0.0254}, Length: 1, Current: 0, Runs: 1, Strands: 1, Temperature: 293.15}))(t)
		kit.Near(t, source, got.FusingCurrent, c.amperes, c.tolerance)
	}
}

func TestLeadStrandsAndRuns(t *testing.T) {
	one := LeadInput{Wire: Conductor{1e-3}, Length: 0.3, Current: 5, Runs: 1, Strands: 1, Temperature: 293.15}
	four := one
	four.Wire.Diameter, four.Strands = 0.5e-3, 4
	a, b := kit.Must(Lead(one))(t), kit.Must(Lead(four))(t)
	kit.Near(t, "four strands of half the diameter", b.Resistance, a.Resistance, 1e-12)
	kit.Near(t, "four strands of half the diameter", b.FusingCurrent, a.FusingCurrent, 1e-12)
	one.Runs = 2
	kit.Near(t, "there and back", kit.Must(Lead(one))(t).Resistance, 2*a.Resistance, 1e-12)

	one.Current = 10
	if got := kit.Must(Lead(one))(t); !kit.Raised(got.List, "lead-dense") {
		t.Error("12.7 A/mm² without a caution")
	}
	one.Current = 41
	if got := kit.Must(Lead(one))(t); !kit.Raised(got.List, "lead-near-melting") {
		t.Error("over half of the melting current without a caution")
	}
	one.Temperature = 1
	_, err := Lead(one)
	kit.Refuses(t, err, "temperature")
}

func TestFuse(t *testing.T) {
	in := FuseInput{PeakCurrent: 8, FusingCurrent: 58, ShortCircuitCurrent: new(169.0), BreakingCapacity: new(1000.0)}
	got := kit.Must(Fuse(in))(t)
	kit.Near(t, "1.25·I_peak, common practice", got.LowestRating, 10, kit.Exact)
	kit.Near(t, "0.5·I_melting, common practice", got.HighestRating, 29, kit.Exact)
	if len(got.List) != 0 {
		t.Errorf("cautions %v", got.List)
	}
	for _, c := range []struct {
		change func(*FuseInput)
		id     string
	}{
		{func(f *FuseInput) { f.FusingCurrent = 15 }, "no-fuse-fits"},
		{func(f *FuseInput) { f.BreakingCapacity = new(100.0) }, "fuse-cannot-break"},
		{func(f *FuseInput) { f.ShortCircuitCurrent = new(15.0) }, "fuse-slow-to-blow"},
	} {
		broken := in
		c.change(&broken)
		if got := kit.Must(Fuse(broken))(t); !kit.Raised(got.List, c.id) {
			t.Errorf("no %s in %v", c.id, got.List)
		}
	}
}
