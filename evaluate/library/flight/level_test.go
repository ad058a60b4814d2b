package flight

import (
	"math"
	"testing"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/internal/kit"
)

// 8 m/s, 6 W at a total efficiency of 0.55: drag 0.23224 N, 1.85792 W, climb
// 0.588204 m/s; 100 J last 29.603 s level.
func TestLevelFlight(t *testing.T) {
	got := kit.Must(LevelFlight(LevelFlightInput{modelGlider(1), 8, new(6 * 0.55)}))(t)
	kit.Near(t, "drag, "+anderson, got.Drag, 0.23224, kit.Digits(5))
	kit.Near(t, "power needed, "+anderson, got.PowerNeeded, 1.85792, kit.Digits(6))
	kit.Near(t, "climb, "+anderson, *got.ClimbRate, 0.588204, kit.Digits(6))
	kit.Near(t, "level endurance, "+anderson, 0.55*100/got.PowerNeeded, 29.603, kit.Digits(5))
	_, err := LevelFlight(LevelFlightInput{modelGlider(1), 4, nil})
	kit.Refuses(t, err, "speed")
}

// The independent route: the operating point at the voltage found has the
// thrust that the forces on the airframe ask for.
func TestMinimumVoltages(t *testing.T) {
	p := glider()
	in := Powered{Airframe: p, Drive: lapwing(), Throttle: 0.9, SourceResistance: 0.05, RadioCurrent: 0.15}
	last := kit.Must(MinimumLevelVoltage(MinimumLevelVoltageInput{in}))(t).Need
	kit.Near(t, "level thrust", last.Thrust, p.Weight()*p.Drag(p.BestGlideCL())/p.BestGlideCL(), 1e-12)
	for _, rate := range []float64{1e-9, 0.5, 1, 2, 3} {
		got := kit.Must(MinimumClimbVoltage(MinimumClimbVoltageInput{in, rate}))(t)
		if rate == 1e-9 {
			kit.Near(t, "a climb of nothing is level flight", got.Voltage, last.Voltage, 1e-8)
			continue
		}
		kit.Near(t, "rate", got.Airspeed*math.Sin(got.Angle), rate, 1e-12)
		lift := 0.5 * p.Density * got.Airspeed * got.Airspeed * p.Area
		kit.Near(t, "lift", lift*p.BestGlideCL(), p.Weight()*math.Cos(got.Angle), 1e-12)
		kit.Near(t, "thrust", got.Thrust, lift*p.Drag(p.BestGlideCL())+p.Weight()*math.Sin(got.Angle), 1e-10)
		point := kit.Must(drive.OperatingPoint(drive.OperatingPointInput{Drive: in.Drive, Voltage: got.Voltage, Conditions: drive.Conditions{Throttle: 0.9, Airspeed: got.Airspeed, SourceResistance: 0.05, RadioCurrent: 0.15, Density: 1.225}}))(t)
		kit.Near(t, "thrust of the operating point", point.Thrust, got.Thrust, 1e-9)
		kit.Near(t, "its current", point.Current, got.Current, 1e-9)
		kit.Near(t, "its terminal voltage", point.TerminalVoltage, got.TerminalVoltage, 1e-9)
		if got.Voltage <= last.Voltage {
			t.Errorf("climbing at %g m/s wants no more volts", rate)
		}
		last = got.Need
	}
}

// There and back: the voltage that a climb takes gives that climb.
func TestClimb(t *testing.T) {
	in := Powered{Airframe: glider(), Drive: lapwing(), Throttle: 0.9, SourceResistance: 0.05, RadioCurrent: 0.15}
	for _, rate := range []float64{0.25, 1, 2.5} {
		need := kit.Must(MinimumClimbVoltage(MinimumClimbVoltageInput{in, rate}))(t)
		got := kit.Must(Climb(ClimbInput{in, need.Voltage}))(t)
		kit.Near(t, "climb rate", got.ClimbRate, rate, 1e-8)
		kit.Near(t, "airspeed", got.Airspeed, need.Airspeed, 1e-9)
		kit.Near(t, "current", got.Current, need.Current, 1e-8)
	}
	low := kit.Must(Climb(ClimbInput{in, 3.5}))(t)
	if low.ClimbRate >= 0 || !kit.Raised(low.List, "sinks-under-power") {
		t.Errorf("3.5 V climbs at %g m/s", low.ClimbRate)
	}
	_, err := Climb(ClimbInput{in, 60})
	kit.Refuses(t, err, "throttle")
	_, err = Climb(ClimbInput{in, 0.05})
	kit.Refuses(t, err, "voltage")
	in.Airframe.Mass = 0
	_, err = Climb(ClimbInput{in, 9})
	kit.Refuses(t, err, "airframe.mass")
}

func TestMinimumVoltagesRefuse(t *testing.T) {
	in := Powered{Airframe: glider(), Drive: lapwing(), Throttle: 1}
	_, err := MinimumClimbVoltage(MinimumClimbVoltageInput{in, 20})
	kit.Refuses(t, err, "climb_rate")
	_, err = MinimumClimbVoltage(MinimumClimbVoltageInput{in, -1})
	kit.Refuses(t, err, "climb_rate")
	in.CL = new(2.0)
	_, err = MinimumLevelVoltage(MinimumLevelVoltageInput{in})
	kit.Refuses(t, err, "CL")
	in.CL, in.Throttle = nil, 2
	_, err = MinimumLevelVoltage(MinimumLevelVoltageInput{in})
	kit.Refuses(t, err, "throttle")
	in.Throttle, in.Drive.Propeller.Data = 1, []drive.MeasuredRow{{J: 0.1, CT: 0.0001, CP: 0.05}, {J: 0.5, CT: 0.00001, CP: 0.04}}
	_, err = MinimumLevelVoltage(MinimumLevelVoltageInput{in})
	kit.Refuses(t, err, "drive.propeller.data")
}
