package flight

import (
	"math"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// BrownOutInput is what [BrownOut] wants.
type BrownOutInput struct {
	Store          FlightStore      `help:"the pack"`
	Radio          drive.RadioModel `help:"its regulator, see bec; its voltage the least that the receiver works on"`
	StallCurrent   float64          `unit:"A" range:"(0,)" help:"out of the regulator, with the servos held fast"`
	LeadResistance float64          `unit:"Ω" range:"[0,)" default:"0 Ω" help:"of leads and plugs between pack and regulator"`
	From           *float64         `unit:"V" range:"(0,)" help:"of the pack, rested, when the motor has stopped: the time lost is worked from there"`
}

// BrownOutResult is what [BrownOut] answers.
type BrownOutResult struct {
	Voltage     float64  `unit:"V" show:"1" help:"of the pack, rested, below which a stalled servo resets the radio"`
	MeanVoltage float64  `unit:"V" help:"of the pack, rested, below which its mean current does"`
	ControlTime *float64 `unit:"s" show:"2" help:"until a stalled servo resets the radio"`
	Lost        *float64 `unit:"s" show:"3" help:"of the time that the mean current alone would leave"`
	model.Cautions
}

// BrownOut is the rested voltage below which a servo that is held fast resets the radio, and the control time that this costs.
//
// Formula: V = V_bec + ΔV + I·(R_pack + R_lead), I the current out of the pack: linear I = I_s + I0, the servo's own, switching I = V_bec·I_s/(η·(V_bec + ΔV)) + I0; on the mean V_m = V_bec + ΔV + I_m·(R_pack + R_lead), linear I_m = I_r + I0, switching I_m = V_bec·I_r/(η·(V_bec + ΔV)) + I0; times as flight's control time, down to that.
//
// Letters: V_bec radio.voltage; ΔV radio.dropout; η radio.efficiency; I0 radio.idle_current; I_r radio.current; I_s stall_current; R_pack store.resistance; R_lead lead_resistance; V = voltage; V_m = mean_voltage.
//
// Validity: a stall that lasts longer than the regulator's capacitors hold, some milliseconds; a slow branch, if the store has one, settled at from.
//
// Source: Ohm's law; conservation of energy.
//
// Example:
//
//	cell = capacitor(100 F, 2.7 V, resistance: 10 mΩ)
//	store = pack(cell, series: 6)
//	least = brown_out(store, bec(voltage: 4.7 V, current: 0.15 A, dropout: 0.3 V), stall_current: 1.5 A, from: 6.6 V)
//	V_reset [V] = least.voltage
func BrownOut(in BrownOutInput) (BrownOutResult, error) {
	if err := in.Store.check("store"); err != nil {
		return BrownOutResult{}, err
	}
	if err := in.Radio.Check("radio"); err != nil {
		return BrownOutResult{}, err
	}
	if err := require.All(require.Positive("stall_current", in.StallCurrent, "A"), require.NotNegative("lead_resistance", in.LeadResistance, "Ω")); err != nil {
		return BrownOutResult{}, err
	}
	if in.StallCurrent < in.Radio.Current {
		return BrownOutResult{}, &model.Error{Field: "stall_current", Summary: "is {0}, less than the radio's mean of {1}",
			Values: []model.Value{model.In(in.StallCurrent, "A"), model.In(in.Radio.Current, "A")}, Hint: "give the current with the servos held fast; the servo's sheet has it"}
	}
	out := BrownOutResult{Voltage: in.rested(in.StallCurrent), MeanVoltage: in.rested(in.Radio.Current)}
	if in.From == nil {
		return out, nil
	}
	if err := require.Positive("from", *in.From, "V"); err != nil {
		return BrownOutResult{}, err
	}
	held, all := in.time(*in.From, out.Voltage), in.time(*in.From, out.MeanVoltage)
	if math.IsInf(all, 0) {
		return out, nil
	}
	lost := all - held
	out.ControlTime, out.Lost = &held, &lost
	if held < shortMargin {
		out.Raise(model.Caution{ID: "brown-out-near", Level: model.Danger, Severity: shortMargin - held,
			Summary: "A stalled servo resets the radio {1} after the motor stops.",
			Values:  []model.Value{model.In(out.Voltage, "V"), model.In(held, "s")},
			Why:     "That is below {0}. A receiver that restarts in the air leaves a model that nobody steers.",
			Hint:    "Raise the cut-off, or free the linkages.", Source: "common practice"})
	}
	return out, nil
}

// rested is the pack's voltage at which the regulator still holds a current.
func (in BrownOutInput) rested(current float64) float64 {
	r := in.Radio
	least := r.Voltage + r.Dropout
	if r.Kind == "switching" {
		current = max(current, 0) * r.Voltage / (r.Efficiency * least)
	}
	return least + (current+r.IdleCurrent)*(in.Store.Resistance+in.LeadResistance)
}

// time is how long the radio's mean current takes between two rested voltages.
func (in BrownOutInput) time(from, to float64) float64 {
	k := &circuit{store: in.Store, law: in.Store.law()}
	k.feed(&in.Radio)
	k.store.Resistance += in.LeadResistance
	return k.drain(from, from, to)
}
