package evaluate

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// same are problems written twice, in SI and in the units of an inch-pound
// bench: {SI | inch-pound}. The factors between them are exact: 1 in = 25.4 mm,
// 1 lb = 0.45359237 kg, 1 lbf = 1 lb · 9.80665 m/s² (NIST SP 811), 1 cmil the
// area of a round of 1 mil.
var same = []struct{ name, text string }{
	{"coil", `w = awg(21, temperature: {40 °C|104 °F})
c = coil(87, w, {0.0127 m|0.5 in}, {8.89 mm|350 mil}, {7.62 mm|0.3 in}, temperature: {40 °C|104 °F}, current: {2 A|2000 mA})
cmil [mm^2] = {0.506707479097498 mm^2|1000 cmil}
R [Ω] = {53.34 m|175 ft} * w.resistance_per_length`},
	{"wire", `w = wire({0.000508 m|20 mil}, temperature: {60 °C|140 °F})
l = lead(wire: w, length: {0.1524 m|6 in}, current: 5 A, temperature: {60 °C|140 °F})`},
	{"magnets", `disc = magnet_disc({19.05 mm|0.75 in}, {6.35 mm|0.25 in}, {1.28 T|12.8 kG}, gap: {9.525 mm|0.375 in}, temperature: {50 °C|122 °F})
block = magnet_block({50.8 mm|2 in}, {25.4 mm|1 in}, {12.7 mm|0.5 in}, 1.3 T, distance: {6.35 mm|0.25 in})
ring = magnet_ring({31.75 mm|1.25 in}, {12.7 mm|0.5 in}, {6.35 mm|0.25 in}, 1.3 T, distance: {7.62 mm|0.3 in})
pull = rotor_pull(disc, 12, {44.45 mm|1.75 in}, {9.525 mm|0.375 in})
hold = magnet_hold({14.1747615625 g|0.5 oz}, {322.58 mm^2|0.5 in^2}, {44.45 mm|1.75 in}, {15 rev/s|900 rpm}, strength: {4.826330105217853 MPa|700 psi})`},
	{"pack", `cell = capacitor(50 F, 2.7 V, resistance: 16 mΩ, mass: {0.0141747615625 kg|0.5 oz}, thermal_resistance: 30 K/W)
store = pack(cell, series: 4)
warm = cell_heating(cell, current: 5 A, time: {90 s|1.5 min}, allowed_rise: {10 K|68 °F - 50 °F})
life = life_factor(temperature: {35 °C|95 °F}, rated_temperature: {65 °C|149 °F}, voltage: 2.3 V, rated_voltage: 2.7 V, voltage_step: 0.2 V)
E_up = raised_weight(mass: {0.45359237 kg|1 lb}, height: {45.72 m|150 ft})
E_strip = rubber(mass: {14.1747615625 g|0.5 oz}, specific_energy: {11956.26768 J/kg|4000 ft·lbf/lb})
E_air = compressed_air(volume: {0.49161192 L|30 in^3}, pressure: {551580.5834534689 Pa|80 psi})`},
	{"airframe", `plane = airframe(mass: {0.39689332375 kg|14 oz}, span: {1.0922 m|43 in}, area: {0.16516096 m^2|256 in^2}, CD0: 0.035, oswald: 0.78, CL_max: 1.1)
far = best_glide(plane)
slow = least_sink(plane)
down = glide(plane, height: {48.768 m|160 ft}, wind: {-1.78816 m/s|-4 mph})
round = turning(plane, bank: {0.5235987755982988 rad|30°})
level = level_flight(plane, {8.9408 m/s|20 mph}, thrust_power: {5.4232717933256 J/s|4 ft·lbf/s})
throw = hand_launch(plane, throw_speed: {6.7056 m/s|15 mph}, headwind: {2.2352 m/s|5 mph}, static_thrust: {2.22411080763025 N|0.5 lbf})
root = spar(plane, wing_mass: {113.39809250 g|4 oz}, speed: {17.8816 m/s|40 mph}, diameter: {6.35 mm|0.25 in}, bore: {3.81 mm|0.15 in}, strength: {413.6854375901017 MPa|60000 psi})`},
	{"propeller", `prop = propeller(diameter: {0.2032 m|8 in}, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
at = propeller_point(prop, {100 rev/s|6000 rpm}, airspeed: {7.15264 m/s|16 mph})
m = motor(Kv: {104.71975511965977 rad/(s·V)|1000 rpm/V}, resistance: 0.2 Ω, idle_current: 0.35 A)
train = drive(m, prop, speed_control(resistance: 20 mΩ), lead_resistance: 15 mΩ)
start = operating_point(train, 12.4 V, airspeed: {7.15264 m/s|16 mph}, source_resistance: 50 mΩ)
disc = actuator_disc(diameter: {0.2032 m|8 in}, thrust: {2.22411080763025 N|0.5 lbf}, airspeed: {7.15264 m/s|16 mph})
stopped = propeller_drag({0.2032 m|8 in}, solidity: 0.1)`},
	{"balance", `stands = balance([part({113.3980925 g|4 oz}, {177.8 mm|7 in}), part({56.69904625 g|2 oz}, {63.5 mm|2.5 in})], mean_chord: {0.1524 m|6 in}, leading_edge: {0.0889 m|3.5 in})
shift = move_part(stands, wanted: {0.127 m|5 in}, part_mass: {56.69904625 g|2 oz})
chord = mean_chord([panel({0.3556 m|14 in}, root: {0.1778 m|7 in}, tip: {0.1524 m|6 in}), panel({0.2032 m|8 in}, root: {0.1524 m|6 in}, tip: {0.1016 m|4 in}, sweep: {0.0254 m|1 in})])
tail = tail_volume(area: {0.0258064 m^2|40 in^2}, arm: {0.4826 m|19 in}, wing_area: {0.16516096 m^2|256 in^2}, chord: {0.1524 m|6 in})
flap = hinge_moment(speed: {15.6464 m/s|35 mph}, area: {0.00516128 m^2|8 in^2}, chord: {0.03175 m|1.25 in}, deflection: 20°)`},
	{"air", `here = air({1219.2 m|4000 ft}, temperature_offset: {10 K|68 °F - 50 °F})
Re = reynolds({8.9408 m/s|20 mph}, {152.4 mm|6 in}, density: here.density, viscosity: here.viscosity)`},
	{"hand_charge", `c = coil(87, awg(21), {0.01016 m|0.4 in}, {0.00889 m|0.35 in}, {0.00762 m|0.3 in})
m = magnet_disc({0.01905 m|0.75 in}, {0.00635 m|0.25 in}, 1.28 T)
gen = generator(c, 9, 12, magnet: m, radius: {0.04572 m|1.8 in}, gap: {0.010414 m|0.41 in}, phases: 3, diode_drop: 0.4 V)
store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
top = charge_ceiling(gen, store, {1.25 rev/s|75 rpm}, 12)
arm = crank_load({54.232717933256 W|40 ft·lbf/s}, {1.25 rev/s|75 rpm}, length: {0.1524 m|6 in})
train = gear_train({1 rev/s|60 rpm}, {8.1349076899884 N·m|6 ft·lbf}, [60, 48], [12, 10])
ride = hand_charge(gen, store, 12 V, {1.25 rev/s|75 rpm}, 12, power_limit: {54.232717933256 W|40 ft·lbf/s}, torque_limit: {8.1349076899884 N·m|6 ft·lbf})`},
	{"flight", `plane = airframe(mass: {0.39689332375 kg|14 oz}, span: {1.0922 m|43 in}, area: {0.16516096 m^2|256 in^2}, CD0: 0.035, oswald: 0.78, CL_max: 1.1)
m = motor(Kv: {104.71975511965977 rad/(s·V)|1000 rpm/V}, resistance: 0.2 Ω, idle_current: 0.35 A)
prop = propeller(diameter: {0.2032 m|8 in}, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
train = drive(m, prop, speed_control(resistance: 20 mΩ, cut_off: 5.5 V), lead_resistance: 15 mΩ)
store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
radio = bec(voltage: 4.2 V, current: 0.15 A, dropout: 0.3 V)
plan = [flight_phase(climb_rate: {1.016 m/s|200 ft/min}, until_height: {45.72 m|150 ft}), flight_phase(climb_rate: 0 m/s)]
hop = flight(plane, train, store, plan, start_voltage: 12.4 V, radio: radio, wind: {-1.78816 m/s|-4 mph})
go = go_voltage(plane, train, store, height: {45.72 m|150 ft}, margin: {30 s|0.5 min}, radio: radio)
climbs = minimum_climb_voltage(plane, train, climb_rate: {1.016 m/s|200 ft/min}, source_resistance: 50 mΩ)
drag = drag_from_glides([{6.7056 m/s|15 mph}, {8.9408 m/s|20 mph}, {11.176 m/s|25 mph}], [{9.144 m|30 ft}, {9.144 m|30 ft}, {9.144 m|30 ft}], [15 s, 10 s, 6 s], mass: {0.39689332375 kg|14 oz}, area: {0.16516096 m^2|256 in^2}, span: {1.0922 m|43 in})`},
}

// oneSide is the text with one side of each pair.
func oneSide(text string, inches bool) string {
	var b strings.Builder
	for {
		start := strings.IndexByte(text, '{')
		if start < 0 {
			return b.String() + text
		}
		end := start + strings.IndexByte(text[start:], '}')
		si, inch, _ := strings.Cut(text[start+1:end], "|")
		b.WriteString(text[:start])
		if inches {
			b.WriteString(inch)
		} else {
			b.WriteString(si)
		}
		text = text[end+1:]
	}
}

// TestUnitsInvariant works the same problems in both systems: every number of
// every answer is the same.
func TestUnitsInvariant(t *testing.T) {
	for _, c := range same {
		si, inch := numbers(t, c.name, oneSide(c.text, false)), numbers(t, c.name, oneSide(c.text, true))
		if len(si) != len(inch) || len(si) < 4 {
			t.Errorf("%s: %d numbers in SI, %d in inches and pounds", c.name, len(si), len(inch))
		}
		for name, want := range si {
			got, ok := inch[name]
			if !ok || math.Abs(got-want) > 1e-9*math.Abs(want) {
				t.Errorf("%s: %s is %.12g in SI, %.12g in inches and pounds", c.name, name, want, got)
			}
		}
	}
}

// numbers works a text and is all its numbers, by name.
func numbers(t *testing.T, name, text string) map[string]float64 {
	t.Helper()
	r := work(kit.Block(name+".md", text), nil)
	for _, e := range r.Errors {
		t.Errorf("%s: %s | %s\n%s", name, e.Summary, e.Hint, text)
	}
	found := map[string]float64{}
	for _, q := range r.Quantities {
		if v, ok := q.Value.(float64); ok && q.State == report.Evaluated {
			found[q.Name] = v
		}
	}
	return found
}

// TestUnitsInvariantEnough counts the functions that the problems call.
func TestUnitsInvariantEnough(t *testing.T) {
	all := ""
	for _, c := range same {
		all += c.text
	}
	for _, name := range []string{"awg", "coil", "wire", "lead", "magnet_disc", "magnet_block", "magnet_ring", "rotor_pull", "pack", "cell_heating",
		"airframe", "glide", "turning", "propeller", "operating_point", "balance", "mean_chord", "air", "hand_charge", "flight"} {
		if !strings.Contains(all, fmt.Sprintf("= %s(", name)) {
			t.Errorf("no problem calls %s", name)
		}
	}
}
