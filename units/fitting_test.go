package units

import (
	"math"
	"testing"
)

func TestFitting(t *testing.T) {
	for _, c := range []struct {
		si   float64
		in   string // a unit of the kind
		want string
	}{
		{16.67, "F", "16.67 F"}, {0.05, "F", "50 mF"}, {4.7e-4, "F", "470 µF"}, {0.35, "V", "0.35 V"}, {0.02, "V", "20 mV"}, {27, "V", "27 V"},
		{1800, "J", "1800 J"}, {4658, "J", "4658 J"}, {29304, "J", "8.14 Wh"}, {7920, "C", "7920 C"}, {45, "s", "45 s"}, {600, "s", "10 min"}, {18000, "s", "5 h"},
		{0.02, "s", "20 ms"}, {0.42, "kg", "420 g"}, {1.3, "kg", "1.3 kg"}, {0.2, "m", "200 mm"}, {120, "m", "120 m"}, {12000, "m", "12 km"},
		{2, "N", "2 N"}, {0.21, "m²", "0.21 m²"}, {4.2e-4, "m²", "4.2 cm²"}, {0.02, "Ω", "20 mΩ"}, {4700, "Ω", "4.7 kΩ"}, {1.225, "kg/m³", "1.225 kg/m³"},
		{8e6, "A/m²", "8 A/mm²"}, {2.44, "kg/m²", "24.4 g/dm²"}, {293.15, "°C", "20 °C"}, {20, "K", "20 K"}, {9.5, "m/s", "9.5 m/s"}, {0.4, "1", "0.4"},
		{0.4, "%", "0.4"}, {math.Pi, "deg", "3.142"}, {314.159265, "rpm", "3000 rpm"}, {314.159265, "rad/s", "3000 rpm"}, {50, "Hz", "50 Hz"},
		{2.4e9, "Hz", "2.4 GHz"}, {3, "V/Wb", "3 s⁻¹"}, {101325, "Pa", "101.3 kPa"}, {0.35, "T", "0.35 T"}, {1.68e-8, "Ω·m", "16.8 nΩ·m"}, {0.05, "A", "50 mA"},
		{0, "kg", "0 kg"}, {0, "V", "0 V"}, {-0.02, "V", "-20 mV"}, {5, "m³·kg", "5 kg·m³"}, {math.NaN(), "V", "NaN V"}, {12, "W/°C", "12 W/K"},
		{0.009549, "N·m/A", "9.549 mWb"}, {3, "m^0.5", "3 m^(1/2)"}, {0.00393, "1/°C", "0.00393 K⁻¹"}, {90, "rpm/V", "90 V⁻¹·s⁻¹"}, {2, "1/m^0.5", "2 m^(-1/2)"},
	} {
		k := MustParse(c.in).Kind
		if got := Show(c.si, Fitting(k, c.si), 4); got != c.want {
			t.Errorf("%v %s is shown as %q, want %q", c.si, c.in, got, c.want)
		}
	}
}

// What is fitting keeps the kind, and no number within the bands has more
// than five digits before its point, or a zero there and another behind it.
func TestFittingMagnitude(t *testing.T) {
	for _, list := range fixed().bands {
		k := list[0].unit.Kind
		low, high := list[1].from/1e3, list[len(list)-1].from*1e3
		for si := low; si < high; si *= 1.07 {
			u := Fitting(k, si)
			if u.Kind != k || Fitting(k, -si) != u {
				t.Fatalf("%v %s: %v", si, k.Dim.SIUnit(), u.Kind)
			}
			if x := u.FromSI(si); x < 0.0999 || x >= 1e5 {
				t.Errorf("%g %s is shown as %s", si, k.Dim.SIUnit(), Show(si, u, 4))
			}
		}
		for i := 1; i < len(list); i++ {
			if list[i].from <= list[i-1].from {
				t.Errorf("%s is out of order", list[i].text)
			}
		}
	}
}

// Whatever the kind, its fitting unit is of that kind and can be read.
func TestFittingIsRead(t *testing.T) {
	for _, c := range candidates() {
		k := MustParse(c.typed).Kind
		for _, si := range []float64{0, 1e-12, 1e-6, 1e-3, 1, 1e3, 1e6, 1e12} {
			u := Fitting(k, si)
			again, err := Parse(u.String())
			if u.String() == "" {
				again, err = Parse("1")
			}
			if err != nil || u.Kind != k || again.Kind.Dim != k.Dim || again.ToSI(7) != u.ToSI(7) {
				t.Fatalf("%s: %s, %v", c.typed, u, err)
			}
		}
	}
}

func BenchmarkFitting(b *testing.B) {
	b.ReportAllocs()
	k := MustParse("V").Kind
	for b.Loop() {
		Fitting(k, 12)
	}
}
