package generator

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
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
		kit.Near(t, closedForm, got.Field, 0.02962963, 2e-8)
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
		kit.Near(t, "surface charge", sphere(t, MagnetSphereInput{Diameter: 2 * r, Remanence: br, Distance: z}).Field, want, 1e-9)
	}
	moment := quad.Fixed(func(x float64) float64 { return math.Pi * (r*r - x*x) * br / mu0 }, -r, r, 20, nil, 0)
	kit.Near(t, "slices", sphere(t, MagnetSphereInput{Diameter: 2 * r, Remanence: br}).Moment, moment, 1e-12)
}

// TestMagnetGradePublished: 1.32 T with 1.05 is 330.133 kJ/m³, 41.486 MGOe, and
// makers print 40 to 43 MGOe for their grade N42.
func TestMagnetGradePublished(t *testing.T) {
	const source = "straight demagnetisation curve, textbook"
	got, err := MagnetGrade(MagnetGradeInput{Remanence: new(1.32), Recoil: 1.05})
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, source, got.EnergyProduct, 330133, 2e-6)
	kit.Near(t, source, got.EnergyProduct/7957.747155, 41.486, 2e-5)
	back, err := MagnetGrade(MagnetGradeInput{EnergyProduct: &got.EnergyProduct, Recoil: 1.05})
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "there and back", back.Remanence, 1.32, 1e-14)
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
	got, _ := MagnetGrade(MagnetGradeInput{Remanence: new(br), Recoil: recoil})
	kit.Near(t, "search", got.EnergyProduct, best, 1e-9)
}
