package units

import (
	"math"
	"strings"
	"testing"
)

// near compares with a relative tolerance; zero is compared absolutely.
func near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*math.Max(math.Abs(want), math.SmallestNonzeroFloat64/relative)
}

// Tolerances: of a product rounded to ten digits or more, and of the seven
// digits that NIST prints.
const (
	ten   = 1e-10
	seven = 6e-7
)

const (
	nist    = "NIST SP 811 (2008), App. B.8/B.9"
	defined = "defined factors: 1 in = 0.0254 m, 1 lb = 0.453 592 37 kg, g_n = 9.806 65 m/s² (NIST SP 811; ISO 80000)"
)

// factors are the units that are not coherent, each beside its published value:
// one row for every entry of the table (TestEveryUnit), and compounds of them.
var factors = []struct {
	unit    string
	si      string
	exactly float64 // the product of the defining factors
	printed float64 // as NIST prints it, 0 where it does not
	source  string
}{
	{"in", "m", 0.0254, 2.54e-2, nist},
	{"inch", "m", 0.0254, 2.54e-2, nist},
	{"ft", "m", 0.3048, 3.048e-1, nist},
	{"mil", "m", 2.54e-05, 2.54e-5, nist},
	{"mile", "m", 1609.344, 1.609344e3, nist},
	{"nmi", "m", 1852, 1.852e3, nist},
	{"lb", "kg", 0.45359237, 4.535924e-1, nist},
	{"oz", "kg", 0.028349523125, 2.834952e-2, nist},
	{"slug", "kg", 14.5939029372064, 1.459390e1, nist},
	{"lbf", "N", 4.4482216152605, 4.448222, nist},
	{"ozf", "N", 0.278013850953781, 2.780139e-1, nist},
	{"kgf", "N", 9.80665, 9.80665, nist},
	{"pdl", "N", 0.138254954376, 1.382550e-1, nist},
	{"ozf·in", "N·m", 0.00706155181422604, 7.061552e-3, nist},
	{"gf·cm", "N·m", 9.80665e-05, 0, defined},
	{"hpmech", "W", 745.69987158227, 7.456999e2, nist},
	{"hpmetric", "W", 735.49875, 7.354988e2, nist},
	{"hpelectric", "W", 746, 7.46e2, nist},
	{"Wh", "J", 3600, 0, defined},
	{"mAh", "C", 3.6, 0, defined},
	{"G", "T", 0.0001, 1.0e-4, nist},
	{"Mx", "Wb", 1e-08, 1.0e-8, nist},
	{"psi", "Pa", 6894.75729316836, 6.894757e3, nist},
	{"atm", "Pa", 101325, 1.01325e5, nist},
	{"mph", "m/s", 0.44704, 4.4704e-1, nist},
	{"kn", "m/s", 0.514444444444444, 5.144444e-1, nist},
	{"knot", "m/s", 0.514444444444444, 5.144444e-1, nist},
	{"ft/min", "m/s", 0.00508, 0, defined},
	{"oz/ft^2", "kg/m²", 0.305151727273941, 0, defined},
	{"g/dm^2", "kg/m²", 0.1, 0, defined},
	{"ft·lbf", "J", 1.3558179483314, 0, defined},
	{"cal", "J", 4.184, 4.184, nist},
	{"cmil", "m²", 5.06707479097e-10, 5.067075e-10, nist},
	{"Oe", "A/m", 79.5774715459, 7.957747e1, nist},
	{"Gb", "A", 0.795774715459, 7.957747e-1, nist},
	{"MGOe", "J/m³", 7957.747155, 0, "from gauss and oersted, definition"},
	{"rpm", "rad/s", 0.10471975511966, 0, "definition of the revolution, NIST SP 811"},
	{"rpm/V", "rad/(s·V)", 0.10471975511966, 0, "definition of the revolution, NIST SP 811"},
	// Not published in the same table, from the definitions.
	{"yd", "m", 0.9144, 0, defined},
	{"km/h", "m/s", 1 / 3.6, 0, "definition of hour, SI Brochure table 8"},
	{"day", "s", 86400, 0, "SI Brochure table 8"},
	{"h", "s", 3600, 0, "SI Brochure table 8"},
	{"min", "s", 60, 0, "SI Brochure table 8"},
	{"L", "m³", 1e-3, 0, "SI Brochure table 8"},
	{"bar", "Pa", 1e5, 0, "NIST SP 811 App. B.8, from memory"},
	{"mbar", "Pa", 100, 0, "NIST SP 811 App. B.8, from memory"},
	{"inHg", "Pa", 13595.1 * 9.80665 * 0.0254, 3.386389e3, "NIST SP 811 App. B.8, from memory"},
	{"°", "rad", math.Pi / 180, 0, "SI Brochure table 8"},
	{"%", "1", 0.01, 0, "SI Brochure 5.4.7"},
	{"ppm", "1", 1e-6, 0, "NIST SP 811 7.10.3"},
	{"gf", "N", 9.80665e-3, 0, defined},
	{"Ah", "C", 3600, 3.6e3, "NIST SP 811 App. B.8, from memory"},
	{"′", "rad", math.Pi / 10800, 2.908882e-4, "NIST SP 811 App. B.8, from memory"},
	{"″", "rad", math.Pi / 648000, 4.848137e-6, "NIST SP 811 App. B.8, from memory"},
	{"rev", "rad", 2 * math.Pi, 6.283185, "NIST SP 811 App. B.8"},
	{"turn", "rad", 2 * math.Pi, 6.283185, "NIST SP 811 App. B.8"},
	{"eV", "J", 1.602176634e-19, 1.602177e-19, "SI Brochure table 8, exact since 2019; NIST SP 811 App. B.8, from memory"},
}

func TestFactors(t *testing.T) {
	for _, c := range factors {
		u, si := MustParse(c.unit), MustParse(c.si)
		if u.Kind.Dim != si.Kind.Dim || si.ToSI(1) != 1 {
			t.Errorf("%s is %v, not in %s", c.unit, u.Kind, c.si)
		}
		if got := u.ToSI(1); !near(got, c.exactly, ten) {
			t.Errorf("1 %s = %.16g %s, want %.16g (%s)", c.unit, got, c.si, c.exactly, c.source)
		}
		if got := u.ToSI(1); c.printed != 0 && !near(got, c.printed, seven) {
			t.Errorf("1 %s = %.16g %s, printed %.7g (%s)", c.unit, got, c.si, c.printed, c.source)
		}
	}
}

// TestEveryUnit wants a row for each unit of the table: of a coherent one in
// siNames, of a scale in TestTemperatures, of any other in factors.
func TestEveryUnit(t *testing.T) {
	known := map[string]bool{"°C": true, "°F": true}
	for _, c := range minorUnits {
		for _, symbol := range strings.Fields(c.symbols) {
			known[symbol] = true
		}
	}
	for _, symbol := range []string{"m", "g", "s", "A", "K", "mol", "cd"} { // base units; g by its prefix
		known[symbol] = true
	}
	for _, c := range siNames {
		known[c[0]] = true
	}
	for _, c := range factors {
		known[c.unit] = true
	}
	for _, u := range All() {
		if !known[u.Symbol] {
			t.Errorf("%s has no row: give its published value in factors, with the source", u.Symbol)
		}
	}
}

// Whole numbers of a unit that is a decimal ratio convert to the float64
// nearest to the exact value, not to a neighbour.
func TestNearest(t *testing.T) {
	for _, c := range []struct {
		x    float64
		unit string
		want float64
	}{
		{33, "µF", 33e-6}, {47, "nF", 47e-9}, {47, "mF", 0.047}, {3, "mm", 3e-3}, {2.5, "kΩ", 2500},
		{7, "%", 0.07}, {68, "mm^2", 68e-6}, {11, "g/dm^2", 1.1}, {9.5, "in", 0.2413}, {2200, "mAh", 7920},
		{1, "kg", 1}, {1, "g", 1e-3}, {3, "mil", 7.62e-5}, {36, "km/h", 10},
	} {
		if got := MustParse(c.unit).ToSI(c.x); got != c.want {
			t.Errorf("%v %s = %.17g, want %.17g", c.x, c.unit, got, c.want)
		}
	}
}

func TestTemperatures(t *testing.T) {
	const source = "NIST SP 811, App. B.9: t/°C = (t/°F - 32)/1.8, T/K = t/°C + 273.15"
	for _, c := range []struct{ fahrenheit, celsius, kelvin float64 }{{59, 15, 288.15}, {-40, -40, 233.15}, {104, 40, 313.15}} {
		f, deg := MustParse("°F"), MustParse("°C")
		k := f.ToSI(c.fahrenheit)
		if !near(k, c.kelvin, ten) || !near(deg.FromSI(k), c.celsius, ten) || !near(f.FromSI(k), c.fahrenheit, ten) {
			t.Errorf("%v °F = %v K = %v °C (%s)", c.fahrenheit, k, deg.FromSI(k), source)
		}
		if got := deg.ToSI(c.celsius); !near(got, c.kelvin, ten) {
			t.Errorf("%v °C = %v K (%s)", c.celsius, got, source)
		}
	}
	for _, c := range []struct {
		unit    string
		x, want float64
	}{{"°F", 18, 10}, {"°F", 45, 25}, {"°C", 10, 10}} { // NIST SP 811, temperature intervals
		d := MustParse(c.unit).Difference()
		if got := d.ToSI(c.x); !near(got, c.want, ten) || d.Kind.Point || d.String() != c.unit || !near(d.FromSI(got), c.x, ten) {
			t.Errorf("a difference of %v %s = %v K, want %v", c.x, d, got, c.want)
		}
	}
	for _, text := range []string{"W/°C", "1/°C", "°C/W", "m·°C", "°C²"} {
		if u := MustParse(text); u.Kind.Point || u.ToSI(1) != 1 {
			t.Errorf("%s is not a difference: %v", text, u.Kind)
		}
	}
	if u := MustParse("W/°F"); !near(u.ToSI(1), 1.8, ten) {
		t.Errorf("W/°F = %v W/K", u.ToSI(1))
	}
}

// Values that need more than one unit, from the definitions.
func TestWorked(t *testing.T) {
	for _, c := range []struct {
		what           string
		si             float64
		unit           string
		want, relative float64
	}{
		{"speed constant of 1000 rpm/V", MustParse("rpm/V").ToSI(1000), "rad/(s·V)", 104.7197551, 1e-9},
		{"its torque constant", 1 / MustParse("rpm/V").ToSI(1000), "N·m/A", 0.009549296586, 1e-9},
		{"torque constant of 2450 rpm/V", 1 / MustParse("rpm/V").ToSI(2450), "N·m/A", 0.003897672076, 1e-9},
		{"the same in ozf·in/A", 1 / MustParse("rpm/V").ToSI(2450), "ozf·in/A", 0.5519569, 1e-6},
		{"2200 mAh at 3.7 V", MustParse("mAh").ToSI(2200) * 3.7, "Wh", 8.14, ten},
		{"2200 mAh at 3.7 V", MustParse("mAh").ToSI(2200) * 3.7, "J", 29304, ten},
		{"wing loading 8 oz/ft²", MustParse("oz/ft²").ToSI(8), "kg/m²", 2.4412138, 1e-8},
		{"wing loading 8 oz/ft²", MustParse("oz/ft²").ToSI(8), "g/dm²", 24.412138, 1e-8},
		{"wing loading 8 oz/ft² as weight", MustParse("oz/ft²").ToSI(8) * 9.80665, "N/m²", 23.940129, 2.1e-8},
		{"wing loading 14.5 oz/ft²", MustParse("oz/ft²").ToSI(14.5), "g/dm²", 44.247, 2e-6},
		{"wing loading 14.5 oz/ft² as weight", MustParse("oz/ft²").ToSI(14.5) * 9.80665, "Pa", 43.391485, 2e-8},
		{"magnet of 1 MGOe", MustParse("MGOe").ToSI(1), "kJ/m³", 7.957747155, ten},
	} {
		if got := MustParse(c.unit).FromSI(c.si); !near(got, c.want, c.relative) {
			t.Errorf("%s = %.10g %s, want %.10g", c.what, got, c.unit, c.want)
		}
	}
}

// siNames are SI units with names of their own, in base units. Source: SI Brochure, 9th ed., table 4.
var siNames = [][2]string{
	{"rad", "1"}, {"sr", "1"}, {"Hz", "s^-1"}, {"N", "kg·m·s^-2"}, {"Pa", "kg·m^-1·s^-2"}, {"J", "kg·m^2·s^-2"},
	{"W", "kg·m^2·s^-3"}, {"C", "A·s"}, {"V", "kg·m^2·s^-3·A^-1"}, {"F", "kg^-1·m^-2·s^4·A^2"},
	{"Ω", "kg·m^2·s^-3·A^-2"}, {"S", "kg^-1·m^-2·s^3·A^2"}, {"Wb", "kg·m^2·s^-2·A^-1"}, {"T", "kg·s^-2·A^-1"},
	{"H", "kg·m^2·s^-2·A^-2"}, {"lm", "cd·sr"}, {"lx", "cd·sr·m^-2"}, {"Bq", "s^-1"}, {"Gy", "m^2·s^-2"},
	{"Sv", "m^2·s^-2"}, {"kat", "mol·s^-1"},
}

func TestDerived(t *testing.T) {
	for _, c := range siNames {
		a, b := MustParse(c[0]), MustParse(c[1])
		if a.Kind.Dim != b.Kind.Dim || a.ToSI(1) != 1 || b.ToSI(1) != 1 {
			t.Errorf("%s is not %s", c[0], c[1])
		}
	}
}

// Source: SI Brochure, 9th ed. (updated 2022), table 7.
func TestPrefixes(t *testing.T) {
	want := map[string]float64{"q": 1e-30, "r": 1e-27, "y": 1e-24, "z": 1e-21, "a": 1e-18, "f": 1e-15, "p": 1e-12,
		"n": 1e-9, "µ": 1e-6, "μ": 1e-6, "u": 1e-6, "m": 1e-3, "c": 1e-2, "d": 1e-1, "da": 1e1, "h": 1e2, "k": 1e3, "M": 1e6,
		"G": 1e9, "T": 1e12, "P": 1e15, "E": 1e18, "Z": 1e21, "Y": 1e24, "R": 1e27, "Q": 1e30}
	if len(want) != len(prefixes)+2 {
		t.Fatalf("%d prefixes", len(prefixes))
	}
	for symbol, factor := range want {
		if got := MustParse(symbol + "m").ToSI(1); !near(got, factor, 1e-15) {
			t.Errorf("%sm = %g m", symbol, got)
		}
		// A prefixed unit is raised to a power as a whole: 1 cm³ = 1e-6 m³.
		if got := MustParse(symbol + "m^3").ToSI(1); !near(got, factor*factor*factor, 1e-14) {
			t.Errorf("%sm³ = %g m³", symbol, got)
		}
	}
}
