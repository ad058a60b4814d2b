package report

import (
	"slices"
	"testing"

	"inkwing/units"
)

func quantity(name string, value float64) Quantity {
	return Quantity{Name: name, Value: value, Kind: units.MustParse("V").Kind}
}

func TestNamed(t *testing.T) {
	r := &Report{Quantities: []Quantity{quantity("store", 1), quantity("store.mass", 2), quantity("store_2", 3), quantity("V", 4)}}
	var got []string
	for _, q := range append(r.Named("store"), r.Named("store.mass")...) {
		got = append(got, q.Name)
	}
	if want := []string{"store", "store.mass", "store.mass"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if got := r.Named("none"); got != nil {
		t.Errorf("got %v", got)
	}
}

func TestCount(t *testing.T) {
	r := &Report{
		Quantities: []Quantity{quantity("a.b", 1), quantity("a.c", 2), quantity("d", 3)},
		Limits:     []Limit{{Holds: true}, {}, {State: Waiting}},
		Cautions:   []Caution{{Kind: OfLimit}, {Kind: OfModel}, {Kind: OfModel}, {Kind: OfStanding}},
		Blocks: []Block{
			{Charts: make([]Chart, 2), Cautions: []Caution{{Kind: OfLimit}, {Kind: OfModel}}}, {},
			{Charts: make([]Chart, 1), Cautions: []Caution{{Kind: OfStanding}}},
		},
	}
	if got, want := r.Count(), (Count{Quantities: 2, Limits: 3, Broken: 1, Cautions: 2, Charts: 3}); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

// TestChosen keeps the order of the names, and has what did not change too.
func TestChosen(t *testing.T) {
	old := &Report{Quantities: []Quantity{quantity("a", 1), quantity("r.x", 1), quantity("r.y", 1), quantity("z", 1)}}
	now := &Report{Quantities: []Quantity{quantity("a", 1), quantity("r.x", 1), quantity("r.y", 3), quantity("z", 2)}}
	c := Compare(old, now)
	var got []string
	for _, d := range c.Chosen(now, []string{"r", "a"}) {
		text := d.New.Name
		if d.IsChange() {
			text += " changed"
		}
		got = append(got, text)
	}
	if want := []string{"r.y changed", "r.x", "a"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
