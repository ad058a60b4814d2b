package drive

import (
	"errors"
	"math"

	"inkwing/evaluate/numeric"
)

// mostDoublings is how often a speed of one turn a second is doubled in search
// of a thrust: past 10⁹ turns a second there is no propeller.
const mostDoublings = 30

var errNoThrust = errors.New("no measured row gives the thrust")

// Required is the rested voltage at which the drive gives a thrust: from the
// propeller's speed by way of its torque and the motor's current.
func (m DriveModel) Required(d Disc, thrust float64, c Conditions) (float64, Working, error) {
	n, err := d.Turns(thrust, c)
	if err != nil {
		return 0, Working{}, d.Unbalanced("drive.propeller")
	}
	_, torque, _ := d.Load(n, c.Airspeed, c.Density)
	current := m.Motor.IdleCurrent + m.Motor.Kv*torque
	total := m.Motor.Resistance + m.SpeedControl.Resistance + c.Throttle*c.Throttle*(c.SourceResistance+m.LeadResistance)
	voltage := (2*math.Pi*n/m.Motor.Kv+current*total)/c.Throttle + c.RadioCurrent*c.SourceResistance
	return voltage, m.Working(d, n, current, voltage, c), nil
}

// Turns is the speed, in turns a second, at which the propeller gives a thrust.
func (d Disc) Turns(thrust float64, c Conditions) (float64, error) {
	over := func(n float64) bool {
		t, _, _ := d.Load(n, c.Airspeed, c.Density)
		return t > thrust
	}
	low, high := 0.0, 1.0
	if d.Rows != nil {
		low = c.Airspeed / (d.Rows[len(d.Rows)-1].J * d.Diameter) * (1 + 1e-12)
		high = c.Airspeed / (max(d.Rows[0].J, 1e-6) * d.Diameter) * (1 - 1e-12)
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
