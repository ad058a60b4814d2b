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

// TestArmPower: three minutes are the published trials' own 35 W and 25 W (J. Med. Eng.
// Technol. 33 (2009) 151, abstract); by hand, 35 W at 60 rpm and 150 mm are 37.1 N.
func TestArmPower(t *testing.T) {
	in := ArmPowerInput{Time: 180, ThreeMin: 35, Cadence: 60 * rpm, Length: 0.15, Pulse: 2, ReserveTime: 90}
	got := kit.Must(ArmPower(in))(t)
	kit.Near(t, "three minutes", got.Power, 35, 1e-12)
	kit.Within(t, "force", got.Force, 37.1, 0.05)
	kit.Near(t, "peak", got.PeakForce, 2*got.Force, 1e-12)
	kit.Near(t, "work", got.Work, 6300, 1e-12)
	for i, want := range []float64{35 * 2.5 / 1.5, 35 * 1.75 / 1.5, 35, 35 * 1.3 / 1.5} {
		kit.Near(t, "row", got.Rows[i].Power, want, 1e-12)
	}
	if !kit.Raised(got.List, "hand-cranking") || kit.Raised(got.List, "arm-power") {
		t.Error("the trial's own power is cautioned, or the crank is not")
	}
	in.ThreeMin = 25
	kit.Near(t, "women", kit.Must(ArmPower(in))(t).Power, 25, 1e-12)
	in.ThreeMin = 60
	if !kit.Raised(kit.Must(ArmPower(in))(t).List, "arm-power") {
		t.Error("60 W for three minutes pass")
	}
	for field, spoil := range map[string]func(*ArmPowerInput){"time": func(in *ArmPowerInput) { in.Time = 0 }, "reserve_time": func(in *ArmPowerInput) { in.ReserveTime = -1 },
		"three_minutes": func(in *ArmPowerInput) { in.ThreeMin = -1 }, "length": func(in *ArmPowerInput) { in.Length = 0 }} {
		spoiled := in
		spoil(&spoiled)
		_, err := ArmPower(spoiled)
		kit.Refuses(t, err, field)
	}
}

// TestArmPowerIsOfAnArm: two of its rows as trials give the others by arm_endurance, with a
// reserve of reserve_time by what is sustained.
func TestArmPowerIsOfAnArm(t *testing.T) {
	rows := kit.Must(ArmPower(ArmPowerInput{Time: 60, ThreeMin: 35, Cadence: 6, Length: 0.15, Pulse: 1, ReserveTime: 90}))(t).Rows
	for _, r := range rows {
		a := kit.Must(ArmEndurance(ArmEnduranceInput{ShortPower: rows[0].Power, ShortTime: rows[0].Time, LongPower: rows[3].Power, LongTime: rows[3].Time, Time: r.Time}))(t)
		kit.Near(t, "power", a.Power, r.Power, 1e-12)
		kit.Near(t, "reserve", a.Reserve, 90*a.Sustained, 1e-12)
	}
}
