package glide

import (
	"math"

	"inkwing/evaluate/library/internal/require"
)

// TailTrimInput is what [TailTrim] wants.
type TailTrimInput struct {
	CL                float64  `unit:"1" name:"CL" range:"(0,)" help:"lift coefficient to be flown"`
	Centre            float64  `unit:"%" help:"of gravity, of the mean chord"`
	TailVolume        float64  `unit:"1" range:"(0,)" help:"of the tailplane, see tail_volume"`
	AspectRatio       *float64 `unit:"1" range:"(0,)" choose:"wing" help:"of the wing"`
	WingSlope         *float64 `unit:"rad^-1" range:"(0,)" choose:"wing" help:"of the wing's lift, if known"`
	TailAspectRatio   *float64 `unit:"1" range:"(0,)" choose:"tail" help:"of the tailplane"`
	TailSlope         *float64 `unit:"rad^-1" range:"(0,)" choose:"tail" help:"of the tailplane's lift, if known"`
	Downwash          *float64 `unit:"1" range:"[0,1)" help:"its change with the wing's angle; 2a/(π·AR) if not given"`
	TailEfficiency    float64  `unit:"1" range:"(0,1]" default:"0.9" help:"dynamic pressure at the tail over that at the wing"`
	AerodynamicCentre float64  `unit:"%" default:"25 %" help:"of wing and body, as a share of the mean chord"`
	SectionMoment     float64  `unit:"1" default:"-0.05" help:"moment coefficient of the wing about its aerodynamic centre: 0 symmetric, -0.05 to -0.1 cambered"`
	ZeroLiftAngle     float64  `unit:"deg" default:"0 deg" help:"of the wing's section: negative for a cambered one"`
	Incidence         *float64 `unit:"deg" help:"of the tailplane as it is, against the wing's line of no lift, nose up positive: its moment is worked too"`
}

// TailTrimResult is what [TailTrim] answers.
type TailTrimResult struct {
	Incidence  float64  `unit:"deg" show:"1" help:"of the tailplane against the wing's line of no lift, nose up positive"`
	Difference float64  `unit:"deg" show:"2" help:"wing less tailplane, chord line to chord line, for a symmetric tailplane"`
	TailLift   float64  `unit:"1" show:"3" help:"lift coefficient of the tailplane; negative where it presses down"`
	Moment     *float64 `unit:"1" help:"coefficient about the centre of gravity at the incidence given; nose up positive"`
}

// TailTrim is the angle at which a tailplane has to stand for a model to fly at a lift coefficient with the stick free of load.
//
// Formula: 0 = CM_ac + CL·(h − h_ac) − η·V·CL_t; CL_t = a_t·(CL/a·(1 − ε) + i); slopes a = 2·π/(1 + 2/AR), a_t = 2·π/(1 + 2/AR_t), downwash ε = 2·a/(π·AR); difference Δi = −α0 − i; with an incidence i_g that is there the moment M = CM_ac + CL·(h − h_ac) − η·V·a_t·(CL/a·(1 − ε) + i_g).
//
// Letters: CL CL; h centre; V tail_volume; AR aspect_ratio; a wing_slope; AR_t tail_aspect_ratio; a_t tail_slope; ε downwash; η tail_efficiency; h_ac aerodynamic_centre; CM_ac section_moment; α0 zero_lift_angle; i_g incidence; i = incidence; Δi = difference; CL_t = tail_lift; M = moment.
//
// Validity: steady flight, propeller left out, no downwash at zero lift; the first glide shows what is left to trim.
//
// Source: J. D. Anderson, Introduction to Flight, chapter 7; tail efficiency 0.9: common practice.
//
// Example:
//
//	set = tail_trim(CL: 0.6, centre: 38 %, tail_volume: 0.50, aspect_ratio: 7.3, tail_aspect_ratio: 4.0)
//	i_tail [deg] = set.incidence
func TailTrim(in TailTrimInput) (TailTrimResult, error) {
	if err := require.All(require.Positive("CL", in.CL, "1"), require.Positive("tail_volume", in.TailVolume, "1"),
		require.Positive("tail_efficiency", in.TailEfficiency, "1")); err != nil {
		return TailTrimResult{}, err
	}
	wing, err := slopeOf("aspect_ratio", in.AspectRatio, "wing_slope", in.WingSlope)
	if err != nil {
		return TailTrimResult{}, err
	}
	tail, err := slopeOf("tail_aspect_ratio", in.TailAspectRatio, "tail_slope", in.TailSlope)
	if err != nil {
		return TailTrimResult{}, err
	}
	down, err := NeutralPointInput{AspectRatio: in.AspectRatio, Downwash: in.Downwash}.downwash(wing)
	if err != nil {
		return TailTrimResult{}, err
	}
	asks := in.SectionMoment + in.CL*(in.Centre-in.AerodynamicCentre)
	lift := asks / (in.TailEfficiency * in.TailVolume)
	meets := in.CL / wing * (1 - down) // of the tail, at no incidence of its own
	out := TailTrimResult{TailLift: lift, Incidence: lift/tail - meets}
	out.Difference = -in.ZeroLiftAngle - out.Incidence
	if in.Incidence != nil {
		m := asks - in.TailEfficiency*in.TailVolume*tail*(meets+*in.Incidence)
		out.Moment = &m
	}
	return out, nil
}

// SkinFrictionInput is what [SkinFriction] wants.
type SkinFrictionInput struct {
	Reynolds float64 `unit:"1" range:"(0,)" help:"by speed and length along the flow, see reynolds"`
	Flow     string  `values:"laminar turbulent" default:"laminar" help:"of the boundary layer: laminar on a smooth model wing, turbulent behind a tape or on a fuselage"`
}

// SkinFrictionResult is what [SkinFriction] answers.
type SkinFrictionResult struct {
	Coefficient float64 `unit:"1" help:"drag over dynamic pressure and wetted area, of one side"`
}

// SkinFriction is the mean friction coefficient of a flat plate.
//
// Formula: laminar cf = 1.328/√Re; turbulent cf = 0.074/Re^(1/5).
//
// Letters: Re reynolds; cf = result.
//
// Validity: a smooth flat plate along the flow; laminar to about 5e5, turbulent 5e5 to 1e7, below which it reads as if tripped.
//
// Source: H. Blasius, laminar plate; L. Prandtl's fifth-root law; J. D. Anderson, Introduction to Flight, chapter 4.
//
// Example:
//
//	cf = skin_friction(reynolds(7 m/s, 150 mm))
func SkinFriction(in SkinFrictionInput) (SkinFrictionResult, error) {
	if err := require.All(require.Positive("reynolds", in.Reynolds, "1"), flowKnown("flow", in.Flow)); err != nil {
		return SkinFrictionResult{}, err
	}
	if in.Flow == "turbulent" {
		return SkinFrictionResult{0.074 * math.Pow(in.Reynolds, -turbulentPower)}, nil
	}
	return SkinFrictionResult{1.328 * math.Pow(in.Reynolds, -laminarPower)}, nil
}
