package energy

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/internal/twobranch"
)

// branched is a cell of 470 F with the branches published for one of that size (L.
// Zubieta, R. Bonert, IEEE Trans. Ind. Appl. 36 (2000) 199, from memory: 270 F + 190 F/V,
// 100 F behind 0.9 Ω, 2.5 mΩ before both), rated 2.3 V here.
func branched() Store {
	return Store{Capacitance: 270 + 190*0.6*2.3, RatedVoltage: 2.3, Resistance: 2.5e-3, Series: 1, Parallel: 1, Cells: 1,
		Fields: twobranch.Fields{CapacitanceSlope: new(190.0), SlowCapacitance: new(100.0), SlowResistance: new(0.9)}}
}

// stepped follows both branches by the classical method of fourth order, the load's
// current and what leaves the terminals as given; it answers times and energies.
func stepped(s Store, v, slow, end, h float64, current func(v float64) float64) (t, slowEnd, delivered, lost, settling float64) {
	c0, k, cs, rs := s.Capacitance-0.6**s.CapacitanceSlope*s.RatedVoltage, *s.CapacitanceSlope, *s.SlowCapacitance, *s.SlowResistance
	f := func(y [5]float64) [5]float64 {
		i, j := current(y[0]), (y[0]-y[1])/rs
		return [5]float64{-(i + j) / (c0 + k*y[0]), j / cs, i*y[0] - i*i*s.Resistance, i * i * s.Resistance, j * j * rs}
	}
	add := func(y, k [5]float64, h float64) [5]float64 {
		for i := range y {
			y[i] += h * k[i]
		}
		return y
	}
	y := [5]float64{v, slow}
	for {
		k1 := f(y)
		k2 := f(add(y, k1, h/2))
		k3 := f(add(y, k2, h/2))
		k4 := f(add(y, k3, h))
		next := y
		for i := range y {
			next[i] += h / 6 * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
		}
		if next[0] <= end {
			part := (y[0] - end) / (y[0] - next[0])
			return t + part*h, y[1] + part*(next[1]-y[1]), y[2] + part*(next[2]-y[2]), y[3] + part*(next[3]-y[3]), y[4] + part*(next[4]-y[4])
		}
		y, t = next, t+h
	}
}

// TestDischargeOfBothBranches holds each load against a stepped solution.
func TestDischargeOfBothBranches(t *testing.T) {
	s := branched()
	p := 3.0
	for name, c := range map[string]struct {
		in      DischargeInput
		current func(v float64) float64
	}{
		"current":                            {DischargeInput{Store: s, From: 2.2, To: 1, Current: new(5.0)}, func(float64) float64 { return 5 }},
		"power":                              {DischargeInput{Store: s, From: 2.2, To: 0.8, Power: &p}, func(v float64) float64 { return (v - math.Sqrt(v*v-4*p*2.5e-3)) / (2 * 2.5e-3) }},
		"load":                               {DischargeInput{Store: s, From: 2.2, To: 1, Load: new(0.4)}, func(v float64) float64 { return v / 0.4025 }},
		"a store that has just been charged": {DischargeInput{Store: s, From: 2.2, To: 1, Current: new(5.0), SlowVoltage: new(0.3)}, func(float64) float64 { return 5 }},
	} {
		slow := 2.2
		if c.in.SlowVoltage != nil {
			slow = *c.in.SlowVoltage
		}
		got := kit.Must(Discharge(c.in))(t)
		time, slowEnd, delivered, lost, settling := stepped(s, c.in.From, slow, got.EndVoltage, 0.01, c.current)
		kit.Near(t, name+": time", got.Time, time, 1e-6)
		kit.Near(t, name+": delivered", got.Delivered, delivered, 1e-6)
		kit.Near(t, name+": lost", got.Lost, lost, 1e-6)
		kit.Near(t, name+": settling", *got.Settling, settling, 1e-5)
		l := s.law()
		kit.Near(t, name+": left", got.Left, l.Held(got.EndVoltage, slowEnd), 1e-6)
		kit.Near(t, name+": settled", *got.SettledVoltage, l.Settled(got.EndVoltage, slowEnd), 1e-6)
		if kit.Raised(got.List, "capacitance-rises") {
			t.Errorf("%s: warns of a capacitance taken as constant", name)
		}
	}
}

// TestDischargeForHours holds the part in which both branches fall together against a
// stepped solution: some days of a bleeder.
func TestDischargeForHours(t *testing.T) {
	s := branched()
	*s.SlowResistance = 0.3
	got := kit.Must(HoldUpTime(HoldUpTimeInput{Store: s, From: 2.2, To: 1, Load: new(1000.0)}))(t)
	time, _, _, _, _ := stepped(s, 2.2, 2.2, 1000.0025/1000, 4, func(v float64) float64 { return v / 1000.0025 })
	if time < 1e5 {
		t.Fatalf("only %g s", time)
	}
	kit.Near(t, "time", got.Time, time, 1e-6)
}

// TestDischargeToNothing: a current takes all the charge that there is, and a power all the
// energy, but for what the slow branch still has.
func TestDischargeToNothing(t *testing.T) {
	s := branched()
	s.Resistance = 0
	l := s.law()
	run := kit.Must(Discharge(DischargeInput{Store: s, From: 2, Current: new(5.0)}))(t)
	slow := *run.SettledVoltage * (l.C0 + 100 + l.Slope**run.SettledVoltage/2) / 100
	kit.Near(t, "charge", 5*run.Time, l.Charge(0, 2)+100*(2-slow), 1e-8)
	spent := kit.Must(Discharge(DischargeInput{Store: s, From: 2, Power: new(5.0)}))(t)
	kit.Near(t, "energy", 5*spent.Time+spent.Left+*spent.Settling, l.Held(2, 2), 1e-6)
}

// TestRisingCapacitanceAlone: without a slow branch the closed forms agree with the
// stepped solution of a slow branch that takes next to nothing.
func TestRisingCapacitanceAlone(t *testing.T) {
	s := branched()
	s.SlowCapacitance, s.SlowResistance = new(1e-9), new(1e12)
	alone := s
	alone.SlowCapacitance, alone.SlowResistance = nil, nil
	for _, in := range []DischargeInput{{From: 2.2, To: 1, Current: new(5.0)}, {From: 2.2, To: 0.8, Power: new(3.0)}, {From: 2.2, To: 1, Load: new(0.4)}} {
		in.Store = alone
		load, err := in.load()
		if err != nil {
			t.Fatal(err)
		}
		got := kit.Must(Discharge(in))(t)
		time, _, delivered, lost, _ := stepped(s, in.From, in.From, got.EndVoltage, 0.01, load.flow)
		kit.Near(t, "time", got.Time, time, 1e-6)
		kit.Near(t, "delivered", got.Delivered, delivered, 1e-6)
		kit.Near(t, "lost", got.Lost, lost, 1e-6)
	}
}

// TestChargeTimeOfBothBranches holds it against a stepped solution, and energies close.
func TestChargeTimeOfBothBranches(t *testing.T) {
	s := branched()
	for _, in := range []ChargeTimeInput{{To: 2.2, Power: 10, From: 0.2, Efficiency: 1}, {To: 2, Power: 20, Efficiency: 0.6}} {
		in.Store = s
		got := kit.Must(ChargeTime(in))(t)
		time, slow := 0.0, in.From
		r, p := s.Resistance, in.Power
		into := func(v float64) float64 { return (math.Sqrt(v*v+4*p*r) - v) / (2 * r) }
		v, h := in.From, 1e-3
		l := s.law()
		for v < in.To { // by the midpoint
			dv := (into(v) - (v-slow)/0.9) / l.At(v)
			ds := (v - slow) / 0.9 / 100
			mv, ms := v+h/2*dv, slow+h/2*ds
			dv, ds = (into(mv)-(mv-ms)/0.9)/l.At(mv), (mv-ms)/0.9/100
			if v+h*dv > in.To {
				time += (in.To - v) / dv
				slow += (in.To - v) / dv * ds
				break
			}
			v, slow, time = v+h*dv, slow+h*ds, time+h
		}
		kit.Near(t, "time", got.Time, time, 1e-6)
		kit.Near(t, "stored", got.Stored, l.Held(in.To, slow)-l.Held(in.From, in.From), 1e-6)
	}
	s.SlowCapacitance, s.SlowResistance = nil, nil
	in := ChargeTimeInput{Store: s, To: 2.2, Power: 10, From: 0.2, Efficiency: 1}
	got := kit.Must(ChargeTime(in))(t)
	want := kit.RungeKutta(func(v float64) float64 {
		return (math.Sqrt(v*v+4*10*2.5e-3) - v) / (2 * 2.5e-3) / (270 + 190*v)
	}, 0.2, got.Time/4000, 4000)
	kit.Near(t, "reached", want, 2.2, 1e-9)
}

// TestSettledVoltagePublished: 15 F and 1.8 F from 12.5 V settle at 11.1607 V
// (conservation of charge, 12.5·15/16.8), by the time constant R·15·1.8/16.8.
func TestSettledVoltagePublished(t *testing.T) {
	s := Store{Capacitance: 15, RatedVoltage: 13.5, Series: 5, Fields: twobranch.Fields{SlowCapacitance: new(1.8), SlowResistance: new(30.0)}}
	got := kit.Must(SettledVoltage(SettledVoltageInput{Store: s, Voltage: 12.5}))(t)
	kit.Within(t, "settled", got.Voltage, 11.1607, 5e-5)
	if !kit.Raised(got.List, "settles-after-charge") {
		t.Error("does not say that it settles")
	}
	tau := 30 * 15 * 1.8 / 16.8
	soon := kit.Must(SettledVoltage(SettledVoltageInput{Store: s, Voltage: 12.5, Time: &tau}))(t)
	kit.Near(t, "after a time constant", soon.Voltage, 12.5*15/16.8+12.5*1.8/16.8/math.E, 1e-8)
	late := kit.Must(SettledVoltage(SettledVoltageInput{Store: s, Voltage: 12.5, Time: new(1e9)}))(t)
	kit.Near(t, "in the end", late.Voltage, got.Voltage, 1e-9)
	rested := kit.Must(SettledVoltage(SettledVoltageInput{Store: s, Voltage: 12.5, SlowVoltage: 12.5}))(t)
	kit.Near(t, "rested before", rested.Voltage, 12.5, 1e-12)
	_, err := SettledVoltage(SettledVoltageInput{Store: s, Voltage: 12.5, Time: new(-1.0)})
	kit.Refuses(t, err, "time")
	_, err = SettledVoltage(SettledVoltageInput{Store: s, Voltage: 12.5, SlowVoltage: math.NaN()})
	kit.Refuses(t, err, "slow_voltage")
}

// TestRestOfARisingCapacitance holds the way there against a stepped solution.
func TestRestOfARisingCapacitance(t *testing.T) {
	s := branched()
	v, slow, h := 2.2, 0.2, 1e-3
	l := s.law()
	for range 60_000 {
		mid := (v - slow) / 0.9
		mv, ms := v-h/2*mid/l.At(v), slow+h/2*mid/100
		mid = (mv - ms) / 0.9
		v, slow = v-h*mid/l.At(mv), slow+h*mid/100
	}
	got := kit.Must(SettledVoltage(SettledVoltageInput{Store: s, Voltage: 2.2, SlowVoltage: 0.2, Time: new(60.0)}))(t)
	kit.Near(t, "after a minute", got.Voltage, v, 1e-7)
}

// TestPackOfBranches: five cells in series hold five times one.
func TestPackOfBranches(t *testing.T) {
	one := branched()
	five := kit.Must(Pack(PackInput{Cell: one, Series: 5, Parallel: 2}))(t)
	kit.Near(t, "energy", five.EnergyAt(10), 10*one.EnergyAt(2), 1e-12)
	kit.Near(t, "slope", *five.CapacitanceSlope, 190*2.0/25, kit.Exact)
	kit.Near(t, "slow", *five.SlowCapacitance, 40, kit.Exact)
	kit.Near(t, "through", *five.SlowResistance, 2.25, kit.Exact)
	a := kit.Must(HoldUpTime(HoldUpTimeInput{Store: one, From: 2, To: 1, Current: new(1.0)}))(t)
	b := kit.Must(HoldUpTime(HoldUpTimeInput{Store: five.Store, From: 10, To: 5, Current: new(2.0)}))(t)
	kit.Near(t, "time", b.Time, a.Time, 1e-8)
}

func TestCapacitorRefusesBranches(t *testing.T) {
	in := CapacitorInput{Capacitance: 100, RatedVoltage: 2.7}
	in.CapacitanceSlope = new(80.0)
	_, err := Capacitor(in)
	kit.Refuses(t, err, "capacitance_slope")
	in.CapacitanceSlope = nil
	in.SlowCapacitance = new(10.0)
	_, err = Capacitor(in)
	kit.Refuses(t, err, "slow_resistance")
}

// TestPlausibleDischarges: energy closes, the time is never longer than that of all
// the charge there is, and a thousandth more moves nothing by much. The power's own
// energy P·t is the second way to what is delivered.
func TestPlausibleDischarges(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 2026))
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	for n := range *sets {
		c := between(5, 400)
		s := Store{Capacitance: c, RatedVoltage: 2.7, Resistance: between(0.2, 1.5) / c, Series: 1}
		if r.IntN(3) > 0 {
			s.CapacitanceSlope = new(c * between(0, 0.3))
		}
		if r.IntN(3) > 0 {
			s.SlowCapacitance, s.SlowResistance = new(c*between(0.02, 0.3)), new(between(100, 2000)/c)
		}
		p := s.RatedVoltage * s.RatedVoltage / s.Resistance * math.Pow(10, between(-5, -1.5))
		in := DischargeInput{Store: s, From: between(1.8, 2.7), To: between(0.3, 1.2), Power: &p}
		if r.IntN(2) == 0 {
			in.SlowVoltage = new(between(0, in.From))
		}
		got, err := Discharge(in)
		if err != nil {
			t.Fatalf("set %d: %+v: %v", n, in, err)
		}
		kit.Near(t, "delivered", got.Delivered, p*got.Time, 1e-6)
		if got.Lost < 0 || got.Settling != nil && *got.Settling < 0 || got.Left < 0 {
			t.Errorf("set %d: %+v", n, got)
		}
		for name, change := range map[string]func(*DischargeInput){
			"from": func(in *DischargeInput) { in.From *= 1.001 }, "slope": func(in *DischargeInput) {
				if in.Store.CapacitanceSlope != nil {
					in.Store.CapacitanceSlope = new(*in.Store.CapacitanceSlope * 1.001)
				}
			},
			"power": func(in *DischargeInput) { q := *in.Power * 1.001; in.Power = &q },
			"slow": func(in *DischargeInput) {
				if in.Store.SlowCapacitance != nil {
					in.Store.SlowCapacitance = new(*in.Store.SlowCapacitance * 1.001)
				}
			},
		} {
			other := in
			change(&other)
			kit.Near(t, name, kit.Must(Discharge(other))(t).Time, got.Time, 0.02)
		}
		if t.Failed() {
			t.Fatalf("set %d: %+v %+v", n, in, got)
		}
	}
}

// TestStoreAt: a store as its sheet has it at 25 °C, twice the resistance and 5 % less
// capacitance at −40 °C (makers' data sheets, from memory); the geometric mean between.
func TestStoreAt(t *testing.T) {
	s := branched()
	frost := twobranch.SheetFrost
	warm := kit.Must(StoreAt(StoreAtInput{Store: s, Temperature: 298.15, Frost: frost}))(t)
	kit.Near(t, "at 25 °C", warm.Resistance, s.Resistance, 1e-12)
	cold := kit.Must(StoreAt(StoreAtInput{Store: s, Temperature: 233.15, Frost: frost}))(t)
	kit.Near(t, "resistance", cold.Resistance, 2*s.Resistance, 1e-12)
	kit.Near(t, "capacitance", cold.Capacitance, 0.95*s.Capacitance, 1e-12)
	kit.Near(t, "energy", cold.Energy, 0.95*warm.Energy, 1e-12)
	half := kit.Must(StoreAt(StoreAtInput{Store: s, Temperature: (298.15 + 233.15) / 2, Frost: frost}))(t)
	kit.Near(t, "between", half.Resistance*half.Resistance, warm.Resistance*cold.Resistance, 1e-12)
	hot := kit.Must(StoreAt(StoreAtInput{Store: s, Temperature: 320, Frost: frost}))(t)
	kit.Near(t, "in the sun", hot.Resistance, s.Resistance, 1e-12)
	for field, in := range map[string]StoreAtInput{
		"temperature":       {Store: s, Temperature: 200, Frost: frost},
		"cold":              {Store: s, Temperature: 270, Frost: twobranch.Frost{ResistanceRatio: 2, CapacitanceRatio: 0.9, Cold: 300}},
		"capacitance_ratio": {Store: s, Temperature: 233.15, Frost: twobranch.Frost{ResistanceRatio: 2, CapacitanceRatio: 0.1, Cold: 273.15}},
		"resistance_ratio":  {Store: s, Temperature: 270, Frost: twobranch.Frost{CapacitanceRatio: 0.9, Cold: 240}},
	} {
		_, err := StoreAt(in)
		kit.Refuses(t, err, field)
	}
}

// TestStoreGives: by hand, 270 F + 190 F/V and 100 F beside it (Zubieta and Bonert, from
// memory) from 2 V to 1 V: 405 J + 443.3 J + 150 J, and 270 C + 285 C + 100 C.
func TestStoreGives(t *testing.T) {
	got := kit.Must(StoreGives(StoreGivesInput{Store: branched(), From: 2, To: 1}))(t)
	kit.Near(t, "energy", got.Energy, 405+190*7.0/3+150, 1e-12)
	kit.Near(t, "charge", got.Charge, 655, 1e-12)
	plain := branched()
	plain.CapacitanceSlope, plain.SlowCapacitance, plain.SlowResistance = nil, nil, nil
	old := kit.Must(UsableEnergy(UsableEnergyInput{Capacitance: plain.Capacitance, From: 2, To: 1}))(t)
	same := kit.Must(StoreGives(StoreGivesInput{Store: plain, From: 2, To: 1}))(t)
	kit.Near(t, "constant capacitance", same.Energy, old.Energy, 1e-12)
	kit.Near(t, "share", same.Share, 0.75, 1e-12)
	_, err := StoreGives(StoreGivesInput{Store: plain, From: 1, To: 2})
	kit.Refuses(t, err, "from")
}

// TestStoreGivesByDischarge: a discharge so slow that both branches stay together gives
// the same, in its resistances and to its load.
func TestStoreGivesByDischarge(t *testing.T) {
	s := branched()
	run := kit.Must(Discharge(DischargeInput{Store: s, From: 2, To: 1, Current: new(1e-4)}))(t)
	gives := kit.Must(StoreGives(StoreGivesInput{Store: s, From: 2, To: 1}))(t)
	kit.Near(t, "energy", run.Delivered+run.Lost+*run.Settling, gives.Energy, 1e-5)
	kit.Near(t, "charge", run.Time*1e-4, gives.Charge, 1e-5)
}
