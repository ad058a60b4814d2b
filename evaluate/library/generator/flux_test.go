package generator

import (
	"context"
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
)

func testRing() discs {
	return discs{poles: 12, remanence: 1.28, radius: 7.5e-3, thick: 5e-3, pitch: 32e-3, coilRing: 32e-3, gap: 9e-3,
		inner: 4e-3, outer: 9e-3, height: 7e-3, rotor: "facing"}
}

func TestFluxReference(t *testing.T) {
	// Superposed exact disc fields integrated over the coil agree to 5e-6.
	const source = "Hankel transform of a charged disc with Graf's addition theorem; superposed disc fields"
	d := testRing()
	kit.Near(t, source, d.harmonic(1), 4.14802703e-5, 1e-6)
	kit.Near(t, source+", third", math.Abs(d.harmonic(3)), 3.8273e-7, 2e-5)
	d.rotor = "backed"
	kit.Near(t, source+", iron", d.harmonic(1), 5.54168099e-5, 1e-6)
	d = testRing()
	d.inner, d.outer, d.height = 6.5e-3, 6.5e-3, 0
	kit.Near(t, source+", filament", d.harmonic(1), 3.79782e-5, 2e-6)
	kit.Near(t, source+", small", discs{poles: 12, remanence: 1.28, radius: 5e-3, thick: 3e-3, pitch: 22e-3, coilRing: 22e-3, gap: 5e-3,
		inner: 2e-3, outer: 5.5e-3, height: 4e-3, rotor: "facing"}.harmonic(1), 1.68297e-5, 1e-5)
}

// TestFluxBySurfaceCharge superposes the fields of all the magnets' charged
// faces over a filament turn in the mid plane, at 24 angles of the rotor.
func TestFluxBySurfaceCharge(t *testing.T) {
	d := testRing()
	d.inner, d.outer, d.height = 6.5e-3, 6.5e-3, 0
	const rings, spokes = 6, 12
	type charge struct{ x, y, q float64 }
	var face []charge // of one magnet, about its middle
	for i := range rings {
		lo, hi := d.radius*float64(i)/rings, d.radius*float64(i+1)/rings
		for j := range spokes {
			a, s := 2*math.Pi*float64(j)/spokes, math.Sqrt((lo*lo+hi*hi)/2)
			face = append(face, charge{s * math.Cos(a), s * math.Sin(a), math.Pi * (hi*hi - lo*lo) / spokes})
		}
	}
	field := func(x, y, turn float64) float64 {
		b := 0.0
		for m := range d.poles {
			a := turn + 2*math.Pi*float64(m)/float64(d.poles)
			cx, cy := x-d.pitch*math.Cos(a), y-d.pitch*math.Sin(a)
			for _, c := range face {
				r2 := (cx-c.x)*(cx-c.x) + (cy-c.y)*(cy-c.y)
				for _, z := range []float64{d.gap / 2, d.gap/2 + d.thick} {
					s := 1.0
					if z > d.gap/2 {
						s = -1
					}
					b += 2 * s * float64(1-2*(m%2)) * c.q * z / math.Pow(r2+z*z, 1.5)
				}
			}
		}
		return d.remanence * b / (4 * math.Pi)
	}
	flux := func(turn float64) float64 {
		return quad.Fixed(func(s float64) float64 {
			ring := 0.0
			for j := range 16 {
				a := 2 * math.Pi * (float64(j) + 0.5) / 16
				ring += field(d.coilRing+s*math.Cos(a), s*math.Sin(a), turn) / 16
			}
			return 2 * math.Pi * s * ring
		}, 0, d.outer, 6, quad.Legendre{}, 0)
	}
	const n = 24
	first := 0.0
	for k := range n {
		turn := 2 * math.Pi * float64(k) / n / float64(d.poles/2)
		first += 2.0 / n * flux(turn) * math.Cos(2*math.Pi*float64(k)/n)
	}
	kit.Near(t, "by charges", d.harmonic(1), first, 3e-3)
}

func TestFluxProperties(t *testing.T) {
	d := testRing()
	base := d.harmonic(1)
	d.rotor = "single"
	kit.Near(t, "one rotor gives half of two", d.harmonic(1), base/2, 1e-12)
	d.rotor = "keeper"
	if f := d.harmonic(1); f <= base/2 || f >= base {
		t.Errorf("a keeper gives %g, want between one rotor and two", f)
	}
	d = testRing()
	d.gap *= 1.2
	if d.harmonic(1) >= base {
		t.Error("a wider gap gives less")
	}
}

func BenchmarkFlux(b *testing.B) {
	b.ReportAllocs()
	d := testRing()
	for b.Loop() {
		d.harmonic(1)
	}
}

// harmonic is the peak of the n-th harmonic, n odd.
func (d discs) harmonic(n int) float64 {
	all := make([]float64, (n+1)/2)
	d.harmonics(context.Background(), all)
	return all[n/2]
}
