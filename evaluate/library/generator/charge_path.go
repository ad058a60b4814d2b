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
)

// chargeTolerance is the local error of time and temperature, by themselves or by
// the whole.
const chargeTolerance = 1e-10

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
	numeric.Solution
	peak  pull    // with the largest torque
	power float64 // the largest at the crank
}

// follow charges from one voltage to another, the coils at first at a temperature.
// Time is followed over the voltage, which only rises; the solver's error counts for
// time and temperature, which all else goes with.
func (in *HandChargeInput) follow(ctx context.Context, from, to, kelvin float64) (course, error) {
	var c course
	a := in.arm(kelvin)
	heat, shed := in.Generator.CopperMass*copperHeat, in.shed()
	var each [iCount]float64
	for i := range each {
		each[i] = math.Inf(1)
	}
	// At the least what it takes with the first current.
	each[iTime], each[iKelvin] = chargeTolerance*in.Store.Capacitance*(to-from)/a.at(from).net, 0
	start := make([]float64, iCount)
	start[iKelvin] = kelvin
	var err error
	c.Solution, err = numeric.Integrate(ctx, func(v float64, y, dy []float64) {
		if heat > 0 {
			a.warm(y[iKelvin])
		}
		p := a.at(v)
		in.rate(v, p, y[iKelvin], dy)
		if heat > 0 {
			dy[iKelvin] = dy[iTime] * (p.copper + p.eddy - shed*(y[iKelvin]-in.Surroundings)) / heat
		}
		if p.torque > c.peak.torque {
			c.peak = p
		}
		c.power = max(c.power, p.crankPower())
	}, from, start, to, numeric.Options{Relative: chargeTolerance, Each: each[:], Steps: 2000, Dense: true})
	if err == nil && math.IsInf(c.Y[iTime], 0) {
		err = errNever
	}
	return c, err
}

// rate is what grows with the voltage, each by the volt.
func (in *HandChargeInput) rate(v float64, p pull, kelvin float64, dy []float64) {
	dt := in.Store.Capacitance / p.net
	if !(p.net > 0) {
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
