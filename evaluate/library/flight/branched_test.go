package flight

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/internal/twobranch"
)

// lapwingBranches is the Lapwing's pack with a capacitance that rises and a slow branch.
func lapwingBranches() twobranch.Fields {
	return twobranch.Fields{CapacitanceSlope: new(0.45), SlowCapacitance: new(2.0), SlowResistance: new(25.0)}
}

// TestFlightOnBothBranches holds a climb against both branches stepped in time by the
// classical method of fourth order, and the energies close.
func TestFlightOnBothBranches(t *testing.T) {
	for name, slow := range map[string]*float64{"rested": nil, "just charged": new(9.0)} {
		in := lapwingFlight(climbing(1, 50))
		in.Store.Fields, in.SlowVoltage = lapwingBranches(), slow
		got := kit.Must(Flight(t.Context(), in))(t)
		kit.Near(t, name+": sum of energies", sum(got.FlightSum), got.Given, 1e-6)
		k, err := in.circuit()
		if err != nil {
			t.Fatal(err)
		}
		l, err := k.newLeg(in.Airframe, in.Plan[0], 1, in.Home)
		if err != nil {
			t.Fatal(err)
		}
		c0 := 20 - 0.45*0.6*13.5
		f := func(v, s float64) (dv, ds float64) {
			m, into := l.at(v), (v-s)/25
			return -(m.pack + m.radio + v/50e3 + into) / (c0 + 0.45*v), into / 2
		}
		v, s := 12.4, 12.4
		if slow != nil {
			s = *slow
		}
		const n = 4800
		h := 48.0 / n
		for range n {
			a, b := f(v, s)
			c, d := f(v+h/2*a, s+h/2*b)
			e, g := f(v+h/2*c, s+h/2*d)
			p, q := f(v+h*e, s+h*g)
			v, s = v+h/6*(a+2*c+2*e+p), s+h/6*(b+2*d+2*g+q)
		}
		kit.Near(t, name+": voltage at the top", got.StopVoltage, v, 1e-7)
		if kit.Raised(got.List, "control-time-reads-long") {
			t.Errorf("%s: warns of a capacitance taken as constant", name)
		}
	}
}

// TestFlightOnAFastBranchAlone: a slow branch that takes next to nothing changes
// nothing, and one that a rising capacitance has in it flies as long by the charge.
func TestFlightOnAFastBranchAlone(t *testing.T) {
	in := lapwingFlight()
	plain := kit.Must(Flight(t.Context(), in))(t)
	in.Store.SlowCapacitance, in.Store.SlowResistance = new(1e-7), new(1e10)
	got := kit.Must(Flight(t.Context(), in))(t)
	kit.Near(t, "time", got.TotalTime, plain.TotalTime, 1e-6)
	kit.Near(t, "control time", *got.ControlTime, *plain.ControlTime, 1e-6)
	if !kit.Raised(got.List, "control-time-reads-long") || !kit.Raised(plain.List, "control-time-reads-long") {
		t.Error("no word of a capacitance taken as constant")
	}
}

// TestControlTimeOfARisingCapacitance: at the low end, where the radio lives, a string
// of six whose capacitance rises by a quarter from a sixteenth to half of its rating
// has 12 % less time where it rises throughout (four 58 F cells: Gilabert-Torres et al.,
// abstract seen).
func TestControlTimeOfARisingCapacitance(t *testing.T) {
	const rated = 16.2
	// C(0.5) = 1.24·C(0.0625), and the charge by the volt over 0.8 to 0.4 is the sheet's.
	slope := 0.24 / (0.5 - 0.0625 - 0.24*0.0625) // of C0, by the rating
	c0 := 100.0 / 6 / (1 + slope*0.6)
	k := &circuit{radioCurrent: 0.15, store: FlightStore{Capacitance: 100.0 / 6, RatedVoltage: new(rated), Fields: twobranch.Fields{CapacitanceSlope: new(slope * c0 / rated)}}}
	k.law = k.store.law()
	long := &circuit{radioCurrent: 0.15, store: FlightStore{Capacitance: 100.0 / 6}, law: twobranch.Law{C0: 100.0 / 6}}
	share := 1 - k.controlTime(6.6, 6.6, 5)/long.controlTime(6.6, 6.6, 5)
	kit.Within(t, "less time", share, 0.12, 0.02)
}

// TestGoVoltageOfBothBranches: from the voltage found the flight reaches its height with
// the margin wanted, and from a little less it does not.
func TestGoVoltageOfBothBranches(t *testing.T) {
	for _, row := range []struct{ height, margin, rate, cutOff float64 }{{50, 30, 1, 5.5}, {20, 0, 0.5, 7}, {100, 120, 1.5, 5}, {80, 30, 2, 5}} {
		in := lapwingGo()
		in.Store.Fields = lapwingBranches()
		in.Height, in.Margin, in.ClimbRate, in.CutOff = row.height, row.margin, row.rate, &row.cutOff
		got := kit.Must(GoVoltage(t.Context(), in))(t)
		fly := func(v float64) FlightResult {
			return kit.Must(Flight(t.Context(), FlightInput{Aloft: in.Aloft, Plan: []Phase{climbing(row.rate, row.height)}, StartVoltage: v, Aboard: in.Aboard}))(t)
		}
		enough, short := fly(got.Voltage*(1+1e-6)), fly(got.Voltage*(1-1e-4))
		kit.Near(t, "voltage at the top", enough.StopVoltage, got.TopVoltage, 1e-5)
		kit.Near(t, "control margin", *enough.ControlMargin, *got.ControlMargin, 1e-3)
		slow := len(short.Events) > 0 && short.Events[0].What == "full throttle"
		if enough.Ended != "end of the plan" || *enough.ControlMargin < row.margin {
			t.Errorf("%v: from %g V ended by %s with %g s left", row, got.Voltage, enough.Ended, *enough.ControlMargin)
		}
		if short.Ended != "cut-off" && *short.ControlMargin >= row.margin && !slow {
			t.Errorf("%v, limited by %s: a little less would do", row, got.LimitedBy)
		}
	}
	rested := lapwingGo()
	rested.Store.Fields = lapwingBranches()
	fresh := rested
	fresh.SlowShare = 0.6
	a, b := kit.Must(GoVoltage(t.Context(), rested))(t), kit.Must(GoVoltage(t.Context(), fresh))(t)
	f := FlightInput{Aloft: fresh.Aloft, Plan: []Phase{climbing(1, 50)}, StartVoltage: b.Voltage * (1 + 1e-6), SlowVoltage: new(0.6 * b.Voltage), Aboard: fresh.Aboard}
	kit.Near(t, "straight from the crank", *kit.Must(Flight(t.Context(), f))(t).ControlMargin, *b.ControlMargin, 1e-3)
	if !(b.Voltage > a.Voltage) {
		t.Errorf("straight from the crank %g V are enough, rested %g V", b.Voltage, a.Voltage)
	}
	fresh.SlowShare = 1.2
	_, err := GoVoltage(t.Context(), fresh)
	kit.Refuses(t, err, "slow_share")
	never := lapwingGo()
	never.Store.Fields, never.Store.Resistance = lapwingBranches(), 1e6
	_, err = GoVoltage(t.Context(), never)
	kit.Refuses(t, err, "store")
}

// TestStrandedOnBothBranches: what a cut-off strands is what the pack held less what it
// gave.
func TestStrandedOnBothBranches(t *testing.T) {
	f := lapwingFlight()
	f.Store.Fields = lapwingBranches()
	got := kit.Must(CutOffChoice(t.Context(), CutOffChoiceInput{Aloft: f.Aloft, Plan: f.Plan, StartVoltage: 12.4, From: 4.8, To: 6.4, Steps: 2, Home: f.Home}))(t)
	for _, row := range got.Rows {
		f.CutOff = &row.CutOff
		flown := kit.Must(Flight(t.Context(), f))(t)
		c0 := 20 - 0.45*0.6*13.5
		held := c0*12.4*12.4/2 + 0.45*math.Pow(12.4, 3)/3 + 2*12.4*12.4/2
		kit.Near(t, "stranded", row.Stranded, held-flown.Given, 1e-9)
		kit.Near(t, "share", row.StrandedShare, row.Stranded/held, 1e-9)
		least := c0*flown.StopVoltage*flown.StopVoltage/2 + 0.45*math.Pow(flown.StopVoltage, 3)/3
		if row.Stranded < least {
			t.Errorf("%g J stranded, the fast branch alone has %g J", row.Stranded, least)
		}
	}
}

func TestFlightRefusesBranches(t *testing.T) {
	in := lapwingFlight()
	in.Store.CapacitanceSlope = new(5.0)
	_, err := Flight(t.Context(), in)
	kit.Refuses(t, err, "store.capacitance_slope")
	in = lapwingFlight()
	in.SlowVoltage = new(-1.0)
	_, err = Flight(t.Context(), in)
	kit.Refuses(t, err, "slow_voltage")
}

func BenchmarkFlightOnBothBranches(b *testing.B) {
	in := lapwingFlight()
	in.Store.Fields = lapwingBranches()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Flight(b.Context(), in); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkGoVoltageOfBothBranches(b *testing.B) {
	in := lapwingGo()
	in.Store.Fields = lapwingBranches()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := GoVoltage(b.Context(), in); err != nil {
			b.Fatal(err)
		}
	}
}
