package flight

import (
	"math"

	"inkwing/evaluate/library/drive"
)

// Part throttle with the winding's inductance: what [circuit] does with a
// smooth current, with one that pulses. The pack, with the control's capacitor
// before it, gives the mean.

// settled is the voltage at the control's input while it takes a current that
// depends on it.
func (k *circuit) settled(rested float64, takes func(volts float64) float64) float64 {
	left := func(v float64) float64 {
		pack := takes(v)
		terminal, _ := k.terminal(rested, pack, 0)
		return terminal - pack*k.drive.LeadResistance
	}
	open, _ := k.terminal(rested, 0, 0)
	a := open - k.sag
	b := left(a)
	fa, fb := b-a, left(b)-b
	for range 40 { // by the secant: the pack's resistance is small, so the first step is close
		if math.Abs(fb) <= 1e-13*math.Abs(b) || fb == fa {
			break
		}
		next := b - fb*(b-a)/(fb-fa)
		a, fa = b, fb
		b, fb = next, left(next)-next
	}
	if k.sag = 0; b > open/2 {
		k.sag = open - b
	}
	return b
}

// through is what flows at a throttle.
func (k *circuit) through(rested, emf, on float64, switched drive.Chopper) drive.Chopped {
	v := k.settled(rested, func(v float64) float64 { return switched.At(v, emf, on).Pack })
	return switched.At(v, emf, on)
}

// chopped is the demand of a throttle.
func (k *circuit) chopped(rested, on float64, switched drive.Chopper) demand {
	mean := func(emf float64) float64 { return k.through(rested, emf, on, switched).Mean }
	return func(motor, emf float64) (float64, float64, float64) {
		has := mean(emf)
		step := 1e-5 * max(emf, 0.1)
		by := (has - mean(emf+step)) / step
		if by <= 0 { // past the voltage it has: only the torque steers
			by = 1 / k.inner()
		}
		return motor - has, 1, by
	}
}

// choppedPower is the demand of a power out of the pack.
func (k *circuit) choppedPower(into, pack float64, switched drive.Chopper) demand {
	takes := func(emf float64) float64 {
		duty := switched.DutyOfPack(into, emf, pack)
		if c := switched.At(into, emf, duty); duty < 1 {
			return c.Mean
		}
		return 2 * into * pack / (emf + math.Sqrt(emf*emf+4*k.inner()*into*pack)) // past full throttle, as if smooth
	}
	return func(motor, emf float64) (float64, float64, float64) {
		has := takes(emf)
		step := 1e-5 * max(emf, 0.1)
		return motor - has, 1, (has - takes(emf+step)) / step
	}
}

// choppedTurns finds the throttle of a current and a speed.
func (k *circuit) choppedTurns(rested float64, out current, switched drive.Chopper) current {
	emf := k.emf * out.turns
	var c drive.Chopped
	k.settled(rested, func(v float64) float64 {
		k.duty, c = switched.AtMean(v, emf, out.motor, k.duty)
		return c.Pack
	})
	out.throttle, out.pack, out.square = k.duty, c.Pack, c.Square
	out.pulses(c)
	out.terminal, out.radio = k.terminal(rested, out.pack, 0)
	return out
}
