package generator

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
)

const closedForm = "closed form of uniform axial magnetisation, mu_r = 1 (makers' FAQ; magnetics encyclopaedia)"

func TestMagnetPublished(t *testing.T) {
	disc := func(z float64) float64 {
		m, _ := MagnetDisc(MagnetDiscInput{Diameter: 20e-3, Magnetised: Magnetised{Thickness: 10e-3, Remanence: 1.32, Distance: z, Warmth: Warmth{Temperature: roomKelvin}}})
		return m.Field
	}
	kit.Near(t, closedForm, disc(0), 0.46669048, 2e-8)
	kit.Near(t, closedForm, disc(5e-3), 0.25399222, 2e-8)
	ring := func(z float64) float64 {
		m, _ := MagnetRing(MagnetRingInput{OuterDiameter: 30e-3, InnerDiameter: 10e-3, Magnetised: Magnetised{Thickness: 6e-3, Remanence: 1.3, Distance: z, Warmth: Warmth{Temperature: roomKelvin}}})
		return m.Field
	}
	kit.Near(t, closedForm, ring(0), -0.25793989, 2e-8)
	kit.Near(t, closedForm, ring(8e-3), 0.076691165, 2e-8)
	block := func(l, w, d, z float64) float64 {
		m, _ := MagnetBlock(MagnetBlockInput{Length: l, Width: w, Magnetised: Magnetised{Thickness: d, Remanence: 1.3, Distance: z, Warmth: Warmth{Temperature: roomKelvin}}})
		return m.Field
	}
	kit.Near(t, closedForm, block(20e-3, 10e-3, 5e-3, 3e-3), 0.2222318, 2e-7)
	kit.Near(t, closedForm, block(46e-3, 30e-3, 10e-3, 6.5e-3), 0.20851168, 3e-8)
	kit.Near(t, "atan limit: Br/2 at the face of a long square block", block(20e-3, 20e-3, 1e3, 0), 0.65, 1e-9)
}

func TestMidGap(t *testing.T) {
	in := MagnetBlockInput{Length: 46e-3, Width: 30e-3, Magnetised: Magnetised{Thickness: 10e-3, Remanence: 1.3, Gap: new(13e-3), Warmth: Warmth{Temperature: roomKelvin}}}
	m, _ := MagnetBlock(in)
	kit.Near(t, "2 x single-block field at gap/2", m.MidGapField, 0.4170234, 2e-7)
	in.Backing = new(10e-3)
	backed, _ := MagnetBlock(in)
	// Textbook load line Br/(1 + mu_rec g/(2 hm)): no leakage, an upper bound;
	// 0.7726597 T with mu_rec 1.05.
	if !(backed.MidGapField > m.MidGapField && backed.MidGapField < 0.7726597) {
		t.Errorf("with iron %g T, want between %g and the load line", backed.MidGapField, m.MidGapField)
	}
	// A face far wider than the gap reaches that load line, with mu_rec 1.
	in.Length, in.Width = 1, 1
	wide, _ := MagnetBlock(in)
	kit.Near(t, "load line", wide.MidGapField, 1.3/(1+13.0/20), 1e-4)
}

// TestFacingOnIronByTransform holds the row of images against the Hankel
// transform of the same boundary problem.
func TestFacingOnIronByTransform(t *testing.T) {
	r, th, g := 10e-3, 5e-3, 10e-3
	f := func(k float64) float64 {
		return r * math.J1(k*r) * math.Sinh(k*th) / math.Sinh(k*(th+g/2))
	}
	want := 0.0
	for i := range 100 {
		a, b := float64(i)*80, float64(i+1)*80
		want += quad.Fixed(f, a, b, 20, nil, 0)
	}
	got := facingOnIron(func(t, z float64) float64 { return cylinderField(r, t, z) }, th, g)
	kit.Near(t, "images against transform", got, want, 1e-6)
}

// TestFieldBySurfaceCharge integrates Coulomb's law of the two charged faces.
func TestFieldBySurfaceCharge(t *testing.T) {
	disc := func(r, z float64) float64 { // of one face, per tesla
		return quad.Fixed(func(s float64) float64 { return s * z / math.Pow(s*s+z*z, 1.5) / 2 }, 0, r, 60, nil, 0)
	}
	block := func(l, w, z float64) float64 {
		return quad.Fixed(func(x float64) float64 {
			return quad.Fixed(func(y float64) float64 {
				return z / math.Pow(x*x+y*y+z*z, 1.5) / (4 * math.Pi)
			}, -w/2, w/2, 60, nil, 0)
		}, -l/2, l/2, 60, nil, 0)
	}
	for _, z := range []float64{4e-3, 9e-3, 25e-3} {
		kit.Near(t, "disc", cylinderField(10e-3, 6e-3, z), disc(10e-3, z)-disc(10e-3, z+6e-3), 1e-9)
		kit.Near(t, "block", blockField(24e-3, 12e-3, 6e-3, z), block(24e-3, 12e-3, z)-block(24e-3, 12e-3, z+6e-3), 1e-6)
	}
}

func TestRemanenceAtTemperature(t *testing.T) {
	// -0.11 to -0.12 %/K for NdFeB, two makers' tables.
	for _, c := range []struct{ br, a, celsius, want float64 }{{1.30, -0.0012, 80, 1.2064}, {1.42, -0.0011, 60, 1.35752}} {
		m, err := MagnetDisc(MagnetDiscInput{Diameter: 1e-2, Magnetised: Magnetised{Thickness: 1e-2, Remanence: c.br, Warmth: Warmth{Coefficient: c.a, Temperature: c.celsius + zeroCelsius, Limit: 80 + zeroCelsius}}})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, "Br", m.Remanence, c.want, 1e-12)
		if len(m.List) != 1 {
			t.Errorf("%d cautions at the limit, want the standing one alone", len(m.List))
		}
	}
}

func TestMagnetCautions(t *testing.T) {
	m, _ := MagnetDisc(MagnetDiscInput{Diameter: 20e-3, Magnetised: Magnetised{Thickness: 5e-3, Remanence: 1.28, Gap: new(10e-3), Warmth: Warmth{Temperature: zeroCelsius + 100, Limit: zeroCelsius + 80, Coefficient: -0.0012}, Backing: new(0.5e-3)}})
	want := []string{"iron-saturated", "magnet-over-temperature", "strong-magnets"}
	for i, c := range m.List {
		if i >= len(want) || c.ID != want[i] {
			t.Fatalf("caution %d is %s, want %v", i, c.ID, want)
		}
	}
	if _, err := MagnetRing(MagnetRingInput{OuterDiameter: 1, InnerDiameter: 2, Magnetised: Magnetised{Thickness: 1, Remanence: 1}}); err == nil {
		t.Error("a bore wider than the ring has no answer")
	}
}
