package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestPeaks holds the field's harmonics against the fields of all magnets as
// rings of blocks, and a coil's flux against the field over it.
func TestPeaks(t *testing.T) {
	d := testRing()
	// A turn so small that the field does not change in it: flux by area.
	d.inner, d.outer, d.height = 0.05e-3, 0.05e-3, 0
	var flux [2]float64
	d.harmonics(flux[:])
	b := d.peaks([len(sweptPlaces)]float64{d.coilRing, 30e-3, 35e-3, 40e-3}, 0)[0]
	area := math.Pi * d.outer * d.outer
	kit.Near(t, "first, flux by area", b[0], flux[0]/area, 2e-3)
	kit.Near(t, "third, flux by area", b[1], flux[1]/area, 1e-2)
}

// TestSwept holds discs against square blocks of the same face, of which the
// field is summed magnet by magnet.
func TestSwept(t *testing.T) {
	d := testRing()
	side := d.radius * math.Sqrt(math.Pi)
	b := blocks{poles: d.poles, remanence: d.remanence, length: side, width: side, thick: d.thick, pitch: d.pitch, coilRing: d.coilRing,
		gap: d.gap, height: d.height, opening: 2 * d.inner, mid: 2 * d.inner, leg: d.outer - d.inner, round: true, rotor: "facing"}
	kit.Near(t, "discs and blocks", d.swept(), b.swept(), 0.06)
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
