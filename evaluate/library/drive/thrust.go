package drive

import (
	"errors"

	"inkwing/evaluate/numeric"
)

// mostDoublings is how often a speed of one turn a second is doubled in search
// of a thrust: past 10⁹ turns a second there is no propeller.
const mostDoublings = 30

var errNoThrust = errors.New("no measured row gives the thrust")

// Required is the rested voltage at which the drive gives a thrust: from the
// propeller's speed by way of its torque and the motor's current.
func (m DriveModel) Required(d *Disc, thrust float64, c Conditions) (float64, Working, error) {
	n, err := d.Turns(thrust, c)
	if err != nil {
		return 0, Working{}, d.Unbalanced("drive.propeller")
	}
	_, torque, _ := d.Load(n, c.Airspeed, c.Density)
	flows, into := m.needs(m.Current(torque), m.EmfByTurns()*n, c)
	voltage := into + flows.Pack*(c.SourceResistance+m.LeadResistance) + m.drains(c)*c.SourceResistance
	return voltage, m.working(d, n, flows, voltage, c), nil
}

// needs is the voltage at the control's input at which the motor has a current
// at a back voltage, and what flows.
func (m DriveModel) needs(current, emf float64, c Conditions) (Chopped, float64) {
	smooth := (emf + current*(m.Motor.Resistance+m.SpeedControl.Resistance)) / c.Throttle
	k, ok := m.Chopper(c.Throttle)
	if !ok {
		return Chopped{Mean: current, Pack: c.Throttle * current, Square: current * current}, smooth
	}
	pulse := k.During(c.Throttle)
	short := func(v float64) float64 { return pulse.At(v, emf).Mean - current }
	v := numeric.Crossing(short, emf, smooth*(1+1e-9), -current, short(smooth*(1+1e-9)))
	return pulse.At(v, emf), v
}

// Turns is the speed, in turns a second, at which the propeller gives a thrust.
func (d *Disc) Turns(thrust float64, c Conditions) (float64, error) {
	over := func(n float64) bool {
		t, _, _ := d.Load(n, c.Airspeed, c.Density)
		return t > thrust
	}
	low, high := 0.0, 1.0
	if d.Rows != nil {
		low = c.Airspeed / (d.last * d.Diameter) * (1 + 1e-12)
		high = c.Airspeed / (max(d.first, 1e-6) * d.Diameter) * (1 - 1e-12)
		if over(low) || !over(high) {
			return 0, errNoThrust
		}
		return numeric.Bisect(low, high, over), nil
	}
	for range mostDoublings {
		if over(high) {
			return numeric.Bisect(low, high, over), nil
		}
		high *= 2
	}
	return 0, errNoThrust
}
