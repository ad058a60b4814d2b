package generator

import "math"

// A pull is the state of the whole chain at one rested voltage.
type pull struct {
	drain
	cadence, torque float64 // of the crank
	eddy            float64 // W, lost in the wire whether a current flows or not
	net             float64 // A, what charges: the current less the leak
}

func (p pull) crankPower() float64 { return p.torque * p.cadence }

// An arm turns the crank at one voltage after another, the coils as warm as they
// are, and begins each time where those before point.
type arm struct {
	*HandChargeInput
	machine Machine // as warm as it is
	lately  track

	steep float64     // what passes the limit by the cadence, the last time that one held
	off   float64     // by how much the last one lay off what was foreseen, by it
	held  [40]holding // the last voltages at which one held
	count int         // of all there were
}

// A holding is a voltage, the cadence to which a limit held it, and how the bridge
// conducted.
type holding struct {
	v, cadence float64
	track
}

func (in *HandChargeInput) arm(kelvin float64) *arm {
	a := &arm{HandChargeInput: in, machine: in.Generator}
	a.warm(kelvin)
	return a
}

// warm takes the copper to a temperature.
func (a *arm) warm(kelvin float64) {
	more := copperRises(a.Generator.CoilTemperature, kelvin)
	a.machine.PhaseResistance = a.Generator.PhaseResistance * more
	a.machine.EddyConstant = a.Generator.EddyConstant / more // by the square of what is induced over the resistance
}

// copperRises is how much more copper resists at one temperature than at another.
func copperRises(from, to float64) float64 {
	if from == to {
		return 1
	}
	return (1 + copperSlope*(to-roomKelvin)) / (1 + copperSlope*(from-roomKelvin))
}

// at works the chain at a rested voltage, the coils as at the start and the
// cadence lowered to the limits.
func (in *HandChargeInput) at(v float64) pull { return in.arm(in.start()).at(v) }

// start is the coils' temperature at the start.
func (in *HandChargeInput) start() float64 {
	return ptr(in.CoilTemperature, in.Generator.CoilTemperature)
}

// at is [HandChargeInput.at] with the coils as warm as they are: the wanted cadence,
// or the one at which an arm that speeds up from rest meets a limit.
func (a *arm) at(v float64) pull {
	if a.count > 0 {
		if p, ok := a.follow(v); ok && !a.crested(p.cadence) {
			return p
		}
	}
	p := a.turning(v, a.Cadence)
	if a.over(p) > 0 || a.crested(a.Cadence) {
		return a.search(v)
	}
	return p
}

// crested reports whether torque may have had a crest below a cadence, as it has
// where a winding's reactance is large: a shorted one where it is as its resistance, one that charges
// above that.
func (a *arm) crested(cadence float64) bool {
	const least = 0.9
	return a.TorqueLimit != nil && a.reactance()*cadence > least*a.Cadence
}

// What holds the cadence down.
const (
	heldByNone = iota
	heldByPower
	heldByTorque
)

func (in *HandChargeInput) holding(p pull) int {
	switch {
	case p.cadence >= in.Cadence:
		return heldByNone
	case in.TorqueLimit == nil || in.PowerLimit != nil && in.overPower(p) > in.overTorque(p):
		return heldByPower
	}
	return heldByTorque
}

// heldBy is the pull that one limit alone makes, be it past the other or faster than
// wanted; one that is not found has no current.
func (a *arm) heldBy(limit int, v float64) pull {
	const beyond = 4
	of := a.overTorque
	switch limit {
	case heldByNone:
		return a.turning(v, a.Cadence)
	case heldByPower:
		of = a.overPower
	}
	if p, ok := a.meet(v, beyond*a.Cadence, of); ok {
		return p
	}
	return pull{net: math.NaN()}
}

// beside is how far a pull passes another limit than the one that holds it.
func (in *HandChargeInput) beside(limit int, p pull) float64 {
	over := -1.0
	if in.PowerLimit != nil && limit != heldByPower {
		over = in.overPower(p)
	}
	if in.TorqueLimit != nil && limit != heldByTorque {
		over = max(over, in.overTorque(p))
	}
	return over
}

// search finds the cadence of a limit between where a current begins and the
// wanted one, on the way up.
func (a *arm) search(v float64) pull {
	under := func(c float64) float64 { return -a.over(a.turning(v, c)) }
	onset := (v + 2*a.machine.leastDrop()) / (a.machine.CeilingConstant * a.Gearing)
	if onset <= 0 || under(onset) < 0 {
		onset = a.Cadence * 1e-6
	}
	if under(onset) < 0 { // too much for the arm however slowly it turns
		return pull{torque: a.Drag, net: -a.leak(v)}
	}
	low, high := onset, a.Cadence
	if a.crested(high) {
		const step = 1.15
		for high = min(high, step*low); high < a.Cadence && under(high) >= 0; high = min(a.Cadence, step*high) {
			low = high
		}
	}
	if under(high) >= 0 {
		return a.turning(v, a.Cadence)
	}
	c := solveTo(1e-5, low, high, under)
	less := c * (1 - 1e-4)
	a.steep, a.off, a.count = (under(less)-under(c))/(c-less), 0, 1
	a.held[0] = holding{v, c, a.lately}
	if p, ok := a.follow(v); ok {
		return p
	}
	c = solve(low, high, under)
	return a.hold(v, a.turning(v, c), c, a.steep)
}

// over is how far a pull passes the nearer limit, by that limit.
func (in *HandChargeInput) over(p pull) float64 { return in.beside(heldByNone, p) }

func (in *HandChargeInput) overPower(p pull) float64 { return p.crankPower() / *in.PowerLimit - 1 }

func (in *HandChargeInput) overTorque(p pull) float64 { return p.torque / *in.TorqueLimit - 1 }

// turning is the pull at a cadence; that of no number where the looks are spent.
func (a *arm) turning(v, cadence float64) pull {
	m := &a.machine
	if !a.Take(m.cost()) {
		return pull{net: math.NaN(), torque: math.NaN()}
	}
	rotation := cadence * a.Gearing
	d := m.into(v, rotation, a.behind(), &a.lately)
	eddy := m.EddyConstant * rotation * rotation
	return pull{drain: d, eddy: eddy, cadence: cadence, torque: a.torque(d.power+eddy, cadence), net: d.mean - a.leak(v)}
}

// behind is the resistance behind the bridge.
func (in *HandChargeInput) behind() float64 { return in.Generator.LeadResistance + in.Store.Resistance }

// torque is that at the crank for a power at the rotor.
func (in *HandChargeInput) torque(power, cadence float64) float64 {
	return power/(cadence*in.GearEfficiency) + in.Drag
}

// pulse is the largest torque within a turn of the emf, by a rigid drive.
func (a *arm) pulse(p pull) float64 {
	if p.cadence == 0 {
		return p.torque
	}
	return a.torque(a.machine.peakPower(p.drain, p.cadence*a.Gearing, a.behind())+p.eddy, p.cadence)
}

func (in *HandChargeInput) leak(v float64) float64 {
	if in.Store.LeakageResistance == nil {
		return 0
	}
	return v / *in.Store.LeakageResistance
}
