package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
)

// PitchSpeedInput is what [PitchSpeed] wants.
type PitchSpeedInput struct {
	Pitch float64 `unit:"mm" range:"(0,)" help:"as marked on the propeller"`
	Speed float64 `unit:"rpm" range:"[0,)" help:"of its shaft"`
}

// PitchSpeedResult is what [PitchSpeed] answers.
type PitchSpeedResult struct {
	Speed float64 `unit:"m/s"`
}

// PitchSpeed is the airspeed at which a propeller would screw itself through
// the air without slip.
//
// Formula: V = p·n, n = ω/(2·π), turns a second.
//
// Letters: p pitch; ω speed; V = result.
//
// Validity: a guide for choosing a pitch, such as twice to three times the
// stall speed. Real propellers still pull at it: published slow-flyer rows end
// at 1.38 times the marked pitch.
//
// Source: definition of geometric pitch; the rows: UIUC Propeller Database vol. 1.
//
// Example:
//
//	V_pitch [m/s] = pitch_speed(4.7 in, 6500 rpm)
func PitchSpeed(in PitchSpeedInput) (PitchSpeedResult, error) {
	if err := require.All(require.Positive("pitch", in.Pitch, "m"), require.NotNegative("speed", in.Speed, "rad/s")); err != nil {
		return PitchSpeedResult{}, err
	}
	return PitchSpeedResult{in.Pitch * in.Speed / (2 * math.Pi)}, nil
}
