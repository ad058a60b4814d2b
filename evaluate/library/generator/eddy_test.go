package generator

import (
	"context"
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestPeaks holds a coil's flux against the field over it: a turn so small that
// the field does not change in it, flux by area.
func TestPeaks(t *testing.T) {
	d := testRing()
	d.inner, d.outer, d.height = 0.05e-3, 0.05e-3, 0
	var flux [2]float64
	d.harmonics(context.Background(), flux[:])
	b := d.peaks(context.Background(), [8]place{{from: d.coilRing}, {from: 30e-3}, {from: 35e-3}, {from: 40e-3}, {from: 40e-3}, {from: 40e-3}, {from: 40e-3}, {from: 40e-3}}, []float64{0})[0][0]
	area := math.Pi * d.outer * d.outer
	kit.Near(t, "first, flux by area", b.axial[0], flux[0]/area, 2e-3)
	kit.Near(t, "third, flux by area", b.axial[1], flux[1]/area, 1e-2)
}

// TestSwept holds discs against square blocks of the same face, of which the
// field is summed magnet by magnet.
func TestSwept(t *testing.T) {
	d := testRing()
	side := d.radius * math.Sqrt(math.Pi)
	b := blocks{poles: d.poles, remanence: d.remanence, length: side, width: side, thick: d.thick, pitch: d.pitch, coilRing: d.coilRing,
		gap: d.gap, height: d.height, opening: 2 * d.inner, mid: 2 * d.inner, leg: d.outer - d.inner, round: true, rotor: "facing"}
	kit.Near(t, "discs and blocks", d.swept(context.Background()), b.swept(), 0.06)
}

// TestEddyKnown: a measured constant alone does not tell the field.
func TestEddyKnown(t *testing.T) {
	g := lapwing(t, nil)
	if g.EddyConstant <= 0 {
		t.Error("no eddy constant")
	}
	measured := lapwing(t, func(in *GeneratorInput) { in.Magnet, in.EmfConstant = nil, new(0.04) })
	if measured.EddyConstant != 0 {
		t.Error("a constant alone does not tell the field")
	}
}

// TestEddyInCharge lets a machine with more of it take more work, and time
// where the arm is at its limit.
func TestEddyInCharge(t *testing.T) {
	in := lapwingCharge(t)
	with, _ := HandCharge(t.Context(), in)
	t.Logf("eddy %.3g J of %.4g J", with.Eddy, with.Work)
	in.Generator.EddyConstant = 0
	none, _ := HandCharge(t.Context(), in)
	if with.Eddy <= 0 || none.Eddy != 0 || with.Time <= none.Time {
		t.Errorf("%g J in %g s, without %g s", with.Eddy, with.Time, none.Time)
	}
	in.PowerLimit, in.TorqueLimit = nil, nil
	none, _ = HandCharge(t.Context(), in)
	in.Generator.EddyConstant = 1e-4
	with, _ = HandCharge(t.Context(), in)
	w := in.Cadence * in.Gearing
	kit.Near(t, "at a steady cadence power times time", with.Eddy, 1e-4*w*w*with.Time, 1e-9)
	kit.Near(t, "the same time", with.Time, none.Time, 1e-12)
	kit.Near(t, "what the arm gives more", with.Work-none.Work, with.Eddy/in.GearEfficiency, 1e-7)
}

// TestEddyWarm: the loss goes as 1/ρ: what is 6.484 at 20 °C is 1.236 times less at
// 80 °C, by copper's 0.00393 K^-1.
func TestEddyWarm(t *testing.T) {
	at := func(celsius float64) float64 {
		w := kit.Must(Awg(AwgInput{Gauge: 21, Temperature: zeroCelsius + celsius}))(t)
		c := kit.Must(Coil(CoilInput{Turns: 87, Wire: Winding{Diameter: w.Diameter}, Shape: "round", Opening: 10e-3, Leg: 9e-3, Height: 8e-3, Temperature: zeroCelsius + celsius, FillFactor: 0.5}))(t)
		return lapwing(t, func(in *GeneratorInput) { in.Coil.Resistance, in.Coil.Temperature = c.Resistance, c.Temperature }).EddyConstant
	}
	kit.Near(t, "at 80 °C", at(20)/at(80), 1.2358, 1e-4)
}
