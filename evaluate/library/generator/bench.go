package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// EmfConstantFromReadingsInput is what [EmfConstantFromReadings] reads.
type EmfConstantFromReadingsInput struct {
	Rotation []float64 `unit:"rpm" same:"readings" range:"(0,)" help:"of the rotor, at several speeds"`
	Voltage  []float64 `unit:"V" same:"readings" range:"[0,)" help:"across one open coil at each"`
	Meter    string    `default:"rms" values:"rms peak" help:"what the meter shows"`
}

// EmfConstantFromReadingsResult is a measured emf constant.
type EmfConstantFromReadingsResult struct {
	EmfConstant float64 `unit:"V·s/rad" spread:"true" show:"1" help:"peak by the rotation"`
	Uncertainty float64 `unit:"V·s/rad" show:"2" help:"standard uncertainty from the scatter"`
	Worst       float64 `unit:"%" show:"3" help:"largest reading off the line"`
	model.Spread
	model.Cautions
}

// EmfConstantFromReadings fits the emf constant of a coil to readings of its
// open voltage at several speeds.
//
// Formula: least squares through zero: k = Σωu/Σω², u the peak;
// s² = Σ(u − kω)²/(n − 1), u(k) = s/√Σω²
//
// Validity: two readings or more; a sinusoidal voltage where the meter shows
// rms; readings well above the meter's last digit.
//
// Source: least squares, textbook; JCGM 100 for the scatter
//
// Example:
//
//	k = emf_constant_from_readings([300 rpm, 450 rpm, 600 rpm], [0.91 V, 1.37 V, 1.83 V])
func EmfConstantFromReadings(in EmfConstantFromReadingsInput) (EmfConstantFromReadingsResult, error) {
	n := len(in.Rotation)
	if n < 2 || len(in.Voltage) != n {
		return EmfConstantFromReadingsResult{}, &model.Error{Field: "voltage", Summary: "a line through readings wants two or more, each with its speed", Hint: "read the voltage at several speeds"}
	}
	scale := 1.0
	if in.Meter != "peak" {
		scale = math.Sqrt2
	}
	var wu, ww float64
	for i, w := range in.Rotation {
		if err := require.Positive("rotation", w, "rad/s"); err != nil {
			return EmfConstantFromReadingsResult{}, err
		}
		wu, ww = wu+w*in.Voltage[i]*scale, ww+w*w
	}
	out := EmfConstantFromReadingsResult{EmfConstant: wu / ww}
	if err := require.Positive("voltage", out.EmfConstant, "V·s/rad"); err != nil {
		return EmfConstantFromReadingsResult{}, err
	}
	square := 0.0
	for i, w := range in.Rotation {
		off := in.Voltage[i]*scale - out.EmfConstant*w
		square += off * off
		out.Worst = max(out.Worst, math.Abs(off)/(out.EmfConstant*w))
	}
	variance := square / float64(n-1) / ww
	out.Uncertainty = math.Sqrt(variance)
	out.Spread = model.Spread{Covariance: [][]float64{{variance}}, Freedom: float64(n - 1)}
	out.doubt()
	return out, nil
}

// doubt says when readings do not lie on a line through zero.
func (r *EmfConstantFromReadingsResult) doubt() {
	if r.Worst <= 0.05 {
		return
	}
	r.Raise(model.Caution{ID: "readings-off-the-line", Level: model.Advice,
		Summary: "A reading lies {0} off the line through zero.",
		Values:  []model.Value{model.In(100*r.Worst, "%")},
		Why:     "An open coil's voltage is in proportion to the speed, so a speed or a range was misread.",
		Hint:    "Read again, counting turns over a longer time.",
		Source:  "common practice"})
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
