package generator

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestIronGapField(t *testing.T) {
	const source = "textbook load line, infinite-permeability iron"
	for _, c := range []struct{ br, h, g, want float64 }{{1.30, 20e-3, 13e-3, 0.7726597}, {1.22, 12e-3, 9e-3, 0.6825175}} {
		r, err := IronGapField(IronGapFieldInput{Remanence: c.br, Thickness: c.h, Gap: c.g, Recoil: 1.05})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, source, r.Field, c.want, 1e-7)
	}
}

func TestPlanetary(t *testing.T) {
	r, err := PlanetaryGear(PlanetaryGearInput{Sun: 18, Ring: 54})
	if err != nil || r.Ratio != 4 { // Willis equation, textbook
		t.Errorf("%v %v", r, err)
	}
	if _, err := PlanetaryGear(PlanetaryGearInput{Sun: 18, Ring: 12}); err == nil {
		t.Error("a ring inside its sun")
	}
}

func TestEmfConstantFromReadings(t *testing.T) {
	exact := EmfConstantFromReadingsInput{Meter: "rms"}
	for _, w := range []float64{20, 40, 70} {
		exact.Rotation, exact.Voltage = append(exact.Rotation, w), append(exact.Voltage, 0.03*w/math.Sqrt2)
	}
	r, err := EmfConstantFromReadings(exact)
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "exact readings", r.EmfConstant, 0.03, 1e-12)
	// The stated uncertainty is the spread of the constant over many benches.
	rnd := rand.New(rand.NewPCG(7, 8))
	var sum, square, stated float64
	const n = 4000
	for range n {
		in := EmfConstantFromReadingsInput{Meter: "peak"}
		for w := 20.0; w <= 100; w += 10 {
			in.Rotation, in.Voltage = append(in.Rotation, w), append(in.Voltage, 0.03*w+0.02*rnd.NormFloat64())
		}
		r, _ := EmfConstantFromReadings(in)
		sum, square, stated = sum+r.EmfConstant/n, square+r.EmfConstant*r.EmfConstant/n, stated+r.Uncertainty*r.Uncertainty/n
	}
	kit.Near(t, "uncertainty", math.Sqrt(stated), math.Sqrt(square-sum*sum), 0.05)
	exact.Voltage[0] *= 1.2
	if r, _ = EmfConstantFromReadings(exact); len(r.List) != 1 {
		t.Error("a reading far off is not doubted")
	}
	if _, err := EmfConstantFromReadings(EmfConstantFromReadingsInput{}); err == nil {
		t.Error("no readings, no constant")
	}
}

// TestEmfBehindTheBridge: 12 V of d.c. behind two drops of 0.35 V are a peak of
// 12.7 V (worked by hand); of two coils in series in a star it is
// shared by 2·√3.
func TestEmfBehindTheBridge(t *testing.T) {
	in := EmfConstantFromReadingsInput{Rotation: []float64{50, 100}, Voltage: []float64{12.7/2 - 0.7, 12}, Meter: "dc", DiodeDrop: new(0.35)}
	kit.Near(t, "peak", 100*kit.Must(EmfConstantFromReadings(in))(t).EmfConstant, 12.7, 1e-12)
	in.Coils, in.Phases = 2, 3
	kit.Near(t, "one coil", 100*kit.Must(EmfConstantFromReadings(in))(t).EmfConstant, 12.7/2/math.Sqrt(3), 1e-12)
	in.DiodeDrop = nil
	_, err := EmfConstantFromReadings(in)
	kit.Refuses(t, err, "diode_drop")
}
