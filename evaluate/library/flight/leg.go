package flight

import (
	"errors"
	"math"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// A task is what the motor does on a leg.
type task uint8

const (
	rest     task = iota // motor off
	throttle             // as given
	rate                 // a climb rate is held
	power                // a power is held
)

// A leg is a stretch of flight in which motor and trim do one thing.
type leg struct {
	*circuit
	plane  glide.Plane
	phase  int // from 1; 0 for the glide after the motor has stopped
	task   task
	amount float64 // throttle or power
	cl     float64
	fast   float64 // speed of level flight
	drag0  float64 // drag then
	held   steady  // of a climb rate
	turns  float64 // of the propeller then
	last   moment  // what was balanced last, and where to begin
}

// A moment is flight at one voltage of the store.
type moment struct {
	current
	speed, angle, drag float64
	spare              float64 // negative where full throttle does not give what is held
}

func (m moment) climb() float64 { return m.speed * math.Sin(m.angle) }

// newLeg prepares a phase of the plan. With the motor off the propeller drags as
// it does on the way home.
func (k *circuit) newLeg(p glide.Plane, ph Phase, number int, home Home) (*leg, error) {
	var cl float64
	var err error
	if ph.Throttle != nil && *ph.Throttle == 0 {
		p, cl, err = k.gliding(home, p, ph.CL)
	} else {
		cl, err = p.ChosenCL(ph.CL)
	}
	var e *model.Error
	switch {
	case errors.As(err, &e) && e.Field == "CL":
		return nil, inPhase(number, e.Summary, e.Hint, e.Values...)
	case err != nil:
		return nil, err
	}
	l := &leg{circuit: k, phase: number}
	l.trim(p, cl)
	switch {
	case ph.ClimbRate != nil:
		return l, l.hold(*ph.ClimbRate)
	case ph.Power != nil:
		l.task, l.amount = power, *ph.Power
	case *ph.Throttle > 0:
		l.task, l.amount = throttle, *ph.Throttle
	}
	return l, nil
}

func (l *leg) trim(p glide.Plane, cl float64) {
	l.plane, l.cl, l.fast = p, cl, p.Reference()/math.Sqrt(cl)
	l.drag0 = p.Weight() * p.Drag(cl) / cl
}

// hold sets a climb rate, at which all but the throttle stands still.
func (l *leg) hold(climb float64) error {
	held, ok := steadyClimb(l.plane, l.cl, climb)
	if !ok {
		return inPhase(l.phase, "a climb of {0} is steeper than 45° at this lift coefficient",
			"give a slower climb or a smaller CL", model.In(climb, "m/s"))
	}
	n, err := l.disc.Turns(held.thrust, drive.Conditions{Airspeed: held.speed, Density: l.density})
	if err != nil {
		return l.disc.Unbalanced("drive.propeller")
	}
	l.task, l.held, l.turns = rate, held, n
	return nil
}

// full is the leg with the throttle wide open, where what was held is past it.
func (l *leg) full() *leg {
	open := *l
	open.task, open.amount = throttle, 1
	return &open
}

// at is the flight at a rested voltage of the store.
func (l *leg) at(rested float64) moment {
	switch l.task {
	case rest:
		t := l.plane.Trim(l.cl, 1)
		return moment{current: l.resting(rested), speed: t.Speed, angle: -t.Angle, drag: l.plane.Weight() * math.Sin(t.Angle)}
	case rate:
		c, fits := l.atTurns(rested, l.turns, l.held.speed)
		return moment{current: c, speed: l.held.speed, angle: l.held.angle, drag: l.drag0 * math.Cos(l.held.angle), spare: fits}
	}
	return l.balanced(rested)
}

// driven is the drive at an airspeed.
func (l *leg) driven(rested, airspeed, near float64) current {
	if l.task == power {
		return l.atPower(rested, l.amount, airspeed, near)
	}
	return l.atThrottle(rested, l.amount, airspeed, near)
}

// balanced finds the path's angle: L = W·cos γ, T = D + W·sin γ. Thrust in
// excess falls as the path steepens, from W at a dive straight down.
func (l *leg) balanced(rested float64) moment {
	m, ok := l.steps(rested)
	if !ok {
		m = l.search(rested)
	}
	l.last = m
	m.spare = 1
	if l.task == power {
		m.spare = 1 - m.throttle
	}
	return m
}

// steps is the balance of torques and forces at once, by Newton's steps from
// the last one; false where they do not settle.
func (l *leg) steps(rested float64) (moment, bool) {
	n, angle := l.last.turns, l.last.angle
	if !(n > 0) {
		return moment{}, false
	}
	over := l.demand(rested)
	emf, weight := l.emf, l.plane.Weight()
	for range 10 {
		sin, cos := math.Sincos(angle)
		speed := l.fast * math.Sqrt(cos)
		bySpeed := -speed * sin / (2 * cos) // of the angle
		g, ok := l.disc.Gradient(n, speed)
		torque := l.drive.Amperes(g.CP) * l.twist
		x, byMotor, byEmf := over(l.drive.Motor.IdleCurrent+torque*g.CP, emf*n)
		y := l.pull*g.CT - l.drag0*cos - weight*sin
		xn, xa := byMotor*torque*g.CPByTurns+byEmf*emf, byMotor*torque*g.CPBySpeed*bySpeed
		yn, ya := l.pull*g.CTByTurns, l.pull*g.CTBySpeed*bySpeed+l.drag0*sin-weight*cos
		whole := xn*ya - xa*yn
		dn, da := (x*ya-xa*y)/whole, (xn*y-x*yn)/whole
		n, angle = n-dn, angle-da
		if !ok || !(n > 0) || !(math.Abs(angle) < steepest) {
			return moment{}, false
		}
		if math.Abs(dn) < 1e-7*n && math.Abs(da) < 1e-7 { // their squares are what is left
			return l.flying(rested, n, angle)
		}
	}
	return moment{}, false
}

// flying is the moment at a speed of the propeller and an angle of the path.
func (l *leg) flying(rested, n, angle float64) (moment, bool) {
	m := moment{angle: angle, speed: l.fast * math.Sqrt(math.Cos(angle)), drag: l.drag0 * math.Cos(angle)}
	if l.task == power {
		m.current = l.poweredAt(rested, l.amount, n, m.speed)
	} else {
		m.current = l.throttledAt(rested, l.amount, n, m.speed)
	}
	return m, l.within(n, m.speed) && m.turns == n
}

func (l *leg) demand(rested float64) demand {
	if l.task == power {
		of, _, _, _ := l.powered(rested, l.amount)
		return of
	}
	return l.throttled(rested, l.amount)
}

// search is the balance where nothing is known of it.
func (l *leg) search(rested float64) moment {
	var m moment
	excess := func(angle float64) float64 {
		m.angle, m.speed = angle, l.fast*math.Sqrt(math.Cos(angle))
		m.drag = l.drag0 * math.Cos(angle)
		m.current = l.driven(rested, m.speed, m.turns)
		return m.thrust - m.drag - l.plane.Weight()*math.Sin(angle)
	}
	low, high := -0.25, 0.25
	over, under := excess(low), excess(high)
	if under > 0 {
		low, over, high = high, under, steepest
		if under = excess(high); under > 0 {
			return m // refused where the leg begins
		}
	}
	if over < 0 {
		high, under, low = low, over, -math.Pi/2
		over = excess(low)
	}
	if over > 0 && under < 0 {
		excess(numeric.Crossing(excess, low, high, over, under))
	}
	return m
}

// tooSteep reports whether the thrust carries the model past 45°.
func (l *leg) tooSteep(rested float64) bool {
	if l.task != throttle && l.task != power {
		return false
	}
	airspeed := l.fast * math.Sqrt(math.Cos(steepest))
	excess := l.driven(rested, airspeed, 0).thrust - l.drag0*math.Cos(steepest) - l.plane.Weight()*math.Sin(steepest)
	return excess > 0
}

// lifting is positive where the model climbs: the thrust in excess of level
// flight's drag.
func (l *leg) lifting(rested float64) float64 {
	return l.driven(rested, l.fast, l.last.turns).thrust - l.drag0
}

// turning reports whether the motor turns at all, held fast at first.
func (l *leg) turning(rested float64) bool {
	idle := l.drive.Motor.IdleCurrent
	switch l.task {
	case throttle:
		v, _ := l.terminal(rested, l.amount*idle, 0)
		return l.amount*v > idle*(l.inner()+l.amount*l.amount*l.drive.LeadResistance)
	case power:
		v, _ := l.terminal(rested, 0, l.amount)
		pack := l.amount / v
		return l.amount-pack*pack*l.drive.LeadResistance > idle*idle*l.inner()
	}
	return true
}
