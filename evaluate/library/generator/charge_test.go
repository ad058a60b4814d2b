package generator

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

const rpm = math.Pi / 30

// lapwing is an invented treadle generator.
func lapwing(t testing.TB, change func(*GeneratorInput)) GeneratorResult {
	t.Helper()
	w, _ := Awg(AwgInput{Gauge: 21, Temperature: roomKelvin})
	c, err := Coil(CoilInput{Turns: 87, Wire: Winding{Diameter: w.Diameter}, Shape: "round",
		Opening: 10e-3, Leg: 9e-3, Height: 8e-3, Temperature: zeroCelsius + 40, FillFactor: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	in := GeneratorInput{Coils: 9, Poles: 12, Phases: 3, Connection: "star", Rotor: "facing", Rectifiers: "common", DiodeDrop: 0.4, LeadResistance: 30e-3,
		Coil: RotorCoil{Turns: 87, Opening: 10e-3, Leg: 9e-3, Height: 8e-3, Resistance: c.Resistance, Inductance: c.Inductance, Temperature: c.Temperature,
			Section: &c.Section, Shape: "round"},
		Magnet: &DiscMagnet{20e-3, 5e-3, 1.28}, Radius: new(45e-3), Gap: new(10e-3)}
	if change != nil {
		change(&in)
	}
	g, err := Generator(t.Context(), in)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func lapwingCharge(t testing.TB) HandChargeInput {
	return HandChargeInput{Generator: lapwing(t, nil).Machine, Store: ChargedStore{Capacitance: 20, Resistance: 50e-3, RatedVoltage: new(13.5), LeakageResistance: new(50e3)},
		To: 12.5, Cadence: 75 * rpm, Gearing: 12, GearEfficiency: 0.85, Drag: 0.25, PowerLimit: new(45.0), TorqueLimit: new(8.0)}
}

func TestHandCharge(t *testing.T) {
	r, err := HandCharge(t.Context(), lapwingCharge(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%.3g s, work %.4g J, stored %.4g J, efficiency %.3g, peak torque %.3g N·m, power %.3g W, ceiling %.4g V",
		r.Time, r.Work, r.Stored, r.Efficiency, r.PeakTorque, r.PeakPower, r.Ceiling)
	for _, c := range r.List {
		t.Log(c.ID, c.Summary, c.Values)
	}
	// A minute or two is what such a machine takes (common practice, no source).
	if r.Time < 40 || r.Time > 180 {
		t.Errorf("%g s is not a minute or two", r.Time)
	}
	kit.Near(t, "energy sum", r.Work, r.Stored+r.Copper+r.Leads+r.StoreR+r.Diodes+r.Gears+r.Drag+r.Eddy+r.Leakage, 1e-8)
	if r.PeakTorque > 8*(1+1e-9) || r.PeakPower > 45*(1+1e-9) {
		t.Error("a limit is passed")
	}
	kit.Near(t, "history ends with the charge", r.History[len(r.History)-1].Time, r.Time, 1e-15)
}

// TestHandChargeInTime integrates the same machine in time, fourth order.
func TestHandChargeInTime(t *testing.T) {
	in := lapwingCharge(t)
	r, err := HandCharge(t.Context(), in)
	if err != nil {
		t.Fatal(err)
	}
	f := func(v float64) (dv, work float64) {
		p := in.at(v)
		return p.net / in.Store.Capacitance, p.crankPower()
	}
	v, clock, work, h := in.From, 0.0, 0.0, 0.01
	for v < in.To {
		a, w1 := f(v)
		b, w2 := f(v + h/2*a)
		c, w3 := f(v + h/2*b)
		d, w4 := f(v + h*c)
		step := h / 6 * (a + 2*b + 2*c + d)
		if v+step > in.To {
			part := (in.To - v) / step
			clock, work = clock+part*h, work+part*h*w1
			break
		}
		v, clock, work = v+step, clock+h, work+h/6*(w1+2*w2+2*w3+w4)
	}
	kit.Near(t, "time", r.Time, clock, 1e-5)
	kit.Near(t, "work", r.Work, work, 1e-5)
}

func TestChargePublished(t *testing.T) {
	// t = ∫ C dV/I(V): E 10 V peak, 0.5 Ω in all, 10 F, 0.7 V a diode, ceiling 8.6 V;
	// a direct simulation at 200 Hz agrees within 0.2 %.
	m := Machine{PhaseConstant: 0.1, CeilingConstant: 0.1, PhaseResistance: 0.5, DiodeDrop: 0.7, Phases: 1, Rectifiers: "common", Bridges: 1, Poles: 2}
	for to, want := range map[float64]float64{6: 14.3374, 8: 49.4558} {
		r, err := HandCharge(t.Context(), HandChargeInput{Generator: m, Store: ChargedStore{Capacitance: 10}, To: to, Cadence: 100, Gearing: 1, GearEfficiency: 1})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, "t = ∫ C dV/I(V)", r.Time, want, 5e-6)
		kit.Near(t, "ceiling", r.Ceiling, 8.6, 1e-12)
	}
}

func TestStall(t *testing.T) {
	in := lapwingCharge(t)
	in.Cadence, in.PowerLimit, in.TorqueLimit = 25*rpm, nil, nil
	e := in.stalls(t)
	kit.Near(t, "stalls at its ceiling", e.Values[0].Number, in.Generator.ceiling(in.Cadence*in.Gearing), 2e-3)
	in.waysReach(t, e, 3)

	// With a leak the current has to outrun it, which more turns of thinner wire
	// do worst.
	in.Cadence, in.Store.LeakageResistance = 75*rpm, new(2.5)
	in.waysReach(t, in.stalls(t), 3)

	// What the limit of the arm holds back no cadence reaches.
	in.PowerLimit, in.Store.LeakageResistance = new(45.0), new(4.0)
	if e = in.stalls(t); len(e.Values) != 3 || e.Hint != "raise power_limit, which holds the cadence down, or aim lower" {
		t.Errorf("%v | %s", e, e.Hint)
	}
	in.Store.LeakageResistance = new(2.5)
	if e = in.stalls(t); len(e.Values) != 3 || e.Hint != "raise power_limit with the cadence, take a store that leaks less, or aim lower" {
		t.Errorf("%v | %s", e, e.Hint)
	}

	in.Cadence, in.TorqueLimit = 75*rpm, new(0.2) // below the drag
	_, err := HandCharge(t.Context(), in)
	kit.Refuses(t, err, "torque_limit")
}

// stalls wants a charge to stall, and is what it says.
func (in *HandChargeInput) stalls(t *testing.T) *model.Error {
	t.Helper()
	_, err := HandCharge(t.Context(), *in)
	var e *model.Error
	if !errors.As(err, &e) || e.Field != "to" || !strings.Contains(e.Summary, "stalls") {
		t.Fatalf("%v", err)
	}
	return e
}

// waysReach takes each way out that a stall names, and wants it to reach the
// target, and nine tenths of it not to.
func (in HandChargeInput) waysReach(t *testing.T, e *model.Error, ways int) {
	t.Helper()
	if len(e.Values) != 3+ways {
		t.Fatalf("%d ways out in %s %v", len(e.Values)-3, e.Summary, e.Values)
	}
	for i, v := range e.Values[3:] {
		for part, reaches := range map[float64]bool{1: true, 0.9: false} {
			changed := in
			switch x := v.Number * part; i {
			case 0:
				changed.Cadence = x * rpm
			case 1:
				changed.Gearing = x
			case 2: // as long again, of as much less section
				f := x / in.Generator.Turns
				changed.Generator.PhaseConstant *= f
				changed.Generator.CeilingConstant *= f
				changed.Generator.PhaseResistance *= f * f
			}
			if _, err := HandCharge(t.Context(), changed); (err == nil) != reaches {
				t.Errorf("%g times way %d of %s %v: %v", part, i+1, e.Summary, e.Values, err)
			}
		}
	}
}

func TestOvercharge(t *testing.T) {
	in := lapwingCharge(t)
	top, err := ChargeCeiling(t.Context(), ChargeCeilingInput{Generator: in.Generator, Store: in.Store, Cadence: in.Cadence, Gearing: in.Gearing, To: new(12.5), GearEfficiency: 1})
	if err != nil {
		t.Fatal(err)
	}
	if (top.Ceiling > 13.5) != (len(top.List) > 0 && top.List[0].ID == "crank-can-overcharge") {
		t.Errorf("ceiling %g: %v", top.Ceiling, top.List)
	}
	kit.Near(t, "at that cadence the ceiling is the rating", in.Generator.ceiling(*top.OverchargeCadence*in.Gearing), 13.5, 1e-12)
}

// TestWeakestCell wants a word at a target over what the weakest cell bears,
// and none at one under it, or past the rating of all, which has its own.
func TestWeakestCell(t *testing.T) {
	in := lapwingCharge(t)
	in.Store.SafeVoltage = new(12.87)
	for to, want := range map[float64]bool{12.5: false, 12.9: true, 13.4: true, 14: false} {
		in.To = to
		r, err := HandCharge(t.Context(), in)
		if err != nil {
			t.Fatal(err)
		}
		top, _ := ChargeCeiling(t.Context(), ChargeCeilingInput{Generator: in.Generator, Store: in.Store, Cadence: in.Cadence, Gearing: in.Gearing, To: &to, GearEfficiency: 1})
		ways, _ := Groupings(t.Context(), GroupingsInput{in})
		for where, list := range map[string][]model.Caution{"charge": r.List, "ceiling": top.List, "groupings": ways.List} {
			if got := kit.Raised(list, "charge-over-weakest-cell"); got != want {
				t.Errorf("%s to %g V: said %v", where, to, got)
			}
		}
	}
}

func TestChargeProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 60 {
		m := Machine{PhaseConstant: 0.05 + 0.1*r.Float64(), PhaseResistance: 0.2 + r.Float64(), DiodeDrop: 0.7 * r.Float64(),
			Phases: 1 + 2*r.IntN(2), Rectifiers: []string{"common", "each"}[r.IntN(2)], Bridges: 1, Poles: 12, LeadResistance: 0.1 * r.Float64()}
		if m.Rectifiers == "each" {
			m.Bridges = 3
		}
		m.CeilingConstant = m.PhaseConstant
		if m.star() {
			m.CeilingConstant *= math.Sqrt(3)
		}
		in := HandChargeInput{Generator: m, Store: ChargedStore{Capacitance: 5 + 20*r.Float64(), Resistance: 0.1 * r.Float64(), LeakageResistance: new(1e4)},
			Cadence: 60 * rpm, Gearing: 10 + 10*r.Float64(), GearEfficiency: 0.9, Drag: 0.1}
		in.To = 0.8 * m.ceiling(in.Cadence*in.Gearing)
		if in.To < 0.5 {
			continue
		}
		a, err := HandCharge(t.Context(), in)
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, "energy sum", a.Work, a.Stored+a.Copper+a.Leads+a.StoreR+a.Diodes+a.Gears+a.Drag+a.Eddy+a.Leakage, 1e-8)
		in.Cadence *= 1.05
		if b, err := HandCharge(t.Context(), in); err != nil || b.Time >= a.Time {
			t.Errorf("more cadence, more time: %v", err)
		}
	}
}

// TestChargeTolerance goes in eight goes: no printed digit moves.
func TestChargeTolerance(t *testing.T) {
	in := lapwingCharge(t)
	whole, err := in.follow(t.Context(), in.From, in.To, in.start())
	if err != nil {
		t.Fatal(err)
	}
	sum := make([]float64, iCount)
	for i := range 8 {
		part, err := in.follow(t.Context(), in.To*float64(i)/8, in.To*float64(i+1)/8, in.start())
		if err != nil {
			t.Fatal(err)
		}
		for j, y := range part.y {
			sum[j] += y
		}
	}
	for i, y := range whole.y {
		if i != iKelvin {
			kit.Near(t, "integral", y, sum[i], 1e-8)
		}
	}
}

// TestLimitsRecovered lets each limit go to where it no longer counts.
func TestLimitsRecovered(t *testing.T) {
	in := lapwingCharge(t)
	in.PowerLimit, in.TorqueLimit = nil, nil
	free, _ := HandCharge(t.Context(), in)
	in.PowerLimit, in.TorqueLimit = new(1e6), new(1e6)
	wide, _ := HandCharge(t.Context(), in)
	kit.Near(t, "limits that never hold", wide.Time, free.Time, 1e-12)
	in.Store.LeakageResistance = new(1e15)
	tight, _ := HandCharge(t.Context(), in)
	in.Store.LeakageResistance = nil
	none, _ := HandCharge(t.Context(), in)
	kit.Near(t, "leakage to nothing", tight.Time, none.Time, 1e-9)
	// Gearing and cadence count only as their product for the time.
	in.Gearing, in.Cadence = in.Gearing*2, in.Cadence/2
	geared, _ := HandCharge(t.Context(), in)
	kit.Near(t, "half the cadence at twice the gearing", geared.Time, none.Time, 1e-9)
	// From a to b to c is from a to c.
	in.To = 6
	first, _ := HandCharge(t.Context(), in)
	in.From, in.To = 6, 12.5
	second, _ := HandCharge(t.Context(), in)
	kit.Near(t, "in two goes", first.Time+second.Time, none.Time, 1e-8)
}

// stepped charges in time by the solver of the flights, with the crank's work
// beside the voltage, and is what it took.
func (in *HandChargeInput) stepped(t testing.TB, tolerance float64) numeric.Solution {
	t.Helper()
	f := func(_ float64, y, dy []float64) {
		p := in.at(y[0])
		dy[0], dy[1] = p.net/in.Store.Capacitance, p.crankPower()
	}
	full := numeric.Event{Of: func(_ float64, y []float64) float64 { return y[0] - in.To }, Terminal: true}
	s, err := numeric.Integrate(t.Context(), f, 0, []float64{in.From, 0}, 1e4,
		numeric.Options{Relative: tolerance, Absolute: 1e-3 * tolerance, Events: []numeric.Event{full}})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestHandChargeByQuadrature sums t = ∫ C dV/I and the work over the voltage, and
// steps in time besides.
func TestHandChargeByQuadrature(t *testing.T) {
	in := lapwingCharge(t)
	c, err := in.follow(t.Context(), in.From, in.To, in.start())
	if err != nil {
		t.Fatal(err)
	}
	time, work := 0.0, 0.0
	const parts = 300
	for i := range parts {
		a, b := in.To*float64(i)/parts, in.To*float64(i+1)/parts
		time += waves.over(a, b, func(v float64) float64 { return in.Store.Capacitance / in.at(v).net })
		work += waves.over(a, b, func(v float64) float64 { p := in.at(v); return in.Store.Capacitance / p.net * p.crankPower() })
	}
	kit.Near(t, "time", c.y[iTime], time, 1e-7)
	kit.Near(t, "work", c.y[iWork], work, 1e-7)
	s := in.stepped(t, chargeTolerance)
	kit.Near(t, "time, stepped", c.y[iTime], s.T, 5e-7)
	t.Logf("%d looks at the machine, %d over the time", c.looks, s.Calls)
}

func BenchmarkHandCharge(b *testing.B) {
	for name, in := range map[string]HandChargeInput{"star": lapwingCharge(b), "single": singleCharge(b), "warm": warmCharge(b)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := HandCharge(b.Context(), in); err != nil {
					b.Fatal(err)
				}
			}
			c, _ := in.follow(b.Context(), in.From, in.To, in.start())
			b.ReportMetric(float64(c.looks), "looks/op")
		})
	}
}

// singleCharge is a single-phase machine of more reactance.
func singleCharge(t testing.TB) HandChargeInput {
	in := lapwingCharge(t)
	in.Generator = lapwing(t, func(g *GeneratorInput) { g.Phases, g.Coils, g.Poles = 1, 8, 8 }).Machine
	return in
}

// warmCharge has coils that warm.
func warmCharge(t testing.TB) HandChargeInput {
	in := singleCharge(t)
	in.Generator.CopperMass = 0.2
	return in
}

// FuzzHandCharge wants the energies to close, or an error that says why.
func FuzzHandCharge(f *testing.F) {
	f.Add(0.12, 0.7, 0.05, 0.4, 20.0, 12.5, 7.85, 12.0, 0.25, 45.0, 8.0, true)
	f.Add(0.1, 0.5, 0.0, 0.7, 10.0, 6.0, 100.0, 1.0, 0.0, 1e9, 1e9, false)
	f.Fuzz(func(t *testing.T, k, r, rd, vd, c, to, cadence, gearing, drag, power, torque float64, three bool) {
		m := Machine{PhaseConstant: k, CeilingConstant: k, PhaseResistance: r, LeadResistance: rd, DiodeDrop: vd, Phases: 1, Rectifiers: "common", Bridges: 1, Poles: 12}
		if three {
			m.Phases, m.CeilingConstant = 3, k*math.Sqrt(3)
		}
		for _, x := range []float64{k, r, c, to, cadence, gearing, power, torque} {
			if !(x > 1e-3 && x < 1e4) {
				return
			}
		}
		if !(rd >= 0 && rd < 10 && vd >= 0 && vd < 5 && drag >= 0 && drag < 10) || k*cadence*gearing > 1e6 {
			return // a million volts are no machine, and past what their difference to a store can be worked to
		}
		h, err := HandCharge(t.Context(), HandChargeInput{Generator: m, Store: ChargedStore{Capacitance: c}, To: to, Cadence: cadence, Gearing: gearing,
			GearEfficiency: 0.9, Drag: drag, PowerLimit: &power, TorqueLimit: &torque})
		if err != nil {
			var e *model.Error
			if !errors.As(err, &e) || e.Hint == "" {
				t.Fatalf("%v", err)
			}
			return
		}
		kit.Near(t, "energy sum", h.Work, h.Stored+h.Copper+h.Leads+h.StoreR+h.Diodes+h.Gears+h.Drag+h.Eddy+h.Leakage, 1e-6)
		if h.PeakPower > power*(1+1e-6) || h.PeakTorque > torque*(1+1e-6) {
			t.Errorf("past a limit: %g W, %g N·m", h.PeakPower, h.PeakTorque)
		}
	})
}
