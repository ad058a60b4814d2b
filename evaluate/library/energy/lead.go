package energy

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

const (
	copperResistivity = 1 / 58e6 // Ω·m at 20 °C, IEC 60028
	copperSlope       = 0.00393  // per kelvin, at 20 °C
	denseLead         = 10e6     // A/m², common practice for a short free lead
)

// preece is 10244 A/in^1.5 in A/m^1.5: copper's constant for the current that
// melts a long wire in air.
var preece = 10244 / math.Pow(0.0254, 1.5)

// A Conductor is a wire by its bare diameter: any record that has one.
type Conductor struct {
	Diameter float64 `unit:"mm" range:"(0,)" help:"bare, of a strand"`
}

// LeadInput is a pair of leads, or a single one.
type LeadInput struct {
	Wire        Conductor `help:"a wire, or a row of a table of wires"`
	Length      float64   `unit:"m" range:"(0,)" help:"of one lead"`
	Current     float64   `unit:"A" range:"[0,)" help:"highest that flows for long" symbol:"I"`
	Runs        int       `range:"[1,)" default:"2" help:"leads in series: there and back"`
	Strands     int       `range:"[1,)" default:"1" help:"of that diameter in a lead"`
	Temperature float64   `unit:"°C" default:"20 °C" help:"of the copper"`
}

// LeadResult is what they cost, and what they bear.
type LeadResult struct {
	Resistance    float64 `unit:"Ω" show:"1" help:"of all runs" symbol:"R"`
	Drop          float64 `unit:"V" show:"2" help:"along all runs"`
	Loss          float64 `unit:"W" show:"3" help:"in all runs"`
	Density       float64 `unit:"A/mm^2" show:"4" help:"in the copper"`
	FusingCurrent float64 `unit:"A" show:"5" help:"that melts it: an order of magnitude, never a rating"`
	Section       float64 `unit:"mm^2" help:"of a lead's copper"`
	model.Cautions
}

// Lead is what copper leads lose, and how near they are to melting.
//
// Formula: A = n_s·π·d²/4; R = ρ·l·n/A; ρ = (1 + 0.00393 K^-1·(T − 20 °C))/58·1 Ω·mm²/m; ΔV = I·R; P = I²·R; J = I/A; melting I_m = 10244 A·(d·√n_s/(25.4 mm))^1.5.
//
// Letters: d wire.diameter; n_s strands; l length; n runs; T temperature; I current; A = section; R = resistance; ΔV = drop; P = loss; J = density; I_m = fusing_current.
//
// Validity: −50 °C to 150 °C; the melting current is for a long bare wire in still air.
//
// Source: IEC 60028; W. H. Preece, Proc. Royal Soc. 1884 to 1888.
//
// Example:
//
//	lead_pair = lead(wire: awg(20), length: 0.15 m, current: 5 A)
func Lead(in LeadInput) (LeadResult, error) {
	err := require.All(require.Positive("wire.diameter", in.Wire.Diameter, "m"), require.Positive("length", in.Length, "m"),
		require.Count("runs", in.Runs), require.Count("strands", in.Strands))
	if err != nil {
		return LeadResult{}, err
	}
	rho := copperResistivity * (1 + copperSlope*(in.Temperature-zeroCelsius-20))
	if !(rho > 0) {
		return LeadResult{}, tooCold(in.Temperature)
	}
	out := LeadResult{Section: float64(in.Strands) * math.Pi / 4 * in.Wire.Diameter * in.Wire.Diameter}
	out.Resistance = rho * in.Length * float64(in.Runs) / out.Section
	out.Drop = in.Current * out.Resistance
	out.Loss = in.Current * out.Drop
	out.Density = in.Current / out.Section
	out.FusingCurrent = preece * math.Pow(in.Wire.Diameter*math.Sqrt(float64(in.Strands)), 1.5)
	out.List = hotLead(in.Current, out)
	return out, nil
}

func tooCold(kelvin float64) error {
	return &model.Error{
		Field:   "temperature",
		Summary: "is {0}, where the law of copper's resistance no longer holds",
		Values:  []model.Value{celsius(kelvin)},
		Hint:    "give a temperature from -50 °C to 150 °C",
	}
}

func hotLead(current float64, lead LeadResult) []model.Caution {
	switch {
	case current > lead.FusingCurrent/2:
		return []model.Caution{{
			ID: "lead-near-melting", Level: model.Danger, Severity: current / lead.FusingCurrent,
			Summary: "{0} is over half of the {1} that melts such wire.",
			Values:  []model.Value{model.In(current, "A"), model.In(lead.FusingCurrent, "A")},
			Why:     "Insulation burns long before copper melts.",
			Hint:    "Take thicker wire or more strands.",
			Source:  "W. H. Preece, Proc. Royal Soc. 1884 to 1888; the half is common practice",
		}}
	case lead.Density > denseLead:
		return []model.Caution{{
			ID: "lead-dense", Level: model.Warning,
			Summary: "The lead carries {0}; free leads stay under {1}.",
			Values:  []model.Value{model.In(lead.Density/1e6, "A/mm^2"), model.In(denseLead/1e6, "A/mm^2")},
			Why:     "That much is common for free leads. It gets hot in a closed fuselage, unless the current flows for seconds only.",
			Hint:    "Take thicker wire, or seconds only.",
			Source:  practice,
		}}
	}
	return nil
}

// FuseInput is what a fuse must carry and what it must save.
type FuseInput struct {
	PeakCurrent         float64  `unit:"A" range:"(0,)" help:"that the build draws in normal use"`
	FusingCurrent       float64  `unit:"A" range:"(0,)" help:"that melts the weakest lead"`
	ShortCircuitCurrent *float64 `unit:"A" range:"(0,)" help:"of the store"`
	BreakingCapacity    *float64 `unit:"A" range:"(0,)" help:"that the fuse can interrupt, by its maker"`
}

// FuseResult is the window of ratings.
type FuseResult struct {
	LowestRating  float64 `unit:"A" show:"1" help:"that normal use does not blow"`
	HighestRating float64 `unit:"A" show:"2" help:"that still saves the lead"`
	model.Cautions
}

// Fuse is the window in which the rating of a fuse must lie.
//
// Formula: least I_least = 1.25·I_peak; most I_most = 0.5·I_melting of the lead.
//
// Letters: I_peak peak_current; I_melting fusing_current; I_least = lowest_rating; I_most = highest_rating.
//
// Validity: a fuse near room temperature; the maker's curve of time and current decides.
//
// Source: common practice; melting by Preece.
//
// Example:
//
//	window = fuse(peak_current: 5 A, fusing_current: 58 A, short_circuit_current: 169 A, breaking_capacity: 1000 A)
func Fuse(in FuseInput) (FuseResult, error) {
	if err := require.All(require.Positive("peak_current", in.PeakCurrent, "A"),
		require.Positive("fusing_current", in.FusingCurrent, "A")); err != nil {
		return FuseResult{}, err
	}
	out := FuseResult{LowestRating: 1.25 * in.PeakCurrent, HighestRating: 0.5 * in.FusingCurrent}
	if out.LowestRating > out.HighestRating {
		out.Raise(noFuseFits(out))
	}
	if in.ShortCircuitCurrent == nil {
		return out, nil
	}
	if in.BreakingCapacity != nil && *in.ShortCircuitCurrent > *in.BreakingCapacity {
		out.Raise(fuseCannotBreak(*in.ShortCircuitCurrent, *in.BreakingCapacity))
	}
	if *in.ShortCircuitCurrent < 2*out.LowestRating {
		out.Raise(fuseNeverBlows(*in.ShortCircuitCurrent, out.LowestRating))
	}
	return out, nil
}

func noFuseFits(w FuseResult) model.Caution {
	return model.Caution{
		ID: "no-fuse-fits", Level: model.Danger,
		Summary: "No fuse fits: use wants {0}, the lead bears {1}.",
		Values:  []model.Value{model.In(w.LowestRating, "A"), model.In(w.HighestRating, "A")},
		Why:     "A fuse that carries the motor would let the lead burn.",
		Hint:    "Take a thicker lead.",
		Source:  practice,
	}
}

func fuseCannotBreak(short, breaking float64) model.Caution {
	return model.Caution{
		ID: "fuse-cannot-break", Level: model.Danger,
		Summary: "A short drives {0}; the fuse interrupts {1} at most.",
		Values:  []model.Value{model.In(short, "A"), model.In(breaking, "A")},
		Why:     "Beyond that it goes on arcing, or bursts.",
		Hint:    "Take a higher breaking capacity.",
		Source:  "IEC 60127 for the breaking capacity, from memory; the fuse's sheet comes first",
	}
}

func fuseNeverBlows(short, rating float64) model.Caution {
	return model.Caution{
		ID: "fuse-slow-to-blow", Level: model.Warning, Severity: rating / short,
		Summary: "A short drives {0}, less than twice the fuse's {1}.",
		Values:  []model.Value{model.In(short, "A"), model.In(rating, "A")},
		Why:     "The fuse may carry such a current for long.",
		Hint:    "Lower the path's resistance, or do not count on it.",
		Source:  "IEC 60127 tests at about twice the rating, from memory; the fuse's sheet comes first",
	}
}
