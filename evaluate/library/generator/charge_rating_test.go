package generator

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

// workedApart is a machine and a store whose answers were worked apart from this code:
// eight coils over eight poles, two in series, without inductance.
func workedApart(t testing.TB) HandChargeInput {
	g := lapwing(t, func(in *GeneratorInput) {
		two := 2
		in.Coils, in.Poles, in.Phases, in.Series, in.Magnet, in.EmfConstant = 8, 8, 1, &two, nil, new(0.05)
		in.DiodeDrop, in.LeadResistance, in.Coil.Inductance = 0.5, 0, 0
	}).Machine
	return HandChargeInput{Generator: g, Store: ChargedStore{Capacitance: 20, Resistance: 50e-3, RatedVoltage: new(13.5), SafeVoltage: new(12.87)},
		To: 16, Cadence: 75 * rpm, Gearing: 24, GearEfficiency: 0.9, PowerLimit: new(45.0), TorqueLimit: new(8.0)}
}

// TestTargetOverRating: a target over the rating is a danger of its own wherever
// one is named, with its share of the rating, 1.185 here, and no seconds to what is past.
func TestTargetOverRating(t *testing.T) {
	in := workedApart(t)
	r := kit.Must(HandCharge(t.Context(), in))(t)
	top := kit.Must(ChargeCeiling(t.Context(), ChargeCeilingInput{Generator: in.Generator, Store: in.Store, Cadence: in.Cadence, Gearing: in.Gearing, To: &in.To, GearEfficiency: 1}))(t)
	ways := kit.Must(Groupings(t.Context(), GroupingsInput{in}))(t)
	for where, list := range map[string][]model.Caution{"charge": r.List, "ceiling": top.List, "groupings": ways.List} {
		c := raised(t, where, list, "target-over-rating")
		if c.Level != model.Danger {
			t.Errorf("%s: %v is no danger", where, c)
		}
		kit.Near(t, "share", c.Values[2].Number, 118.5, 1e-3)
		for _, other := range []string{"crank-can-overcharge", "rating-soon-after-target", "best-grouping-can-overcharge", "charge-over-weakest-cell"} {
			if kit.Raised(list, other) {
				t.Errorf("%s: %s says it again", where, other)
			}
		}
	}
	if top.SecondsToRating != nil {
		t.Errorf("%g s to a rating that is past", *top.SecondsToRating)
	}
	in.To = 13.5
	if kit.Raised(kit.Must(HandCharge(t.Context(), in))(t).List, "target-over-rating") {
		t.Error("a target at the rating is not over it")
	}
	// Where the arm cannot reach it no way to get there is offered.
	in.To, in.Gearing = 16, 10
	_, err := HandCharge(t.Context(), in)
	kit.Refuses(t, err, "to")
	if !strings.Contains(err.Error(), "above the store's rating of 13.5 V") || strings.Contains(err.Error(), "would reach") {
		t.Error(err)
	}
}

func raised(t testing.TB, where string, list []model.Caution, id string) model.Caution {
	t.Helper()
	for _, c := range list {
		if c.ID == id {
			return c
		}
	}
	t.Fatalf("%s: no %s in %v", where, id, list)
	return model.Caution{}
}

// TestStallVoltage: without a leak a charge stalls at the ceiling of its cadence,
// 2·0.05·75 rpm·10 less two drops, wherever it was to go; with one where it takes all.
func TestStallVoltage(t *testing.T) {
	in := workedApart(t)
	in.Gearing = 10
	const ceiling = 2*0.05*75*rpm*10 - 2*0.5
	for _, to := range []float64{7, 12.5, 13.4} {
		in.To = to
		kit.Near(t, "ceiling", in.stalls(t).Values[0].Number, ceiling, 1e-12)
		kit.Near(t, "short of it", in.stalls(t).Values[1].Number, to-ceiling, 1e-9)
	}
	// Its leak is what the current is there.
	in.Store.LeakageResistance = new(50.0)
	at := in.stalls(t).Values[0].Number
	kit.Near(t, "current", in.at(at).mean, at/50, 1e-6)
}

// TestStallAdvice over random machines: no cadence that no arm turns, no limit or
// leak that nobody gave, and what is named does reach.
func TestStallAdvice(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 4))
	stalls := 0
	for range 300 {
		in := plausible(r)
		in.Store.RatedVoltage = nil
		_, err := HandCharge(t.Context(), in)
		var e *model.Error
		if !errors.As(err, &e) || e.Field != "to" {
			continue
		}
		stalls++
		for _, v := range e.Values[3:] {
			if v.Unit == "rpm" && v.Number > 150 {
				t.Errorf("%v", err)
			}
		}
		for text, given := range map[string]bool{"power_limit": in.PowerLimit != nil, "torque_limit": in.TorqueLimit != nil, "leaks": in.Store.LeakageResistance != nil} {
			if strings.Contains(e.Hint, text) && !given {
				t.Errorf("%s: %s, which nobody gave", e.Hint, text)
			}
		}
	}
	if stalls < 50 {
		t.Errorf("only %d stalls", stalls)
	}
}

// TestPulseTorque: the torque of a single-phase bridge is 2.00 and 2.56 times its
// mean at X/E 0 and 0.5 (worked apart from this code, without inductance).
func TestPulseTorque(t *testing.T) {
	in := workedApart(t)
	in.Generator.DiodeDrop, in.PowerLimit, in.TorqueLimit, in.Store.RatedVoltage, in.GearEfficiency = 0, nil, nil, nil, 1
	e := in.Generator.PhaseConstant * in.Cadence * in.Gearing
	in.To = 0.8 * e // of which row 0 is at 0, and row 20 at four fifths
	r := kit.Must(HandCharge(t.Context(), in))(t)
	for row, want := range map[int]float64{0: 2, 20: 3.84} {
		kit.Near(t, "pulse", r.History[row].PulseTorque/r.History[row].Torque, want, 2e-3)
	}
	in.To = 0.5 * e
	r = kit.Must(HandCharge(t.Context(), in))(t)
	kit.Near(t, "pulse", r.History[20].PulseTorque/r.History[20].Torque, 2.56, 2e-3)
	if c := raised(t, "charge", r.List, "crank-torque"); c.Values[0].Number != r.PulseTorque || r.PulseTorque < 2*r.PeakTorque*(1-1e-9) {
		t.Errorf("%v at %g N·m", c, r.PulseTorque)
	}
	in.TorqueLimit = new(7.0)
	if r = kit.Must(HandCharge(t.Context(), in))(t); kit.Raised(r.List, "crank-torque") != (r.PulseTorque > 15) {
		t.Errorf("%g N·m: %v", r.PulseTorque, r.List)
	}
}

// TestGroupingsSpeakOfTheBest: the way that is recommended is the one that is
// cautioned, by its own ceiling, and none where it cannot pass the rating.
func TestGroupingsSpeakOfTheBest(t *testing.T) {
	in := workedApart(t)
	said := map[bool]int{}
	for _, to := range []float64{3, 6, 9, 12} {
		for _, rating := range []float64{13.5, 20, 40} {
			in.To, in.Store.RatedVoltage = to, &rating
			ways := kit.Must(Groupings(t.Context(), GroupingsInput{in}))(t)
			best := ways.Groups[0]
			over := best.Time != nil && best.Ceiling > rating
			said[over]++
			if kit.Raised(ways.List, "best-grouping-can-overcharge") != over {
				t.Errorf("best to %g V of %g V: %v", best.Ceiling, rating, ways.List)
			}
			if over {
				c := raised(t, "groupings", ways.List, "best-grouping-can-overcharge")
				kit.Near(t, "ceiling", c.Values[0].Number, best.Ceiling, 0)
				kit.Near(t, "series", c.Values[2].Number, float64(best.Series), 0)
			}
		}
	}
	if said[true] == 0 || said[false] == 0 {
		t.Error(said)
	}
}

// TestOneFactOneNumber: the way from the target to the rating takes as long by
// either function that is told of the arm.
func TestOneFactOneNumber(t *testing.T) {
	in := workedApart(t)
	in.To = 13.2
	r := kit.Must(HandCharge(t.Context(), in))(t)
	top := kit.Must(ChargeCeiling(t.Context(), ChargeCeilingInput{Generator: in.Generator, Store: in.Store, Cadence: in.Cadence, Gearing: in.Gearing, To: &in.To,
		GearEfficiency: in.GearEfficiency, PowerLimit: in.PowerLimit, TorqueLimit: in.TorqueLimit}))(t)
	c := raised(t, "charge", r.List, "rating-soon-after-target")
	kit.Near(t, "seconds", *top.SecondsToRating, c.Values[0].Number, 1e-9)
	in.To = 13.5
	whole := kit.Must(HandCharge(t.Context(), in))(t)
	kit.Near(t, "the rest of the charge", c.Values[0].Number, whole.Time-r.Time, 1e-5)
	over := raised(t, "ceiling", top.List, "crank-can-overcharge")
	kit.Near(t, "ceiling", over.Values[0].Number, r.Ceiling, 0)
	in.To = 6 // long before the rating the hand has time
	if r = kit.Must(HandCharge(t.Context(), in))(t); kit.Raised(r.List, "rating-soon-after-target") || !kit.Raised(r.List, "crank-can-overcharge") {
		t.Errorf("%v", r.List)
	}
}

// plausible is a charge as somebody might build one.
func plausible(r *rand.Rand) HandChargeInput {
	k := 0.02 * math.Pow(20, r.Float64())
	m := Machine{PhaseConstant: k, PhaseResistance: 0.1 * math.Pow(40, r.Float64()), LeadResistance: 0.1 * r.Float64(), DiodeDrop: 0.3 + 0.5*r.Float64(),
		Phases: 1 + 2*r.IntN(2), Rectifiers: "common", Bridges: 1, Poles: 8 + 4*r.IntN(4), Coils: 9, SeriesCoils: 1, ParallelStrings: 1, CoilTemperature: roomKelvin, Turns: 80}
	m.PhaseInductance = m.PhaseResistance * math.Pow(10, -4+1.5*r.Float64())
	m.EmfConstant, m.CoilResistance = k, m.PhaseResistance
	if r.IntN(4) == 0 {
		m.Rectifiers, m.Bridges = "each", 1+r.IntN(3)
	}
	if m.CeilingConstant = k; m.star() {
		m.CeilingConstant *= math.Sqrt(3)
	}
	if r.IntN(2) == 0 {
		m.CopperMass = 0.02 + 0.3*r.Float64()
	}
	if r.IntN(3) == 0 {
		m.DiodeSaturation, m.DiodeScale, m.DiodeResistance = 1e-6, 0.026, 0.01
	}
	in := HandChargeInput{Generator: m, Store: ChargedStore{Capacitance: math.Pow(10, 2*r.Float64()), Resistance: 0.1 * r.Float64(), RatedVoltage: new(2.7 * float64(1+r.IntN(7)))},
		Cadence: (40 + 50*r.Float64()) * rpm, Gearing: 5 + 25*r.Float64(), GearEfficiency: 0.7 + 0.29*r.Float64(), Drag: 0.3 * r.Float64(), HeatLoss: new(0.3 * float64(r.IntN(2))), Surroundings: roomKelvin}
	in.To = *in.Store.RatedVoltage * (0.5 + 0.5*r.Float64())
	if r.IntN(2) == 0 {
		in.PowerLimit = new(20 + 60*r.Float64())
	}
	if r.IntN(2) == 0 {
		in.TorqueLimit = new(2 + 10*r.Float64())
	}
	if r.IntN(2) == 0 {
		in.Store.LeakageResistance = new(math.Pow(10, 2+3*r.Float64()))
	}
	return in
}
