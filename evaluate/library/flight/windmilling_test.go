package flight

import (
	"testing"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/glide"
	"inkwing/evaluate/library/internal/kit"
)

// A flight that ends with a free propeller glides down as an airframe with the
// drag that windmilling gives at the very airspeed of that glide; one that the
// motor holds, as with a stopped one.
func TestFlightWindmilling(t *testing.T) {
	for _, idle := range []float64{0.01, 0.35, 3} {
		in := lapwingFlight()
		in.Drive.Motor.IdleCurrent = idle
		in.Propeller = "windmilling"
		got := kit.Must(Flight(t.Context(), in))(t)
		last := got.History[len(got.History)-1]
		w := kit.Must(drive.Windmilling(drive.WindmillingInput{Motor: in.Drive.Motor, Propeller: in.Drive.Propeller, Airspeed: last.Airspeed, Solidity: 0.1, Density: 1.225}))(t)
		if w.Turns == kit.Raised(got.List, "propeller-held") || w.Turns != (idle < 0.1) {
			t.Errorf("idle current %g A: turns %v", idle, w.Turns)
		}
		in.Propeller, in.Airframe.PropellerDrag = "stopped", w.DragArea
		same := kit.Must(Flight(t.Context(), in))(t)
		kit.Near(t, "glide time", got.GlideTime, same.GlideTime, 1e-9)
		kit.Near(t, "powered time", got.PoweredTime, same.PoweredTime, 1e-12)
		in.Propeller = "folded"
		if folded := kit.Must(Flight(t.Context(), in))(t); folded.GlideTime <= got.GlideTime {
			t.Errorf("a propeller in the wind costs nothing: %g s, folded %g s", got.GlideTime, folded.GlideTime)
		}
	}
	in := lapwingFlight()
	in.Propeller = "windmilling"
	in.Drive.Propeller.Data = []drive.MeasuredRow{{J: 0, CT: 0.105, CP: 0.048}, {J: 0.6, CT: 0.03, CP: 0.03}, {J: 0.9, CT: -0.02, CP: 0.01}}
	_, err := Flight(t.Context(), in)
	kit.Refuses(t, err, "drive.propeller.data")
}

// A windmill at a fine pitch drags up to about three times what it does
// stopped (Aerodynamics for Naval Aviators, NAVWEPS 00-80T-80 (1965), p. 149).
func TestWindmillAgainstStopped(t *testing.T) {
	m := lapwing()
	got := kit.Must(drive.Windmilling(drive.WindmillingInput{Motor: m.Motor, Propeller: m.Propeller, Airspeed: 7, Solidity: 0.1, Density: 1.225}))(t)
	stopped := kit.Must(glide.PropellerDrag(glide.PropellerDragInput{Diameter: m.Propeller.Diameter, Solidity: 0.1}))(t)
	if ratio := got.DragArea / stopped.DragArea; !got.Turns || ratio < 1 || ratio > 3.5 {
		t.Errorf("windmilling drags %g times as much as stopped", ratio)
	}
}
