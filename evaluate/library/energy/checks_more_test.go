package energy

import (
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// A capacitor holds what small portions of charge bring, each at the voltage
// it arrives at.
func TestStoredEnergyByPortions(t *testing.T) {
	const portions = 100_000
	sum, dq := 0.0, 10*2.7/portions
	for i := range portions {
		sum += dq * (float64(i) + 0.5) * dq / 10
	}
	kit.Near(t, "sum of portions", kit.Must(StoredEnergy(StoredEnergyInput{10, 2.7}))(t).Energy, sum, 1e-9)
}

// A battery at its voltage gives its charge out in portions.
func TestBatteryByPortions(t *testing.T) {
	sum := 0.0
	for range 3600 {
		sum += 0.15 * 3.7 // joules of a second at the one-hour current
	}
	kit.Near(t, "sum of portions", kit.Must(Battery(BatteryInput{Capacity: 540, Voltage: 3.7, Mass: 4e-3}))(t).Energy, sum, 1e-9)
}

// A weight let fall moves by the time it is down as fast as its energy says.
func TestRaisedWeightByFalling(t *testing.T) {
	fall, speed, h := 0.0, 0.0, 1e-4
	for fall < 10 {
		fall, speed = fall+speed*h+gravity*h*h/2, speed+gravity*h
	}
	kit.Near(t, "stepped", kit.Must(RaisedWeight(RaisedWeightInput{Mass: 2, Height: fall}))(t).Energy, speed*speed, 1e-9)
}

// Foot-pounds a pound are the feet that rubber could lift itself.
func TestRubberLiftsItself(t *testing.T) {
	const feet = 4000
	lifted := kit.Must(RaisedWeight(RaisedWeightInput{Mass: 10e-3, Height: feet * 0.3048}))(t)
	kit.Near(t, "m g h", kit.Must(Rubber(RubberInput{Mass: 10e-3, SpecificEnergy: 11956.27}))(t).Energy, lifted.Energy, 5e-7)
}

// The step at the terminals when a load comes on gives the resistance back.
func TestResistanceByStepOfALoad(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range 100 {
		inner, load, v := 0.01+r.Float64(), 0.1+5*r.Float64(), 1+4*r.Float64()
		current := v / (inner + load)
		got := kit.Must(ResistanceByStep(ResistanceByStepInput{Step: v - current*load, Current: current}))(t)
		kit.Near(t, "there and back", got.Resistance, inner, 1e-11)
	}
}

// A store stepped down through a known leak gives the leak back.
func TestLeakageFromRestStepped(t *testing.T) {
	after := kit.RungeKutta(func(v float64) float64 { return -v / (10 * 33e3) }, 2.5, 24, 3600)
	got := kit.Must(LeakageFromRest(LeakageFromRestInput{Capacitance: 10, From: 2.5, To: after, Time: 24 * 3600}))(t)
	kit.Near(t, "stepped", *got.Resistance, 33e3, 1e-9)
}

// Settling is charge that moves into a slow part of the cell until both are at
// one voltage: two capacitors joined.
func TestSettledVoltageByJoining(t *testing.T) {
	for _, share := range []float64{0, 0.01, 0.04, 0.2} {
		both := kit.Must(JoinedCapacitors(JoinedCapacitorsInput{FirstCapacitance: 50 * (1 - share), FirstVoltage: 2.5, SecondCapacitance: max(50*share, 1e-12)}))(t)
		got := kit.Must(SettledVoltage(SettledVoltageInput{Store: Store{Capacitance: 50, RatedVoltage: 2.7, Settling: share}, Voltage: 2.5}))(t)
		kit.Near(t, "conservation of charge", got.Voltage, both.Voltage, 1e-9)
	}
}

// The steady charge summed over its seconds.
func TestSteadyChargeBySum(t *testing.T) {
	const steps = 10_000
	stored, lost, current := 0.0, 0.0, 10*2.7/20
	for i := range steps {
		v := 2.7 * (float64(i) + 0.5) / steps
		stored, lost = stored+v*current*20/steps, lost+current*current*0.2*20/steps
	}
	got := kit.Must(SteadyChargeEfficiency(SteadyChargeEfficiencyInput{Store: Store{Capacitance: 10, RatedVoltage: 2.7, Resistance: 0.2}, Time: 20}))(t)
	kit.Near(t, "sum", got.Efficiency, stored/(stored+lost), 1e-9)
}

// A fuse stops fitting where 1.25 of the peak meets half of what melts the
// lead: at two and a half times the peak, found by halving.
func TestFuseWindowByHalving(t *testing.T) {
	for _, peak := range []float64{0.5, 8, 40} {
		low, high := peak, 10*peak
		for range 60 {
			middle := (low + high) / 2
			if kit.Raised(kit.Must(Fuse(FuseInput{PeakCurrent: peak, FusingCurrent: middle}))(t).List, "no-fuse-fits") {
				low = middle
			} else {
				high = middle
			}
		}
		kit.Near(t, "window closes", high, 2.5*peak, 1e-9)
	}
}

// More of what holds energy holds longer; more load, less long.
func TestHoldUpTimeMonotone(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	for range 300 {
		in := randomDischarge(r)
		base, err := HoldUpTime(HoldUpTimeInput(in))
		if err != nil {
			continue
		}
		more := in
		more.Store.Capacitance *= 1.1
		if got := kit.Must(HoldUpTime(HoldUpTimeInput(more)))(t); got.Time <= base.Time {
			t.Errorf("more capacitance holds %g s, less %g s", got.Time, base.Time)
		}
		less := in
		less.To *= 0.95
		if got, err := HoldUpTime(HoldUpTimeInput(less)); err == nil && got.Time < base.Time {
			t.Errorf("a lower end is reached after %g s, a higher after %g s", got.Time, base.Time)
		}
		lossy := in
		lossy.Store.Resistance = in.Store.Resistance * 1.1
		if got, err := HoldUpTime(HoldUpTimeInput(lossy)); err == nil && in.Load == nil && got.Time > base.Time {
			t.Errorf("more resistance holds %g s, less %g s", got.Time, base.Time)
		}
	}
}

// TestHalfTheVoltage: between its rating and half of it a store gives three
// quarters of its energy (makers' application guides, from memory).
func TestHalfTheVoltage(t *testing.T) {
	got := kit.Must(UsableEnergy(UsableEnergyInput{Capacitance: 10, From: 2.7, To: 1.35}))(t)
	kit.Near(t, "three quarters", got.Energy/(10*2.7*2.7/2), 0.75, kit.Exact)
}

// TestClampPublished: the 1 W zener series that JEDEC registers bears 1 W in air
// of 50 °C, where its junction is at its highest, 200 °C: it is derated by
// 6.67 mW for each kelvin above (data sheets, from memory).
func TestClampPublished(t *testing.T) {
	for ambient, watts := range map[float64]float64{50: 1, 100: 1 - 50*6.67e-3, 125: 1 - 75*6.67e-3} {
		in := ClampInput{Voltage: 10, Current: watts / 10, ThermalResistance: 1 / 6.67e-3, Ambient: zeroCelsius + ambient, Limit: zeroCelsius + 200}
		got := kit.Must(Clamp(in))(t)
		kit.Near(t, "junction, 1 W zener series", ambient+got.Rise, 200, 1e-3)
		if kit.Raised(got.List, "clamp-too-hot") {
			t.Errorf("%g W at %g °C is what the maker allows", watts, ambient)
		}
		in.Current *= 1.01
		if got := kit.Must(Clamp(in))(t); !kit.Raised(got.List, "clamp-too-hot") {
			t.Errorf("more than %g W at %g °C raises nothing", watts, ambient)
		}
	}
}

// TestHeightOfAStore: half of 100 J lifts 250 g by 20.3943 m (h = η·E/(m·g), upper bound).
func TestHeightOfAStore(t *testing.T) {
	got := kit.Must(RaisedWeight(RaisedWeightInput{Mass: 0.25, Height: 20.3943}))(t)
	kit.Near(t, "η·E = m·g·h", got.Energy, 0.5*100, 3e-6)
}

// TestHorsepower: a horsepower raises 550 lb by a foot in a second, 745.6999 W
// (NIST SP 811, B.9).
func TestHorsepower(t *testing.T) {
	got := kit.Must(RaisedWeight(RaisedWeightInput{Mass: 550 * 0.45359237, Height: 0.3048}))(t)
	kit.Near(t, "NIST SP 811, B.9", got.Energy, 745.6999, 1e-7)
}

// TestTimeConstants: after one time constant 36.8 % of the voltage is left,
// after five 0.67 % (textbook).
func TestTimeConstants(t *testing.T) {
	for share, constants := range map[float64]float64{0.3679: 1, 0.1353: 2, 0.0498: 3, 0.0183: 4, 0.00674: 5} {
		got := kit.Must(SafeDischarge(SafeDischargeInput{Capacitance: 10, Voltage: 5, Resistance: 4, To: 5 * share}))(t)
		kit.Near(t, "time constants, textbook", got.Time/40, constants, 5e-4)
	}
}
