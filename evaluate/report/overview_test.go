package report

import (
	"slices"
	"testing"

	"inkwing/evaluate/library/model"
)

// TestOverview puts broken limits first, then those not worked, then by headroom,
// and of the cautions only dangers, those of the things themselves by their names.
func TestOverview(t *testing.T) {
	room := func(text string, ratio float64, holds bool) Limit {
		return Limit{Text: text, Holds: holds, Margin: &Margin{Ratio: &ratio}}
	}
	r := &Report{
		Limits: []Limit{room("wide", 0.9, true), {Text: "never", Holds: true, Never: true}, {Text: "waits", State: Waiting}, room("near", 0, true), room("broken", -0.1, false), {Text: "broken at 0 K"}},
		Blocks: []Block{
			{Cautions: []Caution{{ID: "hot", Level: model.Danger, Kind: OfModel}, {ID: "warm", Level: model.Warning, Kind: OfModel}, {ID: "limit", Kind: OfLimit}}},
			{Cautions: []Caution{{ID: "flying", Level: model.Danger, Kind: OfStanding}}, Errors: []Failure{{Line: "x = y"}}},
		},
	}
	o := r.Overview()
	var got []string
	for _, l := range o.Limits {
		got = append(got, l.Text)
	}
	if want := []string{"broken", "broken at 0 K", "waits", "near", "wide", "never"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if len(o.Dangers) != 1 || o.Dangers[0].ID != "hot" || !slices.Equal(o.Standing, []string{"flying"}) || len(o.Unworked) != 1 {
		t.Errorf("got %+v", o)
	}
	if r.Limits[0].Text != "wide" {
		t.Error("the report's own order changed")
	}
}
