package flight

import (
	"math"
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
		w := kit.Must(drive.Windmilling(drive.WindmillingInput{Motor: in.Drive.Motor, Propeller: in.Drive.Propeller, Airspeed: last.Airspeed, Density: 1.225}))(t)
		if w.Turns != (idle < 0.1) {
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
	in.Drive.Propeller.Data = []drive.MeasuredRow{{J: 0, CT: 0.105, CP: 0.048}, {J: 0.6, CT: 0.03, CP: 0.03}}
	_, err := Flight(t.Context(), in)
	kit.Refuses(t, err, "drive.propeller.data")
}

// go_voltage goes home on a windmilling propeller too, and agrees with the
// flight launched at its voltage.
func TestGoVoltageWindmilling(t *testing.T) {
	in := lapwingGo()
	in.Propeller = "windmilling"
	got := kit.Must(GoVoltage(t.Context(), in))(t)
	flown := kit.Must(Flight(t.Context(), FlightInput{Aloft: in.Aloft, Plan: []Phase{climbing(in.ClimbRate, in.Height)}, StartVoltage: got.Voltage, Aboard: in.Aboard}))(t)
	kit.Near(t, "glide time", got.GlideTime, flown.GlideTime, 1e-6)
	kit.Within(t, "margin", *got.ControlMargin, *flown.ControlMargin, 1e-3)
	in.Propeller = "folded"
	if folded := kit.Must(GoVoltage(t.Context(), in))(t); folded.GlideTime <= got.GlideTime {
		t.Errorf("a windmill costs no glide: %g s, folded %g s", got.GlideTime, folded.GlideTime)
	}
}

// A windmill at a fine pitch drags more than a stopped propeller, up to about
// three times as much, the two are equal near 22° of blade angle, and a coarse
// pitch reverses it (Aerodynamics for Naval Aviators, NAVWEPS 00-80T-80 (1965),
// p. 149). The blade angle is that at three quarters of the radius.
func TestWindmillAgainstStopped(t *testing.T) {
	ratio := func(degrees float64) float64 {
		p := lapwing().Propeller
		j := 0.75 * math.Pi * math.Tan(degrees*math.Pi/180)
		p.ZeroThrustJ, p.CP0 = new(j), new(0.064*j)
		free := drive.MotorModel{Kv: 1000 * rpm, Resistance: 0.2}
		got := kit.Must(drive.Windmilling(drive.WindmillingInput{Motor: free, Propeller: p, Airspeed: 7, Density: 1.225}))(t)
		stopped := kit.Must(glide.PropellerDrag(glide.PropellerDragInput{Diameter: p.Diameter, Solidity: 0.1}))(t)
		return got.DragArea / stopped.DragArea
	}
	if fine := ratio(13); fine < 1.2 || fine > 3 {
		t.Errorf("at 13° a windmill drags %g times what it does stopped", fine)
	}
	if coarse := ratio(30); coarse > 1 {
		t.Errorf("at 30° a windmill drags %g times what it does stopped", coarse)
	}
}

// Through the airspeed at which the motor lets it turn the drag area has no
// jump, and never leaves what curves and stopped propeller span.
func TestWindmillWithoutJump(t *testing.T) {
	m := lapwing()
	last, turned := 0.0, 0
	for v := 3.0; v < 25; v += 0.01 {
		got := kit.Must(drive.Windmilling(drive.WindmillingInput{Motor: m.Motor, Propeller: m.Propeller, Airspeed: v, Density: 1.225}))(t)
		if last > 0 && math.Abs(got.DragArea/last-1) > 0.002 {
			t.Errorf("at %g m/s the drag area jumps from %g to %g", v, last, got.DragArea)
		}
		if got.Turns {
			turned++
		}
		last = got.DragArea
	}
	if turned < 100 || turned > 2000 {
		t.Errorf("it turns at %d of 2200 airspeeds", turned)
	}
}

// A rest in the plan glides as the last glide does, whatever the propeller is
// said to do, and the time of the motor counts no rest: 29 m at the sink of the
// glide from the airframe with the propeller's drag (closed form).
func TestRestGlidesOnItsPropeller(t *testing.T) {
	for _, how := range []string{"folded", "stopped", "windmilling"} {
		in := lapwingFlight(climbing(1, 30), Phase{Throttle: new(0.0), UntilHeight: new(1.0)})
		in.Airframe.PropellerDrag, in.Propeller = 30e-4, how
		got := kit.Must(Flight(t.Context(), in))(t)
		sink := func(phase int) float64 {
			for _, r := range got.History {
				if r.Phase == phase && r.ClimbRate < 0 {
					return -r.ClimbRate
				}
			}
			return 0
		}
		kit.Near(t, how+": sink in the rest", sink(2), sink(0), 1e-12)
		kit.Near(t, how+": motor", got.PoweredTime, 28, 1e-6)
		kit.Near(t, how+": glide", got.GlideTime, 30/sink(0), 1e-6)
		kit.Near(t, how+": all", got.TotalTime, got.PoweredTime+got.GlideTime, 1e-12)
		if how == "stopped" {
			plane := glider()
			plane.CD0 += 30e-4 / plane.Area
			slow := kit.Must(glide.Glide(glide.GlideInput{Airframe: plane, Height: 29}))(t)
			kit.Near(t, "29 m", got.GlideTime*29/30, slow.Time, 1e-6)
		}
	}
}

// A rest between two climbs is no time of the motor.
func TestPoweredTimeWithoutRests(t *testing.T) {
	got := kit.Must(Flight(t.Context(), lapwingFlight(climbing(1, 30), Phase{Throttle: new(0.0), ForTime: new(10.0)}, climbing(1, 40))))(t)
	climbed := 28.0 + 10 - got.History[0].Height + 2
	for _, e := range got.Events {
		if e.What == "time is up" {
			climbed = 28 + 40 - e.Height
		}
	}
	kit.Near(t, "powered time", got.PoweredTime, climbed, 1e-6)
	kit.Near(t, "all", got.TotalTime, climbed+10+got.GlideTime, 1e-6)
}

// A stopped propeller whose drag nobody gave drags by its diameter: the
// published estimate of 0.2 m and a solidity of 0.10 is 25.1327 cm².
func TestStoppedByDiameter(t *testing.T) {
	in := lapwingFlight()
	in.Propeller, in.Drive.Propeller.Diameter = "stopped", 0.2
	got := kit.Must(Flight(t.Context(), in))(t)
	in.Airframe.PropellerDrag = 0.00251327
	given := kit.Must(Flight(t.Context(), in))(t)
	kit.Near(t, "glide time", got.GlideTime, given.GlideTime, 1e-6)
	_, err := glide.Glide(glide.GlideInput{Airframe: glider(), Height: 30, Propeller: "stopped"})
	kit.Refuses(t, err, "airframe.propeller_drag")
}

// A flight that the wind carries backward says so.
func TestFlightBlownBack(t *testing.T) {
	in := lapwingFlight(climbing(1, 40))
	in.Wind = -10
	got := kit.Must(Flight(t.Context(), in))(t)
	if got.Range >= 0 || !kit.Raised(got.List, "blown-back") {
		t.Errorf("range %g m, cautions %v", got.Range, got.List)
	}
	in.Wind = -2
	if got := kit.Must(Flight(t.Context(), in))(t); kit.Raised(got.List, "blown-back") {
		t.Error("blown back by 2 m/s")
	}
}
