package generator

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
)

func sphere(t *testing.T, in MagnetSphereInput) MagnetSphereResult {
	t.Helper()
	in.Temperature, in.Limit = roomKelvin, zeroCelsius+80
	got, err := MagnetSphere(in)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func TestSpherePublished(t *testing.T) {
	for _, c := range []struct{ r, z float64 }{{5e-3, 10e-3}, {2.5e-3, 5e-3}} {
		got := sphere(t, MagnetSphereInput{Diameter: 2 * c.r, Remanence: 1.2, Distance: c.z})
		near(t, closedForm, got.Field, 0.02962963, 2e-8)
		if len(got.List) != 1 || got.List[0].ID != "strong-magnets" {
			t.Errorf("%v", got.List)
		}
	}
	if _, err := MagnetSphere(MagnetSphereInput{Remanence: 1}); err == nil {
		t.Error("a ball without a diameter has no field")
	}
}

// TestSphereBySurfaceCharge integrates Coulomb's law of the charge Br·cos θ on
// the ball, and sums the moment of its slices.
func TestSphereBySurfaceCharge(t *testing.T) {
	const r, br = 8e-3, 1.3
	for _, z := range []float64{1e-3, 4e-3, 30e-3} {
		far := r + z
		want := quad.Fixed(func(a float64) float64 {
			s, c := math.Sincos(a)
			d := math.Sqrt(r*r + far*far - 2*r*far*c)
			return br * c * r * r * s * (far - r*c) / (2 * d * d * d)
		}, 0, math.Pi, 400, nil, 0)
		near(t, "surface charge", sphere(t, MagnetSphereInput{Diameter: 2 * r, Remanence: br, Distance: z}).Field, want, 1e-9)
	}
	moment := quad.Fixed(func(x float64) float64 { return math.Pi * (r*r - x*x) * br / mu0 }, -r, r, 20, nil, 0)
	near(t, "slices", sphere(t, MagnetSphereInput{Diameter: 2 * r, Remanence: br}).Moment, moment, 1e-12)
}

// TestMagnetGradePublished: 1.32 T with 1.05 is 330.133 kJ/m³, 41.486 MGOe, and
// makers print 40 to 43 MGOe for their grade N42.
func TestMagnetGradePublished(t *testing.T) {
	const source = "straight demagnetisation curve, textbook"
	got, err := MagnetGrade(MagnetGradeInput{Remanence: p(1.32), Recoil: 1.05})
	if err != nil {
		t.Fatal(err)
	}
	near(t, source, got.EnergyProduct, 330133, 2e-6)
	near(t, source, got.EnergyProduct/7957.747155, 41.486, 2e-5)
	back, err := MagnetGrade(MagnetGradeInput{EnergyProduct: &got.EnergyProduct, Recoil: 1.05})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "there and back", back.Remanence, 1.32, 1e-14)
	if _, err := MagnetGrade(MagnetGradeInput{Recoil: 1.05}); err == nil {
		t.Error("nothing given, nothing known")
	}
}

// TestMagnetGradeBySearch walks down the straight curve for the largest B·H.
func TestMagnetGradeBySearch(t *testing.T) {
	const br, recoil, steps = 1.28, 1.05, 100_000
	best := 0.0
	for i := range steps {
		b := br * float64(i) / steps
		best = max(best, b*(br-b)/(mu0*recoil))
	}
	got, _ := MagnetGrade(MagnetGradeInput{Remanence: p(br), Recoil: recoil})
	near(t, "search", got.EnergyProduct, best, 1e-9)
}

// TestEmfOfConductors: two sides of 80 turns of 46 mm that pass 0.6 T at
// 3.2 m/s give 2·80·B·l·v = 14.1312 V (textbook). Here they embrace a pole whose
// field follows a sine, 1/(2π) of a turn's flux to the radian.
func TestEmfOfConductors(t *testing.T) {
	const pole, length, speed = 30e-3, 46e-3, 3.2
	v, err := OpenCircuitVoltage(OpenCircuitVoltageInput{Coils: 1, Turns: 80, PolePairs: 6, WindingFactor: 1,
		Rotation: math.Pi * speed / pole / 6, Field: p(0.6), Area: p(pole * length)})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "B·l·v, textbook", v.Peak, 14.1312, 1e-7)
}

// TestEmfOfFluxRamps: a flux that goes up and down by 1.2 mWb, 5 ms each way,
// makes a rectangle of N·ΔΦ/Δt = 48 V in 200 turns (Faraday, textbook). Its
// harmonics, 8/(π·n)² of the triangle each, sum to that.
func TestEmfOfFluxRamps(t *testing.T) {
	sum := 0.0
	for i := range 2000 {
		n := float64(2*i + 1)
		v, err := OpenCircuitVoltage(OpenCircuitVoltageInput{Coils: 1, Turns: 200, PolePairs: 1, WindingFactor: 1,
			Rotation: n * 2 * math.Pi / 10e-3, Flux: p(0.6e-3 * 8 / (math.Pi * math.Pi * n * n))})
		if err != nil {
			t.Fatal(err)
		}
		sum += v.Peak * float64(1-2*(i%2)) // in the middle of a ramp
	}
	near(t, "N·ΔΦ/Δt, textbook", sum, 48, 1e-3)
}

// TestPitchFactor: a coil of 5/6 of a pole has sin(75°) = 0.9659258 (textbook),
// which is what 12 slots with 10 poles have beside their distribution.
func TestPitchFactor(t *testing.T) {
	w, err := WindingFactor(WindingFactorInput{Slots: 12, Poles: 10})
	if err != nil {
		t.Fatal(err)
	}
	d, err := DistributionFactor(DistributionFactorInput{Coils: 12, Poles: 10, Phases: 3})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pitch factor, textbook", w.Factor/d.Factor, 0.9659258, 1e-7)
}

// TestBackCurrentPublished: at rest a brushed machine takes what it would draw
// as a motor at its start, 46 V over 0.3 Ω: 153.333 A (open textbook companion
// 1892, example 4.4).
func TestBackCurrentPublished(t *testing.T) {
	b, err := BlockingDiode(BlockingDiodeInput{Machine: "brushed", Voltage: 48 - 2, Resistance: 2 * 0.15})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "open textbook companion 1892, example 4.4", b.BackCurrent, 153.333, 3e-6)
}

// TestSingleLayerByFilaments: fifty rings side by side against Wheeler's
// a²·N²/(9a + 10b) in inches, 43.1034 µH for a = 0.5, b = 1 (H. A. Wheeler, Proc.
// IRE 16 (1928) 1398), good to 1 %: the same sum of rings that holds coil.
func TestSingleLayerByFilaments(t *testing.T) {
	const a, b, n = 0.0127, 0.0254, 50
	sum := 0.0
	for k := range n {
		weight, z := 2.0, b*float64(k)/n
		if k == 0 {
			weight, z = 1, 0.2231*b/n // geometric mean distance of a strip from itself, e^(−3/2)
		}
		sum += weight * (n - float64(k)) * ringsMutual(a, a, z)
	}
	near(t, "Wheeler, one layer", sum, 43.1034e-6, 0.01)
}

// TestCrankLoadHorsepower: horsepower is torque in lbf·ft times rpm over 5252
// (engineering handbooks, from memory): 100 hp at 5252 rpm is 100 lbf·ft.
func TestCrankLoadHorsepower(t *testing.T) {
	const poundForceFoot = 4.4482216152605 * 0.3048 // N·m, NIST SP 811
	got, err := CrankLoad(CrankLoadInput{Power: 100 * 745.6999, Cadence: 5252 * math.Pi / 30, Length: 0.3048})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "T = 5252·P/n", got.Torque, 100*poundForceFoot, 3e-5)
	near(t, "force on an arm of a foot", got.Force, 100*4.4482216152605, 3e-5)
}
