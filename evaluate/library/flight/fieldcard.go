package flight

import (
	"context"
	"errors"
	"math"

	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// FieldCardInput is what [FieldCard] wants.
type FieldCardInput struct {
	Aloft
	Height      float64  `unit:"m" range:"(0,)" help:"above the place of landing, that the model shall climb to"`
	Margin      float64  `unit:"s" range:"[0,)" default:"30 s" help:"that the radio shall last beyond the glide down"`
	ClimbRate   float64  `unit:"m/s" range:"(0,)" default:"1 m/s" help:"held until the height"`
	Temperature *float64 `unit:"°C" help:"of the air today; the airframe's own density if not given"`

	PackTemperature *float64 `unit:"°C" range:"[-40,65]" help:"of the pack; that of the air if not given, and 25 °C leaves it as its sheet says"`

	Wind       float64 `unit:"m/s" range:"[0,)" default:"0 m/s" help:"today, at the height flown"`
	MeterError float64 `unit:"%" range:"[0,10]" default:"1 %" help:"by which the voltmeter may be off, either way"`
	Aboard
	Settled
}

// CardCheck is a thing to look at before the throw.
type CardCheck struct {
	Check string `help:"what to do"`
	Why   string `help:"what it prevents"`
}

// FieldCardResult is what [FieldCard] answers.
type FieldCardResult struct {
	Full         float64     `unit:"V" show:"1" help:"on the meter: charge no higher"`
	Launch       float64     `unit:"V" show:"2" help:"on the meter, rested: do not launch below"`
	Land         float64     `unit:"V" show:"3" help:"on the meter, rested: motor off and land now, from the height"`
	FlightTime   float64     `unit:"s" show:"4" help:"of the motor from a full pack: the climb, then level until it is to land"`
	FlightLeast  float64     `unit:"s" help:"of it, with the meter off to the wrong side"`
	FlightMost   float64     `unit:"s" help:"of it, with the meter off to the right side"`
	ControlTime  float64     `unit:"s" show:"5" help:"of the radio from there"`
	ControlLeast float64     `unit:"s" help:"of it, the meter off to the wrong side, and with cells that hold less at low voltage where the store has no capacitance_slope"`
	ControlMost  float64     `unit:"s" help:"of it, as worked, with the meter off to the right side"`
	GlideTime    float64     `unit:"s" help:"from the height to touchdown"`
	Resistance   float64     `unit:"Ω" help:"of the pack, as cold as it is"`
	GroundSpeed  float64     `unit:"m/s" help:"of the glide against today's wind; negative where it is blown back"`
	Checks       []CardCheck `help:"before the throw"`
	model.Cautions
}

// lowShare is by how much a double-layer pack's control time reads long at most.
const lowShare = 0.12

// FieldCard is what to take to the field: three voltages to read off the meter, the times that they buy, and what to check before the throw.
//
// Formula: V_full = min(V_rated, V_safe)·(1 − x), less the meter's error x; the launch at go_voltage, the landing at the rested voltage from which the radio lasts glide and margin, both with the error on top; times as flight, from full to land; density 101325 Pa/(287.05 J/(kg·K)·T) where a temperature is given, and the pack as store_at has it.
//
// Letters: V_rated store.rated_voltage; V_safe store.safe_voltage or store.rated_voltage; x meter_error; V_full = full.
//
// Validity: as flight and go_voltage, and as store_at with its usual ratios. Without a capacitance_slope of the store the control time's lower end counts 12 % for capacitance at low voltage.
//
// Source: as flight; the checks: common practice. Rules of the club and of the authority come first.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	train = drive(motor_1, prop, speed_control(resistance: 20 mΩ, cut_off: 5.5 V), lead_resistance: 15 mΩ)
//	store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
//	radio = bec(voltage: 4.2 V, current: 0.15 A, dropout: 0.3 V)
//	card = field_card(plane, train, store, height: 40 m, temperature: 12 °C, wind: 3 m/s, radio: radio)
func FieldCard(ctx context.Context, in FieldCardInput) (FieldCardResult, error) {
	if err := in.check(); err != nil {
		return FieldCardResult{}, err
	}
	if in.Temperature != nil {
		in.Airframe.Density = seaPressure / (airConstant * *in.Temperature)
	}
	var err error
	if in.Store, err = in.chilled(); err != nil {
		return FieldCardResult{}, err
	}
	needs := GoVoltageInput{Aloft: in.Aloft, Height: in.Height, Margin: in.Margin, ClimbRate: in.ClimbRate, Aboard: in.Aboard, Settled: in.Settled}
	least, err := GoVoltage(ctx, needs)
	if err != nil {
		return FieldCardResult{}, err
	}
	top, land, err := in.voltages(needs, least)
	if err != nil {
		return FieldCardResult{}, err
	}
	out := FieldCardResult{Full: top * (1 - in.MeterError), Launch: least.Voltage * (1 + in.MeterError), Land: land * (1 + in.MeterError),
		GlideTime: least.GlideTime, Resistance: in.Store.Resistance, Checks: checks}
	if err := in.times(ctx, &out); err != nil {
		return FieldCardResult{}, err
	}
	out.Cautions = least.Cautions
	glide.BlownBack(&out.Cautions, out.GroundSpeed, -in.Wind)
	return out, nil
}

// The sea level of the standard atmosphere (ICAO Doc 7488).
const (
	seaPressure = 101325.0
	airConstant = 287.05307
)

func (in FieldCardInput) check() error {
	if in.Radio == nil {
		return &model.Error{Field: "radio", Summary: "is not given, and the card is about its time", Hint: "give its regulator, see bec"}
	}
	if in.Store.RatedVoltage == nil && in.Store.SafeVoltage == nil {
		return &model.Error{Field: "store.rated_voltage", Summary: "is not given, so that nothing says how high to charge", Hint: "give the store its rated_voltage"}
	}
	if t := in.Temperature; t != nil && !(*t >= 220 && *t <= 330) {
		return &model.Error{Field: "temperature", Summary: "is {0}, where nobody flies", Values: []model.Value{model.In(*t, "K")}, Hint: "give today's air temperature, as in 12 °C"}
	}
	if e := in.MeterError; !(e >= 0 && e <= 0.1) {
		return &model.Error{Field: "meter_error", Summary: "is {0}", Values: []model.Value{model.In(100*e, "%")}, Hint: "give 0 % to 10 %; the meter's sheet has it"}
	}
	return require.NotNegative("wind", in.Wind, "m/s")
}

// voltages are the highest that the pack may have and the rested one at which
// to land, both true ones.
func (in FieldCardInput) voltages(needs GoVoltageInput, least GoVoltageResult) (top, land float64, err error) {
	top = math.Inf(1)
	for _, v := range []*float64{in.Store.RatedVoltage, in.Store.SafeVoltage} {
		if v != nil {
			top = min(top, *v)
		}
	}
	if least.Voltage*(1+in.MeterError) > top*(1-in.MeterError) {
		return 0, 0, &model.Error{Field: "height", Summary: "wants {0} at the launch, and the pack bears {1}: with this meter nothing lies between",
			Values: []model.Value{model.In(least.Voltage, "V"), model.In(top, "V")}, Hint: "fly lower, ask for less margin, or take a larger pack"}
	}
	l, err := needs.leg()
	if err != nil {
		return 0, 0, err
	}
	if l.least, err = in.least(); err != nil {
		return 0, 0, err
	}
	cutOff, _, err := in.limits(in.Drive.SpeedControl)
	if err != nil {
		return 0, 0, err
	}
	land, _, err = l.leastTop(cutOff, l.least, least.GlideTime+in.Margin)
	return top, land, err
}

// times are those of motor and radio, and what the meter's error makes of them.
func (in FieldCardInput) times(ctx context.Context, out *FieldCardResult) error {
	level := 0.0
	plan := []Phase{{ClimbRate: &in.ClimbRate, UntilHeight: &in.Height}, {ClimbRate: &level}}
	fly := func(full, land float64) (FlightResult, error) {
		f := FlightInput{Aloft: in.Aloft, Plan: plan, StartVoltage: full, Aboard: in.Aboard, Wind: -in.Wind}
		slow := in.SlowShare * full
		f.SlowVoltage = &slow
		at, err := f.resting(land)
		if err != nil {
			return FlightResult{}, err
		}
		f.CutOff = &at
		return Flight(model.LeavingOut(ctx, []string{"history"}), f)
	}
	e, holdsLess := in.MeterError, 1.0
	if in.Store.Plain() {
		holdsLess += lowShare
	}
	for _, c := range []struct {
		full, land   float64
		motor, radio *float64
		long         float64
	}{{out.Full * (1 - e), out.Land * (1 + e), &out.FlightLeast, &out.ControlMost, 1},
		{out.Full * (1 + e), out.Land * (1 - e), &out.FlightMost, &out.ControlLeast, holdsLess},
		{out.Full, out.Land, &out.FlightTime, &out.ControlTime, 1}} {
		f, err := fly(c.full, c.land)
		if err != nil {
			return blameHeight(err)
		}
		*c.motor = f.PoweredTime
		if f.ControlTime != nil {
			*c.radio = *f.ControlTime / c.long
		}
	}
	k, err := in.circuit(in.Radio)
	if err != nil {
		return err
	}
	p, cl, err := k.lastGlide(in.Home, in.Airframe)
	t := p.Trim(cl, 1)
	out.GroundSpeed = t.Speed*math.Cos(t.Angle) - in.Wind
	return err
}

// resting is the voltage at the terminals, in level flight, of a rested one:
// where a motor that is stopped leaves the pack at that.
func (in *FlightInput) resting(rested float64) (float64, error) {
	k, err := in.circuit()
	if err != nil {
		return 0, err
	}
	l, err := k.newLeg(in.Airframe, in.Plan[len(in.Plan)-1], 1, in.Home)
	if err != nil {
		return 0, err
	}
	return l.at(rested).terminal, nil
}

// blameHeight puts what a flight lacks down to an input of the card.
func blameHeight(err error) error {
	var e *model.Error
	if !errors.As(err, &e) || e.Field != "plan" && e.Field != "start_voltage" && e.Field != "cut_off" {
		return err
	}
	return renamed(err, "height")
}

// checks are what to look at before the throw.
var checks = []CardCheck{
	{"failsafe: transmitter off, the motor stops", "a motor that runs on without a signal"},
	{"range test, as the radio's manual says", "a model that nobody steers"},
	{"plugs, polarity and leads, before the pack goes in", "sparks, and a burnt control"},
	{"propeller tight, whole, and nobody in its plane", "cuts, and blades that fly off"},
	{"centre of gravity, and nothing loose", "a stall at the throw"},
	{"controls free and the right way round", "the first turn being the last"},
	{"the voltage, on the meter, rested", "a landing that the radio does not live to see"},
	{"club's and authority's rules, wind and people", "harm to others"},
}
