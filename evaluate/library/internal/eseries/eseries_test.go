package eseries

import (
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestSeries: how many values a decade has, that they rise, and that each coarser series
// is part of the finer one of its family (IEC 60063, from memory).
func TestSeries(t *testing.T) {
	for name, n := range map[string]int{"E3": 3, "E6": 6, "E12": 12, "E24": 24, "E48": 48, "E96": 96, "E192": 192} {
		list := series[name]
		if len(list) != n {
			t.Errorf("%s has %d values", name, len(list))
		}
		for i := range list[1:] {
			if list[i+1] <= list[i] {
				t.Errorf("%s: %g after %g", name, list[i+1], list[i])
			}
		}
	}
	for _, pair := range [][2]string{{"E3", "E6"}, {"E6", "E12"}, {"E12", "E24"}, {"E48", "E96"}, {"E96", "E192"}} {
		for _, v := range series[pair[0]] {
			if down, up, _ := Around(pair[1], v); down != v || up != v {
				t.Errorf("%g of %s is not in %s", v, pair[0], pair[1])
			}
		}
	}
}

func TestAround(t *testing.T) {
	down, up, ok := Around("E12", 4200)
	if !ok {
		t.Fatal("no E12")
	}
	kit.Near(t, "down", down, 3900, 1e-15)
	kit.Near(t, "up", up, 4700, 1e-15)
	if _, _, ok := Around("E25", 1); ok {
		t.Error("there is no E25")
	}
}
