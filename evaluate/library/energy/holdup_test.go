package energy

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
)

// bench is a store without tolerance, so that only the load's physics shows.
func bench(capacitance, resistance float64) Store {
	return Store{Capacitance: capacitance, RatedVoltage: 6, Resistance: resistance, Series: 1}
}

const (
	currentSource = "constant current: t = C (V0 − I ESR − Vmin)/I"
	loadSource    = "constant resistance: v = V0 RL/(RL+ESR) exp(−t/((RL+ESR) C))"
	powerSource   = "constant power with ESR: closed form, quadrature and ODE of an independent library agree"
)

func TestDischargeByCurrent(t *testing.T) {
	got := kit.Must(Discharge(DischargeInput{Store: bench(10, 30e-3), From: 5, To: 2.5, Current: new(2.0)}))(t)
	kit.Near(t, currentSource, got.Time, 12.2, 1e-9)
	kit.Near(t, currentSource+", delivered", got.Delivered, 90.768, 1e-9)
	kit.Near(t, currentSource+", lost", got.Lost, 1.464, 1e-9)
}

func TestDischargeThroughLoad(t *testing.T) {
	got := kit.Must(Discharge(DischargeInput{Store: bench(10, 30e-3), From: 5, To: 2.5, Load: new(2.0)}))(t)
	kit.Near(t, loadSource, got.Time, 13.7686489, 1e-8)
	kit.Near(t, loadSource+", delivered", got.Delivered, 91.4339594, 1e-8)

	got = kit.Must(Discharge(DischargeInput{Store: bench(25, 12e-3), From: 6, To: 3, Load: new(1.5)}))(t)
	kit.Near(t, loadSource, got.Time, 25.8997666, 1e-8)
}

func TestDischargeByPower(t *testing.T) {
	got := kit.Must(Discharge(DischargeInput{Store: bench(10, 30e-3), From: 5, To: 2.5, Power: new(8.0)}))(t)
	kit.Near(t, powerSource, got.Time, 11.2122599, 1e-8)
	kit.Near(t, powerSource+", rested end", got.EndVoltage, 2.596, 1e-9)
	kit.Near(t, powerSource+", lost", got.Lost, 1.605841, 1e-6)

	got = kit.Must(Discharge(DischargeInput{Store: bench(10, 0), From: 5, To: 2.5, Power: new(8.0)}))(t)
	kit.Near(t, "energy balance without ESR: C (V0² − Vmin²)/(2P)", got.Time, 11.71875, 1e-9)
}

func TestHoldUpTimeIsTheDischarge(t *testing.T) {
	in := HoldUpTimeInput{Store: bench(12.5, 64e-3), From: 5, To: 3, Current: new(0.15)}
	kit.Near(t, "the same time", kit.Must(HoldUpTime(in))(t).Time, kit.Must(Discharge(DischargeInput(in)))(t).Time, 0)
}

// currentAt is the circuit's own law, apart from the closed forms.
func currentAt(in DischargeInput, u float64) float64 {
	r := in.Store.Resistance
	switch {
	case in.Current != nil:
		return *in.Current
	case in.Load != nil:
		return u / (r + *in.Load)
	case r == 0:
		return *in.Power / u
	}
	return (u - math.Sqrt(max(0, u*u-4**in.Power*r))) / (2 * r)
}

func randomDischarge(r *rand.Rand) DischargeInput {
	in := DischargeInput{Store: bench(1+30*r.Float64(), 0.2*r.Float64()), From: 3 + 3*r.Float64()}
	in.To = in.From * (0.3 + 0.3*r.Float64())
	switch r.IntN(3) {
	case 0:
		in.Current = new(0.1 + 4*r.Float64())
	case 1:
		in.Power = new(0.1 + 6*r.Float64())
	default:
		in.Load = new(0.5 + 10*r.Float64())
	}
	return in
}

// Every closed form against quadrature over the voltage and a stepped solution
// in time; the energies sum up; none is created.
func TestDischargeByOtherRoutes(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		in := randomDischarge(r)
		got, err := Discharge(in)
		if err != nil || kit.Raised(got.List, "power-collapse") {
			continue
		}
		c := in.Store.Capacitance
		slow := func(u float64) float64 { return c / currentAt(in, u) }
		kit.Near(t, "quadrature", got.Time, quad.Fixed(slow, got.EndVoltage, in.From, 60, nil, 0), 1e-7)

		fall := func(u float64) float64 { return -currentAt(in, u) / c }
		kit.Near(t, "stepped", kit.RungeKutta(fall, in.From, got.Time/2000, 2000), got.EndVoltage, 1e-7)

		loss := func(u float64) float64 { return c * currentAt(in, u) * in.Store.Resistance }
		kit.Near(t, "loss by quadrature", got.Lost, quad.Fixed(loss, got.EndVoltage, in.From, 60, nil, 0), 1e-6)
		kit.Near(t, "sum", got.Delivered+got.Lost+got.Left, in.Store.EnergyAt(in.From), 1e-12)
		if got.Delivered < 0 || got.Lost < 0 {
			t.Errorf("energy created: %+v", got)
		}
	}
}

// As the resistance goes, the times go to those without it, from below.
func TestDischargeWithoutResistanceIsTheLimit(t *testing.T) {
	for _, in := range []DischargeInput{
		{From: 5, To: 2.5, Current: new(2.0)},
		{From: 5, To: 2.5, Power: new(8.0)},
	} {
		in.Store = bench(10, 0)
		ideal := kit.Must(Discharge(in))(t).Time
		last := 0.0
		for _, r := range []float64{0.1, 0.01, 1e-4, 1e-9} {
			in.Store.Resistance = r
			got := kit.Must(Discharge(in))(t).Time
			if got <= last || got > ideal {
				t.Errorf("with %g Ω %g s, after %g s; without %g s", r, got, last, ideal)
			}
			last = got
		}
		kit.Near(t, "limit", last, ideal, 1e-8)
	}
}

func TestPowerCollapses(t *testing.T) {
	// 10 W through 0.1 Ω: half the collapse is at √(P·R) = 1 V, so an end of
	// 0.5 V is never reached.
	got := kit.Must(Discharge(DischargeInput{Store: bench(10, 0.1), From: 5, To: 0.5, Power: new(10.0)}))(t)
	kit.Near(t, "collapse at 2√(PR)", got.EndVoltage, 2, 1e-12)
	if !kit.Raised(got.List, "power-collapse") {
		t.Error("a collapse without a caution")
	}
	// The current there is that of the maximum power point, V/(2R).
	kit.Near(t, "maximum power, V²/(4 ESR)", 2*2/(4*0.1), 10, 1e-12)
	down := func(u float64) float64 {
		return 10 / currentAt(DischargeInput{Store: bench(10, 0.1), Power: new(10.0)}, u)
	}
	kit.Near(t, "quadrature", got.Time, quad.Fixed(down, 2, 5, 400, nil, 0), 1e-5)

	// Exactly at the limit it is reached; no caution.
	got = kit.Must(Discharge(DischargeInput{Store: bench(10, 0.1), From: 5, To: 1, Power: new(10.0)}))(t)
	kit.Near(t, "end at the limit", got.EndVoltage, 2, 1e-12)
	if kit.Raised(got.List, "power-collapse") {
		t.Error("a caution although the end is reached")
	}
}

func TestDischargeRefuses(t *testing.T) {
	store := bench(10, 0.1)
	for _, c := range []struct {
		in    DischargeInput
		field string
	}{
		{DischargeInput{Store: store, From: 5, To: 4.9, Current: new(2.0)}, "from"},
		{DischargeInput{Store: store, From: 1, To: 0.5, Power: new(10.0)}, "from"},
		{DischargeInput{Store: store, From: 5, To: 0, Load: new(2.0)}, "to"},
		{DischargeInput{Store: store, From: 5, To: 2}, ""},
		{DischargeInput{Store: store, From: 5, To: 2, Current: new(1.0), Power: new(1.0)}, ""},
		{DischargeInput{Store: store, From: 5, To: 2, Current: new(0.0)}, "current"},
		{DischargeInput{Store: Store{}, From: 5, To: 2, Current: new(1.0)}, "store.capacitance"},
	} {
		_, err := Discharge(c.in)
		kit.Refuses(t, err, c.field)
	}
	// Empty to zero is an answer.
	got := kit.Must(HoldUpTime(HoldUpTimeInput{Store: bench(10, 0), From: 5, To: 0, Power: new(5.0)}))(t)
	kit.Near(t, "all of it", got.Time, 25, 1e-12)
}

func TestHoldUpOverRating(t *testing.T) {
	string4 := Store{Capacitance: 12.5, RatedVoltage: 10.8, Series: 4, Tolerance: 0.2}
	at := func(v float64) HoldUpTimeResult {
		return kit.Must(HoldUpTime(HoldUpTimeInput{Store: string4, From: v, To: 5, Current: new(1.0)}))(t)
	}
	if got := at(11); !kit.Raised(got.List, "store-over-rating") {
		t.Error("11 V on 10.8 V without a caution")
	}
	if got := at(10); !kit.Raised(got.List, "cell-over-rating") || !kit.Raised(got.List, "unbalanced-string") {
		t.Error("10 V on cells 20 % apart without a caution")
	}
	if got := at(8); kit.Raised(got.List, "cell-over-rating") || kit.Raised(got.List, "unbalanced-string") {
		t.Error("a caution at 8 V, which every cell bears")
	}
}

// TestBalancedString: cells without a spread, or held by clamps, stand side by side.
func TestBalancedString(t *testing.T) {
	for _, store := range []Store{
		{Capacitance: 12.5, RatedVoltage: 10.8, Series: 4},
		{Capacitance: 12.5, RatedVoltage: 10.8, Series: 4, Tolerance: 0.05, Clamped: true},
	} {
		if kit.Raised(store.Charged(10), "unbalanced-string") {
			t.Errorf("%+v: told to balance what is balanced", store)
		}
	}
	spread := Store{Capacitance: 12.5, RatedVoltage: 10.8, Series: 4, Tolerance: 0.2, Clamped: true}
	if !kit.Raised(spread.Charged(10), "cell-over-rating") {
		t.Error("a clamp that is overwhelmed holds nothing: the danger stays")
	}
}

// Stepped: four cells at one voltage, one low by the tolerance, give their
// charge away until the low one is empty.
func TestCellReversed(t *testing.T) {
	store := Store{Capacitance: 25, RatedVoltage: 10.8, Series: 4, Tolerance: 0.2}
	end := func(to float64) HoldUpTimeResult {
		return kit.Must(HoldUpTime(HoldUpTimeInput{Store: store, From: 8, To: to, Current: new(1.0)}))(t)
	}
	if !kit.Raised(end(1.5).List, "cell-reversed") || kit.Raised(end(1.7).List, "cell-reversed") {
		t.Error("the caution does not begin at 20 % of 8 V")
	}
	charge := 0.0
	for low := 2.0; low > 0; low -= 0.001 / 80 {
		charge += 0.001
	}
	kit.Near(t, "string voltage then, from its own capacitance", 8-charge/store.Capacitance, 1.6, 1e-3)
}

// FuzzDischarge: the energies sum up and none is created, whatever the store.
func FuzzDischarge(f *testing.F) {
	f.Add(10.0, 0.03, 5.0, 2.5, 8.0, uint8(1))
	f.Add(12.5, 0.0, 10.0, 0.0, 0.15, uint8(0))
	f.Add(1.0, 0.2, 3.0, 0.1, 2.0, uint8(2))
	f.Fuzz(func(t *testing.T, capacitance, resistance, from, to, load float64, kind uint8) {
		for _, v := range []float64{capacitance, resistance, from, to, load} {
			if !(v == 0 || v > 1e-6 && v < 1e6) {
				return // outside of any build
			}
		}
		in := DischargeInput{Store: bench(capacitance, resistance), From: from, To: to}
		*[]**float64{&in.Current, &in.Power, &in.Load}[kind%3] = &load
		got, err := Discharge(in)
		if err != nil {
			return
		}
		start := in.Store.EnergyAt(from)
		if !(got.Time >= -1e-9*start/load && got.Lost >= -1e-9*start && got.Delivered >= -1e-9*start) {
			t.Errorf("energy created: %+v", got)
		}
		if math.Abs(got.Delivered+got.Lost+got.Left-start) > 1e-9*start {
			t.Errorf("%g + %g + %g is not %g J", got.Delivered, got.Lost, got.Left, start)
		}
	})
}

func BenchmarkHoldUpTime(b *testing.B) {
	b.ReportAllocs()
	in := HoldUpTimeInput{Store: bench(12.5, 64e-3), From: 5, To: 3, Power: new(1.5)}
	for b.Loop() {
		if _, err := HoldUpTime(in); err != nil {
			b.Fatal(err)
		}
	}
}
