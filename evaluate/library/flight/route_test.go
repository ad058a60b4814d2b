package flight

import (
	"context"
	"errors"
	"strings"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestLongestStep: at the current of its beginning the longest step takes the
// store a quarter of the way to four fifths of the cut-off, and what draws
// nothing has no bound.
func TestLongestStep(t *testing.T) {
	in := lapwingFlight(Phase{Power: new(30.0)})
	_, c := in.run(t, flightTolerance)
	begun := c.legs[0]
	c.y = append([]float64{}, c.y...)
	for _, v := range []float64{12, 8, 6} {
		c.y[yVoltage] = v
		m := begun.at(v)
		fall := c.longest(begun.leg) * (m.pack + m.radio) / in.Store.Capacitance
		kit.Near(t, "fall in a step", fall, (v-0.8*5.5)/4, 1e-12)
	}
	if glide := c.legs[len(c.legs)-1]; glide.task != rest || c.longest(glide.leg) != 0 {
		t.Errorf("the glide's steps are bounded by %g s", c.longest(glide.leg))
	}
}

// TestFlightSinkingPhase: a throttle too small to hold the height is cautioned,
// and one that climbs is not.
func TestFlightSinkingPhase(t *testing.T) {
	for throttle, sinks := range map[float64]bool{0.3: true, 0.65: false} {
		in := lapwingFlight(Phase{Throttle: &throttle, ForTime: new(1.0)}, climbing(1, 20))
		got := kit.Must(Flight(t.Context(), in))(t)
		if kit.Raised(got.List, "sinks-under-power") != sinks {
			t.Errorf("throttle %g: cautions %v", throttle, got.List)
		}
	}
	if got := kit.Must(Flight(t.Context(), lapwingFlight()))(t); kit.Raised(got.List, "sinks-under-power") {
		t.Error("climb and level flight are said to sink")
	}
}

// TestPowerThatCannotTurnTheMotor: held fast, the winding takes I0²·R for the
// torque that it idles on; a power below that, and what the leads take, turns
// nothing.
func TestPowerThatCannotTurnTheMotor(t *testing.T) {
	held := 0.35 * 0.35 * (0.20 + 0.020)
	for part, turns := range map[float64]bool{0.98: false, 1.02: true} {
		_, err := Flight(t.Context(), lapwingFlight(Phase{Power: new(part * held), ForTime: new(1.0)}))
		if refused := err != nil && strings.Contains(err.Error(), "does not turn"); refused == turns {
			t.Errorf("%g of %g W: %v", part, held, err)
		}
	}
	_, err := Flight(t.Context(), lapwingFlight(Phase{Power: new(0.5 * held)}))
	kit.Refuses(t, err, "plan")
}

// TestFlightLossesByResistance: without a radio one current flows through store
// and leads, so their losses are as their resistances.
func TestFlightLossesByResistance(t *testing.T) {
	in := lapwingFlight(Phase{Throttle: new(0.6)})
	in.Radio, in.Store.Resistance, in.Drive.LeadResistance = nil, 0.06, 0.02
	got := kit.Must(Flight(t.Context(), in))(t)
	kit.Near(t, "three times the resistance", got.StoreLoss, 3*got.Leads, 1e-6)
}

// TestLooseStepsDoNotLeap: even at a tolerance a hundred thousand times looser a
// flight meets its cut-off, since no step leaps far past it.
func TestLooseStepsDoNotLeap(t *testing.T) {
	for _, phase := range []Phase{{ClimbRate: new(1.0)}, {Power: new(12.0)}} {
		in := lapwingFlight(phase)
		tight, _ := in.run(t, flightTolerance)
		loose, _ := in.run(t, 1e5*flightTolerance)
		kit.Near(t, "powered time", loose.PoweredTime, tight.PoweredTime, 2e-5)
	}
}

// TestEndsWithTheContext: what integrates ends when the run does.
func TestEndsWithTheContext(t *testing.T) {
	over, cancel := context.WithCancel(t.Context())
	cancel()
	f := lapwingFlight()
	_, flight := Flight(over, f)
	_, cut := CutOffChoice(over, CutOffChoiceInput{Aloft: f.Aloft, Plan: f.Plan, StartVoltage: 12.4, From: 5.9, To: 6.2, Steps: 3, Home: f.Home})
	_, launch := GoVoltage(over, lapwingGo())
	for name, err := range map[string]error{"flight": flight, "cut_off_choice": cut, "go_voltage": launch} {
		if !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
