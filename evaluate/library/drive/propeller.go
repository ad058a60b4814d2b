package drive

import (
	"cmp"
	"math"
	"slices"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// A MeasuredRow is one row of a propeller's measured table.
type MeasuredRow struct {
	J  float64 `unit:"1" name:"J" help:"advance ratio V/(n·D)"`
	CT float64 `unit:"1" name:"CT" help:"thrust coefficient T/(ρ·n²·D⁴)"`
	CP float64 `unit:"1" name:"CP" help:"power coefficient P/(ρ·n³·D⁵)"`
}

// PropellerRowInput is what [PropellerRow] wants.
type PropellerRowInput struct{ MeasuredRow }

// PropellerRowResult is what [PropellerRow] answers.
type PropellerRowResult struct{ MeasuredRow }

// PropellerRow is one measured point of a propeller, where no table of them is at hand.
//
// Formula: J = V/(n·D), CT = T/(ρ·n²·D⁴), CP = P/(ρ·n³·D⁵), n in turns a second.
//
// Validity: at the speed it was measured at.
//
// Source: R. W. Deters, G. K. Ananda and M. S. Selig, AIAA 2014-2151, equations 2 to 8.
//
// Example:
//
//	prop = propeller(diameter: 254 mm, data: [propeller_row(0, 0.1237, 0.0500), propeller_row(0.487, 0.0425, 0.0334)])
func PropellerRow(in PropellerRowInput) (PropellerRowResult, error) {
	return PropellerRowResult(in), require.NotNegative("J", in.J, "1")
}

// PropellerModel is the record that [Propeller] makes.
type PropellerModel struct {
	Diameter    float64       `unit:"mm" range:"(0,)" show:"1" help:"of the disc"`
	Pitch       *float64      `unit:"mm" range:"(0,)" show:"2" help:"as marked"`
	CT0         *float64      `unit:"1" name:"CT0" range:"(0,)" help:"thrust coefficient standing still"`
	CP0         *float64      `unit:"1" name:"CP0" range:"(0,)" help:"power coefficient standing still"`
	ZeroThrustJ *float64      `unit:"1" name:"zero_thrust_J" range:"(0,)" help:"advance ratio without thrust; 1.35·pitch/diameter if not given"`
	Data        []MeasuredRow `choose:"measured?" help:"measured J, CT and CP, instead of the coefficients"`
}

// pitchToZero is zero-thrust advance ratio over pitch/diameter: 6.5 in against
// 4.7 in marked on the published slow-flyer propeller, 1.38.
const pitchToZero = 1.35

// A Disc is a propeller ready to be worked.
type Disc struct {
	Diameter, CT0, CP0, J0 float64
	Rows                   []MeasuredRow // by rising J; nil for coefficients
}

// Disc checks the propeller and puts it in order.
func (p PropellerModel) Disc(record string) (Disc, error) {
	if err := require.In(record, require.Positive("diameter", p.Diameter, "m")); err != nil {
		return Disc{}, err
	}
	d := Disc{Diameter: p.Diameter}
	if len(p.Data) > 0 {
		return d.measured(record, p.Data)
	}
	if p.CT0 == nil || p.CP0 == nil {
		return Disc{}, &model.Error{Field: require.Field(record, "CT0"), Summary: "the propeller has neither coefficients nor measured data",
			Hint: "give CT0 and CP0, or data: a table with the columns J, CT and CP"}
	}
	switch {
	case p.ZeroThrustJ != nil:
		d.J0 = *p.ZeroThrustJ
	case p.Pitch != nil:
		d.J0 = pitchToZero * *p.Pitch / p.Diameter
	default:
		return Disc{}, &model.Error{Field: require.Field(record, "zero_thrust_J"), Summary: "nothing says at which advance ratio the thrust ends",
			Hint: "give the pitch or zero_thrust_J"}
	}
	d.CT0, d.CP0 = *p.CT0, *p.CP0
	if err := require.In(record, require.Positive("CT0", d.CT0, "1"), require.Positive("CP0", d.CP0, "1"),
		require.Positive("zero_thrust_J", d.J0, "1")); err != nil {
		return Disc{}, err
	}
	return d, possible(require.Field(record, "CT0"), d.CT0, d.CP0)
}

// measured puts the rows in order and checks those that stand still.
func (d Disc) measured(record string, rows []MeasuredRow) (Disc, error) {
	field := require.Field(record, "data")
	d.Rows = slices.SortedFunc(slices.Values(rows), func(a, b MeasuredRow) int { return cmp.Compare(a.J, b.J) })
	for i, r := range d.Rows {
		if !(r.J >= 0) || math.IsNaN(r.CT) || math.IsNaN(r.CP) || i > 0 && r.J == d.Rows[i-1].J {
			return Disc{}, &model.Error{Field: field, Summary: "the advance ratio {0} is negative, missing or there twice",
				Values: []model.Value{model.In(r.J, "1")}, Hint: "keep one row for each J, from one run at one speed"}
		}
		if r.J == 0 {
			if err := possible(field, r.CT, r.CP); err != nil {
				return Disc{}, err
			}
		}
	}
	if len(d.Rows) < 2 {
		return Disc{}, &model.Error{Field: field, Summary: "one row cannot be interpolated", Hint: "give two rows or more"}
	}
	return d, nil
}

// merit is the static figure of merit, shaft power over what an ideal disc of
// that thrust would need.
func merit(ct, cp float64) float64 { return math.Pow(max(ct, 0), 1.5) * math.Sqrt(2/math.Pi) / cp }

// possible refuses a propeller that beats the ideal disc.
func possible(field string, ct, cp float64) error {
	if cp > 0 && merit(ct, cp) <= 1 {
		return nil
	}
	return &model.Error{Field: field, Summary: "a thrust coefficient of {0} cannot come of a power coefficient of {1}: the ideal disc needs {2}",
		Values: []model.Value{model.In(ct, "1"), model.In(cp, "1"), model.In(math.Pow(ct, 1.5)*math.Sqrt(2/math.Pi), "1")},
		Hint:   "check both against T/(ρ·n²·D⁴) and P/(ρ·n³·D⁵), n in turns a second"}
}

// Coefficients are n²·CT and n²·CP at n turns a second and an airspeed. With
// the power of n in them they stand at n = 0 too. ok is false past measured
// data, which is never extrapolated.
func (d Disc) Coefficients(n, airspeed float64) (ct, cp float64, ok bool) {
	if d.Rows == nil {
		zero := airspeed / (d.J0 * d.Diameter) // n where the thrust ends
		return d.CT0 * (n - zero) * (n + 0.45*zero), d.CP0 * (n*n - 0.57*zero*zero), true
	}
	j := airspeed / (n * d.Diameter)
	last := len(d.Rows) - 1
	if !(j >= d.Rows[0].J && j <= d.Rows[last].J) {
		return 0, 0, false
	}
	a, b := d.around(j)
	part := (j - a.J) / (b.J - a.J)
	return n * n * (a.CT + part*(b.CT-a.CT)), n * n * (a.CP + part*(b.CP-a.CP)), true
}

// A gradient is n²·CT and n²·CP with what they gain by the turn a second and by
// the airspeed.
type gradient struct {
	CT, CTByTurns, CTBySpeed float64
	CP, CPByTurns, CPBySpeed float64
}

// Gradient is coefficients with its derivatives.
func (d Disc) Gradient(n, airspeed float64) (g gradient, ok bool) {
	if g.CT, g.CP, ok = d.Coefficients(n, airspeed); !ok {
		return g, false
	}
	if d.Rows == nil {
		by := 1 / (d.J0 * d.Diameter)
		zero := airspeed * by
		g.CTByTurns, g.CPByTurns = d.CT0*(2*n-0.55*zero), 2*d.CP0*n
		g.CTBySpeed, g.CPBySpeed = -d.CT0*by*(0.55*n+0.9*zero), -1.14*d.CP0*by*zero
		return g, true
	}
	a, b := d.around(airspeed / (n * d.Diameter))
	ct, cp := (b.CT-a.CT)/(b.J-a.J), (b.CP-a.CP)/(b.J-a.J)
	g.CTByTurns, g.CPByTurns = 2*g.CT/n-ct*airspeed/d.Diameter, 2*g.CP/n-cp*airspeed/d.Diameter
	g.CTBySpeed, g.CPBySpeed = ct*n/d.Diameter, cp*n/d.Diameter
	return g, true
}

// around are the measured rows on either side of an advance ratio.
func (d Disc) around(j float64) (below, above MeasuredRow) {
	i, last := 0, len(d.Rows)-1
	for i < last-1 && d.Rows[i+1].J < j {
		i++
	}
	return d.Rows[i], d.Rows[i+1]
}

// Load is thrust and torque at n turns a second.
func (d Disc) Load(n, airspeed, density float64) (thrust, torque float64, ok bool) {
	ct, cp, ok := d.Coefficients(n, airspeed)
	d4 := math.Pow(d.Diameter, 4)
	return ct * density * d4, cp * density * d4 * d.Diameter / (2 * math.Pi), ok
}

// PropellerInput is what [Propeller] wants.
type PropellerInput struct{ PropellerModel }

// PropellerResult is what [Propeller] answers.
type PropellerResult struct {
	PropellerModel
	FigureOfMerit *float64 `unit:"1" show:"3" help:"of the ideal disc's power, standing still: 0.4 to 0.7 for small propellers"`
	model.Cautions
}

// Propeller describes a propeller by two coefficients, or by what was measured of it.
//
// Measured rows of J, CT and CP are better than the coefficients, and are
// interpolated but never extrapolated. Keep the rows of one speed together:
// small propellers pull better as they turn faster.
//
// Formula: x = J/J0; CT = CT0·(1 − x)·(1 + 0.45·x); CP = CP0·(1 − 0.57·x²); J0 = 1.35·pitch/diameter if not given; figure of merit CT0^1.5·√(2/π)/CP0, at most 1.
//
// Validity: the curves fit one published slow-flyer propeller within 8 %; another may differ more.
//
// Source: UIUC Propeller Database vol. 1; J. B. Brandt and M. S. Selig, AIAA 2011-1255; coefficients as in R. W. Deters, G. K. Ananda and M. S. Selig, AIAA 2014-2151.
//
// Example:
//
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
func Propeller(in PropellerInput) (PropellerResult, error) {
	d, err := in.Disc("")
	if err != nil {
		return PropellerResult{}, err
	}
	out := PropellerResult{PropellerModel: in.PropellerModel}
	switch {
	case d.Rows == nil:
		out.ZeroThrustJ = &d.J0
		m := merit(d.CT0, d.CP0)
		out.FigureOfMerit = &m
	case d.Rows[0].J == 0:
		m := merit(d.Rows[0].CT, d.Rows[0].CP)
		out.FigureOfMerit = &m
	}
	Spinning(&out.Cautions)
	return out, nil
}

// PropellerPointInput is what [PropellerPoint] wants.
type PropellerPointInput struct {
	Propeller PropellerModel `help:"the propeller"`
	Speed     float64        `unit:"rpm" range:"(0,)" help:"of its shaft"`
	Airspeed  float64        `unit:"m/s" range:"[0,)" default:"0 m/s" help:"along the shaft"`
	Density   float64        `unit:"kg/m^3" range:"(0,)" default:"1.225 kg/m^3" help:"of the air"`
}

// PropellerPointResult is what [PropellerPoint] answers.
type PropellerPointResult struct {
	Thrust     float64 `unit:"N" show:"1" help:"negative where it drags"`
	Power      float64 `unit:"W" show:"2" help:"at the shaft"`
	Torque     float64 `unit:"N·m" help:"at the shaft"`
	Efficiency float64 `unit:"%" show:"3" help:"thrust times airspeed over shaft power"`
	J          float64 `unit:"1" name:"J" show:"4" help:"advance ratio V/(n·D)"`
	TipSpeed   float64 `unit:"m/s" show:"5" help:"of the blades through the air"`
	model.Cautions
}

// PropellerPoint says what a propeller pulls and takes at a speed.
//
// Formula: T = CT·ρ·n²·D⁴, P = CP·ρ·n³·D⁵, Q = P/(2πn), n in turns a second; efficiency J·CT/CP; tip √((π·n·D)² + V²).
//
// Validity: air along the shaft; tip below about half the speed of sound.
//
// Source: R. W. Deters, G. K. Ananda and M. S. Selig, AIAA 2014-2151, equations 2 to 8.
//
// Example:
//
//	prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
//	climb = propeller_point(prop, 6000 rpm, airspeed: 7 m/s)
//	pull [N] = climb.thrust
func PropellerPoint(in PropellerPointInput) (PropellerPointResult, error) {
	d, err := in.Propeller.Disc("propeller")
	if err != nil {
		return PropellerPointResult{}, err
	}
	if err := require.All(require.Positive("speed", in.Speed, "rad/s"),
		require.NotNegative("airspeed", in.Airspeed, "m/s"),
		require.Positive("density", in.Density, "kg/m^3")); err != nil {
		return PropellerPointResult{}, err
	}
	n := in.Speed / (2 * math.Pi)
	thrust, torque, ok := d.Load(n, in.Airspeed, in.Density)
	if !ok {
		return PropellerPointResult{}, d.outside("propeller", in.Airspeed/(n*d.Diameter))
	}
	out := PropellerPointResult{Thrust: thrust, Torque: torque, Power: torque * in.Speed,
		J: in.Airspeed / (n * d.Diameter), TipSpeed: math.Hypot(math.Pi*n*d.Diameter, in.Airspeed)}
	if out.Power != 0 {
		out.Efficiency = thrust * in.Airspeed / out.Power
	}
	Spinning(&out.Cautions)
	return out, nil
}

// outside says that the advance ratio lies past the measured rows.
func (d Disc) outside(record string, j float64) error {
	last := d.Rows[len(d.Rows)-1].J
	return &model.Error{Field: require.Field(record, "data"), Summary: "the advance ratio {0} lies outside the measured rows, {1} to {2}",
		Values: []model.Value{model.In(j, "1"), model.In(d.Rows[0].J, "1"), model.In(last, "1")},
		Hint:   "add rows that reach it (J = 0 standing still); nothing is extrapolated"}
}

// Unbalanced says that no measured row is where motor and propeller agree.
func (d Disc) Unbalanced(record string) error {
	return &model.Error{Field: require.Field(record, "data"), Summary: "motor and propeller agree at an advance ratio outside the measured rows, {0} to {1}",
		Values: []model.Value{model.In(d.Rows[0].J, "1"), model.In(d.Rows[len(d.Rows)-1].J, "1")},
		Hint:   "add rows beyond them, or choose an airspeed that fits; nothing is extrapolated"}
}
