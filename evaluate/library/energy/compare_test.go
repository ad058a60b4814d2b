package energy

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
)

func TestBattery(t *testing.T) {
	got := kit.Must(Battery(BatteryInput{Capacity: 0.15 * 3600, Voltage: 3.7, Mass: 4.2e-3}))(t)
	kit.Near(t, "nominal energy, definition", got.Energy, 1998, kit.Exact)
	kit.Near(t, "nominal energy, definition", got.SpecificEnergy/3600, 132.14, 1e-4)
	if perKg := got.SpecificEnergy / 3600; perKg < 100 || perKg > 265 {
		t.Errorf("%g Wh/kg, lithium-ion cells have 100 to 265 (reviews of commercial cells, from memory)", perKg)
	}
	if !kit.Raised(got.List, "lithium-charging") {
		t.Error("no caution of charging lithium")
	}

	const trade = "common practice, no source: a lithium cell of like size holds about 10 Wh, about eighty times a 100 F cell at 3 V"
	like := kit.Must(Battery(BatteryInput{Capacity: 2.7 * 3600, Voltage: 3.7, Mass: 46e-3}))(t)
	capacitor := kit.Must(StoredEnergy(StoredEnergyInput{100, 3}))(t)
	kit.Near(t, trade, like.Energy/3600, 10, 1e-2)
	kit.Near(t, trade, like.Energy/capacitor.Energy, 80, 1e-2)
}

func TestRubber(t *testing.T) {
	// 4000 ft·lbf/lb by the kit.Exact foot, pound and standard gravity.
	perKg := 4000 * 0.3048 * 0.45359237 * gravity / 0.45359237
	kit.Near(t, "conversion from kit.Exact factors", perKg, 11956.27, 5e-7)
	got := kit.Must(Rubber(RubberInput{Mass: 10e-3, SpecificEnergy: perKg}))(t)
	kit.Near(t, "quoted for contest strip, unsure", got.Energy, 119.5627, 5e-7)
	kit.Near(t, "in Wh/kg", got.Energy/10e-3/3600, 3.3212, 1e-5)
}

const airSource = "ideal gas, thermodynamics textbooks; integrals of an independent library agree"

func TestCompressedAir(t *testing.T) {
	for _, c := range []struct {
		volume, pressure                     float64
		isoTotal, isoNet, adiTotal, adiaBNet float64
	}{
		{1e-3, 10e5, 2302.585, 1402.585, 1205.131, 787.1839},
		{0.5e-3, 6e5, 537.5278, 287.5278, 300.4973, 170.6962},
	} {
		got := kit.Must(CompressedAir(CompressedAirInput{Volume: c.volume, Pressure: c.pressure, Ambient: 1e5, Temperature: 293.15}))(t)
		kit.Near(t, airSource, got.IsothermalTotal, c.isoTotal, 5e-7)
		kit.Near(t, airSource, got.Isothermal, c.isoNet, 5e-7)
		kit.Near(t, airSource, got.AdiabaticTotal, c.adiTotal, 5e-7)
		kit.Near(t, airSource, got.Adiabatic, c.adiaBNet, 5e-7)

		// Work on the piston by quadrature over the volume.
		work := func(index float64) float64 {
			end := c.volume * math.Pow(c.pressure/1e5, 1/index)
			net := func(v float64) float64 { return c.pressure*math.Pow(c.volume/v, index) - 1e5 }
			return quad.Fixed(net, c.volume, end, 60, nil, 0)
		}
		kit.Near(t, "quadrature", got.Isothermal, work(1), 1e-9)
		kit.Near(t, "quadrature", got.Adiabatic, work(1.4), 1e-9)
	}
}

func TestCompressedAirMass(t *testing.T) {
	got := kit.Must(CompressedAir(CompressedAirInput{Volume: 1e-3, Pressure: 10e5, Ambient: 1e5, Temperature: 293.15}))(t)
	kit.Near(t, "ideal gas", got.Mass, 11.8836e-3, 1e-5)
	kit.Near(t, "ideal gas, per kilogram", got.Isothermal/got.Mass, 118.027e3, 1e-5)
	if !kit.Raised(got.List, "pressure-vessel") {
		t.Error("no caution of the vessel")
	}
	_, err := CompressedAir(CompressedAirInput{Volume: 1e-3, Pressure: 0.5e5, Ambient: 1e5, Temperature: 293.15})
	kit.Refuses(t, err, "pressure")
	at := kit.Must(CompressedAir(CompressedAirInput{Volume: 1e-3, Pressure: 1e5, Ambient: 1e5, Temperature: 293.15}))(t)
	if at.Isothermal != 0 || at.Adiabatic != 0 {
		t.Errorf("air at ambient pressure works: %+v", at)
	}
}

func TestRaisedWeight(t *testing.T) {
	got := kit.Must(RaisedWeight(RaisedWeightInput{Mass: 1, Height: 10}))(t)
	kit.Near(t, "m g h", got.Energy, 98.0665, kit.Exact)
	kit.Near(t, "m g h, in watt-hours", got.Energy/3600, 0.0272407, 1e-6)
}

// Published for double-layer capacitors: 3 to 10 Wh/kg (standards summary page
// for IEC 62391).
func TestSpecificEnergyOfRealCells(t *testing.T) {
	cell := kit.Must(Capacitor(CapacitorInput{Capacitance: 3000, RatedVoltage: 2.7, Mass: new(0.51)}))(t)
	if got := *cell.SpecificEnergy / 3600; got < 3 || got > 10 {
		t.Errorf("%g Wh/kg", got)
	}
	if !kit.Raised(cell.List, "dangerous-goods") {
		t.Error("3 Wh in a cell without a caution (UN 3499 from 0.3 Wh, from memory)")
	}
}
