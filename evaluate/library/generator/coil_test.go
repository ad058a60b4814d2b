package generator

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
)

func TestWheelerPublished(t *testing.T) {
	const source = "H. A. Wheeler, Proc. IRE 16 (1928) 1398"
	const inch = 0.0254
	kit.Near(t, source, wheeler(inch, inch, inch, 100), 320e-6, 1e-6)
	kit.Near(t, source, wheeler(0.6*inch, 0.35*inch, 0.35*inch, 80), 179.824e-6, 3e-6)
	// H. B. Brooks, NBS J. Res. 7 (1931): L/(a·N²) = 1.6994 µH/m for a square
	// section of two thirds of the mean radius; Wheeler's form is near it.
	a := 0.03
	kit.Near(t, "Brooks coil", wheeler(a, a/1.5, a/1.5, 1)/a, 1.6994e-6, 0.02)
}

// ringsMutual is the mutual inductance of two rings, by Neumann's integral.
func ringsMutual(r1, r2, z float64) float64 {
	return mu0 * r1 * r2 / 2 * quad.Fixed(func(x float64) float64 {
		return 2 * math.Cos(x) / math.Sqrt(r1*r1+r2*r2+z*z-2*r1*r2*math.Cos(x))
	}, 0, math.Pi, 400, nil, 0)
}

// TestWheelerByFilaments sums the mutual inductances of rings over the section.
func TestWheelerByFilaments(t *testing.T) {
	a, b, c := 0.0254, 0.0254, 0.0254
	n := 10
	sum := 0.0
	for i := range n {
		for j := range n {
			r1, r2 := a+c*((float64(i)+0.5)/float64(n)-0.5), a+c*((float64(j)+0.5)/float64(n)-0.5)
			for k := range n {
				weight := 2.0
				z := b * float64(k) / float64(n)
				if k == 0 {
					weight = 1
				}
				if k == 0 && i == j {
					z = 0.2235 * 2 * b / float64(n) // geometric mean distance of a square of side b/n from itself: 0.447·side
				}
				sum += weight * float64(n-k) * ringsMutual(r1, r2, z)
			}
		}
	}
	// A uniform-current field integral gives 321.69 µH, 0.5 % above Wheeler.
	kit.Near(t, "filaments", sum/float64(n*n*n*n)*1e4, 321.69e-6, 2e-3)
	kit.Near(t, "Wheeler", wheeler(a, b, c, 100), sum/float64(n*n*n*n)*1e4, 1e-2)
}

func lapwingCoil(t *testing.T) CoilResult {
	t.Helper()
	w, _ := Awg(AwgInput{Gauge: 21, Temperature: roomKelvin})
	c, err := Coil(CoilInput{Turns: 87, Wire: Winding{Diameter: w.Diameter, OverallDiameter: &w.OverallDiameter}, Shape: "round",
		Opening: 10e-3, Leg: 9e-3, Height: 8e-3, Temperature: zeroCelsius + 40, FillFactor: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestCoil(t *testing.T) {
	// N = kf·A_w/A_Cu (geometry): window 10 x 8 mm, fill 0.5, AWG 24: 195 turns.
	w, _ := Awg(AwgInput{Gauge: 24, Temperature: roomKelvin})
	in := CoilInput{Turns: 120, Wire: Winding{Diameter: w.Diameter}, Shape: "round", Opening: 94e-3/math.Pi - 10e-3, Leg: 10e-3, Height: 8e-3,
		Temperature: roomKelvin, FillFactor: 0.5}
	c, err := Coil(in)
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "turns that fit", c.TurnsThatFit, 195, 0)
	kit.Near(t, "mean turn", c.MeanTurn, 94e-3, 1e-12)
	kit.Near(t, "R = ρNl/A", c.Resistance, 0.949946, 2e-6)
	kit.Near(t, "copper mass, density from IACS", c.CopperMass, 20.5302e-3, 3e-6)
	if len(c.List) != 0 {
		t.Errorf("cautions %v", c.List)
	}
	in.Turns, in.Current = 260, 3
	c, _ = Coil(in)
	if len(c.List) != 2 || c.List[0].ID != "turns-do-not-fit" || c.List[1].ID != "winding-current-density" {
		t.Errorf("cautions %v", c.List)
	}
	lapwing := lapwingCoil(t)
	if lapwing.Turns != 87 || lapwing.TurnsThatFit != 87 {
		t.Errorf("%g turns fit, want 87", lapwing.TurnsThatFit)
	}
}

// TestShapes holds mean turns against the round one's and each other's.
func TestShapes(t *testing.T) {
	base := CoilInput{Turns: 10, Wire: Winding{Diameter: 1e-3}, Opening: 20e-3, Leg: 6e-3, Height: 10e-3, Temperature: roomKelvin, FillFactor: 0.5}
	base.Shape, base.OpeningWidth, base.OpeningInnerWidth = "trapezoid", new(14e-3), new(14e-3)
	a, _ := Coil(base)
	base.Shape = "rectangular"
	b, _ := Coil(base)
	kit.Near(t, "a trapezoid of equal widths is a rectangle", a.MeanTurn, b.MeanTurn, 1e-14)
	kit.Near(t, "rectangle", b.MeanTurn, 2*(20e-3+14e-3)+math.Pi*6e-3, 1e-14)
	base.OpeningWidth = nil
	if _, err := Coil(base); err == nil {
		t.Error("a rectangle without a width has no answer")
	}
}

func TestPackingPublished(t *testing.T) {
	// Geometry: square packing is π/4, with enamel π/4·(d/D)² of a wide window.
	fill := func(bare, overall float64) float64 {
		return squareRoom(1, overall) * math.Pi / 4 * bare * bare
	}
	kit.Near(t, "square packing", fill(1e-4, 1e-4), 0.7853982, 1e-7)
	kit.Near(t, "0.50 mm bare, 0.56 mm overall", fill(0.5e-3, 0.56e-3), 0.6261146, 1e-6)
}

func TestCurrentDensityPublished(t *testing.T) {
	// A hobby wire table's 500 and 750 cmil/A are 3.9471 and 2.6314 A/mm²: both
	// within what small coils bear for long, so neither is cautioned.
	for _, c := range []struct{ cmil, want float64 }{{500, 3.9471}, {700, 2.8193}, {750, 2.6314}} {
		d := 25.4e-6 * math.Sqrt(c.cmil)
		r, err := Coil(CoilInput{Turns: 1, Wire: Winding{Diameter: d}, Shape: "round", Opening: 10e-3, Leg: 5e-3, Height: 5e-3,
			Temperature: roomKelvin, FillFactor: 0.5, Current: 1})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, "A/mm²", r.CurrentDensity/1e6, c.want, 2e-5)
		if len(r.List) != 0 {
			t.Errorf("%v", r.List)
		}
	}
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
	kit.Near(t, "Wheeler, one layer", sum, 43.1034e-6, 0.01)
}

// TestRoundCoilWithAWidth: an input that does nothing is refused.
func TestRoundCoilWithAWidth(t *testing.T) {
	in := CoilInput{Turns: 87, Wire: Winding{Diameter: 0.7e-3}, Shape: "round", Opening: 10e-3, Leg: 9e-3, Height: 8e-3, Temperature: roomKelvin, FillFactor: 0.5, OpeningWidth: new(5e-3)}
	_, err := Coil(in)
	kit.Refuses(t, err, "opening_width")
	in.OpeningWidth, in.OpeningInnerWidth = nil, new(5e-3)
	_, err = Coil(in)
	kit.Refuses(t, err, "opening_inner_width")
}
