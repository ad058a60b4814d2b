package show

import (
	"fmt"
	"testing"

	"inkwing/evaluate/program"
	"inkwing/evaluate/study"
	"inkwing/units"
)

func quantity(unit string) program.Quantity {
	return program.Quantity{Kind: units.MustParse(unit).Kind}
}

// TestValue wants scalars written, and nothing else.
func TestValue(t *testing.T) {
	volt := units.MustParse("V")
	for _, c := range []struct {
		t     program.Type
		value any
		unit  units.Unit
		want  string
		ok    bool
	}{
		{quantity("V"), 12.3456, volt, "12.35 V", true},
		{quantity("V"), 0.0123456, units.Unit{}, "12.35 mV", true},
		{program.Bool{}, true, units.Unit{}, "yes", true},
		{program.Bool{}, false, units.Unit{}, "no", true},
		{program.Text{}, "disc", units.Unit{}, "disc", true},
		{program.Text{}, nil, units.Unit{}, "", false},
		{program.List{}, []any{1.0}, units.Unit{}, "", false},
	} {
		if got, ok := Value(c.t, c.value, c.unit, 4); got != c.want || ok != c.ok {
			t.Errorf("%v: %q, %t", c.value, got, ok)
		}
	}
}

// TestUncertain wants two digits of an interval, and the value to their place
// (JCGM 100:2008, 7.2.6); of what was drawn, the mean and both ends.
func TestUncertain(t *testing.T) {
	volt := units.MustParse("V")
	for _, c := range []struct {
		value any
		u     study.Combined
		unit  units.Unit
		want  string
	}{
		{12.3456, study.Combined{}, volt, "12.35 V"},
		{12.3456, study.Combined{Expanded: 0.123}, volt, "(12.35 ± 0.12) V"},
		{0.0123456, study.Combined{Expanded: 0.000123}, units.Unit{}, "(12.35 ± 0.12) mV"},
		{"disc", study.Combined{Expanded: 1}, volt, "disc"},
	} {
		if got, _ := Uncertain(quantity("V"), c.value, c.u, c.unit, 4); got != c.want {
			t.Errorf("%v ± %g: %q, want %q", c.value, c.u.Expanded, got, c.want)
		}
	}
	drawn := study.Combined{Drawn: true, Mean: 2, Low: 1, High: 4}
	if got, _ := Uncertain(quantity("V"), 1.9, drawn, volt, 4); got != units.ShowInterval(2, 1, 4, volt) {
		t.Error(got)
	}
}

// TestDigits wants those of the name, else of its record, else of the sheet.
func TestDigits(t *testing.T) {
	said := map[string]int{"store": 3, "store.mass": 2}
	for _, c := range []struct {
		sheet program.Sheet
		want  string
	}{
		{program.Sheet{DigitsOf: said}, "2 3 3 4"},
		{program.Sheet{DigitsOf: said, Digits: 6}, "2 3 3 6"},
	} {
		got := fmt.Sprint(Digits(&c.sheet, "store.mass"), Digits(&c.sheet, "store.cell.mass"), Digits(&c.sheet, "store"), Digits(&c.sheet, "V"))
		if got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
}

// TestReadableUnit wants the unit that was written, unless a number would be tiny or
// huge in it, or be read as a temperature.
func TestReadableUnit(t *testing.T) {
	for _, c := range []struct {
		x    float64
		unit string
		want string
	}{{0.5, "V", "V"}, {0.001, "V", "V"}, {0.0005, "V", "mV"}, {99_999, "V", "V"}, {100_000, "V", "kV"}, {0, "V", "V"}, {0.25, "°C", "K"}} {
		unit := units.MustParse(c.unit)
		if got := ReadableUnit(c.x, unit, unit.Kind).String(); got != c.want {
			t.Errorf("%g %s: in %s, want %s", c.x, c.unit, got, c.want)
		}
	}
}

// TestInOrder wants marked fields first, by their marks, the others as they stand.
func TestInOrder(t *testing.T) {
	fields := []program.Field{{Name: "a"}, {Name: "b", Headline: 2}, {Name: "c"}, {Name: "d", Headline: 1}, {Name: "e", Headline: 9}}
	if got := fmt.Sprint(InOrder(fields)); got != "[3 1 0 2 4]" {
		t.Error(got)
	}
}
