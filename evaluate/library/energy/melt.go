package energy

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

const (
	circularMil  = math.Pi / 4 * 25.4e-6 * 25.4e-6 // m²
	copperMelts  = 1083.0                          // °C
	slowestMelt  = 10.0                            // s, beyond which the heat that leaves counts
	onderdonkOff = 234.0                           // °C below zero at which copper's resistance would end
)

// LeadMeltingInput is a lead in a short circuit.
type LeadMeltingInput struct {
	Wire    Conductor `help:"a wire, or a row of a table of wires"`
	Strands int       `range:"[1,)" default:"1" help:"of that diameter in a lead"`
	Current *float64  `unit:"A" range:"(0,)" choose:"known" help:"that flows in the short: of a store its short-circuit current" symbol:"I"`
	Time    *float64  `unit:"s" range:"(0,)" choose:"known" help:"that the short lasts" symbol:"t"`
	Ambient float64   `unit:"°C" range:"[-50,200]" default:"25 °C" help:"of the copper at the start"`
}

// LeadMeltingResult is current and time together.
type LeadMeltingResult struct {
	Time    float64 `unit:"s" show:"1" help:"until the copper melts" symbol:"t"`
	Current float64 `unit:"A" show:"2" help:"that melts it in that time" symbol:"I"`
	model.Cautions
}

// LeadMelting is how fast a short circuit melts a copper lead, or which current
// does so in a given time: what a fuse has to be faster than.
//
// Formula: I = n_s·(d/(0.0254 mm))²·1 A·√(lg(1 + (1083 − θ)/(234 + θ))/(33·t/(1 s))), θ = (T − 0 °C)/(1 K), the section in circular mils (Onderdonk).
//
// Letters: d wire.diameter; n_s strands; T ambient; t = time; I = current.
//
// Validity: up to about ten seconds, as no heat leaves the wire; longer, the melting current of lead decides. Insulation burns, and solder runs, long before.
//
// Source: Onderdonk's equation as tabulated in engineering handbooks (from memory).
//
// Example:
//
//	short = lead_melting(awg(20), current: 200 A)
//	t_melt [s] = short.time
func LeadMelting(in LeadMeltingInput) (LeadMeltingResult, error) {
	if err := require.All(require.Positive("wire.diameter", in.Wire.Diameter, "m"),
		require.Count("strands", in.Strands)); err != nil {
		return LeadMeltingResult{}, err
	}
	celsius := in.Ambient - zeroCelsius
	if !(celsius > -onderdonkOff && celsius < copperMelts) {
		return LeadMeltingResult{}, &model.Error{
			Field: "ambient", Summary: "is {0}, where the law of copper's resistance no longer holds",
			Values: []model.Value{model.In(celsius, "°C")}, Hint: "give the temperature of the lead before the short",
		}
	}
	mils := float64(in.Strands) * math.Pi / 4 * in.Wire.Diameter * in.Wire.Diameter / circularMil
	dose := mils * mils * math.Log10(1+(copperMelts-celsius)/(onderdonkOff+celsius)) / 33 // A²·s
	var out LeadMeltingResult
	switch {
	case in.Current != nil:
		if err := require.Positive("current", *in.Current, "A"); err != nil {
			return LeadMeltingResult{}, err
		}
		out.Current, out.Time = *in.Current, dose / *in.Current / *in.Current
	case in.Time != nil:
		if err := require.Positive("time", *in.Time, "s"); err != nil {
			return LeadMeltingResult{}, err
		}
		out.Current, out.Time = math.Sqrt(dose / *in.Time), *in.Time
	default:
		return LeadMeltingResult{}, &model.Error{Summary: "neither the current nor the time is given", Hint: "give one of the two"}
	}
	if out.Time > slowestMelt {
		out.Raise(meltsSlowly(out.Time))
	}
	return out, nil
}

func meltsSlowly(time float64) model.Caution {
	return model.Caution{
		ID: "melting-past-short-time", Level: model.Advice,
		Summary: "{0} is longer than the {1} a wire keeps its heat.",
		Values:  []model.Value{model.In(time, "s"), model.In(slowestMelt, "s")},
		Why:     "The wire loses heat meanwhile, so that it lasts longer, or does not melt at all.",
		Hint:    "Compare the melting current that lead gives.",
		Source:  practice,
	}
}
