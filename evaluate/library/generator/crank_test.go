package generator

import (
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// TestArmEndurance: an arm of 50 W and 3 kJ above it gives out after 3 kJ/60 W at
// 110 W and after 3 kJ/15 W at 65 W, and keeps up 75 W for two minutes.
func TestArmEndurance(t *testing.T) {
	in := ArmEnduranceInput{ShortPower: 110, ShortTime: 50, LongPower: 65, LongTime: 200, Time: 120}
	a := kit.Must(ArmEndurance(in))(t)
	kit.Near(t, "sustained", a.Sustained, 50, 1e-12)
	kit.Near(t, "reserve", a.Reserve, 3000, 1e-12)
	kit.Near(t, "two minutes", a.Power, 75, 1e-12)
	in.Time = in.LongTime
	kit.Near(t, "the trial itself", kit.Must(ArmEndurance(in))(t).Power, in.LongPower, 1e-12)
	in.LongTime = 80 // less work in more time
	_, err := ArmEndurance(in)
	kit.Refuses(t, err, "long_power")
}

// TestCrankCautions: three-minute trials with both arms are set at 35 W and 25 W
// (J. Med. Eng. Technol. 33 (2009) 151); 15 N·m is 100 N at 150 mm.
func TestCrankCautions(t *testing.T) {
	in := CrankLoadInput{Power: 36, Cadence: 60 * rpm, Length: 0.15, Pulse: 1, Time: new(94.0)}
	c := kit.Must(CrankLoad(in))(t)
	said := raised(t, "crank", c.List, "arm-power")
	if said.Values[1].Number != 35 || said.Values[2].Number != 25 || said.Values[3].Number != 94 {
		t.Errorf("%v", said)
	}
	in.Pulse = 2.56
	c = kit.Must(CrankLoad(in))(t)
	kit.Near(t, "peak", c.PeakForce, 2.56*c.Force, 1e-12)
	if kit.Raised(c.List, "crank-torque") {
		t.Errorf("%g N: %v", c.PeakForce, c.List)
	}
	in.Pulse = 3.84
	c = kit.Must(CrankLoad(in))(t)
	kit.Near(t, "torque of the trial", raised(t, "crank", c.List, "crank-torque").Values[0].Number, 3.84*c.Torque, 1e-12)
}
