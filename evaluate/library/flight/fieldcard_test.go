package flight

import (
	"math"
	"testing"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/internal/kit"
)

// 4.7 V and 0.3 V of dropout, 1.5 A of a stalled servo through 68 mΩ: 5.102 V
// rested (Ohm's law, by hand).
func TestBrownOut(t *testing.T) {
	in := BrownOutInput{Store: FlightStore{Capacitance: 100.0 / 6, Resistance: 0.060}, Radio: drive.RadioModel{Kind: "linear", Voltage: 4.7, Dropout: 0.3, Current: 0.15, Efficiency: 0.85},
		StallCurrent: 1.5, LeadResistance: 0.008, From: new(6.6)}
	got := kit.Must(BrownOut(in))(t)
	kit.Near(t, "Ohm's law", got.Voltage, 5.102, 1e-12)
	kit.Near(t, "time lost, C·ΔV/I", *got.Lost, 100.0/6*(1.5-0.15)*0.068/0.15, 1e-9)
	kit.Near(t, "time left, C·ΔV/I", *got.ControlTime, 100.0/6*(6.6-5.102)/0.15, 1e-9)
	if kit.Raised(got.List, "brown-out-near") {
		t.Error("told although it is far")
	}
	in.From = new(5.2)
	if got := kit.Must(BrownOut(in))(t); !kit.Raised(got.List, "brown-out-near") {
		t.Errorf("%g s pass", *got.ControlTime)
	}
	for field, spoil := range map[string]func(*BrownOutInput){
		"stall_current": func(in *BrownOutInput) { in.StallCurrent = 0.1 }, "store.capacitance": func(in *BrownOutInput) { in.Store.Capacitance = 0 },
		"radio.kind": func(in *BrownOutInput) { in.Radio.Kind = "" }, "from": func(in *BrownOutInput) { in.From = new(-1.0) },
	} {
		spoiled := in
		spoil(&spoiled)
		_, err := BrownOut(spoiled)
		kit.Refuses(t, err, field)
	}
}

// The other way about: at that rested voltage the regulator, worked by
// bec_point, just holds what the servo draws.
func TestBrownOutByRegulator(t *testing.T) {
	for _, kind := range []string{"linear", "switching"} {
		radio := drive.RadioModel{Kind: kind, Voltage: 5, Dropout: 0.4, Current: 0.2, Efficiency: 0.85, IdleCurrent: 0.01}
		got := kit.Must(BrownOut(BrownOutInput{Store: FlightStore{Capacitance: 20, Resistance: 0.05}, Radio: radio, StallCurrent: 1.2, LeadResistance: 0.02}))(t)
		at := func(v float64) drive.BecPointResult {
			return kit.Must(drive.BecPoint(drive.BecPointInput{Bec: radio, Input: v, SourceResistance: 0.07, Current: new(1.2)}))(t)
		}
		kit.Near(t, kind+": holds", at(got.Voltage*(1+1e-9)).Output, 5, 1e-12)
		if low := at(got.Voltage * 0.995); !(low.Output < 5) {
			t.Errorf("%s: below it still gives %g V", kind, low.Output)
		}
	}
}

// A log made of a flight that was worked: the power of level flight is drag times
// airspeed over the drive's efficiency, and the radio's (J. D. Anderson,
// Introduction to Flight, chapter 6, excess power).
func TestFlightLog(t *testing.T) {
	const p, eta, w = 12.0, 0.4, 0.390 * gravity
	in := FlightLogInput{Capacitance: 20, Mass: 0.390, Airspeed: new(7.0)}
	v, h, at := 12.4, 2.0, 0.0
	for i := range 9 {
		in.Time, in.Voltage, in.Height = append(in.Time, at), append(in.Voltage, v), append(in.Height, h)
		climb := []float64{1, 0.8, 1.2, 0, 0, 0.5, 0, 0}[i%8]
		at, h = at+8, h+8*climb
		v = math.Sqrt(v*v - 2*8*(p+w/eta*climb)/20)
	}
	got := kit.Must(FlightLog(in))(t)
	kit.Near(t, "level power, "+anderson, got.LevelPower, p, 1e-9)
	kit.Near(t, "efficiency, "+anderson, got.Efficiency, eta, 1e-9)
	kit.Near(t, "drag", *got.Drag, eta*p/7, 1e-9)
	kit.Within(t, "scatter", got.ULevelPower, 0, 1e-9)
	for field, spoil := range map[string]func(*FlightLogInput){
		"time": func(in *FlightLogInput) { in.Time = make([]float64, 9) }, "capacitance": func(in *FlightLogInput) { in.Capacitance = 0 },
		"height": func(in *FlightLogInput) { in.Height = make([]float64, 9) }, "airspeed": func(in *FlightLogInput) { in.Airspeed = new(0.0) },
		"voltage": func(in *FlightLogInput) { in.Voltage = []float64{5, 6, 7, 8, 9, 10, 11, 12, 13} },
	} {
		spoiled := in
		spoil(&spoiled)
		_, err := FlightLog(spoiled)
		kit.Refuses(t, err, field)
	}
}

// The log of a simulated flight gives back its level power and, within the
// change of efficiency from climb to level, that of its drive.
func TestFlightLogOfFlight(t *testing.T) {
	flown := kit.Must(Flight(t.Context(), lapwingFlight(climbing(1, 30), Phase{ClimbRate: new(0.0), ForTime: new(20.0)}, climbing(0.6, 45), level())))(t)
	in := FlightLogInput{Capacitance: 20, Mass: 0.390}
	level := 0.0
	for _, r := range flown.History {
		if r.Phase == 0 || len(in.Time) > 0 && r.Time <= in.Time[len(in.Time)-1]+1 {
			continue
		}
		if r.ClimbRate == 0 {
			level = r.Current * r.Voltage
		}
		in.Time, in.Voltage, in.Height = append(in.Time, r.Time), append(in.Voltage, r.Voltage), append(in.Height, r.Height)
	}
	got := kit.Must(FlightLog(in))(t)
	kit.Near(t, "level power", got.LevelPower, level, 0.05)
	if got.Efficiency < 0.3 || got.Efficiency > 0.8 {
		t.Errorf("efficiency %g", got.Efficiency)
	}
}

func lapwingCard() FieldCardInput {
	g := lapwingGo()
	in := FieldCardInput{Aloft: g.Aloft, Height: 40, Margin: 30, ClimbRate: 1, Wind: 3, MeterError: 0.01, Aboard: g.Aboard, Settled: Settled{1}}
	in.Store.SafeVoltage = new(12.87)
	return in
}

// Full, launch and land stand in their order, each off by the meter's error to
// the safe side; a pack at the launch reading, with the meter wrong, still lands
// with the margin (common practice, no source: margins to the safe side).
func TestFieldCard(t *testing.T) {
	in := lapwingCard()
	got := kit.Must(FieldCard(t.Context(), in))(t)
	if !(got.Full > got.Launch && got.Launch > got.Land) || len(got.Checks) == 0 {
		t.Errorf("%+v", got)
	}
	kit.Near(t, "full", got.Full, 12.87*0.99, 1e-12)
	if !(got.FlightLeast < got.FlightTime && got.FlightTime < got.FlightMost && got.ControlLeast < got.ControlTime && got.ControlTime < got.ControlMost) {
		t.Errorf("times %g to %g around %g, %g to %g around %g", got.FlightLeast, got.FlightMost, got.FlightTime, got.ControlLeast, got.ControlMost, got.ControlTime)
	}
	if got.ControlTime < got.GlideTime+30-1e-6 {
		t.Errorf("%g s of control for a glide of %g s and 30 s", got.ControlTime, got.GlideTime)
	}
	if !kit.Raised(got.List, "failsafe") || kit.Raised(got.List, "blown-back") {
		t.Errorf("cautions %v", got.List)
	}
	in.Wind = 12
	if gale := kit.Must(FieldCard(t.Context(), in))(t); gale.GroundSpeed >= 0 || !kit.Raised(gale.List, "blown-back") {
		t.Errorf("in 12 m/s it glides forward at %g m/s", gale.GroundSpeed)
	}
	in = lapwingCard()
	in.Temperature = new(273.15 + 35)
	if hot := kit.Must(FieldCard(t.Context(), in))(t); hot.GlideTime >= got.GlideTime {
		t.Error("thin air carries as long")
	}
	for field, spoil := range map[string]func(*FieldCardInput){
		"radio": func(in *FieldCardInput) { in.Radio = nil }, "store.rated_voltage": func(in *FieldCardInput) { in.Store.RatedVoltage, in.Store.SafeVoltage = nil, nil },
		"temperature": func(in *FieldCardInput) { in.Temperature = new(12.0) }, "meter_error": func(in *FieldCardInput) { in.MeterError = 0.5 },
		"wind": func(in *FieldCardInput) { in.Wind = -1 }, "height": func(in *FieldCardInput) { in.Height = 400 },
	} {
		spoiled := lapwingCard()
		spoil(&spoiled)
		_, err := FieldCard(t.Context(), spoiled)
		kit.Refuses(t, err, field)
	}
}

// Its voltages by flights: launched at the launch reading less the meter's
// error it reaches the height with the margin, and 1 % lower it does not; at the
// landing voltage the radio lasts just glide and margin.
func TestFieldCardByFlight(t *testing.T) {
	in := lapwingCard()
	got := kit.Must(FieldCard(t.Context(), in))(t)
	launched := func(v float64) FlightResult {
		return kit.Must(Flight(t.Context(), FlightInput{Aloft: in.Aloft, Plan: []Phase{climbing(1, 40)}, StartVoltage: v, Aboard: in.Aboard}))(t)
	}
	just := launched(got.Launch / 1.01 * (1 + 1e-6))
	kit.Near(t, "height", just.TopHeight, 40, 1e-6)
	if *just.ControlMargin < 30-1e-3 {
		t.Errorf("a margin of %g s", *just.ControlMargin)
	}
	if low := launched(got.Launch / 1.01 * 0.99); low.TopHeight > 40-1e-6 && *low.ControlMargin >= 30 {
		t.Errorf("1 %% less does as well: %+v", low)
	}
}

// TestFieldCardOnAColdField: at −40 °C a pack has twice the resistance and 5 % less
// capacitance (makers' data sheets, from memory); it must be charged higher to launch, and
// one kept warm is as its sheet says.
func TestFieldCardOnAColdField(t *testing.T) {
	in := lapwingCard()
	in.Temperature, in.PackTemperature = new(273.15-5), new(298.15)
	kept := kit.Must(FieldCard(t.Context(), in))(t)
	kit.Near(t, "kept warm", kept.Resistance, in.Store.Resistance, 1e-12)
	in.PackTemperature = new(273.15 - 40)
	frozen := kit.Must(FieldCard(t.Context(), in))(t)
	kit.Near(t, "at −40 °C", frozen.Resistance, 2*in.Store.Resistance, 1e-12)
	in.PackTemperature = nil
	cold := kit.Must(FieldCard(t.Context(), in))(t)
	kit.Near(t, "as cold as the air", cold.Resistance, in.Store.Resistance*math.Exp2(30.0/65), 1e-12)
	if !(kept.Launch < cold.Launch && cold.Launch < frozen.Launch && kept.FlightTime > cold.FlightTime && cold.FlightTime > frozen.FlightTime) {
		t.Errorf("launch %g, %g, %g V, flight %g, %g, %g s", kept.Launch, cold.Launch, frozen.Launch, kept.FlightTime, cold.FlightTime, frozen.FlightTime)
	}
	// By hand: the same card of a pack that has what frost makes of it.
	by := in
	by.PackTemperature = new(298.15)
	by.Store.Resistance *= math.Exp2(30.0 / 65)
	by.Store.Capacitance *= 1 - 0.05*30/65
	kit.Near(t, "flight time", kit.Must(FieldCard(t.Context(), by))(t).FlightTime, cold.FlightTime, 1e-12)
	in.PackTemperature = new(100.0)
	_, err := FieldCard(t.Context(), in)
	kit.Refuses(t, err, "pack_temperature")
}

// TestFieldCardOfARisingCapacitance: where the store says how it rises, nothing is taken
// off for it.
func TestFieldCardOfARisingCapacitance(t *testing.T) {
	in := lapwingCard()
	in.MeterError = 0
	plain := kit.Must(FieldCard(t.Context(), in))(t)
	kit.Near(t, "12 % on one side", plain.ControlLeast, plain.ControlTime/1.12, 1e-9)
	in.Store.Fields = lapwingBranches()
	rising := kit.Must(FieldCard(t.Context(), in))(t)
	kit.Near(t, "no share", rising.ControlLeast, rising.ControlTime, 1e-9)
	if kit.Raised(rising.List, "control-time-reads-long") || !kit.Raised(plain.List, "control-time-reads-long") {
		t.Error("the caution does not follow the store")
	}
}
