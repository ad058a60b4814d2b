package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// RadioModel is the record that [Bec] makes.
type RadioModel struct {
	Kind        string  `values:"linear switching" default:"linear" help:"linear: the pack gives the radio's current; switching: its power"`
	Voltage     float64 `unit:"V" range:"(0,)" help:"regulated, for receiver and servos" symbol:"V"`
	Dropout     float64 `unit:"V" range:"[0,)" default:"0.5 V" help:"least difference between input and output"`
	Current     float64 `unit:"A" range:"[0,)" help:"mean, of receiver and servos" symbol:"I"`
	Efficiency  float64 `unit:"%" range:"(0,100]" default:"85 %" help:"of a switching one" symbol:"eta"`
	IdleCurrent float64 `unit:"A" range:"[0,)" default:"0 A" help:"of the regulator itself, out of the pack"`
}

func (r RadioModel) Check(record string) error {
	if r.Kind != "linear" && r.Kind != "switching" {
		return &model.Error{Field: require.Field(record, "kind"), Summary: "a regulator is linear or switching", Hint: `write kind: "linear" or kind: "switching"`}
	}
	return require.In(record, require.Positive("voltage", r.Voltage, "V"), require.NotNegative("dropout", r.Dropout, "V"),
		require.NotNegative("current", r.Current, "A"), require.Efficiency("efficiency", r.Efficiency),
		require.NotNegative("idle_current", r.IdleCurrent, "A"))
}

// BecInput is what [Bec] wants.
type BecInput struct{ RadioModel }

// BecResult is what [Bec] answers: the supply, and the least input it holds its voltage at.
type BecResult struct {
	RadioModel
	LeastInput float64 `unit:"V" show:"1" help:"at its input, below which the output sinks with it"`
}

// Bec describes the regulator that feeds the radio from the flight pack (battery eliminator circuit).
//
// Formula: least input V_least = V + ΔV.
//
// Letters: V voltage; ΔV dropout; V_least = least_input.
//
// Validity: a regulator that only lowers the voltage.
//
// Source: definitions.
//
// Example:
//
//	radio = bec(voltage: 5 V, current: 0.15 A, dropout: 0.3 V)
func Bec(in BecInput) (BecResult, error) {
	if err := in.Check(""); err != nil {
		return BecResult{}, err
	}
	return BecResult{RadioModel: in.RadioModel, LeastInput: in.Voltage + in.Dropout}, nil
}

// BecPointInput is what [BecPoint] wants.
type BecPointInput struct {
	Bec              RadioModel `help:"the regulator, see bec"`
	Input            float64    `unit:"V" range:"(0,)" help:"of the pack, rested"`
	SourceResistance float64    `unit:"Ω" range:"[0,)" default:"0 Ω" help:"of pack and leads"`
	Current          *float64   `unit:"A" range:"[0,)" overrides:"bec.current" help:"drawn from the regulator instead of its mean: a servo held fast, for one" symbol:"I"`
}

// BecPointResult is what [BecPoint] answers.
type BecPointResult struct {
	Output       float64 `unit:"V" show:"1" help:"at receiver and servos"`
	InputCurrent float64 `unit:"A" show:"2" help:"out of the pack"`
	Heat         float64 `unit:"W" show:"3" help:"in the regulator"`
	Terminal     float64 `unit:"V" help:"of the pack, under this load"`
	model.Cautions
}

// BecPoint says what the radio gets, and what the regulator takes and wastes.
//
// Formula: V_in = V_c − I_in·R; linear: I_in = I + I0; switching: V_in·(I_in − I0) = V·I/η; below voltage and dropout the output is V_out = V_in − ΔV at I_in = I + I0; heat P = V_in·I_in − V_out·I.
//
// Letters: V bec.voltage; ΔV bec.dropout; η bec.efficiency; I0 bec.idle_current; V_c input; R source_resistance; I current or bec.current; V_out = output; I_in = input_current; P = heat; V_in = terminal.
//
// Validity: the regulator's own current, idle_current, is 0 if not given.
//
// Source: conservation of energy.
//
// Example:
//
//	radio = bec(voltage: 5 V, current: 0.15 A, dropout: 0.3 V)
//	stalled = bec_point(radio, 6 V, source_resistance: 80 mΩ, current: 1.2 A)
func BecPoint(in BecPointInput) (BecPointResult, error) {
	if err := in.Bec.Check("bec"); err != nil {
		return BecPointResult{}, err
	}
	current := in.Bec.Current
	if in.Current != nil {
		current = *in.Current
	}
	if err := require.All(require.Positive("input", in.Input, "V"),
		require.NotNegative("source_resistance", in.SourceResistance, "Ω"),
		require.NotNegative("current", current, "A")); err != nil {
		return BecPointResult{}, err
	}
	into := in.Bec.IdleCurrent + in.Bec.taken(in.Input-in.Bec.IdleCurrent*in.SourceResistance, current, in.SourceResistance)
	terminal := in.Input - into*in.SourceResistance
	out := BecPointResult{InputCurrent: into, Terminal: terminal, Output: min(in.Bec.Voltage, terminal-in.Bec.Dropout)}
	if out.Output <= 0 {
		return BecPointResult{}, &model.Error{Field: "input", Summary: "the pack has {0} left under this load: nothing comes out of the regulator",
			Values: []model.Value{model.In(terminal, "V")}, Hint: "give a higher voltage, or a smaller current or resistance"}
	}
	out.Heat = terminal*into - out.Output*current
	if out.Output < in.Bec.Voltage {
		out.Raise(model.Caution{ID: "radio-voltage-sinks", Level: model.Danger,
			Summary: "The radio gets {0}, not {1}.",
			Values:  []model.Value{model.In(out.Output, "V"), model.In(in.Bec.Voltage, "V")},
			Why:     "A receiver that restarts in the air leaves a model that nobody steers: test with the servos held.",
			Hint:    "Land earlier, or take a regulator of less dropout.", Source: "common practice"})
	}
	return out, nil
}

// taken is the current out of a pack of voltage v and resistance r.
func (r RadioModel) taken(v, current, resistance float64) float64 {
	if r.Kind == "linear" {
		return current
	}
	power := r.Voltage * current / r.Efficiency
	root := v*v - 4*power*resistance
	if root < 0 {
		return current
	}
	into := 2 * power / (v + math.Sqrt(root))
	if v-into*resistance < r.Voltage+r.Dropout {
		return current // out of regulation it passes the current through
	}
	return into
}
