package glide

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// How friction falls with the Reynolds number: Blasius' plate, and Prandtl's.
const (
	laminarPower   = 0.5
	turbulentPower = 0.2
)

// flowKnown refuses a boundary layer that is neither.
func flowKnown(field, flow string) error {
	if flow == "" || flow == "laminar" || flow == "turbulent" {
		return nil
	}
	return &model.Error{Field: field, Summary: "a boundary layer is laminar or turbulent", Hint: `write "laminar" or "turbulent"`}
}

// frictionCheck reports what of the friction has no meaning.
func (p Plane) frictionCheck() error {
	if p.FrictionShare == nil {
		return nil
	}
	if s := *p.FrictionShare; !(s >= 0 && s <= 1) {
		return &model.Error{Field: "friction_share", Summary: "is {0}, and must lie from 0 % to 100 %", Values: []model.Value{model.In(100*s, "%")}, Hint: "give the part of CD0 that is skin friction"}
	}
	if p.FrictionSpeed == nil {
		return &model.Error{Field: "friction_speed", Summary: "nothing says at which speed CD0 holds", Hint: "give the airspeed at which CD0 was measured or worked"}
	}
	return require.All(require.Positive("friction_speed", *p.FrictionSpeed, "m/s"), flowKnown("flow", p.Flow))
}

// parasite is the drag coefficient without lift at the speed of level flight of
// a lift coefficient: its friction grows as the Reynolds number falls.
func (p Plane) parasite(cl float64) (cd, slope float64) {
	if p.FrictionShare == nil || p.FrictionSpeed == nil || cl <= 0 {
		return p.CD0, 0
	}
	power := laminarPower
	if p.Flow == "turbulent" {
		power = turbulentPower
	}
	friction := p.CD0 * *p.FrictionShare * math.Pow(p.Reference()/math.Sqrt(cl) / *p.FrictionSpeed, -power)
	return p.CD0*(1-*p.FrictionShare) + friction, friction * power / 2 / cl
}

// withDrag adds a drag area that does not depend on the Reynolds number.
func (p Plane) withDrag(area float64) Plane {
	added := area / p.Area
	if p.FrictionShare != nil {
		share := *p.FrictionShare * p.CD0 / (p.CD0 + added)
		p.FrictionShare = &share
	}
	p.CD0 += added
	return p
}

// least is the lift coefficient up to the stall at which a drag is least, which
// falls and then rises; for what has no closed form.
func (p Plane) least(of func(cl float64) float64) float64 {
	const part = 0.6180339887498949
	a, b := 1e-3*p.CLMax, p.CLMax
	for range 60 { // 0.618^60 is 3e-13
		if c, d := b-part*(b-a), a+part*(b-a); of(c) < of(d) {
			b = d
		} else {
			a = c
		}
	}
	if b == p.CLMax {
		return b
	}
	return (a + b) / 2
}
