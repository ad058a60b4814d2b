package energy

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestLeadMeltingPublished has the worked example of Onderdonk's equation: 2581
// circular mils for 5 s from 25 °C, 168.86 A. A stored example has 178 A, with
// 234 − T for 234 + T.
func TestLeadMeltingPublished(t *testing.T) {
	wire := Conductor{math.Sqrt(2581) * 25.4e-6}
	got := kit.Must(LeadMelting(LeadMeltingInput{Wire: wire, Strands: 1, Time: new(5.0), Ambient: 298.15}))(t)
	kit.Near(t, "Onderdonk", got.Current, 168.86, 3e-5)
	back := kit.Must(LeadMelting(LeadMeltingInput{Wire: wire, Strands: 1, Current: &got.Current, Ambient: 298.15}))(t)
	kit.Near(t, "there and back", back.Time, 5, 1e-12)
	if len(got.List) != 0 {
		t.Errorf("5 s raises %v", got.List)
	}
	slow := kit.Must(LeadMelting(LeadMeltingInput{Wire: wire, Strands: 1, Time: new(10.1), Ambient: 298.15}))(t)
	if !kit.Raised(slow.List, "melting-past-short-time") {
		t.Error("10.1 s raises no caution")
	}
}

// TestLeadMeltingStepped warms a wire that keeps all its heat: copper's
// resistance by IEC 60028, 385 J/(kg·K) and 8890 kg/m³ (textbook). Its specific
// heat rises on the way to 1083 °C, which the constant 33 has within 5 %.
func TestLeadMeltingStepped(t *testing.T) {
	const d, current = 0.8e-3, 300.0
	area := math.Pi / 4 * d * d
	warm := func(celsius float64) float64 {
		return copperResistivity * (1 + copperSlope*(celsius-20)) * current * current / (area * area * 385 * 8890)
	}
	celsius, time := 25.0, 0.0
	for ; celsius < copperMelts; time += 1e-4 {
		celsius = kit.RungeKutta(warm, celsius, 1e-4, 1)
	}
	got := kit.Must(LeadMelting(LeadMeltingInput{Wire: Conductor{d}, Strands: 1, Current: new(current), Ambient: 298.15}))(t)
	kit.Near(t, "stepped", got.Time, time, 0.05)
	four := kit.Must(LeadMelting(LeadMeltingInput{Wire: Conductor{d / 2}, Strands: 4, Current: new(current), Ambient: 298.15}))(t)
	kit.Near(t, "four strands of half the diameter", four.Time, got.Time, 1e-12)
}

func TestLeadMeltingRefuses(t *testing.T) {
	for field, in := range map[string]LeadMeltingInput{
		"wire.diameter": {Strands: 1, Current: new(5.0), Ambient: 298},
		"strands":       {Wire: Conductor{1e-3}, Current: new(5.0), Ambient: 298},
		"current":       {Wire: Conductor{1e-3}, Strands: 1, Current: new(0.0), Ambient: 298},
		"time":          {Wire: Conductor{1e-3}, Strands: 1, Time: new(-1.0), Ambient: 298},
		"ambient":       {Wire: Conductor{1e-3}, Strands: 1, Time: new(1.0), Ambient: 20},
		"":              {Wire: Conductor{1e-3}, Strands: 1, Ambient: 298},
	} {
		_, err := LeadMelting(in)
		kit.Refuses(t, err, field)
	}
}
