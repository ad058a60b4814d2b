package evaluate

import (
	"math"
	"testing"
)

// facts are what the trade holds of such builds (common practice, no source),
// worked as a builder would write them.
var facts = []struct {
	says, text, name string
	want, within     float64 // in SI; relative
}{
	{"a 100 F cell at 3 V holds 0.125 Wh", "E = stored_energy(100 F, 3 V)", "E", 0.125 * 3600, 1e-12},
	{"six of them in series make 16.7 F", "p = pack(capacitor(100 F, 3 V), series: 6)", "p.capacitance", 16.7, 3e-3},
	{"six of them in series bear 18 V", "p = pack(capacitor(100 F, 3 V), series: 6)", "p.rated_voltage", 18, 1e-12},
	{"six of them in series hold 0.75 Wh", "p = pack(capacitor(100 F, 3 V), series: 6)", "p.energy", 0.75 * 3600, 1e-12},
	{"a lithium cell of like size holds about 10 Wh", "b = battery(2700 mAh, 3.7 V, 46 g)", "b.energy", 36000, 0.01},
	{"a lithium cell of like size holds about eighty times as much", `b = battery(2700 mAh, 3.7 V, 46 g)
times = b.energy / stored_energy(100 F, 3 V)`, "times", 80, 0.02},
	{"2 series × 4 parallel of eight coils double the voltage of one", eight + "times = two.phase_constant / one.emf_constant", "times", 2, 1e-9},
	{"2 series × 4 parallel of eight coils halve the resistance of one", eight + "times = two.phase_resistance / c.resistance", "times", 0.5, 1e-9},
	{"such a pack that falls 0.01 V/s feeds a radio about 0.17 A", "I = current_from_slope(16.7 F, 0.01 V/s)", "I", 0.17, 0.02},
	{"and leaves about 150 s between 6.5 V and 5 V", `I = current_from_slope(16.7 F, 0.01 V/s)
p = pack(capacitor(100 F, 3 V), series: 6)
left = hold_up_time(p, from: 6.5 V, to: 5 V, current: I)`, "left", 150, 0.02},
}

// eight is a machine of eight like coils, joined in two ways.
const eight = `c = coil(60, awg(21), 10 mm, 9 mm, 8 mm)
one = generator(c, 8, 8, emf_constant: 0.05 V·s/rad, series: 8)
two = generator(c, 8, 8, emf_constant: 0.05 V·s/rad, series: 2)
`

func TestFactsOfTheTrade(t *testing.T) {
	for _, f := range facts {
		found := numbers(t, f.says, f.text)
		got, ok := found[f.name]
		if !ok || math.Abs(got-f.want) > f.within*f.want {
			t.Errorf("%s: got %.6g, want %.6g within %g (common practice, no source); %v", f.says, got, f.want, f.within, found)
		}
	}
}

// TestChargeBuysFlight: a hand that charges such a pack in about two minutes
// buys just under two minutes of powered flight (common practice, no source;
// an order of magnitude), at a share of its work that can be believed.
func TestChargeBuysFlight(t *testing.T) {
	found := numbers(t, "chain", `c = coil(87, awg(21), 10 mm, 9 mm, 8 mm, temperature: 40 °C)
gen = generator(c, 9, 12, magnet: magnet_disc(20 mm, 5 mm, 1.28 T), radius: 45 mm, gap: 10 mm, phases: 3, diode_drop: 0.4 V)
store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
ride = hand_charge(gen, store, 12.5 V, 75 rpm, 12, gear_efficiency: 0.85, power_limit: 45 W, torque_limit: 8 N·m)
plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
m = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
prop = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
train = drive(m, prop, speed_control(resistance: 20 mΩ, cut_off: 5.5 V), lead_resistance: 15 mΩ)
radio = bec(voltage: 4.2 V, current: 0.15 A, dropout: 0.3 V)
plan = [flight_phase(climb_rate: 1 m/s, until_height: 50 m), flight_phase(climb_rate: 0 m/s)]
hop = flight(plane, train, store, plan, start_voltage: 12.4 V, radio: radio)`)
	charge, flown, share := found["ride.time"], found["hop.powered_time"], found["ride.efficiency"]
	if charge < 40 || charge > 240 || flown < 40 || flown > 240 {
		t.Errorf("%g s of cranking buy %g s of motor, want about two minutes each", charge, flown)
	}
	if share < 0.2 || share > 0.9 {
		t.Errorf("%g of the arm's work is stored", share)
	}
}
