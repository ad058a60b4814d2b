package flight

import (
	"context"
	"math"
	"slices"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// Aloft is what flies, and on what.
type Aloft struct {
	Airframe glide.Plane      `help:"the airframe"`
	Drive    drive.DriveModel `help:"motor, propeller, speed control, leads"`
	Store    FlightStore      `help:"the pack"`
}

// Aboard is what else a flight needs to know.
type Aboard struct {
	CutOff *float64 `unit:"V" range:"(0,)" help:"at the pack's terminals, under load, where the motor is stopped; the speed control's if not given"`
	Home
}

// Home is what a flight needs to know for its way down.
type Home struct {
	Radio        *drive.RadioModel `help:"its regulator, see bec; without one the model flies free"`
	RadioMinimum *float64          `unit:"V" range:"(0,)" help:"at the pack's terminals, below which the radio fails; voltage + dropout of the regulator if not given"`
	LaunchHeight float64           `unit:"m" range:"[0,)" default:"2 m" help:"above the place of landing"`
	Propeller    string            `values:"folded stopped windmilling" default:"folded" help:"in the glide; a windmilling one turns, or is held by its motor, as windmilling says; a stopped one drags by the airframe's propeller_drag, or as its diameter says"`
	GlideCL      *float64          `unit:"1" name:"glide_CL" range:"(0,)" help:"lift coefficient of the glide; that of the best glide if not given"`
}

// FlightInput is what [Flight] wants.
type FlightInput struct {
	Aloft
	Plan         []Phase `help:"the phases, as a table or a list of flight_phase"`
	StartVoltage float64 `unit:"V" range:"(0,)" help:"of the pack, rested, at the launch"`
	Aboard
	Wind        float64  `unit:"m/s" default:"0 m/s" help:"along the path over the ground: tailwind positive, headwind negative"`
	SlowVoltage *float64 `unit:"V" range:"[0,)" help:"of the pack's slow branch at the launch, if it has one: hand_charge says it; as start_voltage, where the pack has rested"`
}

// FlightRow is a moment of a flight.
type FlightRow struct {
	Time            float64 `unit:"s" symbol:"t"`
	Phase           int     `help:"of the plan, from 1; 0 in the last glide"`
	Voltage         float64 `unit:"V" help:"of the pack, rested" symbol:"V"`
	TerminalVoltage float64 `unit:"V" help:"of the pack, under its load"`
	Current         float64 `unit:"A" help:"out of the pack, with the radio's" symbol:"I"`
	Throttle        float64 `unit:"%"`
	Height          float64 `unit:"m" help:"above the place of landing"`
	ClimbRate       float64 `unit:"m/s" help:"negative where it sinks"`
	Airspeed        float64 `unit:"m/s" help:"along the path"`
}

// FlightEvent is something that happened on the way.
type FlightEvent struct {
	Time    float64 `unit:"s" symbol:"t"`
	What    string  `help:"that happened"`
	Phase   int     `help:"of the plan, from 1; 0 in the last glide"`
	Voltage float64 `unit:"V" help:"of the pack, rested" symbol:"V"`
	Height  float64 `unit:"m" help:"above the place of landing"`
}

// FlightSum is where the pack's energy goes until the motor stops.
type FlightSum struct {
	Given         float64 `unit:"J" help:"by the pack until the motor stops"`
	Radio         float64 `unit:"J" help:"receiver, servos and their regulator"`
	StoreLoss     float64 `unit:"J" help:"lost in the pack's resistance"`
	Leads         float64 `unit:"J" help:"lost in the leads"`
	SpeedControl  float64 `unit:"J" help:"lost in the speed control"`
	Copper        float64 `unit:"J" help:"lost in the motor's winding"`
	Idle          float64 `unit:"J" help:"lost in the motor, of its idle current"`
	Gear          float64 `unit:"J" help:"lost in the gear"`
	PropellerLoss float64 `unit:"J" help:"lost between shaft and thrust"`
	Drag          float64 `unit:"J" help:"lost to the air by the airframe"`
	HeightEnergy  float64 `unit:"J" help:"won as height above the launch"`
	Leakage       float64 `unit:"J" help:"lost within the pack"`
	Settling      float64 `unit:"J" help:"lost within a pack that has a slow branch, between its branches"`
}

// FlightResult is how a flight went.
type FlightResult struct {
	PoweredTime    float64  `unit:"s" show:"1" help:"with the motor running, without rests"`
	TopHeight      float64  `unit:"m" show:"2" help:"the largest height" asked:"history"`
	GlideTime      float64  `unit:"s" help:"from where the motor stops for good to touchdown"`
	TotalTime      float64  `unit:"s" help:"from launch to touchdown"`
	ControlTime    *float64 `unit:"s" help:"for which the radio works on after the motor has stopped"`
	ControlMargin  *float64 `unit:"s" show:"3" help:"control time less glide time"`
	Ended          string   `help:"what stopped the motor"`
	StopVoltage    float64  `unit:"V" help:"of the pack when the motor has stopped, rested: where it rebounds to"`
	StopHeight     float64  `unit:"m" help:"then"`
	LandingVoltage float64  `unit:"V" help:"of the pack, rested, at touchdown"`
	Range          float64  `unit:"m" help:"over the ground, flown straight"`
	PeakCurrent    float64  `unit:"A" help:"out of the pack" asked:"history"`
	FlightSum
	Events  []FlightEvent `help:"in the order in which they happened"`
	History []FlightRow   `asked:"history"`
	model.Cautions
}

// Flight follows a flight on a pack from the launch to the ground: how long
// the motor runs, how high it carries, and whether the radio lasts the glide.
//
// The plan's phases follow one another. A climb rate or power that full
// throttle no longer gives is flown on at full throttle. At the cut-off, at the
// end of the plan or on the ground the motor stops for good; the pack's voltage
// rebounds, and the model glides down on what is left for the radio.
//
// Formula: C(V)·dV/dt = −(motor + radio + V/R_leak + I_slow), I_slow = (V − V_slow)/R_slow where the store has a slow branch; lift and thrust as climb has them, the climb rate V·sin γ; the drive as operating_point; a linear regulator draws a constant current, a switching one a constant power; control time = ∫ C·dV/(radio + leak) down to the radio's minimum; given E = E_radio + E_store + E_leads + E_control + E_cu + E_idle + E_gear + E_prop + E_drag + E_h + E_leak + E_set; in all t = t_p + t_g.
//
// Letters: t_p = powered_time; t_g = glide_time; t = total_time; E = given; E_radio = radio; E_store = store_loss; E_leads = leads; E_control = speed_control; E_cu = copper; E_idle = idle; E_gear = gear; E_prop = propeller_loss; E_drag = drag; E_h = height_energy; E_leak = leakage; E_set = settling.
//
// Validity: steady flight, paths up to 45°, in steady wind; the energy of a change of speed, V²/2g of height, and of the launch are left out; a store without a capacitance_slope is worked as constant, by which a double-layer pack's control time reads 7 % to 12 % long; below its minimum the radio draws in proportion to the voltage. Relative tolerance 1e-8.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 6; operating_point; J. R. Dormand and P. J. Prince, J. Comput. Appl. Math. 6 (1980).
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	train = drive(motor_1, prop, speed_control(resistance: 20 mΩ, cut_off: 5.5 V), lead_resistance: 15 mΩ)
//	store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
//	radio = bec(voltage: 4.2 V, current: 0.15 A, dropout: 0.3 V)
//	plan = [flight_phase(climb_rate: 1 m/s, until_height: 50 m), flight_phase(climb_rate: 0 m/s)]
//	hop = flight(plane, train, store, plan, start_voltage: 12.4 V, radio: radio)
//	t_motor [s] = hop.powered_time
func Flight(ctx context.Context, in FlightInput) (FlightResult, error) {
	out, _, err := in.fly(ctx, flightTolerance)
	return out, err
}

// fly is the flight at a tolerance, with the course that it took.
func (in FlightInput) fly(ctx context.Context, tolerance float64) (FlightResult, *course, error) {
	c, k, err := in.course()
	if err != nil {
		return FlightResult{}, nil, err
	}
	c.tolerance = tolerance
	if err := c.powered(ctx, k); err != nil {
		return FlightResult{}, nil, err
	}
	var out FlightResult
	c.stopped(k, &out)
	if err := c.land(ctx, k, &out); err != nil {
		return FlightResult{}, nil, err
	}
	c.answer(&out)
	if model.Asked(ctx, "history") {
		c.look(&out)
	}
	if !model.IsQuiet(ctx) {
		c.caution(k, &out)
	}
	return out, c, nil
}

// course checks the inputs and puts a flight at its launch.
func (in *FlightInput) course() (*course, *circuit, error) {
	c := &course{in: in}
	k, err := in.circuit()
	if err != nil {
		return nil, nil, err
	}
	if err := require.All(require.Positive("start_voltage", in.StartVoltage, "V"),
		require.NotNegative("launch_height", in.LaunchHeight, "m")); err != nil {
		return nil, nil, err
	}
	if len(in.Plan) == 0 {
		return nil, nil, &model.Error{Field: "plan", Summary: "the plan has no phase", Hint: "give one flight_phase or more"}
	}
	for i, ph := range in.Plan {
		if err := ph.check(i + 1); err != nil {
			return nil, nil, err
		}
	}
	if c.cutOff, k.least, err = in.limits(in.Drive.SpeedControl); err != nil {
		return nil, nil, err
	}
	if c.plane, c.glide, err = k.lastGlide(in.Home, in.Airframe); err != nil {
		return nil, nil, err
	}
	if c.y, err = k.launched(in); err != nil {
		return nil, nil, err
	}
	c.then = slices.Clone(c.y)
	return c, k, nil
}

// circuit checks the parts and joins them.
func (in *FlightInput) circuit() (*circuit, error) { return in.Aloft.circuit(in.Radio) }

func (in Aloft) circuit(radio *drive.RadioModel) (*circuit, error) {
	if err := in.Airframe.Check("airframe"); err != nil {
		return nil, err
	}
	d, err := in.Drive.Check("drive")
	if err != nil {
		return nil, err
	}
	if err := in.Store.check("store"); err != nil {
		return nil, err
	}
	k := newCircuit(in.Drive, d, in.Store, in.Airframe.Density)
	if radio == nil {
		return k, nil
	}
	if err := radio.Check("radio"); err != nil {
		return nil, err
	}
	k.feed(radio)
	return k, nil
}

// feed joins the radio and its regulator.
func (k *circuit) feed(radio *drive.RadioModel) {
	k.radioCurrent += radio.IdleCurrent
	if radio.Kind == "switching" {
		k.radioPower = radio.Voltage * radio.Current / radio.Efficiency
	} else {
		k.radioCurrent += radio.Current
	}
}

// limits are the voltages at the terminals where the motor is stopped and
// where the radio fails, 0 without a radio.
func (a Aboard) limits(s drive.SpeedControlModel) (cutOff, radio float64, err error) {
	if radio, err = a.least(); err != nil {
		return 0, 0, err
	}
	cutOff = s.CutOff
	if a.CutOff != nil {
		cutOff = *a.CutOff
	}
	if !(cutOff > 0) || math.IsInf(cutOff, 0) {
		return 0, 0, &model.Error{Field: "cut_off", Summary: "nothing says at which voltage the motor is stopped",
			Hint: "give cut_off, or the speed control's own"}
	}
	return cutOff, radio, nil
}

// least is the voltage at the terminals where the radio fails; 0 without one.
func (h Home) least() (float64, error) {
	if h.Radio == nil {
		return 0, nil
	}
	v := h.Radio.Voltage + h.Radio.Dropout
	if h.RadioMinimum != nil {
		v = *h.RadioMinimum
	}
	return v, require.Positive("radio_minimum", v, "V")
}
