package flight

import (
	"context"
	"errors"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// GoVoltageInput is what [GoVoltage] wants.
type GoVoltageInput struct {
	Aloft
	Height    float64  `unit:"m" range:"(0,)" help:"above the place of landing, that the model shall climb to"`
	Margin    float64  `unit:"s" range:"[0,)" default:"30 s" help:"that the radio shall last beyond the glide down"`
	ClimbRate float64  `unit:"m/s" range:"(0,)" default:"1 m/s" help:"held until the height"`
	CL        *float64 `unit:"1" name:"CL" range:"(0,)" help:"lift coefficient of the climb; that of the best glide if not given"`
	Aboard
	Settled
}

// GoVoltageResult is what [GoVoltage] answers.
type GoVoltageResult struct {
	Voltage       float64  `unit:"V" show:"1" help:"of the pack, rested: below it, do not launch" symbol:"V"`
	LimitedBy     string   `show:"2" help:"what asks for it: cut-off, full throttle or radio"`
	TopVoltage    float64  `unit:"V" help:"of the pack, rested, when the height is reached"`
	ClimbTime     float64  `unit:"s" help:"to the height"`
	GlideTime     float64  `unit:"s" help:"from there to touchdown"`
	ControlMargin *float64 `unit:"s" show:"3" help:"control time less glide time"`
	model.Cautions
}

// GoVoltage is the voltage on the field below which not to launch: the least
// that climbs to a height and leaves the radio a margin beyond the glide down.
//
// Formula: V_top is the least rested voltage at which the climb is still held above the cut-off, within full throttle, and control time ≥ glide time + margin; from there C·dV/dt = −(motor + radio + V/R_leak) is followed back to the launch. A store with a slow branch is launched with that at slow_share of its voltage, and the least such voltage is looked for.
//
// Validity: as flight; the climb rate is held all the way, and the motor stopped at the height. The control time reads 7 % to 12 % long, see flight.
//
// Source: as flight.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	train = drive(motor_1, prop, speed_control(resistance: 20 mΩ, cut_off: 5.5 V), lead_resistance: 15 mΩ)
//	store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
//	radio = bec(voltage: 4.2 V, current: 0.15 A, dropout: 0.3 V)
//	go = go_voltage(plane, train, store, height: 50 m, margin: 30 s, radio: radio)
//	V_go [V] = go.voltage
func GoVoltage(ctx context.Context, in GoVoltageInput) (GoVoltageResult, error) {
	if err := in.Settled.check(); err != nil {
		return GoVoltageResult{}, err
	}
	l, err := in.leg()
	if err != nil {
		return GoVoltageResult{}, err
	}
	cutOff, least, err := in.limits(in.Drive.SpeedControl)
	if err != nil {
		return GoVoltageResult{}, err
	}
	p, cl, err := l.lastGlide(in.Home, in.Airframe)
	if err != nil {
		return GoVoltageResult{}, err
	}
	l.least = least
	out := GoVoltageResult{ClimbTime: (in.Height - in.LaunchHeight) / in.ClimbRate, GlideTime: in.Height / p.Trim(cl, 1).Sink}
	slow, err := l.whence(ctx, climbWants{cutOff, least, out.GlideTime + in.Margin, in.SlowShare}, &out)
	if err != nil {
		return GoVoltageResult{}, err
	}
	if least > 0 {
		margin := l.controlTime(out.TopVoltage, slow, least) - out.GlideTime // infinite without a load: model.Never
		out.ControlMargin = &margin
	}
	in.caution(&out, l)
	return out, nil
}

// leg is the climb.
func (in GoVoltageInput) leg() (*leg, error) {
	k, err := in.circuit(in.Radio)
	if err != nil {
		return nil, err
	}
	if err := require.All(require.Positive("height", in.Height, "m"), require.Positive("climb_rate", in.ClimbRate, "m/s"),
		require.NotNegative("margin", in.Margin, "s"), require.NotNegative("launch_height", in.LaunchHeight, "m")); err != nil {
		return nil, err
	}
	if in.Height <= in.LaunchHeight {
		return nil, &model.Error{Field: "height", Summary: "{0} is no climb from a launch at {1}",
			Values: []model.Value{model.In(in.Height, "m"), model.In(in.LaunchHeight, "m")}, Hint: "give a height above launch_height"}
	}
	cl, err := in.Airframe.ChosenCL(in.CL)
	if err != nil {
		return nil, err
	}
	l := &leg{circuit: k, phase: 1}
	l.trim(in.Airframe, cl)
	err = l.hold(in.ClimbRate)
	var e *model.Error
	if errors.As(err, &e) && e.Field == "plan" {
		err = &model.Error{Field: "climb_rate", Summary: "a climb of {0} is steeper than 45° at this lift coefficient",
			Values: []model.Value{model.In(in.ClimbRate, "m/s")}, Hint: e.Hint}
	}
	return l, err
}

// whence finds the launch and the top of the climb, with the slow branch's voltage
// there.
func (l *leg) whence(ctx context.Context, w climbWants, out *GoVoltageResult) (slow float64, err error) {
	if l.law.Lags() {
		return l.climbBoth(ctx, w, out)
	}
	if out.TopVoltage, out.LimitedBy, err = l.leastTop(w.cutOff, w.least, w.control); err != nil {
		return 0, err
	}
	out.Voltage, err = l.back(ctx, out.TopVoltage, out.ClimbTime)
	return out.TopVoltage, err
}

// leastTop is the least rested voltage at the end of the climb.
func (l *leg) leastTop(cutOff, least, control float64) (v float64, by string, err error) {
	v, by = cutOff, "cut-off"
	for _, want := range []struct {
		by   string
		more func(v float64) float64
	}{
		{"cut-off", func(v float64) float64 { return l.at(v).terminal - cutOff }},
		{"full throttle", func(v float64) float64 { return l.at(v).spare }},
		{"radio", func(v float64) float64 {
			if least == 0 {
				return 0
			}
			return l.controlTime(v, v, least) - control
		}},
	} {
		short := want.more(v)
		if short >= 0 {
			continue
		}
		low, high := v, 2*v
		for ; want.more(high) < 0; low, high = high, 2*high {
			if high > 1e6 {
				return 0, "", noVoltage()
			}
		}
		v, by = numeric.Crossing(want.more, low, high, want.more(low), want.more(high)), want.by
	}
	return v, by, nil
}

// back is the rested voltage a time before one.
func (l *leg) back(ctx context.Context, v, time float64) (float64, error) {
	s, err := numeric.Integrate(ctx, func(_ float64, y, dy []float64) {
		m := l.at(y[0])
		dy[0] = -(m.pack + m.radio + l.store.leak(y[0])) / l.law.At(y[0])
	}, 0, []float64{v}, -time, numeric.Options{Relative: flightTolerance, Absolute: flightScale, Steps: 20_000})
	if err != nil {
		return 0, stalled(err)
	}
	return s.Y[0], nil
}

func (in GoVoltageInput) caution(out *GoVoltageResult, l *leg) {
	list := &out.Cautions
	if rated := in.Store.RatedVoltage; rated != nil && out.Voltage > *rated {
		list.Raise(model.Caution{ID: "go-voltage-over-rating", Level: model.Danger,
			Summary: "It would take {0}, {2} above the rating of {1}.",
			Values:  []model.Value{model.In(out.Voltage, "V"), model.In(*rated, "V"), model.In(out.Voltage-*rated, "V")},
			Why:     "That is the pack's. A cell past its rating ages within hours, gives off gas and may burst.",
			Hint:    "Aim lower, fly lighter, or take a larger pack.", Source: "application guides of capacitor makers"})
	} else {
		overSafe(list, out.Voltage, in.Store.SafeVoltage)
	}
	if out.ControlMargin != nil && in.Store.Plain() {
		controlReadsLong(list)
	}
	if in.Radio != nil {
		failsafe(list)
	}
	worst := l.at(out.TopVoltage)
	in.Drive.Caution(list, drive.Working{MotorCurrent: worst.motor, TerminalVoltage: worst.terminal}, drive.Conditions{Throttle: min(l.at(out.Voltage).throttle, 1)})
	glide.AtStall(list, l.cl, in.Airframe.CLMax)
	glide.OverCeiling(list, in.Height)
	glide.Flying(list)
}
