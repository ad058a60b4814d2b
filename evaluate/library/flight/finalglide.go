package flight

import (
	"math"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// settles is how often drag and airspeed of a glide are worked from each other
// before they must agree.
const settles = 30

// gliding is the airframe and its lift coefficient in the last glide.
func (c *course) gliding() (glide.Plane, float64, error) {
	in := c.in
	if in.Propeller != "windmilling" {
		return in.Home.gliding(in.Airframe)
	}
	h, p := in.Home, in.Airframe
	h.Propeller, p.PropellerDrag = "stopped", 0
	for range settles {
		plane, cl, err := h.gliding(p)
		if err != nil {
			return plane, cl, err
		}
		w, err := drive.Windmilling(drive.WindmillingInput{Motor: in.Drive.Motor, Propeller: in.Drive.Propeller,
			Airspeed: plane.Trim(cl, 1).Speed, Solidity: 0.1, Density: p.Density})
		if err != nil {
			return plane, cl, require.In("drive", err)
		}
		c.wind = &w
		if math.Abs(w.DragArea-p.PropellerDrag) <= 1e-12*w.DragArea {
			return plane, cl, nil
		}
		p.PropellerDrag = w.DragArea
	}
	return h.gliding(p)
}

// gliding is the airframe and its lift coefficient in the glide.
func (h Home) gliding(p glide.Plane) (glide.Plane, float64, error) {
	p, err := p.With(h.Propeller)
	if err != nil {
		return p, 0, err
	}
	cl, err := p.ChosenCL(h.GlideCL)
	if e, ok := err.(*model.Error); ok {
		moved := *e
		moved.Field = "glide_CL"
		return p, 0, &moved
	}
	return p, cl, err
}
