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
		if p, ok := a.follow(v); ok && !a.crested(v, p) {
			return p
		}
	}
	p := a.turning(v, a.Cadence)
	if a.over(p) > 0 || a.crested(v, p) {
		return a.search(v)
	}
	return p
}

// shy is a cadence up to which torque has no crest. It has one where a winding's
// reactance is large: a shorted one where it is as its resistance, one that charges above that.
func (a *arm) shy() float64 {
	const least = 0.9
	return least * a.Cadence / a.reactance()
}

// crested reports whether torque had a crest below the cadence of a pull at a voltage: it has only
// one, but for what stirs the wire, which grows all along.
func (a *arm) crested(v float64, p pull) bool {
	if a.TorqueLimit == nil || !(p.cadence > a.shy()) {
		return false
	}
	const before = 1 - 1e-4
	less := a.turning(v, before*p.cadence)
	return less.drain.power > before*p.drain.power
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
// wanted; one that is not found, or that may have met a limit before, has no current.
func (a *arm) heldBy(limit int, v float64) pull {
	const beyond = 4
	of := a.overTorque
	switch limit {
	case heldByNone:
		if p := a.turning(v, a.Cadence); !a.crested(v, p) {
			return p
		}
		return pull{net: math.NaN()}
	case heldByPower:
		of = a.overPower
	}
	if p, ok := a.meet(v, beyond*a.Cadence, of); ok && !a.crested(v, p) {
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
	if !(onset > 0 && onset < a.Cadence) || under(onset) < 0 {
		onset = a.Cadence * 1e-6
	}
	if under(onset) < 0 { // too much for the arm however slowly it turns
		return pull{torque: a.Drag, net: -a.leak(v)}
	}
	low, high := a.rise(onset, under)
	if under(high) >= 0 {
		return a.turning(v, a.Cadence)
	}
	for high > 2*low {
		if mid := math.Sqrt(low * high); under(mid) >= 0 {
			low = mid
		} else {
			high = mid
		}
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

// rise is two cadences about the first that is too much for the arm, or below the wanted one. Torque
// has its crest, if any, above where it may and not far above where a current begins; from
// there on it only falls, but for what stirs the wire.
func (a *arm) rise(onset float64, under func(float64) float64) (low, high float64) {
	if a.TorqueLimit == nil || !(a.shy() < a.Cadence) {
		return onset, a.Cadence
	}
	const near, far, wide = 1.15, 2, 4
	first := max(onset, a.shy())
	for low, high = onset, min(a.Cadence, near*first); high < a.Cadence && under(high) >= 0; {
		by := near
		if high > wide*first {
			by = far
		}
		low, high = high, min(a.Cadence, by*high)
	}
	return low, high
}

// over is how far a pull passes the nearer limit, by that limit.
func (in *HandChargeInput) over(p pull) float64 { return in.beside(heldByNone, p) }

func (in *HandChargeInput) overPower(p pull) float64 { return p.crankPower() / *in.PowerLimit - 1 }

func (in *HandChargeInput) overTorque(p pull) float64 { return p.torque / *in.TorqueLimit - 1 }

// turning is the pull at a cadence; that of no number where the looks are spent, or where
// a step that leaps has the coils so cold that copper would drive a current.
func (a *arm) turning(v, cadence float64) pull {
	m := &a.machine
	if !a.Take(m.cost()) || !(m.PhaseResistance > 0) {
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
	return a.torque(a.machine.peakPower(p.drain, p.cadence*a.Gearing, a.behind(), &a.lately)+p.eddy, p.cadence)
}

func (in *HandChargeInput) leak(v float64) float64 {
	if in.Store.LeakageResistance == nil {
		return 0
	}
	return v / *in.Store.LeakageResistance
}
