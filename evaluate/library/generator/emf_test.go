package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestEmfPublished(t *testing.T) {
	rpm := math.Pi / 30
	// E = √2·π·f·N·k·Φ: 50 Hz, 144 turns, 0.04 Wb (open textbook companion 1541, example 5.2;
	// printed 1278.72 V with 2.22 rounded).
	v, err := OpenCircuitVoltage(OpenCircuitVoltageInput{Coils: 1, Turns: 144, PolePairs: 1, Rotation: 3000 * rpm, Flux: new(0.04), WindingFactor: 1})
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "√2 π f N Φ", v.RMS, 1279.55, 4e-6)
	kit.Near(t, "f", v.Frequency, 50, 1e-12)
	// Axial-flux machine, 9 coils and 12 poles, sinusoidal field of 0.6 T over 46 x 30 mm.
	v, _ = OpenCircuitVoltage(OpenCircuitVoltageInput{Coils: 3, Turns: 80, PolePairs: 6, Rotation: 300 * rpm, Field: new(0.6), Area: new(46e-3 * 30e-3), WindingFactor: 0.866025})
	kit.Near(t, "flux", v.Flux, 0.527121e-3, 2e-6)
	kit.Near(t, "phase", v.RMS, 14.60288, 2e-6)
	kit.Near(t, "f = p·n", v.Frequency, 30, 1e-12)
	v, _ = OpenCircuitVoltage(OpenCircuitVoltageInput{Coils: 1, Turns: 1, PolePairs: 7, Rotation: 6000 * rpm, Flux: new(1e-6), WindingFactor: 1})
	kit.Near(t, "14 poles at 6000 rpm", v.Frequency, 700, 1e-12)
	v, _ = OpenCircuitVoltage(OpenCircuitVoltageInput{Coils: 1, Turns: 1, PolePairs: 8, Rotation: 450 * rpm, Flux: new(1e-6), WindingFactor: 1})
	kit.Near(t, "16 magnets at 450 rpm", v.Frequency, 60, 1e-12)
}

// TestEmfByFaraday differentiates the flux linkage.
func TestEmfByFaraday(t *testing.T) {
	w, flux := 40.0, 2e-4
	link := func(t float64) float64 { return 3 * 50 * flux * math.Cos(5*w*t) }
	h, peak, mean := 1e-6, 0.0, 0.0
	const n = 4000
	for k := range n {
		x := 2 * math.Pi / (5 * w) * float64(k) / n
		e := (link(x-h) - link(x+h)) / (2 * h)
		peak, mean = max(peak, e), mean+e*e/n
	}
	v, _ := OpenCircuitVoltage(OpenCircuitVoltageInput{Coils: 3, Turns: 50, PolePairs: 5, Rotation: w, Flux: &flux, WindingFactor: 1})
	kit.Near(t, "peak", v.Peak, peak, 1e-6)
	kit.Near(t, "rms", v.RMS, math.Sqrt(mean), 1e-6)
}

func TestEmfInputs(t *testing.T) {
	in := OpenCircuitVoltageInput{Coils: 1, Turns: 1000, PolePairs: 6, Rotation: 100, WindingFactor: 1}
	if _, err := OpenCircuitVoltage(in); err == nil {
		t.Error("no flux has no answer")
	}
	in.Field = new(0.3)
	if _, err := OpenCircuitVoltage(in); err == nil {
		t.Error("a field without area has no answer")
	}
	in.Area = new(4e-4)
	v, _ := OpenCircuitVoltage(in)
	in.Turns *= 2
	w, _ := OpenCircuitVoltage(in)
	kit.Near(t, "twice the turns", w.Peak, 2*v.Peak, 1e-14)
	if len(w.List) != 2 || w.List[0].ID != "open-circuit-touch-voltage" {
		t.Errorf("%v", w.List)
	}
}

func TestGears(t *testing.T) {
	rpm := math.Pi / 30
	// n2 = n1·Z1/Z2; T2 = T1·η/ratio (textbook): 60:12 then 48:10, 60 rpm, 8 N·m.
	g, err := GearTrain(GearTrainInput{Rotation: 60 * rpm, Torque: 8, Driving: []float64{60, 48}, Driven: []float64{12, 10}, StageEfficiency: 0.95})
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "ratio", g.Ratio, 24, 1e-14)
	kit.Near(t, "rotation", g.Rotation, 150.7964, 1e-6)
	kit.Near(t, "torque", g.Torque, 0.30083333, 2e-8)
	kit.Near(t, "power in", g.PowerIn, 50.26548, 1e-7)
	kit.Near(t, "power out", g.PowerOut, 45.3646, 1e-6)
	kit.Near(t, "power out is torque times rotation", g.PowerOut, g.Torque*g.Rotation, 1e-12)
	// P = T·ω: 60 W at 60 rpm on 0.15 m.
	c, _ := CrankLoad(CrankLoadInput{Power: 60, Cadence: 60 * rpm, Length: 0.15, Pulse: 1})
	kit.Near(t, "torque", c.Torque, 9.549297, 1e-7)
	kit.Near(t, "force", c.Force, 63.662, 1e-6)
	if len(c.List) != 2 || c.List[0].ID != "arm-power" || c.List[1].ID != "hand-cranking" {
		t.Errorf("%v", c.List)
	}
}

// TestEmfOfConductors: two sides of 80 turns of 46 mm that pass 0.6 T at
// 3.2 m/s give 2·80·B·l·v = 14.1312 V (textbook), here as the sides of a turn
// that embraces a whole pole of a field that follows a sine.
func TestEmfOfConductors(t *testing.T) {
	const pole, length, speed = 30e-3, 46e-3, 3.2
	v, err := OpenCircuitVoltage(OpenCircuitVoltageInput{Coils: 1, Turns: 80, PolePairs: 6, WindingFactor: 1,
		Rotation: math.Pi * speed / pole / 6, Field: new(0.6), Area: new(pole * length)})
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "B·l·v, textbook", v.Peak, 14.1312, 1e-7)
}

// TestEmfOfFluxRamps: a flux that goes up and down by 1.2 mWb, 5 ms each way,
// makes a rectangle of N·ΔΦ/Δt = 48 V in 200 turns (Faraday, textbook). Its
// harmonics, 8/(π·n)² of the triangle each, sum to that.
func TestEmfOfFluxRamps(t *testing.T) {
	sum := 0.0
	for i := range 2000 {
		n := float64(2*i + 1)
		v, err := OpenCircuitVoltage(OpenCircuitVoltageInput{Coils: 1, Turns: 200, PolePairs: 1, WindingFactor: 1,
			Rotation: n * 2 * math.Pi / 10e-3, Flux: new(0.6e-3 * 8 / (math.Pi * math.Pi * n * n))})
		if err != nil {
			t.Fatal(err)
		}
		sum += v.Peak * float64(1-2*(i%2)) // in the middle of a ramp
	}
	kit.Near(t, "N·ΔΦ/Δt, textbook", sum, 48, 1e-3)
}
