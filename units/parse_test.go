package units

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	for _, c := range []struct{ text, written, si string }{
		{"m/s^2", "m/s²", "m/s²"}, {"m/s²", "m/s²", "m/s²"}, {"N·m", "N·m", "J"}, {"N*m", "N·m", "J"}, {"N⋅m", "N·m", "J"},
		{"kg·m^2", "kg·m²", "kg·m²"}, {"W/(m^2·K)", "W/(m²·K)", "W/(m²·K)"}, {"min^-1", "min⁻¹", "1/s"}, {"min⁻¹", "min⁻¹", "1/s"},
		{"m^0.5", "m^(1/2)", ""}, {"m^(1/2)", "m^(1/2)", ""}, {"m^(-1/2)", "m^(-1/2)", ""}, {"m^(2)", "m²", "m²"}, {"s^−1", "s⁻¹", "1/s"},
		{"s^+2", "s²", ""}, {"\u00b5F", "µF", "F"}, {"\u03bcF", "µF", "F"}, {"uF", "µF", "F"}, {"Ω", "Ω", "Ω"}, {"\u2126", "Ω", "Ω"},
		{"ohm", "Ω", "Ω"}, {"kohm", "kΩ", "Ω"}, {"m\u2126", "mΩ", "Ω"}, {"uohm", "µΩ", "Ω"}, {"1", "", "1"}, {"1/s", "1/s", "1/s"},
		{"1/K", "1/K", "1/K"}, {"1/(V·s)", "1/(V·s)", "1/(V·s)"}, {"deg", "°", "1"}, {"deg/s", "°/s", "1/s"}, {"inch", "in", "m"},
		{"(m/s)^2", "m²/s²", "J/kg"}, {"(m/s)/s", "m/(s·s)", "m/s²"}, {"((m))", "m", "m"}, {"m/(s/kg)", "m·kg/s", ""},
		{"1/(1/s)", "s", "s"}, {"l", "L", "m³"}, {"ml", "mL", "m³"}, {" V ", "V", "V"}, {"knot", "kn", "m/s"}, {"degC", "°C", "K"},
		{"\u212a", "K", "K"}, {"s·m", "s·m", ""}, {"kWh/day", "kWh/day", "W"}, {"A·h", "A·h", "C"}, {"Pa·m³/s", "Pa·m³/s", "W"}, {"m·s^-1", "m·s⁻¹", "m/s"},
		{"MA", "MA", "A"}, {"mA", "mA", "A"}, {"min", "min", "s"}, {"cd", "cd", "cd"}, {"Pa", "Pa", "Pa"}, {"PA", "PA", "A"}, {"Gy", "Gy", "J/kg"},
		{"dam", "dam", "m"}, {"dm", "dm", "m"}, {"mm", "mm", "m"}, {"ft", "ft", "m"}, {"nmi", "nmi", "m"}, {"in", "in", "m"}, {"m^10", "m¹⁰", "m¹⁰"},
	} {
		u, err := Parse(c.text)
		if err != nil || u.String() != c.written || c.si != "" && u.Kind.Dim.SIUnit() != c.si {
			t.Errorf("%q: %q in %q, %v; want %q in %q", c.text, u, u.Kind.Dim.SIUnit(), err, c.written, c.si)
		}
		if again, err := Parse(u.String()); u.String() != "" && (err != nil || again != u) {
			t.Errorf("%q: %q is read as %q, %v", c.text, u, again, err)
		}
	}
	if (Unit{}).IsZero() != true || MustParse("1").IsZero() || (Unit{}).ToSI(3) != 3 || (Unit{}).FromSI(3) != 3 {
		t.Error("no unit and the unit 1 are mixed up")
	}
}

func TestMarks(t *testing.T) {
	for text, want := range map[string]Mark{
		"rad/s": Rotation, "deg/s": Rotation, "°/s": Rotation, "rev/s": Rotation, "rpm": Rotation, "rev/min": Rotation, "mrad/s": Rotation,
		"rad·s^-1": Rotation, "(rad/s)": Rotation, "s^-1·rad": Rotation, "rad·Hz": Rotation,
		"Hz": Rate, "kHz": Rate, "s^-1": Rate, "min^-1": Rate, "1/s": Rate, "1/h": Rate, "(1/s)": Rate,
		"rpm/V": Neutral, "V·s/rad": Neutral, "V/Wb": Neutral, "m/(s·m)": Neutral, "%/s": Neutral, "rad": Neutral, "V": Neutral,
		"rad/s^2": Neutral, "1/(s·rad)": Neutral, "rad²/s": Neutral, "rpm·min": Neutral, "s": Neutral, "Hz²": Neutral,
	} {
		if got := MustParse(text).Kind.Mark; got != want {
			t.Errorf("%s has mark %d, want %d", text, got, want)
		}
	}
}

// Every unit with every prefix and power is written so that it is read as the
// same unit, above and below a solidus.
func TestRoundTrip(t *testing.T) {
	powers := []string{"", "^2", "^3", "^-1", "^-2", "^-3", "^0.5", "^(-1/2)", "^(3/2)", "^4"}
	count := 0
	for _, c := range candidates() {
		for _, power := range powers {
			for _, frame := range []string{"", "1/", "m·", "V/", "W/(m²·", "rad/"} {
				text := frame + c.typed + power
				if strings.Contains(frame, "(") {
					text += ")"
				}
				u, err := Parse(text)
				if err != nil {
					t.Fatalf("%s: %v", text, err)
				}
				again, err := Parse(u.String())
				if err != nil || again != u {
					t.Fatalf("%s is written %s, which is read as %+v, not %+v (%v)", text, u, again, u, err)
				}
				count++
			}
		}
	}
	t.Logf("%d units", count)
}

// Powers of a symbol multiply its factor, by the independent route of
// repeated multiplication.
func TestFactorsMultiply(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	list := candidates()
	for range 5000 {
		a, b := list[r.IntN(len(list))].typed, list[r.IntN(len(list))].typed
		x, y := MustParse(a).Difference().ToSI(1), MustParse(b).Difference().ToSI(1)
		if got := MustParse(a + "^2/" + b).ToSI(1); !near(got, x*x/y, 1e-14) {
			t.Fatalf("%s²/%s = %g, want %g", a, b, got, x*x/y)
		}
		if got := MustParse("(" + a + "·" + b + ")^(1/2)").ToSI(1); !near(got, math.Sqrt(x)*math.Sqrt(y), 1e-14) {
			t.Fatalf("√(%s·%s) = %g", a, b, got)
		}
	}
}

func TestErrors(t *testing.T) {
	for _, c := range []struct {
		text, at, says, hint, suggest string // hint: what must be in it
	}{
		{"Kohm", "Kohm", "Kohm is no unit", "write kΩ", "kΩ"},
		{"KV", "KV", "KV is no unit", "write kV", "kV"},
		{"Mah", "Mah", "Mah is no unit", "mAh (milli) or MAh (mega)", "mAh"},
		{"RPM", "RPM", "RPM is no unit", "write rpm", "rpm"},
		{"hz", "hz", "hz is no unit", "write Hz", "Hz"},
		{"m/S^2/K", "m/S^2/K", "more than one factor", "write m/(S^2·K)", "m/(S^2·K)"},
		{"a/b/c", "a", "a is no unit", "", ""},
		{"m/s/s", "m/s/s", "more than one factor stands behind /", "write m/(s·s)", "m/(s·s)"},
		{"W/m^2·K", "W/m^2·K", "more than one factor stands behind /", "write W/(m^2·K)", "W/(m^2·K)"},
		{"(m/s/s)·kg", "(m/s/s)·kg", "more than one factor stands behind /", "brackets", "(m/(s·s))·kg"},
		{"(m/s/(s))·kg", "/s/(s)", "more than one factor stands behind /", "brackets", ""},
		{"m/(s)/(s)", "/(s)/(s)", "more than one factor stands behind /", "brackets", ""},
		{"R", "R", "R is no unit", "", ""},
		{"V/R", "R", "R is no unit", "", ""},
		{"Nm", "Nm", "Nm is no unit", "write N·m", "N·m"},
		{"mNm", "mNm", "mNm is no unit", "write mN·m", "mN·m"},
		{"VA", "VA", "VA is no unit", "write V·A", "V·A"},
		{"Pas", "Pas", "Pas is no unit", "write Pa·s", "Pa·s"},
		{"ozin", "ozin", "ozin is no unit", "write ozf·in", "ozf·in"},
		{"hp", "hp", "hp may be three units", "hpmech (550 ft·lbf/s, 745.7 W), hpmetric (735.5 W) or hpelectric (746 W)", ""},
		{"turns", "turns", "turns may be an angle or a count", "write rev or turn", ""},
		{"t", "t", "t is no unit", "write Mg or kg", "Mg"},
		{"a", "a", "a is no unit", "", ""}, {"d", "d", "d is no unit", "write day", "day"}, {"u", "u", "u is no unit", "", ""},
		{"kkg", "kkg", "kkg is no unit", "one prefix", ""}, {"µµF", "µµF", "µµF is no unit", "one prefix", ""},
		{"kft", "kft", "kft is no unit", "ft takes no prefix", ""}, {"krpm", "krpm", "krpm is no unit", "rpm takes no prefix", ""},
		{"volts", "volts", "volts is no unit", "write V", "V"}, {"Amps", "Amps", "Amps is no unit", "write A", "A"},
		{"vots", "vots", "vots is no unit", "did you mean V?", "V"}, {"mAhr", "mAhr", "mAhr is no unit", "did you mean mAh?", "mAh"},
		{"hrs", "hrs", "hrs is no unit", "write h", "h"}, {"lbs", "lbs", "lbs is no unit", "write lb", "lb"},
		{"kph", "kph", "kph is no unit", "write km/h", "km/h"}, {"C°", "C°", "C° is no unit", "write °C", "°C"},
		{"√Hz", "√Hz", "√Hz is no unit", "write Hz^(1/2)", "Hz^(1/2)"},
		{"m2", "m2", "m2 is no unit", "write an exponent as m^2", "m^2"},
		{"kg/m3", "m3", "m3 is no unit", "write an exponent as m^3", "m^3"},
		{"min-1", "min-1", "min-1 is no unit", "write an exponent as min^-1", "min^-1"},
		{"m^1/2", "2", "the number 2 stands in a unit", "m^(1/2)", ""},
		{"N m", "m", "a unit has no blanks inside", "N·m", ""},
		{"", "", "a unit is missing here", "write 1", ""}, {"  ", "  ", "a unit is missing here", "write 1", ""},
		{"m/", "/", "a unit is missing behind /", "", ""}, {"m·", "·", "a unit is missing behind ·", "", ""},
		{"·m", "·", "a unit is missing before ·", "", ""}, {"m//s", "/", "a unit is missing before /", "", ""},
		{"(m", "(", "this bracket is not closed", "add )", ""}, {"m)", ")", "this bracket was not opened", "", ""},
		{"()", ")", "a unit is missing before )", "", ""}, {"m(s)", "(", "an operator is missing before (", "", ""},
		{"m²s", "s", "an operator is missing before s", "", ""},
		{"m^", "^", "an exponent is missing behind ^", "", ""}, {"m^-", "^-", "an exponent is missing behind ^-", "", ""},
		{"m^x", "^", "an exponent is missing behind ^", "", ""}, {"m⁻", "⁻", "the exponent ⁻ cannot be read", "", ""},
		{"m^(1/2", "^(1/2", "the exponent ^(1/2 cannot be read", "", ""},
		{"m^0", "^0", "the exponent ^0 is nothing", "leave the unit out", ""}, {"m⁰", "⁰", "the exponent ⁰ is nothing", "", ""},
		{"m²⁻¹", "²⁻", "one exponent follows another", "", ""}, {"m^2^3", "^2^", "one exponent follows another", "", ""}, {"1·m", "1", "the number 1 stands in a unit", "", ""},
		{"m\xff", "m\xff", "this unit is not UTF-8", "", ""},
	} {
		_, err := Parse(c.text)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if got := e.Text[e.Start:e.End]; got != c.at || !strings.Contains(e.Summary, c.says) || !strings.Contains(e.Hint, c.hint) || c.suggest != "" && e.Suggest != c.suggest {
			t.Errorf("%q at %q: %v (suggests %q)", c.text, got, err, e.Suggest)
		}
		if _, err := Parse(e.Suggest); e.Suggest != "" && err != nil {
			t.Errorf("%q: suggests %q: %v", c.text, e.Suggest, err)
		}
	}
}

// The words and names that are explained lead to units, and are none.
func TestSayingsLead(t *testing.T) {
	for w, symbol := range names() {
		if _, err := Parse(symbol); err != nil {
			t.Errorf("%s: %v", w, err)
		}
	}
	for w, s := range sayings {
		if _, err := Parse(w); err == nil {
			t.Errorf("%s is refused in vain", w)
		}
		if _, err := Parse(s.suggest); s.suggest != "" && err != nil {
			t.Errorf("%s: %v", w, err)
		}
	}
}

func TestBounds(t *testing.T) {
	nested := func(n int) string { return strings.Repeat("(", n) + "m" + strings.Repeat(")", n) }
	long := func(n int) string { return strings.Repeat("s*", (n-1)/2) + "s" }
	for _, c := range []struct {
		text string
		ok   bool
	}{
		{nested(MaxNesting), true}, {nested(MaxNesting + 1), false}, {"m^100", true}, {"m^101", false}, {"m^-100", true}, {"m^-101", false},
		{"m^(1/100)", true}, {"m^(1/101)", false}, {"(m^50)^2", true}, {"(m^51)^2", false}, {"m^60·m^40", true}, {"m^60·m^41", false},
		{long(MaxLength-1) + " ", true}, {long(MaxLength-1) + "  ", false}, {"m^9999999", false}, {"m^99999999999999999999", false},
		{"m²²²²²²²²", false}, {"Qm^6", true}, {"Qm^7", false}, {"qm^6", true}, {"qm^7", false},
		{strings.Repeat("(", 190), false}, {strings.Repeat("m^", 90), false},
	} {
		if _, err := Parse(c.text); (err == nil) != c.ok {
			t.Errorf("%q: %v", c.text, err)
		}
	}
}

func TestMustParse(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("no panic")
		}
	}()
	MustParse("volt")
}

// No symbol is two units, with or without a prefix.
func TestNoDoubles(t *testing.T) {
	seen := map[string]string{}
	for i := range entries() {
		e := &entries()[i]
		for _, s := range append([]string{e.symbol}, e.aliases...) {
			if seen[s] != "" {
				t.Errorf("%s is %s and %s", s, seen[s], e.name)
			}
			seen[s] = e.name
			if e.meaning == "" || e.source == "" {
				t.Errorf("%s is not explained", s)
			}
		}
	}
	// Prefixed symbols that another unit's own symbol hides.
	hidden := map[string]bool{"cd": true}
	for _, c := range candidates() {
		u := MustParse(c.typed)
		if got := u.String(); got != c.written && !hidden[c.typed] {
			t.Errorf("%s is %s", c.typed, got)
		}
	}
}

func TestAll(t *testing.T) {
	for _, n := range All() {
		if n.Unit.String() != n.Symbol {
			t.Errorf("%s is written %s", n.Symbol, n.Unit)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"m/s^2", "W/(m^2·K)", "min⁻¹", "a/b/c", "°C", "m^(1/2)", "((m", "Kohm", "m^1/2", "µµF", "1/(1/s)", "hp", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		u, err := Parse(text)
		if Is(text) != (err == nil) {
			t.Fatalf("%q: a unit or none, with %v", text, err)
		}
		if err == nil {
			if again, err := Parse(u.String()); u.String() != "" && (err != nil || again != u) {
				t.Fatalf("%q is written %q, which is read as %+v, not %+v (%v)", text, u, again, u, err)
			}
			if x := u.FromSI(u.ToSI(1)); !near(x, 1, 1e-9) {
				t.Fatalf("%q: 1 comes back as %g", text, x)
			}
			return
		}
		e, ok := err.(*Error)
		if !ok || e.Summary == "" || e.Start < 0 || e.Start > e.End || e.End > len(text) || e.Text != text {
			t.Fatalf("%q: %+v", text, err)
		}
		if _, err := Parse(e.Suggest); e.Suggest != "" && err != nil {
			t.Fatalf("%q: suggests %q: %v", text, e.Suggest, err)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{"V", "mAh", "kΩ", "m/s^2", "W/(m^2·K)", "N·m"} {
		b.Run(strings.ReplaceAll(text, "/", "÷"), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				MustParse(text)
			}
		})
	}
	b.Run("wrong", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = Parse("mAhr")
		}
	})
}

// TestBracketsSideBySide reads any number of brackets that do not stand inside one
// another: each that is closed makes room for the next.
func TestBracketsSideBySide(t *testing.T) {
	if u, err := Parse(strings.Repeat("(1/m)·(m)·", MaxNesting) + "s"); err != nil || u.ToSI(1) != 1 {
		t.Errorf("%v, %v", u, err)
	}
}
