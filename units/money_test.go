package units

import (
	"strings"
	"testing"
)

// minorUnits are the currencies by the decimals of their minor unit, as ISO 4217
// publishes them (list one of 2024-06-25).
var minorUnits = []struct {
	decimals int
	symbols  string
}{
	{0, "JPY KRW VND ¥ ₩ ₫ ISK CLP XAF UGX"},
	{2, "EUR USD GBP CHF CAD AUD NZD SEK NOK DKK PLN CZK HUF CNY INR TRY UAH ILS PHP NGN BRL MXN ZAR € $ £ ₹ ₺ ₴ ₪ ₱ ₦ THB RSD"},
	{3, "BHD IQD JOD KWD LYD OMR TND"},
}

// TestMoney wants an amount kept in the minor unit and shown with its decimals.
func TestMoney(t *testing.T) {
	for _, c := range minorUnits {
		whole, text := 1.0, "1"
		for range c.decimals {
			whole *= 10
		}
		if c.decimals > 0 {
			text += "." + strings.Repeat("0", c.decimals)
		}
		for symbol := range strings.FieldsSeq(c.symbols) {
			u := MustParse(symbol)
			if got := u.ToSI(1); got != whole {
				t.Errorf("1 %s is kept as %v, want %v", symbol, got, whole)
			}
			if got := Show(whole, u, 4); got != text+" "+symbol {
				t.Errorf("%s: %q", symbol, got)
			}
		}
	}
}

// TestMoneyAdds wants sums and whole multiples exact to the cent: as decimal
// fractions, 0.10 + 0.20 is 0.30, which it is not as binary ones.
func TestMoneyAdds(t *testing.T) {
	euro := MustParse("EUR")
	sum := 0.0
	for range 1000 {
		sum += euro.ToSI(0.10) + euro.ToSI(0.20) - euro.ToSI(0.07)
	}
	if sum != euro.ToSI(230) || euro.FromSI(sum) != 230 {
		t.Errorf("%v", sum)
	}
	for cents := 1; cents < 100_000; cents++ {
		x := float64(cents) / 100
		if got := euro.ToSI(x); got != float64(cents) {
			t.Fatalf("%v EUR is kept as %v", x, got)
		}
		if got := euro.FromSI(float64(cents)); got != x {
			t.Fatalf("%d cents are %v EUR", cents, got)
		}
	}
	if got := euro.ToSI(0.005); got != 0.5 {
		t.Errorf("half a cent is %v", got)
	}
}

func TestShowMoney(t *testing.T) {
	for _, c := range []struct {
		si   float64
		unit Unit
		want string
	}{
		{1250, MustParse("€"), "12.50 €"}, {1250, MustParse("€").Leading(), "€12.50"}, {-1250, MustParse("$").Leading(), "-$12.50"},
		{0, MustParse("EUR"), "0.00 EUR"}, {123456789012, MustParse("EUR"), "1234567890.12 EUR"}, {0.5, MustParse("EUR"), "0.00 EUR"},
		{1.5, MustParse("EUR"), "0.02 EUR"}, {-0.2, MustParse("EUR"), "0.00 EUR"}, {52.5, MustParse("EUR"), "0.52 EUR"},
		{35, MustParse("€/m"), "0.35 €/m"}, {92, MustParse("EUR"), "0.92 EUR"}, {0.92, MustParse("EUR/USD"), "0.92 EUR/USD"},
		{1250, Fitting(MustParse("EUR").Kind, 1250), "12.50 EUR"}, {35, Fitting(MustParse("€/m").Kind, 35), "0.35 EUR/m"},
	} {
		if got := Show(c.si, c.unit, 4); got != c.want {
			t.Errorf("%v: %q, want %q", c.si, got, c.want)
		}
		si, kind, ok := ParseShown(c.want)
		if c.unit.places != 0 && (!ok || kind.Dim != c.unit.Kind.Dim || si != float64(int(si)) && !strings.Contains(c.want, "/")) {
			t.Errorf("%q is read back as %v, %v, %t", c.want, si, kind, ok)
		}
	}
	if got := ShowSpread(1250, 0.3, MustParse("€").Leading()); got != "(12.5000 ± 0.0030) €" {
		t.Error(got)
	}
	if got := ShowSpread(1250, 12, MustParse("€").Leading()); got != "(12.50 ± 0.12) €" {
		t.Error(got)
	}
	if got := ShowSpread(1250, 1.2, MustParse("€")); got != "(12.50 ± 0.01) €" {
		t.Error(got)
	}
}

// TestMoneyKinds wants each currency to be a dimension of its own, and rates to make
// one of another.
func TestMoneyKinds(t *testing.T) {
	kind := func(text string) Kind { return MustParse(text).Kind }
	if kind("EUR") == kind("USD") || kind("EUR") != kind("€") || kind("EUR").Dim.IsNumber() {
		t.Error("currencies are not told apart")
	}
	if got := kind("EUR/USD").Dim.Mul(kind("USD").Dim); got != kind("EUR").Dim {
		t.Error("a rate does not make one of the other:", got.SIUnit())
	}
	if got := kind("EUR/USD").Dim.Mul(kind("USD/GBP").Dim); got != kind("EUR/GBP").Dim {
		t.Error(got.SIUnit())
	}
	if got := kind("GBP/EUR").Dim.Mul(kind("EUR/GBP").Dim); !got.IsNumber() {
		t.Error(got.SIUnit())
	}
	if _, err := Parse("EUR·USD·GBP·CHF"); err == nil {
		t.Error("four currencies in one product are read")
	}
	if d, ok := kind("EUR^2").Dim.Pow(1, 2); !ok || d != kind("EUR").Dim {
		t.Error(d.SIUnit())
	}
	if d, ok := kind("EUR").Dim.Pow(0, 1); !ok || !d.IsNumber() {
		t.Error(d.SIUnit())
	}
	for text, want := range map[string]string{
		"EUR": "an amount of money (EUR)", "$": "an amount of money (USD)", "€/m": "a quantity in EUR/m", "USD/EUR": "a quantity in USD/EUR",
	} {
		if got := kind(text).String(); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
	for text, want := range map[string]string{"EUR": "0.01 EUR", "JPY": "JPY", "€/m": "0.01 EUR/m", "m/EUR": "m/(0.01 EUR)"} {
		if got := kind(text).Dim.SIUnit(); got != want {
			t.Errorf("numbers of %s are kept in %q, want %q", text, got, want)
		}
	}
}

// TestInColumn wants money with its decimals and no sign of money, for a column.
func TestInColumn(t *testing.T) {
	for _, c := range []struct {
		x    float64
		unit string
		want string
	}{{4.2, "€", "4.20"}, {-3, "EUR", "-3.00"}, {0, "€", "0.00"}, {1200, "JPY", "1200"}, {4.2, "g", "4.2"}, {0.35, "€/m", "0.35"}} {
		u := MustParse(c.unit)
		if got := u.InColumn([]float64{u.ToSI(c.x)}, 4)[0]; got != c.want {
			t.Errorf("%g %s: %s, want %s", c.x, c.unit, got, c.want)
		}
	}
}
