package flight

import (
	"errors"
	"math"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// settles is how often drag and airspeed of a glide are worked from each other
// before they must agree.
const settles = 30

// gliding is the airframe and its lift coefficient with the motor off: the
// propeller drags as home says it does.
func (k *circuit) gliding(h Home, p glide.Plane, cl *float64) (glide.Plane, float64, error) {
	switch h.Propeller {
	case "windmilling":
		return k.windmilling(p, cl)
	case "stopped":
		if p.PropellerDrag == 0 {
			p.PropellerDrag = k.disc.Stopped()
		}
	}
	p, err := p.With(h.Propeller)
	if err != nil {
		return p, 0, err
	}
	cl0, err := p.ChosenCL(cl)
	return p, cl0, err
}

// windmilling is the airframe with the drag of a propeller that the wind turns,
// or that its motor holds, at the very airspeed of the glide.
func (k *circuit) windmilling(p glide.Plane, cl *float64) (glide.Plane, float64, error) {
	p.PropellerDrag = k.disc.Stopped()
	for range settles {
		plane, flown, err := k.gliding(Home{Propeller: "stopped"}, p, cl)
		if err != nil {
			return plane, flown, err
		}
		w, err := drive.Windmilling(drive.WindmillingInput{Motor: k.drive.Motor, Propeller: k.drive.Propeller, Airspeed: plane.Trim(flown, 1).Speed,
			Gearing: k.drive.Gearing, GearEfficiency: k.drive.GearEfficiency, Density: p.Density})
		if err != nil {
			return plane, flown, require.In("drive", err)
		}
		if math.Abs(w.DragArea-p.PropellerDrag) <= 1e-12*w.DragArea {
			return plane, flown, nil
		}
		p.PropellerDrag = w.DragArea
	}
	return k.gliding(Home{Propeller: "stopped"}, p, cl)
}

// lastGlide is gliding with the lift coefficient of the way home.
func (k *circuit) lastGlide(h Home, p glide.Plane) (glide.Plane, float64, error) {
	plane, cl, err := k.gliding(h, p, h.GlideCL)
	var e *model.Error
	if errors.As(err, &e) && e.Field == "CL" {
		moved := *e
		moved.Field = "glide_CL"
		return plane, 0, &moved
	}
	return plane, cl, err
}
