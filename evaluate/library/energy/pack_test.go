package energy

import (
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

const byDefinition = "definition"

func TestStoredEnergy(t *testing.T) {
	for _, c := range []struct {
		capacitance, voltage, joules float64
		source                       string
	}{
		{10, 2.7, 36.45, byDefinition},
		{10, 2.7, 0.010125 * 3600, byDefinition + ", in watt-hours"},
		{100, 3, 0.125 * 3600, "common practice, no source: a 100 F cell at 3 V holds 0.125 Wh"},
		{3000, 2.7, 3.0375 * 3600, "large-cell datasheets print 3.04 Wh"},
	} {
		got := kit.Must(StoredEnergy(StoredEnergyInput{c.capacitance, c.voltage}))(t)
		kit.Near(t, c.source, got.Energy, c.joules, kit.Exact)
	}
}

func TestUsableEnergy(t *testing.T) {
	got := kit.Must(UsableEnergy(UsableEnergyInput{Capacitance: 10, From: 2.7, To: 1}))(t)
	kit.Near(t, byDefinition, got.Energy, 31.45, kit.Exact)
	kit.Near(t, byDefinition+", share of full", got.Energy/36.45, 0.8628258, 1e-7)

	// By sum: charge drawn in small portions, each at the voltage it leaves.
	const portions = 100_000
	sum, dq := 0.0, 10*(2.7-1)/portions
	for i := range portions {
		sum += dq * (2.7 - (float64(i)+0.5)*dq/10)
	}
	kit.Near(t, "sum of portions", got.Energy, sum, 1e-9)

	_, err := UsableEnergy(UsableEnergyInput{Capacitance: 10, From: 1, To: 2})
	kit.Refuses(t, err, "from")
}

func TestPackOfLikeCells(t *testing.T) {
	cell := kit.Must(Capacitor(CapacitorInput{Capacitance: 10, RatedVoltage: 2.7, Resistance: 30e-3,
		Mass: new(0.003), LeakageResistance: new(20e3), ThermalResistance: new(30.0), Tolerance: 0.2}))(t)
	pack := kit.Must(Pack(PackInput{Cell: cell.Store, Series: 3, Parallel: 2}))(t)
	kit.Near(t, byDefinition+", capacitance", pack.Capacitance, 6.666667, 1e-7)
	kit.Near(t, byDefinition+", resistance", pack.Resistance, 45e-3, kit.Exact)
	kit.Near(t, byDefinition+", rated voltage", pack.RatedVoltage, 8.1, kit.Exact)
	kit.Near(t, byDefinition+", energy", pack.Energy, 218.7, kit.Exact)
	kit.Near(t, "six of a cell's energy", pack.Energy, 6*cell.Energy, kit.Exact)
	kit.Near(t, "six of a cell's mass", *pack.Mass, 0.018, kit.Exact)
	kit.Near(t, "leakage as resistance", *pack.LeakageResistance, 30e3, kit.Exact)
	kit.Near(t, "heat leaves six cells at once", *pack.ThermalResistance, 5, kit.Exact)
	if pack.Cells != 6 || pack.Series != 3 || pack.Parallel != 2 {
		t.Errorf("got %d cells, %d × %d", pack.Cells, pack.Series, pack.Parallel)
	}
	if !kit.Raised(pack.List, "stored-energy") {
		t.Error("a pack raises no caution of its short circuit")
	}
	if !kit.Raised(pack.List, "joining-cells") || kit.Raised(pack.List, "store-touch-voltage") {
		t.Errorf("a pack of 8.1 V to be soldered raises %v", pack.List)
	}
	alone := kit.Must(Pack(PackInput{Cell: cell.Store, Series: 1, Parallel: 1}))(t)
	if kit.Raised(alone.List, "joining-cells") {
		t.Error("a cell alone is said to be joined")
	}
}

// Above 60 V d.c. a touch counts as hazardous: IEC 61140, from memory.
func TestTouchVoltage(t *testing.T) {
	cell := Store{Capacitance: 100, RatedVoltage: 3, Tolerance: 0.2}
	for series, want := range map[int]bool{20: false, 21: true} {
		pack := kit.Must(Pack(PackInput{Cell: cell, Series: series, Parallel: 1}))(t)
		if kit.Raised(pack.List, "store-touch-voltage") != want {
			t.Errorf("a pack of %g V raises %v", pack.RatedVoltage, pack.List)
		}
		if list := pack.Charged(pack.RatedVoltage); kit.Raised(list, "store-touch-voltage") != want {
			t.Errorf("charged to %g V it raises %v", pack.RatedVoltage, list)
		}
		if list := pack.Charged(60); kit.Raised(list, "store-touch-voltage") {
			t.Errorf("charged to 60 V it raises %v", list)
		}
	}
}

func TestPackFactsOfTheTrade(t *testing.T) {
	cell := Store{Capacitance: 100, RatedVoltage: 3, Tolerance: 0.2}
	pack := kit.Must(Pack(PackInput{Cell: cell, Series: 6, Parallel: 1}))(t)
	const source = "common practice, no source: six 100 F, 3 V cells make 16.7 F, 18 V, 0.75 Wh"
	kit.Near(t, source, pack.Capacitance, 16.7, 3e-3)
	kit.Near(t, source, pack.RatedVoltage, 18, kit.Exact)
	kit.Near(t, source, pack.Energy/3600, 0.75, kit.Exact)
}

// A pack of packs is the pack of all their cells.
func TestPackOfPacks(t *testing.T) {
	cell := Store{Capacitance: 50, RatedVoltage: 2.7, Resistance: 16e-3, Tolerance: 0.1}
	two := kit.Must(Pack(PackInput{Cell: cell, Series: 2, Parallel: 1}))(t)
	four := kit.Must(Pack(PackInput{Cell: two.Store, Series: 2, Parallel: 3}))(t)
	all := kit.Must(Pack(PackInput{Cell: cell, Series: 4, Parallel: 3}))(t)
	if four.Store != all.Store {
		t.Errorf("got %+v, want %+v", four.Store, all.Store)
	}
}

func TestRatings(t *testing.T) {
	const large = "large-cell datasheets print 6.0 Wh/kg, 12 000 W/kg"
	cell := kit.Must(Capacitor(CapacitorInput{Capacitance: 3000, RatedVoltage: 2.7, Resistance: 0.29e-3, Mass: new(0.51)}))(t)
	kit.Near(t, large, *cell.SpecificEnergy/3600, 5.9559, 1e-5)
	kit.Near(t, large, *cell.SpecificEnergy/3600, 6.0, 1e-2)
	kit.Near(t, large, *cell.SpecificPower, 12322.5, 1e-5)
	kit.Near(t, large, *cell.SpecificPower, 12000, 5e-2)

	small := kit.Must(Capacitor(CapacitorInput{Capacitance: 10, RatedVoltage: 2.7, Resistance: 30e-3}))(t)
	kit.Near(t, "V²/(4 ESR), definition", *small.MatchedPower, 60.75, kit.Exact)
	if small.SpecificEnergy != nil || small.SpecificPower != nil {
		t.Error("a specific value although the mass is not known")
	}
	ideal := kit.Must(Capacitor(CapacitorInput{Capacitance: 10, RatedVoltage: 2.7}))(t)
	if ideal.ShortCircuitCurrent != nil || ideal.MatchedPower != nil {
		t.Error("a short-circuit current although the resistance is zero")
	}
}

// The matched power is the most that any load can draw.
func TestMatchedPowerIsTheMost(t *testing.T) {
	most := 0.0
	for load := 1e-3; load < 1; load += 1e-4 {
		i := 2.7 / (30e-3 + load)
		most = max(most, i*i*load)
	}
	kit.Near(t, "search over loads", most, 60.75, 1e-6)
}

func TestCapacitorRefuses(t *testing.T) {
	_, err := Capacitor(CapacitorInput{Capacitance: 0, RatedVoltage: 2.7})
	kit.Refuses(t, err, "capacitance")
	_, err = Capacitor(CapacitorInput{Capacitance: 1, RatedVoltage: 2.7, Tolerance: 1})
	kit.Refuses(t, err, "tolerance")
	_, err = Pack(PackInput{Cell: Store{Capacitance: 1}, Series: 2, Parallel: 1})
	kit.Refuses(t, err, "cell.rated_voltage")
	_, err = Pack(PackInput{Cell: Store{Capacitance: 1, RatedVoltage: 2.7}, Series: 0, Parallel: 1})
	kit.Refuses(t, err, "series")
}

// What a short would drive is told of a store whose resistance is known, what it
// holds of any: 12.5 F at 10 V hold 625 J, and 50 mΩ pass 200 A (definitions).
func TestChargedStoreSaysWhatAShortDrives(t *testing.T) {
	for resistance, want := range map[float64][]float64{0.05: {200, 625}, 0: {625}} {
		store := Store{Capacitance: 12.5, RatedVoltage: 13.5, Resistance: resistance, Series: 5}
		for _, c := range store.Charged(10) {
			if c.ID != "stored-energy" {
				continue
			}
			if len(c.Values) != len(want) {
				t.Fatalf("%g Ω: %v", resistance, c.Values)
			}
			for i, v := range c.Values {
				kit.Near(t, "definitions", v.Number, want[i], 1e-12)
			}
		}
	}
}
