package units

import (
	"math/rand/v2"
	"testing"
)

// anyDimension is a product of small, mostly whole powers.
func anyDimension(r *rand.Rand) Dimension {
	var d Dimension
	for i := range d.powers {
		if r.IntN(2) == 0 {
			d.powers[i], _ = fraction(r.IntN(9)-4, []int{1, 1, 1, 2, 3}[r.IntN(5)])
		}
	}
	return d
}

func TestDimensionIsAGroup(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	one := Dimension{}
	for range 20000 {
		a, b, c := anyDimension(r), anyDimension(r), anyDimension(r)
		if a.Mul(b) != b.Mul(a) {
			t.Fatalf("%v, %v do not commute", a, b)
		}
		if a.Mul(b).Mul(c) != a.Mul(b.Mul(c)) {
			t.Fatalf("%v, %v, %v do not associate", a, b, c)
		}
		if a.Mul(one) != a || a.Div(one) != a || a.Div(a) != one || a.Mul(b).Div(b) != a {
			t.Fatalf("%v, %v: identity or inverse", a, b)
		}
	}
}

func TestPow(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 20000 {
		d, n, m := anyDimension(r), 1+r.IntN(5), 1+r.IntN(3)
		if p, ok := d.Pow(3, 1); !ok || p != d.Mul(d).Mul(d) {
			t.Fatalf("%v cubed is %v", d, p)
		}
		up, ok := d.Pow(n, m)
		if !ok {
			t.Fatalf("%v^(%d/%d) is out of range", d, n, m)
		}
		if down, ok := up.Pow(m, n); !ok || down != d {
			t.Fatalf("(%v^(%d/%d))^(%d/%d) is %v", d, n, m, m, n, down)
		}
		if inverse, ok := d.Pow(-1, 1); !ok || inverse != (Dimension{}).Div(d) {
			t.Fatalf("%v^-1 is %v", d, inverse)
		}
	}
	if p, ok := temperature.Pow(0, 1); !ok || !p.IsNumber() {
		t.Error("K^0 is no number")
	}
}

func TestPowRange(t *testing.T) {
	m := MustParse("m").Kind.Dim
	const smallest = -1 << 63
	for _, c := range []struct {
		num, den int
		ok       bool
	}{
		{MaxPower, 1, true}, {MaxPower + 1, 1, false}, {-MaxPower, 1, true}, {-MaxPower - 1, 1, false},
		{1, MaxPower, true}, {1, MaxPower + 1, false}, {2, 2 * MaxPower, true}, {1, 0, false}, {0, 0, false},
		{smallest, 1, false}, {1, smallest, false}, {smallest, smallest, true}, {3, -2, true},
	} {
		if _, ok := m.Pow(c.num, c.den); ok != c.ok {
			t.Errorf("m^(%d/%d): ok is %v", c.num, c.den, ok)
		}
	}
	most, _ := m.Pow(MaxPower, 1)
	past := most.Mul(m)
	if past.InRange() || past.Div(m).InRange() || past.IsNumber() || past.SIUnit() != "?" {
		t.Errorf("m^101 is %v", past)
	}
	if _, ok := past.Pow(1, 2); ok {
		t.Error("the root of what is out of range is in range")
	}
	if got := (Kind{Dim: past}).String(); got != "a quantity whose exponents are out of range" {
		t.Error(got)
	}
	if got := Show(2, Fitting(Kind{Dim: past}, 2), 3); got != "2 ?" {
		t.Error(got)
	}
}

func TestNames(t *testing.T) {
	for _, c := range [][3]string{ // a unit, its coherent unit and its name
		{"mAh", "C", "charge"}, {"Wh", "J", "energy"}, {"N·m", "J", "energy"}, {"kV", "V", "voltage"}, {"km/h", "m/s", "speed"},
		{"g/dm^2", "kg/m²", "mass per area"}, {"N/kg", "m/s²", "acceleration"}, {"V/A", "Ω", "resistance"},
		{"V·s", "Wb", "magnetic flux"}, {"G", "T", "magnetic flux density"}, {"psi", "Pa", "pressure"}, {"L", "m³", "volume"},
		{"g/cm^3", "kg/m³", "density"}, {"J/s", "W", "power"}, {"A·s/V", "F", "capacitance"}, {"rpm", "1/s", "frequency"},
		{"rpm/V", "1/(V·s)", "speed constant"}, {"A/mm^2", "A/m²", "current density"}, {"W/(m^2·K)", "W/(m²·K)", "heat transfer coefficient"},
		{"%", "1", "pure number"}, {"kg·m^3", "m³·kg", ""}, {"m^0.5", "m^(1/2)", ""}, {"V^2", "", ""}, {"1/m^5", "1/m⁵", ""},
	} {
		d := MustParse(c[0]).Kind.Dim
		if c[1] != "" && c[1] != "m³·kg" && d.SIUnit() != c[1] || d.Name() != c[2] {
			t.Errorf("%s: %q, %q", c[0], d.SIUnit(), d.Name())
		}
	}
	for _, q := range usualQuantities {
		u := MustParse(q.unit)
		if u.ToSI(1) != 1 || u.Kind.Dim.SIUnit() != q.unit || u.Kind.Dim.Name() != q.name {
			t.Errorf("%s (%s) is listed twice or not coherent", q.unit, q.name)
		}
	}
}

func TestKindString(t *testing.T) {
	for text, want := range map[string]string{
		"mV": "a voltage (V)", "J": "an energy (J)", "1": "a pure number", "%": "a pure number", "deg": "a pure number",
		"rpm": "a rotation (rad/s)", "min^-1": "a rate (Hz)", "V/Wb": "a number per time (1/s)", "°C": "a temperature (°C)",
		"K": "a temperature difference (K)", "kg·m^3": "a quantity in kg·m³", "F": "a capacitance (F)",
	} {
		if got := MustParse(text).Kind.String(); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// Every dimension's coherent unit is read back as that dimension.
func TestSIUnitIsRead(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 5000 {
		d := anyDimension(r)
		u, err := Parse(d.SIUnit())
		if err != nil || u.Kind.Dim != d || u.ToSI(1) != 1 {
			t.Fatalf("%s: %v, %v", d.SIUnit(), u.Kind.Dim, err)
		}
	}
}

func BenchmarkMul(b *testing.B) {
	b.ReportAllocs()
	v, a := MustParse("V").Kind.Dim, MustParse("A").Kind.Dim
	for b.Loop() {
		v.Mul(a)
	}
}

// TestCompound writes what has no usual unit in the fewest symbols; each must
// read back as its dimension.
func TestCompound(t *testing.T) {
	for _, c := range []struct{ unit, want string }{
		{"V^2", "V²"}, {"V^(1/2)", "V^(1/2)"}, {"A*s^2", "C·s"}, {"W/(m*s)", "N/s²"}, {"V/(K*s)", "V/(s·K)"}, {"F*V^2*s^2", "kg·m²"},
		{"m^5", "m⁵"}, {"kg*m", "kg·m"}, {"1/V^2", "1/V²"}, {"mol/s^2", "mol/s²"},
	} {
		d := MustParse(c.unit).Kind.Dim
		if got := d.SIUnit(); got != c.want {
			t.Errorf("%s is written %s, want %s", c.unit, got, c.want)
		}
		if back, err := Parse(d.SIUnit()); err != nil || back.Kind.Dim != d || back.ToSI(1) != 1 {
			t.Errorf("%s does not read back: %v", d.SIUnit(), err)
		}
	}
}
