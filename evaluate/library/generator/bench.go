package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// EmfConstantFromReadingsInput is what [EmfConstantFromReadings] reads.
type EmfConstantFromReadingsInput struct {
	Rotation  []float64 `unit:"rpm" same:"readings" range:"(0,)" help:"of the rotor, at several speeds"`
	Voltage   []float64 `unit:"V" same:"readings" range:"[0,)" help:"of the open winding at each"`
	Meter     string    `default:"rms" values:"rms peak dc" help:"the meter on a.c., a peak reading, or on d.c. behind the bridge with a capacitor and no load"`
	DiodeDrop *float64  `unit:"V" range:"[0,)" help:"of one diode at next to no current; wanted for dc"`
	Coils     int       `default:"1" range:"[1,200]" help:"in series between the terminals, all in step"`
	Phases    int       `default:"1" range:"[1,3]" help:"1, or 3 of a star behind its bridge, for dc"`
}

// EmfConstantFromReadingsResult is a measured emf constant.
type EmfConstantFromReadingsResult struct {
	EmfConstant float64 `unit:"V·s/rad" estimated:"true" show:"1" help:"peak by the rotation"`
	Uncertainty float64 `unit:"V·s/rad" help:"standard uncertainty from the scatter"`
	Worst       float64 `unit:"%" show:"2" help:"largest reading off the line"`
	model.Estimate
	model.Cautions
}

// EmfConstantFromReadings fits the emf constant of a coil to readings of its
// open voltage at several speeds.
//
// Formula: least squares through zero of the peak of one coil: of a sine on a.c. k = Σ ω·√2·V/(c·Σ ω²) over c coils, by a peak meter k = Σ ω·V/(c·Σ ω²), behind a bridge k = Σ ω·(V + 2·Vd)/(c·Σ ω²), in a star k = Σ ω·(V + 2·Vd)/(√3·c·Σ ω²); its standard uncertainty, on a.c., u_k = √(Σ (√2·V/c − k·ω)²/((n − 1)·Σ ω²))
//
// Letters: ω rotation; V voltage; c coils; Vd diode_drop; n #rotation; k = emf_constant; u_k = uncertainty.
//
// Validity: two readings or more; a sinusoidal voltage where the meter shows
// rms; a capacitor that holds the peak, and nothing that drains it, for dc; readings well
// above the meter's last digit.
//
// Source: least squares, textbook; JCGM 100 for the scatter; a bridge without a load
// charges to the peak less two drops
//
// Example:
//
//	k = emf_constant_from_readings([300 rpm, 450 rpm, 600 rpm], [0.91 V, 1.37 V, 1.83 V])
func EmfConstantFromReadings(in EmfConstantFromReadingsInput) (EmfConstantFromReadingsResult, error) {
	n := len(in.Rotation)
	if n < 2 || len(in.Voltage) != n {
		return EmfConstantFromReadingsResult{}, &model.Error{Field: "voltage", Summary: "a line through readings wants two or more, each with its speed", Hint: "read the voltage at several speeds"}
	}
	peak, err := in.peak()
	if err != nil {
		return EmfConstantFromReadingsResult{}, err
	}
	var wu, ww float64
	for i, w := range in.Rotation {
		if err := require.Positive("rotation", w, "rad/s"); err != nil {
			return EmfConstantFromReadingsResult{}, err
		}
		wu, ww = wu+w*peak(in.Voltage[i]), ww+w*w
	}
	out := EmfConstantFromReadingsResult{EmfConstant: wu / ww}
	if err := require.Positive("voltage", out.EmfConstant, "V·s/rad"); err != nil {
		return EmfConstantFromReadingsResult{}, err
	}
	square := 0.0
	for i, w := range in.Rotation {
		off := peak(in.Voltage[i]) - out.EmfConstant*w
		square += off * off
		out.Worst = max(out.Worst, math.Abs(off)/(out.EmfConstant*w))
	}
	variance := square / float64(n-1) / ww
	out.Uncertainty = math.Sqrt(variance)
	out.Estimate = model.Estimate{Covariance: [][]float64{{variance}}, DegreesOfFreedom: float64(n - 1)}
	out.doubt()
	return out, nil
}

// peak gives that of one coil by what the meter shows.
func (in EmfConstantFromReadingsInput) peak() (func(volts float64) float64, error) {
	coils := float64(max(1, in.Coils))
	switch in.Meter {
	case "peak":
		return func(v float64) float64 { return v / coils }, nil
	case "dc":
		if in.DiodeDrop == nil {
			return nil, &model.Error{Field: "diode_drop", Summary: "is wanted behind a bridge: two diodes keep their drop from the meter",
				Hint: "give diode_drop, at next to no current 0.15 V to 0.25 V of a Schottky diode, 0.4 V to 0.5 V of a silicon one"}
		}
		if in.Phases == 3 {
			coils *= math.Sqrt(3)
		}
		return func(v float64) float64 { return (v + 2**in.DiodeDrop) / coils }, nil
	}
	return func(v float64) float64 { return math.Sqrt2 * v / coils }, nil
}

// doubt says when readings do not lie on a line through zero.
func (r *EmfConstantFromReadingsResult) doubt() {
	if r.Worst <= 0.05 {
		return
	}
	r.Raise(model.Caution{ID: "readings-off-the-line", Level: model.Advice, Severity: r.Worst,
		Summary: "A reading lies {0} off the line through zero.",
		Values:  []model.Value{model.In(100*r.Worst, "%")},
		Why:     "An open coil's voltage is in proportion to the speed, so a speed or a range was misread. Count turns.",
		Hint:    "Read again, over a longer time.",
		Source:  "common practice: an open coil's voltage goes with the speed"})
}

// IronGapFieldInput is what [IronGapField] reads.
type IronGapFieldInput struct {
	Remanence float64 `unit:"T" range:"(0,2)"`
	Thickness float64 `unit:"mm" range:"(0,)" help:"of all magnets in series round the circuit, both sides of the gap together"`
	Gap       float64 `unit:"mm" range:"[0,)" help:"between the faces"`
	Recoil    float64 `unit:"1" default:"1.05" range:"[1,)" help:"recoil permeability"`
}

// IronGapFieldResult is the field alone.
type IronGapFieldResult struct {
	Field float64 `unit:"T"`
}

// IronGapField is the field in the gap of magnets on iron, by the magnetic
// circuit: the most that any pole can give.
//
// Formula: B = Br/(1 + µ_rec·g/h)
//
// Letters: Br remanence; µ_rec recoil; g gap; h thickness; B = result.
//
// Validity: no leakage between neighbours, iron without saturation: an upper
// bound, real rotors of small magnets give much less (see the backed rotor of magnet_disc).
//
// Source: load line of a magnetic circuit, textbook
//
// Example:
//
//	B_most [T] = iron_gap_field(1.3 T, 20 mm, 13 mm)
func IronGapField(in IronGapFieldInput) (IronGapFieldResult, error) {
	if err := require.All(require.Positive("remanence", in.Remanence, "T"),
		require.Positive("thickness", in.Thickness, "m"), require.Positive("recoil", in.Recoil, "1")); err != nil {
		return IronGapFieldResult{}, err
	}
	return IronGapFieldResult{in.Remanence / (1 + in.Recoil*in.Gap/in.Thickness)}, nil
}
