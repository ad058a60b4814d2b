package drive

import (
	"math"
)

// curveEdge is the advance ratio, over that of zero thrust, to which the curves
// of the coefficients were fitted: the last published row of the slow-flyer
// propeller is at 0.782 of 0.650.
const curveEdge = 1.2

// standing is the drag coefficient of a stopped propeller on its blade area.
const standing = 0.8

// A Disc is a propeller ready to be worked.
type Disc struct {
	Diameter, CT0, CP0, J0 float64
	Rows                   []MeasuredRow // by rising J, of the slowest run; nil for coefficients
	runs                   []run         // by rising speed; one where rows name no speed
	first, last            float64       // advance ratios between which curves or rows answer
	still                  row           // held: CT/J² and CP/J² as J grows without bound
	bridged                bool          // whether the way from last to held is known
}

// A row is a pair of coefficients, or of their derivatives.
type row struct{ CT, CP float64 }

// A run is what was measured at one speed.
type run struct {
	turns float64 // in a second; 0 if it is not known
	rows  []MeasuredRow
}

// hold says what a stopped propeller drags and how hard the wind turns at it. A
// force square to the blades works at the effective pitch, so that its torque is
// drag·pitch/(2π). A propeller held is turned at no less than by the last
// measured row, so that there is one speed at which it balances.
func (d *Disc) hold(solidity float64) {
	drag := standing * solidity * math.Pi / 8 // of ρ·V²·D²
	edge, _, _ := d.plain(d.last, 0)
	square := d.last * d.last
	d.bridged = edge.CT <= 0
	d.still = row{-drag, min(-drag*d.J0, edge.CP/square)}
}

// plain are CT and CP within what was fitted or measured, with what they gain
// by the advance ratio and by the turn a second.
func (d *Disc) plain(j, n float64) (at, byJ, byTurns row) {
	if d.runs == nil {
		x := j / d.J0
		return row{d.CT0 * (1 - x) * (1 + 0.45*x), d.CP0 * (1 - 0.57*x*x)},
			row{d.CT0 * (-0.55 - 0.9*x) / d.J0, -1.14 * d.CP0 * x / d.J0}, row{}
	}
	i := 0
	for i < len(d.runs)-2 && d.runs[i+1].turns < n {
		i++
	}
	a, aj := d.runs[i].at(j)
	if len(d.runs) == 1 {
		return a, aj, row{}
	}
	b, bj := d.runs[i+1].at(j)
	gap := d.runs[i+1].turns - d.runs[i].turns
	part := (n - d.runs[i].turns) / gap
	if part > 0 && part < 1 {
		byTurns = row{(b.CT - a.CT) / gap, (b.CP - a.CP) / gap}
	}
	part = min(max(part, 0), 1)
	return a.to(b, part), aj.to(bj, part), byTurns
}

func (a row) to(b row, part float64) row {
	return row{a.CT + part*(b.CT-a.CT), a.CP + part*(b.CP-a.CP)}
}

// at interpolates a run, with what it gains by the advance ratio.
func (r run) at(j float64) (at, byJ row) {
	i, last := 0, len(r.rows)-1
	for i < last-1 && r.rows[i+1].J < j {
		i++
	}
	a, b := r.rows[i], r.rows[i+1]
	byJ = row{(b.CT - a.CT) / (b.J - a.J), (b.CP - a.CP) / (b.J - a.J)}
	return row{a.CT + (j-a.J)*byJ.CT, a.CP + (j-a.J)*byJ.CP}, byJ
}

// Coefficients are n²·CT and n²·CP at n turns a second and an airspeed. With
// the power of n in them they stand at n = 0 too. Past the last advance ratio
// that was fitted or measured they run straight, over n·D/V, to those of the
// held propeller. ok is false where measured data ends before it drags, or
// begins above this advance ratio: nothing is extrapolated.
func (d *Disc) Coefficients(n, airspeed float64) (ct, cp float64, ok bool) {
	g, ok := d.Gradient(n, airspeed)
	return g.CT, g.CP, ok
}

// A gradient is n²·CT and n²·CP with what they gain by the turn a second and by
// the airspeed.
type gradient struct {
	CT, CTByTurns, CTBySpeed float64
	CP, CPByTurns, CPBySpeed float64
}

// Gradient is coefficients with its derivatives.
func (d *Disc) Gradient(n, airspeed float64) (gradient, bool) {
	if airspeed > d.last*n*d.Diameter {
		return d.beyond(n, airspeed), d.bridged
	}
	j := 0.0
	if airspeed > 0 {
		j = airspeed / (n * d.Diameter)
	}
	if !(j >= d.first) {
		return gradient{}, false
	}
	at, byJ, byTurns := d.plain(j, n)
	square, speed := n*n, n/d.Diameter // dJ/dV·n² = n/D, dJ/dn·n² = −n·J
	return gradient{CT: square * at.CT, CTByTurns: 2*n*at.CT - n*j*byJ.CT + square*byTurns.CT, CTBySpeed: speed * byJ.CT,
		CP: square * at.CP, CPByTurns: 2*n*at.CP - n*j*byJ.CP + square*byTurns.CP, CPBySpeed: speed * byJ.CP}, true
}

// beyond is the gradient between the last advance ratio and standing still.
func (d *Disc) beyond(n, airspeed float64) gradient {
	edge, _, byTurns := d.plain(d.last, n)
	square := d.last * d.last
	scale := airspeed / d.Diameter // V/D
	part := min(n/scale*d.last, 1) // 0 held, 1 at the edge
	step := row{edge.CT/square - d.still.CT, edge.CP/square - d.still.CP}
	at := row{d.still.CT + part*step.CT, d.still.CP + part*step.CP}
	slope := row{step.CT*d.last + scale*part*byTurns.CT/square, step.CP*d.last + scale*part*byTurns.CP/square}
	return gradient{CT: scale * scale * at.CT, CTByTurns: scale * slope.CT, CTBySpeed: scale / d.Diameter * (2*at.CT - part*step.CT),
		CP: scale * scale * at.CP, CPByTurns: scale * slope.CP, CPBySpeed: scale / d.Diameter * (2*at.CP - part*step.CP)}
}

// Load is thrust and torque at n turns a second.
func (d *Disc) Load(n, airspeed, density float64) (thrust, torque float64, ok bool) {
	ct, cp, ok := d.Coefficients(n, airspeed)
	d4 := math.Pow(d.Diameter, 4)
	return ct * density * d4, cp * density * d4 * d.Diameter / (2 * math.Pi), ok
}

// Span are the speeds, in turns a second, at which curves or rows answer at an
// airspeed.
func (d *Disc) Span(airspeed float64) (low, high float64) {
	if !d.bridged {
		low = airspeed / (d.last * d.Diameter) * (1 + 1e-12)
	}
	if d.Endless(airspeed) {
		return low, math.Inf(1)
	}
	return low, airspeed / (d.first * d.Diameter) * (1 - 1e-12)
}

// Endless reports whether they answer at any higher speed.
func (d *Disc) Endless(airspeed float64) bool { return d.first == 0 || airspeed == 0 }
