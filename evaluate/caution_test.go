package evaluate

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// raises reports whether a text raises a caution.
func raises(t *testing.T, text, id string) bool {
	t.Helper()
	r := kit.Clean(t, work(kit.Block("notes.md", text), nil), text)
	return slices.ContainsFunc(r.Cautions, func(c report.Caution) bool { return c.ID == id })
}

// cranked charges a pack with Lapwing's coils to a voltage at a cadence.
func cranked(to, cadence, rest string) string {
	return `c = coil(87, awg(21), 10 mm, 9 mm, 8 mm, temperature: 40 °C)
gen = generator(c, 9, 12, magnet: magnet_disc(20 mm, 5 mm, 1.28 T), radius: 45 mm, gap: 10 mm, phases: 3, diode_drop: 0.4 V)
store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
ride = hand_charge(gen, store, ` + to + `, ` + cadence + `, 12` + rest + `)`
}

// TestCautionsAtTheirBounds wants each caution over its bound, and not under it.
func TestCautionsAtTheirBounds(t *testing.T) {
	const cell = "cell = capacitor(50 F, 2.7 V, resistance: 16 mΩ)\n"
	flown := func(line string) string {
		head, _, _ := strings.Cut(lapwing, "calm = ")
		return head + "hop = flight(plane, train, store, " + line + ", radio: radio, radio_minimum: 4.5 V)"
	}
	for _, c := range []struct{ id, over, under string }{
		{"arm-power", "load = crank_load(36 W, 60 rpm)", "load = crank_load(35 W, 60 rpm)"},
		{"arm-power", "load = crank_load(71 W, 60 rpm, time: 30 s)", "load = crank_load(69 W, 60 rpm, time: 30 s)"},
		{"crank-torque", "load = crank_load(35 W, 60 rpm, pulse: 2.7)", "load = crank_load(35 W, 60 rpm, pulse: 2.6)"},
		{"capacitance-rises", cell + "t = hold_up_time(cell, from: 2.5 V, to: 1 V, current: 1 A)", cell + "E = stored_energy(cell.capacitance, 2.5 V)"},
		{"no-resistance", "t = hold_up_time(capacitor(50 F, 2.7 V), from: 2.5 V, to: 1 V, current: 1 A)", cell + "t = hold_up_time(cell, from: 2.5 V, to: 1 V, current: 1 A)"},
		{"no-sag-under-load", strings.Replace(flown("flight_phase(climb_rate: 1 m/s), start_voltage: 12.4 V"), "resistance: 10 mΩ, ", "", 1), flown("flight_phase(climb_rate: 1 m/s), start_voltage: 12.4 V")},
		{"delta-third-harmonic", "c = coil(60, awg(21), 10 mm, 9 mm, 8 mm)\ngen = generator(c, 9, 12, emf_constant: 0.05 V·s/rad, phases: 3, connection: \"delta\")",
			"c = coil(60, awg(21), 10 mm, 9 mm, 8 mm)\ngen = generator(c, 9, 12, emf_constant: 0.05 V·s/rad, phases: 3)"},
		// 0.6 of 10 mm × 8 mm is 234.5 wires of 0.20473 mm² (ASTM B258, gauge 24).
		{"fill-above-hand-winding", "c = coil(235, awg(24), 10 mm, 10 mm, 8 mm)", "c = coil(234, awg(24), 10 mm, 10 mm, 8 mm)"},
		{"readings-off-the-line", "fit = emf_constant_from_readings([100 rpm, 200 rpm, 300 rpm], [1 V, 2.3 V, 3 V])", "fit = emf_constant_from_readings([100 rpm, 200 rpm, 300 rpm], [1 V, 2.05 V, 3 V])"},
		{"store-drives-generator", `d = blocking_diode("brushed", 5 V, 1.2 Ω, emf: 4.9 V)`, `d = blocking_diode("brushed", 5 V, 1.2 Ω, emf: 5.1 V)`},
		{"store-drives-generator", `d = blocking_diode("brushed", 5 V, 1.2 Ω)`, `d = blocking_diode("bridge", 5 V, 1.2 Ω)`},
		// PLA softens from about 55 °C.
		{"coils-hot", cranked("12.5 V", "75 rpm", ", coil_temperature: 50 °C"), cranked("12.5 V", "75 rpm", ", coil_temperature: 20 °C, power_limit: 45 W")},
		{"winding-eddy-loss", cranked("12.5 V", "75 rpm", ", torque_limit: 0.6 N·m, drag: 0.25 N·m"), cranked("12.5 V", "75 rpm", ", torque_limit: 8 N·m, drag: 0.25 N·m")},
		{"height-not-reached", flown("[flight_phase(climb_rate: 1 m/s, until_height: 20 m), flight_phase(climb_rate: 1 m/s, until_height: 10 m)], start_voltage: 12.4 V"), flown("[flight_phase(climb_rate: 1 m/s, until_height: 20 m), flight_phase(climb_rate: 1 m/s, until_height: 30 m)], start_voltage: 12.4 V")},
		{"height-not-reached", flown("flight_phase(climb_rate: 1 m/s, until_height: 110 m), start_voltage: 12.4 V"), flown("flight_phase(climb_rate: 1 m/s, until_height: 80 m), start_voltage: 12.4 V")},
		{"launch-over-rating", flown("flight_phase(climb_rate: 1 m/s), start_voltage: 13.51 V"), flown("flight_phase(climb_rate: 1 m/s), start_voltage: 13.5 V")},
	} {
		if !raises(t, c.over, c.id) {
			t.Errorf("%s is not raised by\n%s", c.id, c.over)
		}
		if raises(t, c.under, c.id) {
			t.Errorf("%s is raised by\n%s", c.id, c.under)
		}
	}
}

// TestShortMargin flies with radios that fail sooner and sooner: a margin under
// half a minute is said to be short, one below nothing to be none.
func TestShortMargin(t *testing.T) {
	seen := map[string]int{}
	for least := 4.5; least < 5.5; least += 0.05 {
		text := strings.Replace(lapwing, "radio_minimum: 4.5 V", fmt.Sprintf("radio_minimum: %.2f V", least), 1)
		margin := kit.Number(kit.Clean(t, work(kit.Block("notes.md", text), nil), text), "calm.control_margin")
		want := "enough"
		switch {
		case margin < 0:
			want = "radio-fails-before-landing"
		case margin < 30:
			want = "control-margin-short"
		}
		seen[want]++
		for _, id := range []string{"control-margin-short", "radio-fails-before-landing"} {
			if got := raises(t, text, id); got != (id == want) {
				t.Errorf("%g s left: %s raised %v", margin, id, got)
			}
		}
	}
	if len(seen) != 3 {
		t.Errorf("not every kind of margin was flown: %v", seen)
	}
}
