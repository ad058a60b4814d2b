package flight

import (
	"errors"
	"flag"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/internal/twobranch"
	"inkwing/evaluate/library/model"
)

// go test ./evaluate/library/flight -run Plausible -sets 5000
var sets = flag.Int("sets", 250, "how many plausible aircraft the property tests fly")

// plausible makes up an aircraft that a builder might have, with its plan.
func plausible(seed uint64) FlightInput {
	r := rand.New(rand.NewPCG(seed, 99))
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	maybe := func(x float64) *float64 {
		if r.IntN(2) == 0 {
			return nil
		}
		return &x
	}
	span, aspect := between(0.5, 2.0), between(5, 11)
	area := span * span / aspect
	mass := area * between(1.2, 5) // kg/m²
	var in FlightInput
	in.Airframe = glide.Plane{Mass: mass, Span: span, Area: area, CD0: between(0.02, 0.06), Oswald: between(0.65, 0.9), CLMax: between(0.8, 1.4),
		Density: between(1.0, 1.3), FrictionShare: maybe(between(0.3, 0.9)), Flow: []string{"laminar", "turbulent"}[r.IntN(2)]}
	in.Airframe.FrictionSpeed = new(between(6, 15))
	diameter := between(0.08, 0.28)
	p := drive.PropellerModel{Diameter: diameter, Pitch: new(diameter * between(0.4, 0.9)), CT0: new(between(0.08, 0.13)), Solidity: between(0.06, 0.15)}
	p.CP0 = new(*p.CT0 * (0.25 + 0.35**p.Pitch/diameter) * between(0.95, 1.5))
	series := 2 + r.IntN(6)
	rated := 2.7 * float64(series)
	gear := 1.0
	if r.IntN(4) == 0 {
		gear = between(1.5, 5)
	}
	in.Drive = drive.DriveModel{Propeller: p, LeadResistance: between(0, 0.04), Gearing: gear, GearEfficiency: between(0.85, 1),
		Motor:        drive.MotorModel{Kv: gear * between(0.6, 1.6) * 8000 * rpm / rated * 0.2 / diameter, Resistance: between(0.05, 0.8), IdleCurrent: between(0.05, 0.6), Inductance: maybe(between(5e-6, 1e-4))},
		SpeedControl: drive.SpeedControlModel{Resistance: between(0.005, 0.05), Frequency: new(between(1e3, 3e4)), IdleCurrent: between(0, 0.03)}}
	cell := between(10, 300)
	in.Store = FlightStore{Capacitance: cell / float64(series), Resistance: float64(series) * between(0.3, 1.5) / cell, RatedVoltage: &rated, LeakageResistance: maybe(1e5 * between(0.1, 1))}
	in.StartVoltage = rated * between(0.7, 1)
	in.CutOff = new(rated * between(0.3, 0.5))
	kind := []string{"linear", "switching"}[r.IntN(2)]
	in.Radio = &drive.RadioModel{Kind: kind, Voltage: rated * between(0.2, 0.35), Dropout: between(0.05, 0.3), Current: between(0.03, 0.3), Efficiency: between(0.7, 0.95), IdleCurrent: between(0, 0.02)}
	in.LaunchHeight, in.Wind = between(1, 3), between(-6, 6)
	in.Propeller = []string{"folded", "stopped", "windmilling"}[r.IntN(3)]
	in.Plan = plans(r, between)
	in.Store.Fields = branches(r, cell/float64(series), rated)
	return in
}

// branches are those of a store, which half of them have none of.
func branches(r *rand.Rand, capacitance, rated float64) twobranch.Fields {
	var out twobranch.Fields
	if r.IntN(2) == 0 {
		out.CapacitanceSlope = new(0.8 * r.Float64() * capacitance / rated)
	}
	if r.IntN(2) == 0 {
		out.SlowCapacitance = new(capacitance * (0.02 + 0.25*r.Float64()))
		out.SlowResistance = new((20 + 200*r.Float64()) / *out.SlowCapacitance)
	}
	return out
}

func plans(r *rand.Rand, between func(a, b float64) float64) []Phase {
	top := between(15, 80)
	all := [][]Phase{
		{climbing(between(0.3, 2), top), level()},
		{{Throttle: new(between(0.4, 1)), UntilHeight: &top}, {Throttle: new(0.0), ForTime: new(between(3, 15))}, level()},
		{{Throttle: new(between(0.3, 1))}},
		{{Power: new(between(3, 40)), ForTime: new(between(5, 60))}, {Throttle: new(between(0.05, 0.3)), ForTime: new(between(2, 10))}, {Throttle: new(0.0), UntilHeight: new(1.0)}},
	}
	return all[r.IntN(len(all))]
}

// TestPlausibleFlights flies made-up aircraft: no panic, no NaN, energy that
// closes to 1e-6, and refusals that name an input that there is.
func TestPlausibleFlights(t *testing.T) {
	flown := 0
	for seed := range uint64(*sets) {
		in := plausible(seed)
		got, err := Flight(t.Context(), in)
		if err != nil {
			named(t, seed, err, "airframe", "drive", "store", "plan", "start_voltage", "cut_off", "radio", "radio_minimum")
			continue
		}
		flown++
		numbers(t, seed, reflect.ValueOf(got))
		if off := sum(got.FlightSum) - got.Given; math.Abs(off) > 1e-6*math.Abs(got.Given)+1e-5 {
			t.Errorf("set %d: %g J of %g J are missing", seed, off, got.Given)
		}
		if got.PropellerLoss < -1e-6*got.Given || got.Gear < -1e-6*got.Given || got.Copper < 0 || got.SpeedControl < 0 {
			t.Errorf("set %d: a loss is negative: %+v", seed, got.FlightSum)
		}
		if got.PoweredTime+got.GlideTime > got.TotalTime*(1+1e-12) {
			t.Errorf("set %d: %g s and %g s in %g s", seed, got.PoweredTime, got.GlideTime, got.TotalTime)
		}
		without(t, seed, in, got)
		again(t, seed, in, got)
	}
	if flown < *sets/2 {
		t.Errorf("only %d of %d fly", flown, *sets)
	}
}

// without holds a flight of which nobody reads the history to the whole one.
func without(t *testing.T, seed uint64, in FlightInput, whole FlightResult) {
	part := kit.Must(Flight(model.LeavingOut(t.Context(), []string{"history"}), in))(t)
	part.History, part.TopHeight, part.PeakCurrent, part.Cautions = whole.History, whole.TopHeight, whole.PeakCurrent, whole.Cautions
	if !reflect.DeepEqual(part, whole) {
		t.Errorf("seed %d: without its history it comes to %+v, with it to %+v", seed, part, whole)
	}
}

// again flies it with one input off by 0.1 %: where the same things happen in
// the same order, nothing jumps.
func again(t *testing.T, seed uint64, in FlightInput, was FlightResult) {
	t.Helper()
	inputs := []*float64{&in.Airframe.Mass, &in.Airframe.CD0, &in.Drive.Motor.Kv, &in.Drive.Motor.Resistance, in.Drive.Propeller.CT0, in.Drive.Propeller.Pitch,
		&in.Store.Capacitance, &in.Store.Resistance, &in.StartVoltage, &in.Radio.Current}
	at := inputs[seed%uint64(len(inputs))]
	*at *= 1.001
	is, err := Flight(t.Context(), in)
	if err != nil || happened(is) != happened(was) || was.TopHeight < in.LaunchHeight+2 {
		return // an edge: something else happens, or it grazes the ground
	}
	for name, pair := range map[string][2]float64{"powered time": {was.PoweredTime, is.PoweredTime}, "total time": {was.TotalTime, is.TotalTime},
		"top height": {was.TopHeight, is.TopHeight}, "stop voltage": {was.StopVoltage, is.StopVoltage}} {
		if math.Abs(pair[1]-pair[0]) > 0.05*math.Abs(pair[0])+0.05 {
			t.Errorf("set %d: 0.1 %% of input %d moves the %s from %g to %g", seed, seed%uint64(len(inputs)), name, pair[0], pair[1])
		}
	}
}

func happened(f FlightResult) string {
	var all []string
	for _, e := range f.Events {
		all = append(all, e.What)
	}
	return strings.Join(all, ", ")
}

// TestPlausibleGoVoltages asks the same aircraft when to go, and what one point
// and one climb of theirs is.
func TestPlausibleGoVoltages(t *testing.T) {
	for seed := range uint64(*sets) {
		in := plausible(seed)
		v := in.StartVoltage
		if got, err := GoVoltage(t.Context(), GoVoltageInput{Aloft: in.Aloft, Height: 40, Margin: 20, ClimbRate: 0.7, Aboard: in.Aboard, Settled: Settled{1}}); err != nil {
			named(t, seed, err, "airframe", "drive", "store", "climb_rate", "cut_off", "radio", "height")
		} else {
			numbers(t, seed, reflect.ValueOf(got))
		}
		powered := Powered{Airframe: in.Airframe, Drive: in.Drive, Throttle: 0.1 + 0.9*float64(seed%10)/9, SourceResistance: in.Store.Resistance}
		if got, err := Climb(ClimbInput{powered, v}); err != nil {
			named(t, seed, err, "airframe", "drive", "voltage", "throttle")
		} else {
			numbers(t, seed, reflect.ValueOf(got))
		}
		c := drive.Conditions{Throttle: powered.Throttle, Airspeed: float64(seed % 23), SourceResistance: in.Store.Resistance, Density: in.Airframe.Density}
		got, err := drive.OperatingPoint(drive.OperatingPointInput{Drive: in.Drive, Voltage: v, Conditions: c})
		if err != nil {
			named(t, seed, err, "drive", "voltage")
			continue
		}
		sum := got.ShaftPower + got.IdleLoss + got.GearLoss + got.MotorLoss + got.ControlLoss + got.LeadLoss + got.SourceLoss + in.Drive.SpeedControl.IdleCurrent*got.TerminalVoltage
		if math.Abs(sum-v*got.Current) > 1e-6*math.Abs(v*got.Current)+1e-9 || got.MotorCurrent < 0 {
			t.Errorf("set %d: %g W of %g W, motor %g A", seed, sum, v*got.Current, got.MotorCurrent)
		}
		if ideal, err := drive.ActuatorDisc(drive.ActuatorDiscInput{Diameter: in.Drive.Propeller.Diameter, Thrust: &got.Thrust, Airspeed: c.Airspeed, Density: c.Density}); err == nil && got.ShaftPower < ideal.Power*(1-1e-9) {
			t.Errorf("set %d: %g W of shaft power, an ideal disc needs %g W", seed, got.ShaftPower, ideal.Power)
		}
	}
}

// named wants an error of the model about one of these inputs.
func named(t *testing.T, seed uint64, err error, inputs ...string) {
	t.Helper()
	var e *model.Error
	if !errors.As(err, &e) || e.Hint == "" {
		t.Errorf("set %d: %v", seed, err)
		return
	}
	head, _, _ := strings.Cut(e.Field, ".")
	for _, name := range inputs {
		if head == name {
			return
		}
	}
	t.Errorf("set %d: the refusal names %q: %v", seed, e.Field, e)
}

// numbers wants no NaN and no infinity in an answer.
func numbers(t *testing.T, seed uint64, v reflect.Value) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			t.Errorf("set %d: no number", seed)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			numbers(t, seed, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			numbers(t, seed, v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			numbers(t, seed, v.Index(i))
		}
	}
}
