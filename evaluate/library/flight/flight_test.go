package flight

import (
	"maps"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/internal/twobranch"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// lapwingPack is five cells of 100 F, 2.7 V, 10 mΩ and 10 kΩ in a row.
func lapwingPack() FlightStore {
	return FlightStore{Capacitance: 20, Resistance: 0.05, RatedVoltage: new(13.5), LeakageResistance: new(50e3)}
}

func lapwingRadio() *drive.RadioModel {
	return &drive.RadioModel{Kind: "linear", Voltage: 4.2, Dropout: 0.3, Current: 0.15, Efficiency: 0.85}
}

func climbing(rate, height float64) Phase { return Phase{ClimbRate: &rate, UntilHeight: &height} }
func level() Phase                        { return Phase{ClimbRate: new(0.0)} }

// lapwingFlight is our own invented glider's: 1 m/s to 50 m, then level.
func lapwingFlight(plan ...Phase) FlightInput {
	if plan == nil {
		plan = []Phase{climbing(1, 50), level()}
	}
	return FlightInput{Aloft: Aloft{glider(), lapwing(), lapwingPack()}, Plan: plan, StartVoltage: 12.4,
		Aboard: Aboard{new(5.5), Home{Radio: lapwingRadio(), LaunchHeight: 2}}}
}

// A hand that charges a pack of about 0.75 Wh buys just under two minutes of
// powered flight in a light motor glider (common practice, no source; order of
// magnitude).
func TestFlightBelievable(t *testing.T) {
	got := kit.Must(Flight(t.Context(), lapwingFlight()))(t)
	if got.PoweredTime < 60 || got.PoweredTime > 150 {
		t.Errorf("the motor runs for %g s, not a minute or two", got.PoweredTime)
	}
	small := lapwingFlight()
	small.Store = FlightStore{Capacitance: 100.0 / 6, Resistance: 0.06, RatedVoltage: new(18.0)} // six cells of 100 F, 3 V
	small.StartVoltage = 18
	kit.Near(t, "its store, Wh", small.Store.Capacitance*18*18/2/3600, 0.75, 1e-12)
	long := kit.Must(Flight(t.Context(), small))(t)
	if long.PoweredTime < 110/3 || long.PoweredTime > 110*3 {
		t.Errorf("0.75 Wh carry for %g s", long.PoweredTime)
	}
}

func sum(s FlightSum) float64 {
	return s.Radio + s.StoreLoss + s.Leads + s.SpeedControl + s.Copper + s.Idle + s.Gear + s.PropellerLoss + s.Drag + s.HeightEnergy + s.Leakage + s.Settling
}

func (in FlightInput) run(t *testing.T, tolerance float64) (FlightResult, *course) {
	t.Helper()
	out, c, err := in.fly(t.Context(), tolerance)
	if err != nil {
		t.Fatal(err)
	}
	return out, c
}

// kinds are flights of every kind of phase and radio.
func kinds() map[string]FlightInput {
	all := map[string]FlightInput{
		"climb and level":  lapwingFlight(),
		"throttle":         lapwingFlight(Phase{Throttle: new(0.6)}),
		"power":            lapwingFlight(Phase{Power: new(25.0)}),
		"climb to the end": lapwingFlight(Phase{ClimbRate: new(1.5)}),
		"steps": lapwingFlight(Phase{Throttle: new(0.65), ForTime: new(20.0)}, Phase{Throttle: new(0.0), ForTime: new(10.0)},
			Phase{Power: new(20.0), UntilHeight: new(70.0)}, Phase{Throttle: new(0.0), UntilHeight: new(40.0), CL: new(1.0)}, level()),
	}
	for name, in := range maps.Clone(all) {
		in.Drive.Motor.Inductance, in.Drive.SpeedControl.Frequency = new(30e-6), new(8e3)
		in.Drive.Motor.Kv, in.Drive.Gearing, in.Drive.GearEfficiency, in.Drive.SpeedControl.IdleCurrent = 3*in.Drive.Motor.Kv, 3, 0.93, 0.02
		all[name+", chopped and geared"] = in
	}
	for name, in := range maps.Clone(all) {
		radio := *in.Radio
		radio.Kind = "switching"
		in.Radio = &radio
		in.Propeller, in.Airframe.PropellerDrag = "stopped", 0.002
		all[name+", switching"] = in
	}
	return all
}

func TestFlightEnergyCloses(t *testing.T) {
	for name, in := range kinds() {
		got := kit.Must(Flight(t.Context(), in))(t)
		kit.Near(t, name+": sum of energies", sum(got.FlightSum), got.Given, 1e-6)
	}
}

// Halving the tolerance moves no digit of six.
func TestFlightTolerance(t *testing.T) {
	for name, in := range kinds() {
		a, c := in.run(t, flightTolerance)
		b, d := in.run(t, flightTolerance/2)
		for what, pair := range map[string][2]float64{"powered time": {a.PoweredTime, b.PoweredTime}, "top": {a.TopHeight, b.TopHeight},
			"glide": {a.GlideTime, b.GlideTime}, "total": {a.TotalTime, b.TotalTime}, "control": {*a.ControlTime, *b.ControlTime},
			"range": {a.Range, b.Range}, "voltage": {a.StopVoltage, b.StopVoltage}, "landing": {a.LandingVoltage, b.LandingVoltage}} {
			kit.Near(t, name+": "+what, pair[0], pair[1], 5e-7)
		}
		t.Logf("%s: %d steps, %d right-hand sides; %d, %d at half the tolerance", name, c.steps, c.calls, d.steps, d.calls)
	}
}

// The independent route: in level flight all depends on the voltage alone, so
// the time is a quadrature over it, with the operating point's own bisection.
func TestFlightLevelByQuadrature(t *testing.T) {
	in := lapwingFlight(level())
	in.Store.LeakageResistance = nil
	got := kit.Must(Flight(t.Context(), in))(t)
	p, m := in.Airframe, in.Drive
	cl := p.BestGlideCL()
	airspeed := p.Reference() / math.Sqrt(cl)
	drag := p.Weight() * p.Drag(cl) / cl
	point := func(v float64) drive.Working {
		c := drive.Conditions{Airspeed: airspeed, SourceResistance: 0.05, RadioCurrent: 0.15, Density: p.Density}
		thrust := func(on float64) drive.Working {
			c.Throttle = on
			return kit.Must(drive.OperatingPoint(drive.OperatingPointInput{Drive: m, Voltage: v, Conditions: c}))(t).Working
		}
		return thrust(numeric.Bisect(0.05, 1, func(on float64) bool { return thrust(on).Thrust > drag }))
	}
	end := numeric.Bisect(5, 8, func(v float64) bool { return point(v).TerminalVoltage > 5.5 })
	kit.Near(t, "voltage at the cut-off", got.StopVoltage, end, 1e-9)
	time := quad.Fixed(func(v float64) float64 { return 20 / point(v).Current }, end, 12.4, 20, nil, 0)
	kit.Near(t, "time", got.PoweredTime, time, 2e-7)
	kit.Near(t, "height", got.StopHeight, 2, 1e-12)
	work := quad.Fixed(func(v float64) float64 { w := point(v); return 20 / w.Current * w.MotorLoss }, end, 12.4, 20, nil, 0)
	kit.Near(t, "copper", got.Copper, work, 1e-7)
}

// The independent route for a throttle: the climb of climb, stepped over the
// voltage by quadrature.
func TestFlightThrottleByQuadrature(t *testing.T) {
	in := lapwingFlight(Phase{Throttle: new(0.6)})
	in.Store.LeakageResistance = nil
	got := kit.Must(Flight(t.Context(), in))(t)
	at := func(v float64) ClimbResult {
		return kit.Must(Climb(ClimbInput{Powered{Airframe: in.Airframe, Drive: in.Drive, Throttle: 0.6, SourceResistance: 0.05, RadioCurrent: 0.15}, v}))(t)
	}
	over := func(f func(ClimbResult) float64, end float64) float64 {
		return quad.Fixed(func(v float64) float64 { c := at(v); return 20 / c.Current * f(c) }, end, 12.4, 24, nil, 0)
	}
	kit.Near(t, "time", got.PoweredTime, over(func(ClimbResult) float64 { return 1 }, got.StopVoltage), 1e-7)
	kit.Near(t, "height", got.StopHeight-2, over(func(c ClimbResult) float64 { return c.ClimbRate }, got.StopVoltage), 1e-6)
	if top := numeric.Bisect(5, 12.4, func(v float64) bool { return at(v).ClimbRate > 0 }); top > got.StopVoltage {
		kit.Near(t, "top", got.TopHeight-2, over(func(c ClimbResult) float64 { return c.ClimbRate }, top), 1e-6)
	}
}

// The glide is that of glide, the control time that of the closed forms.
func TestFlightLanding(t *testing.T) {
	in := lapwingFlight()
	in.Wind = -2
	got := kit.Must(Flight(t.Context(), in))(t)
	down := kit.Must(glide.Glide(glide.GlideInput{Airframe: in.Airframe, Height: got.StopHeight, Wind: -2}))(t)
	kit.Near(t, "glide time", got.GlideTime, down.Time, 1e-9)
	kit.Near(t, "control margin", *got.ControlMargin, *got.ControlTime-down.Time, 1e-9)
	tau, add := 50e3*20.0, 0.15*50e3
	kit.Near(t, "control time, constant current with a leak", *got.ControlTime, tau*math.Log((got.StopVoltage+add)/(4.5+0.15*0.05+add)), 1e-9)
	kit.Near(t, "voltage at touchdown", got.LandingVoltage, (got.StopVoltage+add)*math.Exp(-down.Time/tau)-add, 1e-9)

	in.Radio.Kind, in.Store.LeakageResistance = "switching", nil
	got = kit.Must(Flight(t.Context(), in))(t)
	power := 4.2 * 0.15 / 0.85
	current := func(v float64) float64 { return 2 * power / (v + math.Sqrt(v*v-4*power*0.05)) }
	a, b := current(got.StopVoltage), power/4.5
	// C·dV = −I·dt with V = P/I + I·R: t = C·(P/(2I²) − R·ln I) between the ends
	form := func(i float64) float64 { return 20 * (power/(2*i*i) + 0.05*math.Log(i)) }
	kit.Near(t, "control time, constant power", *got.ControlTime, form(a)-form(b), 1e-9)
}

// A pack of about 16.7 F that falls 0.01 V a second feeds a radio about 0.17 A
// and leaves about 150 s between 6.5 V and 5 V (common practice, no source).
func TestControlTimeCommonPractice(t *testing.T) {
	k := &circuit{store: FlightStore{Capacitance: 100.0 / 6}, law: twobranch.Law{C0: 100.0 / 6}, radioCurrent: 0.167}
	kit.Near(t, "time from 6.5 V to 5 V", k.controlTime(6.5, 6.5, 5), 150, 0.02)
}

// tired is a flight on a pack that is half down.
func tired(plan ...Phase) FlightInput {
	in := lapwingFlight(plan...)
	in.StartVoltage = 7.5
	return in
}

func TestFlightEvents(t *testing.T) {
	happened := func(r FlightResult, what string) *FlightEvent {
		for i := range r.Events {
			if r.Events[i].What == what {
				return &r.Events[i]
			}
		}
		return nil
	}
	for _, row := range []struct {
		name  string
		in    FlightInput
		wants []string
		ended string
	}{
		{"cut-off", lapwingFlight(), []string{"height reached", "cut-off", "touchdown"}, "cut-off"},
		{"a throttle tops out and sinks", lapwingFlight(Phase{Throttle: new(0.5)}), []string{"climbs no more"}, "cut-off"},
		{"full throttle", lapwingFlight(Phase{ClimbRate: new(2.5)}), []string{"full throttle"}, "cut-off"},
		{"full throttle at once", tired(Phase{Power: new(100.0), ForTime: new(1.0)}), []string{"full throttle", "time is up"}, "end of the plan"},
		{"ground", lapwingFlight(Phase{Throttle: new(0.3)}), nil, "ground"},
		{"plan's end", lapwingFlight(Phase{ClimbRate: new(1.0), ForTime: new(10.0)}), []string{"time is up", "end of the plan", "touchdown"}, "end of the plan"},
	} {
		got, err := Flight(t.Context(), row.in)
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		if got.Ended != row.ended {
			t.Errorf("%s: ended by %s, want %s: %+v", row.name, got.Ended, row.ended, got.Events)
		}
		for _, w := range row.wants {
			if happened(got, w) == nil {
				t.Errorf("%s: no event %q in %+v", row.name, w, got.Events)
			}
		}
		for i, e := range got.Events {
			if i > 0 && e.Time < got.Events[i-1].Time {
				t.Errorf("%s: events out of order", row.name)
			}
		}
	}
	starved := lapwingFlight()
	starved.RadioMinimum = new(5.6)
	got := kit.Must(Flight(t.Context(), starved))(t)
	if e := happened(got, "radio's minimum"); e == nil || !kit.Raised(got.List, "radio-starved-under-power") {
		t.Errorf("a radio that starves under power goes unsaid: %+v", got.Events)
	}
}

// The event within the glide agrees with the control time beside it.
func TestFlightRadioFails(t *testing.T) {
	in := lapwingFlight(Phase{ClimbRate: new(1.0)})
	in.RadioMinimum = new(5.3)
	got := kit.Must(Flight(t.Context(), in))(t)
	if !kit.Raised(got.List, "radio-fails-before-landing") {
		t.Fatalf("margin %g s is not cautioned", *got.ControlMargin)
	}
	for _, e := range got.Events {
		if e.What == "radio's minimum" && e.Phase == 0 {
			kit.Near(t, "time of the radio's minimum", e.Time-got.PoweredTime, *got.ControlTime, 1e-7)
			return
		}
	}
	t.Errorf("no event of the radio in %+v", got.Events)
}

// Once failed, the radio draws in proportion to the voltage and the pack runs
// down as an RC circuit, never below nothing.
func TestFlightOnAnEmptyPack(t *testing.T) {
	in := lapwingFlight(Phase{ClimbRate: new(1.0)})
	in.Store = FlightStore{Capacitance: 5, Resistance: 0.05}
	in.RadioMinimum = new(5.5)
	got := kit.Must(Flight(t.Context(), in))(t)
	tau := 5 * (5.5/0.15 + 0.05)
	want := (5.5 + 0.15*0.05) * math.Exp(-(got.GlideTime-*got.ControlTime)/tau)
	kit.Near(t, "voltage at touchdown", got.LandingVoltage, want, 1e-7)
}

// A radio that is starved from the start draws in proportion to the voltage, so
// that a glide under the plan runs the pack down as an RC circuit.
func TestFlightStarvedFromTheStart(t *testing.T) {
	in := lapwingFlight(Phase{Throttle: new(0.0), ForTime: new(10.0)})
	in.Store.LeakageResistance = nil
	in.StartVoltage, in.RadioMinimum, in.CutOff, in.LaunchHeight = 5, new(5.5), new(4.0), 30
	got := kit.Must(Flight(t.Context(), in))(t)
	rested := got.Events[0]
	kit.Near(t, "ten seconds", rested.Time, 10, 1e-12)
	kit.Near(t, "voltage after ten seconds", rested.Voltage, 5*math.Exp(-10/(20*(5.5/0.15+0.05))), 1e-8)
	kit.Near(t, "control time", *got.ControlTime, 0, 0)
}

// A history runs from the launch to the ground, and the voltage only falls.
func TestFlightHistory(t *testing.T) {
	for name, in := range kinds() {
		got := kit.Must(Flight(t.Context(), in))(t)
		last := got.History[0]
		if last.Time != 0 || last.Voltage != in.StartVoltage || last.Height != in.LaunchHeight {
			t.Errorf("%s: the history begins with %+v", name, last)
		}
		for _, r := range got.History[1:] {
			if r.Time < last.Time || r.Voltage > last.Voltage || r.TerminalVoltage > r.Voltage || r.Height < 0 {
				t.Errorf("%s: %+v after %+v", name, r, last)
			}
			last = r
		}
		if last.Time != got.TotalTime || last.Height != 0 || last.Phase != 0 || len(got.History) > 80 {
			t.Errorf("%s: the history ends with %+v after %d rows", name, last, len(got.History))
		}
	}
}

// TestAwayFromItsHeight tells a phase that begins above its height and climbs from one whose
// pack runs down before it is there.
func TestAwayFromItsHeight(t *testing.T) {
	for want, plan := range map[string][]Phase{
		"Phase {2} begins at {3} and flies away from {1}, to {0}.": {climbing(1, 20), climbing(1, 10)},
		"Phase {2} ends at {0} and never comes to {1}.":            {climbing(1, 20), climbing(1, 500)},
	} {
		got := kit.Must(Flight(t.Context(), lapwingFlight(plan...)))(t)
		i := slices.IndexFunc(got.List, func(c model.Caution) bool { return c.ID == "height-not-reached" })
		if i < 0 || got.List[i].Summary != want {
			t.Fatalf("%+v, want %q", got.List, want)
		}
		if v := got.List[i].Values; len(v) > 3 {
			kit.Near(t, "where it begins", v[3].Number, 20, 1e-6)
		}
	}
}
