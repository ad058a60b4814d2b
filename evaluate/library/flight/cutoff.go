package flight

import (
	"context"
	"errors"
	"math"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// CutOffChoiceInput is what [CutOffChoice] wants.
type CutOffChoiceInput struct {
	Aloft
	Plan         []Phase `help:"the phases, as a table or a list of flight_phase"`
	StartVoltage float64 `unit:"V" range:"(0,)" help:"of the pack, rested, at the launch"`
	From         float64 `unit:"V" range:"(0,)" help:"the lowest cut-off, at the pack's terminals under load"`
	To           float64 `unit:"V" range:"(0,)" help:"the highest"`
	Steps        int     `range:"[1,200]" default:"6" help:"between them"`
	Margin       float64 `unit:"s" range:"[0,)" default:"30 s" help:"that the radio shall last beyond the glide down"`
	Home
}

// CutOffRow is a flight with one cut-off.
type CutOffRow struct {
	CutOff        float64  `unit:"V" help:"at the pack's terminals, under load"`
	PoweredTime   float64  `unit:"s"`
	TopHeight     float64  `unit:"m"`
	GlideTime     float64  `unit:"s"`
	ControlTime   *float64 `unit:"s" help:"for which the radio works on after the motor has stopped"`
	ControlMargin *float64 `unit:"s" help:"control time less glide time"`
	Stranded      float64  `unit:"J" help:"in the pack when the motor has stopped, for the radio only"`
	StrandedShare float64  `unit:"%" help:"of what it held at the launch"`
}

// CutOffChoiceResult is what [CutOffChoice] answers.
type CutOffChoiceResult struct {
	Lowest *float64    `unit:"V" show:"1" help:"of these cut-offs, that leaves the margin"`
	Rows   []CutOffRow `help:"by rising cut-off"`
	model.Cautions
}

// CutOffChoice flies one plan with several cut-offs: what a higher one strands
// in the pack, and what it leaves the radio.
//
// Formula: as flight; stranded what the pack held less what it gave: C·V²/2 at the rested voltage to which it rebounds, where C is constant.
//
// Validity: as flight.
//
// Source: as flight.
//
// Example:
//
//	plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
//	motor_1 = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	train = drive(motor_1, prop, speed_control(resistance: 20 mΩ), lead_resistance: 15 mΩ)
//	store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
//	radio = bec(voltage: 4.2 V, current: 0.15 A, dropout: 0.3 V)
//	plan = [flight_phase(climb_rate: 1 m/s, until_height: 50 m), flight_phase(climb_rate: 0 m/s)]
//	choice = cut_off_choice(plane, train, store, plan, 12.4 V, from: 4.6 V, to: 6.4 V, radio: radio)
//	V_cut [V] = choice.lowest
func CutOffChoice(ctx context.Context, in CutOffChoiceInput) (CutOffChoiceResult, error) {
	if err := require.All(require.Positive("from", in.From, "V"), require.Positive("to", in.To, "V"),
		require.Positive("steps", float64(in.Steps), "1"), require.NotNegative("margin", in.Margin, "s")); err != nil {
		return CutOffChoiceResult{}, err
	}
	if in.To <= in.From {
		return CutOffChoiceResult{}, &model.Error{Field: "to", Summary: "the highest cut-off, {0}, is not above the lowest, {1}",
			Values: []model.Value{model.In(in.To, "V"), model.In(in.From, "V")}, Hint: "give a higher voltage than from"}
	}
	out := CutOffChoiceResult{Rows: make([]CutOffRow, in.Steps+1)}
	for i := range out.Rows {
		v := in.From + (in.To-in.From)*float64(i)/float64(in.Steps)
		row, err := in.row(ctx, v)
		if err != nil {
			return CutOffChoiceResult{}, err
		}
		out.Rows[i] = row
		if out.Lowest == nil && row.ControlMargin != nil && *row.ControlMargin >= in.Margin {
			out.Lowest = &out.Rows[i].CutOff
		}
	}
	in.caution(&out)
	return out, nil
}

func (in CutOffChoiceInput) row(ctx context.Context, v float64) (CutOffRow, error) {
	f, err := Flight(ctx, FlightInput{Aloft: in.Aloft, Plan: in.Plan, StartVoltage: in.StartVoltage, Aboard: Aboard{&v, in.Home}})
	var e *model.Error
	if errors.As(err, &e) && e.Field == "start_voltage" && v > in.From {
		moved := *e
		moved.Field = "to"
		return CutOffRow{}, &moved
	}
	if err != nil {
		return CutOffRow{}, err
	}
	stranded := in.Store.law().Held(in.StartVoltage, in.StartVoltage) - f.Given
	return CutOffRow{CutOff: v, PoweredTime: f.PoweredTime, TopHeight: f.TopHeight, GlideTime: f.GlideTime,
		ControlTime: finite(f.ControlTime), ControlMargin: finite(f.ControlMargin),
		Stranded: stranded, StrandedShare: stranded / in.Store.law().Held(in.StartVoltage, in.StartVoltage)}, nil
}

// finite leaves out what is never reached: a column has no place for it.
func finite(x *float64) *float64 {
	if x == nil || math.IsInf(*x, 0) {
		return nil
	}
	return x
}

func (in CutOffChoiceInput) caution(out *CutOffChoiceResult) {
	if last := out.Rows[len(out.Rows)-1].ControlMargin; out.Lowest == nil && last != nil {
		out.Raise(model.Caution{ID: "no-cut-off-serves", Level: model.Warning,
			Summary: "No cut-off leaves the radio {1}; the highest leaves {0}.",
			Values:  []model.Value{model.In(*last, "s"), model.In(in.Margin, "s")},
			Why:     "That is beyond the glide. A radio that fails in the glide leaves a model that nobody steers.",
			Hint:    "Try higher ones, or stay lower.", Source: "common practice"})
	}
	if out.Rows[0].ControlTime != nil && in.Store.Plain() {
		controlReadsLong(&out.Cautions)
	}
	if in.Radio != nil {
		failsafe(&out.Cautions)
	}
	drive.Spinning(&out.Cautions)
	glide.Flying(&out.Cautions)
}
