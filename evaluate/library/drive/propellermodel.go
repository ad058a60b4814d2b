package drive

import (
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// PropellerModel is the record that [Propeller] makes.
type PropellerModel struct {
	Diameter    float64       `unit:"mm" range:"(0,)" help:"of the disc"`
	Pitch       *float64      `unit:"mm" range:"(0,)" help:"as marked"`
	CT0         *float64      `unit:"1" name:"CT0" range:"(0,)" help:"thrust coefficient standing still"`
	CP0         *float64      `unit:"1" name:"CP0" range:"(0,)" help:"power coefficient standing still"`
	ZeroThrustJ *float64      `unit:"1" name:"zero_thrust_J" range:"(0,)" estimated:"true" overrides:"pitch" help:"advance ratio without thrust; 0.166 + 0.901·pitch/diameter, ± 10 %, if not given"`
	Data        []MeasuredRow `choose:"measured?" overrides:"pitch; CT0; CP0; zero_thrust_J" help:"measured J, CT and CP, instead of the coefficients; rows of runs at several speeds name their speed"`
	Solidity    float64       `unit:"1" range:"(0,1)" default:"0.1" help:"blade area over disc area, about 0.1 for two blades: what it drags when it does not drive"`
}

// pitchToZero is the advance ratio of zero thrust by pitch over diameter, and
// pitchScatter its relative standard deviation: one weight a propeller, over
// the 203 two-blade propellers of 2 to 12 in of the UIUC Propeller Database
// with a zero crossing in their rows.
func pitchToZero(ratio float64) float64 { return 0.166 + 0.901*ratio }

const (
	pitchScatter    = 0.10
	pitchPropellers = 203
)

// Disc checks the propeller and puts it in order.
func (p PropellerModel) Disc(record string) (*Disc, error) {
	if p.Solidity == 0 { // of a caller that has none
		p.Solidity = 0.1
	}
	if err := require.In(record, require.Positive("diameter", p.Diameter, "m"), require.Efficiency("solidity", p.Solidity)); err != nil {
		return nil, err
	}
	d := &Disc{Diameter: p.Diameter}
	if len(p.Data) > 0 {
		return d, d.measured(record, p.Data, p.Solidity)
	}
	if p.CT0 == nil || p.CP0 == nil {
		return nil, &model.Error{Field: require.Field(record, "CT0"), Summary: "the propeller has neither coefficients nor measured data",
			Hint: "give CT0 and CP0, or data: a table with the columns J, CT and CP"}
	}
	switch {
	case p.ZeroThrustJ != nil:
		d.J0 = *p.ZeroThrustJ
	case p.Pitch != nil:
		if err := require.In(record, require.Positive("pitch", *p.Pitch, "m")); err != nil {
			return nil, err
		}
		d.J0 = pitchToZero(*p.Pitch / p.Diameter)
	default:
		return nil, &model.Error{Field: require.Field(record, "zero_thrust_J"), Summary: "nothing says at which advance ratio the thrust ends",
			Hint: "give the pitch or zero_thrust_J"}
	}
	d.CT0, d.CP0, d.last = *p.CT0, *p.CP0, curveEdge*d.J0
	if err := require.In(record, require.Positive("CT0", d.CT0, "1"), require.Positive("CP0", d.CP0, "1"),
		require.Positive("zero_thrust_J", d.J0, "1")); err != nil {
		return nil, err
	}
	d.hold(p.Solidity)
	return d, d.real(record, p)
}
