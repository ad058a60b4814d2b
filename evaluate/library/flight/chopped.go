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

// behind is what the control's input voltage is above what the pack leaves it, at a
// current out of the pack, and what it loses by the ampere.
func (k *circuit) behind(rested, volts, pack float64) (over, loses float64) {
	terminal, loses := k.sagging(rested, pack)
	return volts + pack*k.drive.LeadResistance - terminal, loses + k.drive.LeadResistance
}

// through is what flows at a throttle, and the voltage at the control's input, by Newton's steps.
func (k *circuit) through(rested, emf float64, pulse drive.Pulse) (volts float64, c drive.Chopped, by drive.Slopes) {
	open, _ := k.terminal(rested, 0, 0)
	volts = open - k.sag
	for range 40 {
		c = pulse.At(volts, emf)
		by = pulse.Slopes(volts, emf, c)
		over, loses := k.behind(rested, volts, c.Pack)
		step := over / (1 + loses*by.PackByVolts)
		if volts -= step; math.Abs(step) <= 1e-13*math.Abs(volts) {
			break
		}
	}
	if k.sag = 0; volts > open/2 {
		k.sag = open - volts
	}
	return volts, c, by
}

// chopped is the demand of a throttle.
func (k *circuit) chopped(rested, on float64, switched drive.Chopper) demand {
	pulse := switched.During(on)
	return func(motor, emf float64) (float64, float64, float64) {
		_, c, s := k.through(rested, emf, pulse)
		_, loses := k.sagging(rested, c.Pack)
		loses += k.drive.LeadResistance
		by := s.MeanByVolts*loses*s.PackByEmf/(1+loses*s.PackByVolts) - s.MeanByEmf
		if by <= 0 { // past the voltage it has: only the torque steers
			by = 1 / k.inner()
		}
		return motor - c.Mean, 1, by
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
	c, ok := k.ending(rested, emf, out.motor, switched)
	if !ok {
		k.settled(rested, func(v float64) float64 {
			k.duty, c = switched.AtMean(v, emf, out.motor, 0)
			return c.Pack
		})
	}
	k.flows = c.Through
	out.throttle, out.pack, out.square = k.duty, c.Pack, c.Square
	out.pulses(c)
	out.terminal, out.radio = k.terminal(rested, out.pack, 0)
	return out
}

// ending is what flows where the mean current is as wanted and ends within each period: its
// duty and the voltage at once, by Newton's steps from the last ones; false where they do
// not settle, and where the last one did not end.
func (k *circuit) ending(rested, emf, want float64, switched drive.Chopper) (c drive.Chopped, ok bool) {
	const close = 1e-9 // its square is what is left
	if k.flows {
		return c, false
	}
	open, _ := k.terminal(rested, 0, 0)
	volts, duty := open-k.sag, k.duty
	for range 8 {
		if !(duty > 0 && duty < 1 && volts > emf) {
			return c, false
		}
		e := switched.Ending(volts, emf, duty)
		over, loses := k.behind(rested, volts, e.Pack)
		short := e.Mean - want
		byVolts, byDuty := 1+loses*e.PackByVolts, loses*e.PackByDuty
		whole := e.MeanByDuty*byVolts - e.MeanByVolts*byDuty
		more, higher := (e.MeanByVolts*over-short*byVolts)/whole, (short*byDuty-e.MeanByDuty*over)/whole
		if volts, duty = volts+higher, duty+more; math.Abs(more) <= close*duty && math.Abs(higher) <= close*volts {
			c = switched.At(volts, emf, duty)
			k.duty, k.sag = duty, open-volts
			return c, duty < 1 && !c.Through
		}
	}
	return c, false
}
