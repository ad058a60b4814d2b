package generator

import (
	"context"
	"errors"
	"math"

	"inkwing/evaluate/numeric"
)

// What a charge is followed by over the voltage, and what it adds up.
const (
	iTime   = iota
	iKelvin // of the coils
	iTurn   // of the crank, in rad
	iWork
	iCopper
	iLeads
	iStore
	iDiodes
	iGears
	iDrag
	iEddy
	iLeak
	iSquare // of the current in a coil, over the time
	iCount

	iSlow     = iCount // V, of the slow branch of a store that has one
	iSettling = iCount + 1
	iBranched = iCount + 2
)

// chargeTolerance is the error of time and temperature, by the whole.
const chargeTolerance = 1e-9

// stillAir is what a surface gives to still air and to the walls around, W/(m²·K):
// natural convection and radiation, 5 to 25 (textbooks, from memory).
const stillAir = 10

// shed is what the coils give off, by the kelvin above their surroundings.
func (in *HandChargeInput) shed() float64 {
	return ptr(in.HeatLoss, stillAir*in.Generator.CoilSurface)
}

// errNever is of a charge that a current too small for a number would end.
var errNever = errors.New("it takes for ever")

// A course is a charge from one voltage to another.
type course struct {
	y      []float64 // what it adds up
	at     float64   // how far it came
	looks  int       // at the machine
	torque float64   // the largest at the crank
	power  float64

	curve numeric.Curve // of what it adds up, over the voltage
	path  *numeric.Path // the same, where it was stepped
}

// see keeps the largest of what is asked of the arm.
func (c *course) see(p pull) {
	c.torque, c.power = max(c.torque, p.torque), max(c.power, p.crankPower())
}

// moment is what a charge has added up at a voltage, and the pull then.
func (c *course) moment(a *arm, v float64, y []float64) pull {
	if c.path == nil {
		var known [kCount]float64
		c.curve.At(v, y, known[:])
		return pull{drain: drain{flow: flow{mean: known[kMean], power: known[kRotor]}, x: known[kX], r: known[kR]},
			cadence: known[kCadence], torque: known[kTorque], eddy: known[kEddy]}
	}
	if v >= c.at {
		copy(y, c.y)
	} else {
		c.path.At(v, y)
	}
	if a.Generator.CopperMass > 0 {
		a.warm(y[iKelvin])
	}
	return a.at(v)
}

// joints are the voltages at which another limit takes over, where they are known.
func (c *course) joints() []float64 {
	if c.path == nil {
		return c.curve.Joints()
	}
	return nil
}

// follow charges from one voltage to another, the coils at first at a temperature.
// Time is followed over the voltage, which only rises; errors count for time and
// temperature, and the voltage of a slow branch, which all else goes with. What takes more
// pieces than is reasonable is stepped.
func (in *HandChargeInput) follow(ctx context.Context, from, to, kelvin float64) (course, error) {
	start := make([]float64, in.Store.states())
	start[iKelvin] = kelvin
	if in.Store.law().Lags() {
		start[iSlow] = from
	}
	if c, ok := in.collocated(ctx, from, to, start); ok {
		return c, nil
	}
	return in.steps(ctx, from, to, start)
}

// What is known along a charge beside what it adds up.
const (
	kOver   = iota // how far another limit than the one that holds is passed, by it
	kHurry         // how far the cadence passes the wanted one, by it
	kTorque        // and what a history shows
	kPower
	kCadence
	kMean
	kEddy
	kX // and what a pulse is worked from
	kR
	kRotor
	kCount
)

// mostPlaces are those at which a series is worked, of which a common charge wants some 60,
// before a charge is stepped.
const mostPlaces = 1200

// collocated follows a charge by series over the voltage, on which current and arm
// depend smoothly as long as one limit holds. An arm that meets a limit twice on its way
// up is none of that.
func (in *HandChargeInput) collocated(ctx context.Context, from, to float64, start []float64) (c course, ok bool) {
	a := in.arm(start[iKelvin])
	rates, law := in.rates(a), in.Store.law()
	t := numeric.Track{Start: start, Also: kCount, Exits: 2, Feed: -1, Looks: mostPlaces, Most: in.allowed(a, from, to),
		Rates: func(mode int, v, kelvin float64, dy []float64) {
			p := rates(func() pull { return a.heldBy(mode, v) }, v, kelvin, v, dy)
			known := dy[len(start):]
			known[kOver], known[kHurry] = in.beside(mode, p), p.cadence/in.Cadence-1
			known[kTorque], known[kPower], known[kCadence], known[kMean] = p.torque, p.crankPower(), p.cadence, p.mean
			known[kEddy], known[kX], known[kR], known[kRotor] = p.eddy, p.x, p.r, p.drain.power
		},
		Mode: func(v, kelvin float64) int {
			a.forget()
			return in.holding(rates(func() pull { return a.at(v) }, v, kelvin, v, make([]float64, len(start))))
		}}
	if law.Lags() {
		const asLong = 16 // as a look
		calls := 0
		t.Lag, t.Given = iSlow, func(v, slow float64, dy []float64) bool {
			calls++
			return (calls%asLong > 0 || in.Take(1)) && charges(law, v, dy[len(start):][kMean]-in.leak(v), slow, dy)
		}
	}
	if heat := in.Generator.CopperMass * copperHeat; heat > 0 {
		t.Feed, t.Eases = iKelvin, func(dy []float64) float64 { return -in.shed() / heat * dy[iTime] }
		t.Most[iKelvin] = chargeTolerance * start[iKelvin]
	}
	c.curve, ok = numeric.Collocate(ctx, &t, from, to)
	if c.looks = c.curve.Looks; ok {
		c.y, c.at, c.torque, c.power = c.curve.Y, to, c.curve.Largest(kTorque), c.curve.Largest(kPower)
	}
	return c, ok
}

// allowed is how far what a charge adds up may be off: the time, at the least what it
// takes with the first current.
func (in *HandChargeInput) allowed(a *arm, from, to float64) []float64 {
	law, most := in.Store.law(), make([]float64, in.Store.states())
	for i := range most {
		most[i] = math.Inf(1)
	}
	most[iTime] = chargeTolerance * law.At(from) * (to - from) / a.at(from).net
	if law.Lags() {
		most[iSlow] = chargeTolerance * to
	}
	return most
}

// rates works the arm and all that grows with the voltage.
func (in *HandChargeInput) rates(a *arm) func(at func() pull, v, kelvin, slow float64, dy []float64) pull {
	heat, shed, law := in.Generator.CopperMass*copperHeat, in.shed(), in.Store.law()
	return func(at func() pull, v, kelvin, slow float64, dy []float64) pull {
		if heat > 0 {
			a.warm(kelvin)
		} else {
			kelvin = in.start()
		}
		p := at()
		in.rate(v, p, kelvin, law.At(v)/(p.net-law.Into(v, slow)), dy)
		if law.Lags() {
			slowly(law, v, slow, dy)
		}
		if heat > 0 {
			dy[iKelvin] = dy[iTime] * (p.copper + p.eddy - shed*(kelvin-in.Surroundings)) / heat
		}
		return p
	}
}

// steps follows a charge by steps over the voltage.
func (in *HandChargeInput) steps(ctx context.Context, from, to float64, start []float64) (course, error) {
	var c course
	a := in.arm(start[iKelvin])
	each := in.allowed(a, from, to)
	each[iKelvin] = 0
	rates := in.rates(a)
	s, err := numeric.Integrate(ctx, func(v float64, y, dy []float64) {
		c.see(rates(func() pull { return a.at(v) }, v, y[iKelvin], in.Store.slow(y), dy))
	}, from, start, to, numeric.Options{Relative: chargeTolerance, Each: each, Steps: 2000, Dense: true})
	c.y, c.at, c.path, c.looks = s.Y, s.T, &s.Path, s.Calls
	if err == nil && math.IsInf(c.y[iTime], 0) {
		err = errNever
	}
	return c, err
}

// rate is what grows with the voltage, each by the volt; dt is the time.
func (in *HandChargeInput) rate(v float64, p pull, kelvin, dt float64, dy []float64) {
	if !(dt > 0) || math.IsInf(dt, 0) {
		dt = math.NaN() // it goes no further
	}
	share := 0.0
	if rd := in.behind(); rd > 0 {
		share = in.Store.Resistance / rd
	}
	dy[iTime], dy[iTurn], dy[iWork] = dt, p.cadence*dt, p.crankPower()*dt
	dy[iCopper], dy[iDiodes], dy[iEddy] = p.copper*dt, p.diodes*dt, p.eddy*dt
	dy[iLeads], dy[iStore] = p.direct*(1-share)*dt, p.direct*share*dt
	dy[iGears], dy[iDrag] = (p.power+p.eddy)*(1/in.GearEfficiency-1)*dt, in.Drag*p.cadence*dt
	dy[iLeak] = v * in.leak(v) * dt
	dy[iKelvin], dy[iSquare] = 0, p.copper/copperRises(in.Generator.CoilTemperature, kelvin)*dt
}
