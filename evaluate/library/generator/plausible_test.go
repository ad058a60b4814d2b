package generator

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

// sets is how many random machines the properties are held against; 5000 is the
// full number: go test ./evaluate/library/generator -run Plausible -sets 5000
var sets = flag.Int("sets", 250, "how many random machines the properties are held against")

// TestPlausibleCharges: energies close, limits hold, what is refused names an input
// that somebody gave, no number is none, and a thousandth more of an input moves the time
// by no more than a few of them, away from the ceiling where it runs away.
func TestPlausibleCharges(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 2026))
	arrived := 0
	for n := range *sets {
		in := plausible(r)
		h, err := HandCharge(t.Context(), in)
		if err != nil {
			refused(t, in, err)
			continue
		}
		arrived++
		sum := h.Stored + h.Copper + h.Leads + h.StoreR + h.Diodes + h.Gears + h.Drag + h.Eddy + h.Leakage + h.Settling
		kit.Near(t, "energy sum", h.Work, sum, 1e-6)
		finite(t, h.Time, h.Work, h.Turns, h.PeakTorque, h.PulseTorque, h.PeakPower, h.PeakCurrent, h.WireCurrent, h.Efficiency)
		for _, loss := range []float64{h.Copper, h.Leads, h.StoreR, h.Diodes, h.Gears, h.Drag, h.Eddy, h.Leakage, h.Settling} {
			if !(loss >= -1e-9*h.Work) {
				t.Errorf("set %d: a loss of %g J", n, loss)
			}
		}
		if h.PulseTorque < h.PeakTorque*(1-1e-6) || in.TorqueLimit != nil && h.PeakTorque > *in.TorqueLimit*(1+1e-6) || in.PowerLimit != nil && h.PeakPower > *in.PowerLimit*(1+1e-6) {
			t.Errorf("set %d: pulse %g, torque %g N·m, power %g W, %v", n, h.PulseTorque, h.PeakTorque, h.PeakPower, in)
		}
		steady(t, n, in, h)
		if t.Failed() {
			t.Fatalf("set %d: %+v", n, in)
		}
	}
	t.Logf("%d of %d arrived", arrived, *sets)
	if arrived < *sets/8 {
		t.Error("few arrive")
	}
}

// refused wants an error of the model about an input.
func refused(t *testing.T, in HandChargeInput, err error) {
	t.Helper()
	var e *model.Error
	if !errors.As(err, &e) || e.Hint == "" {
		t.Fatalf("%v", err)
	}
	if e.Field != "to" && !(e.Field == "torque_limit" && in.TorqueLimit != nil) {
		t.Errorf("%v about %s", err, e.Field)
	}
	for _, v := range e.Values {
		finite(t, v.Number)
	}
}

func finite(t *testing.T, list ...float64) {
	t.Helper()
	for _, x := range list {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("no number: %v", list)
		}
	}
}

// steady changes each input by a thousandth. Within 8 % of the ceiling the time goes
// as a power of what is left, which is a stated edge; so is a leak that takes most of the
// current, and a torque limit next to the crest of torque that a winding of much reactance has.
func steady(t *testing.T, n int, in HandChargeInput, h HandChargeResult) {
	t.Helper()
	end := in.at(in.To)
	if in.TorqueLimit != nil && in.arm(in.start()).shy() < in.Cadence || in.To > 0.92*h.Ceiling || end.net < 0.5*end.mean || end.mean < 0.1*h.PeakCurrent {
		return
	}
	for name, change := range map[string]func(*HandChargeInput){
		"cadence":    func(in *HandChargeInput) { in.Cadence *= 1.001 },
		"resistance": func(in *HandChargeInput) { in.Generator.PhaseResistance *= 1.001 },
		"inductance": func(in *HandChargeInput) { in.Generator.PhaseInductance *= 1.001 },
		"to":         func(in *HandChargeInput) { in.To *= 1.001 },
		"drag":       func(in *HandChargeInput) { in.Drag *= 1.001 },
	} {
		other := in
		change(&other)
		b, err := HandCharge(t.Context(), other)
		if err != nil {
			t.Errorf("set %d: %s a thousandth more: %v", n, name, err)
			continue
		}
		for what, pair := range map[string][2]float64{"time": {h.Time, b.Time}, "work": {h.Work, b.Work}, "torque": {h.PeakTorque, b.PeakTorque}, "pulse": {h.PulseTorque, b.PulseTorque}} {
			kit.Near(t, fmt.Sprintf("set %d: %s by %s", n, what, name), pair[1], pair[0], 0.015)
		}
	}
}

// TestPlausibleGroupings: no way is slower than the machine's own, by the same number, and
// nothing is none.
func TestPlausibleGroupings(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 2026))
	for range *sets / 5 {
		in := plausible(r)
		in.Generator.Rectifiers, in.Generator.Bridges, in.Generator.Poles = "common", 1, 12
		own, err := HandCharge(t.Context(), in)
		ways, failed := Groupings(t.Context(), GroupingsInput{in})
		if failed != nil {
			refused(t, in, failed)
			continue
		}
		for _, w := range ways.Groups {
			finite(t, w.Ceiling, w.Resistance)
			if w.Time != nil {
				finite(t, *w.Time, *w.PeakTorque)
			}
		}
		if err == nil && in.Generator.Phases == 1 && (ways.Time == nil || *ways.Time > own.Time*(1+1e-9)) && in.Generator.SeriesCoils == 9 {
			t.Errorf("the best takes %v s, the machine's own way %g s", ways.Time, own.Time)
		}
		top, err := ChargeCeiling(t.Context(), ChargeCeilingInput{Generator: in.Generator, Store: in.Store, Cadence: in.Cadence, Gearing: in.Gearing, To: &in.To, GearEfficiency: in.GearEfficiency,
			Drag: in.Drag, PowerLimit: in.PowerLimit, TorqueLimit: in.TorqueLimit})
		if err != nil {
			t.Fatal(err)
		}
		finite(t, top.Ceiling, *top.OverchargeCadence)
		if s := top.SecondsToRating; s != nil && !(*s > 0) { // without an end where it never gets there
			t.Errorf("%g s to the rating", *s)
		}
	}
}

// TestPlausibleGenerators: a machine that can be built has an emf, a resistance and
// an eddy loss; one that cannot is refused by what does not fit.
func TestPlausibleGenerators(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 2026))
	built := 0
	for range *sets / 5 {
		w := kit.Must(Awg(AwgInput{Gauge: 18 + r.IntN(14), Temperature: roomKelvin}))(t)
		c := kit.Must(Coil(CoilInput{Turns: 30 + 200*r.Float64(), Wire: Winding{Diameter: w.Diameter}, Shape: "round", Opening: (4 + 8*r.Float64()) * 1e-3, Leg: (4 + 8*r.Float64()) * 1e-3,
			Height: (4 + 6*r.Float64()) * 1e-3, Temperature: roomKelvin + 60*r.Float64(), FillFactor: 0.5}))(t)
		g, err := Generator(t.Context(), GeneratorInput{Coils: 3 * (1 + r.IntN(5)), Poles: 4 + 2*r.IntN(8), Phases: 1 + 2*r.IntN(2), Connection: []string{"star", "delta"}[r.IntN(2)],
			Rotor: []string{"facing", "backed", "single", "keeper"}[r.IntN(4)], Rectifiers: []string{"common", "each"}[r.IntN(2)], DiodeDrop: 0.4,
			Coil: RotorCoil{Turns: c.Turns, Opening: c.Opening, Leg: c.Leg, Height: c.Height, Resistance: c.Resistance, Inductance: c.Inductance, Section: &c.Section,
				CopperMass: &c.CopperMass, MeanTurn: &c.MeanTurn, Temperature: c.Temperature, Shape: "round"},
			Magnet: &DiscMagnet{(8 + 14*r.Float64()) * 1e-3, (2 + 6*r.Float64()) * 1e-3, 1.1 + 0.3*r.Float64()}, Radius: new((30 + 40*r.Float64()) * 1e-3), Gap: new((6 + 10*r.Float64()) * 1e-3)})
		if err != nil {
			var e *model.Error
			if !errors.As(err, &e) || e.Field == "" || e.Hint == "" {
				t.Fatalf("%v", err)
			}
			continue
		}
		built++
		finite(t, g.PhaseConstant, g.PhaseResistance, g.PhaseInductance, g.EddyConstant, g.CopperMass, g.CoilSurface, g.Flux)
		if !(g.PhaseConstant > 0 && g.PhaseResistance > 0 && g.EddyConstant > 0) {
			t.Errorf("%+v", g)
		}
	}
	if built < *sets/50 {
		t.Errorf("only %d could be built", built)
	}
}
