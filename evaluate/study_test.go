package evaluate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
)

// rig is a sheet with simulations and arithmetic in which much can be varied.
const rig = `cell = capacitor(50 F, 2.7 V, resistance: 16 mΩ, mass: 12 g)
n = 5
V [V] = 11
I = 2 A
store = pack(cell, series: n)
E [J] = stored_energy(store.capacitance, V)
t [s] = store.capacitance * (V - 5 V - I * store.resistance) / I
plane = airframe(mass: 350 g + store.mass, span: 1.1 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.1)
slow = least_sink(plane)
glide_s [s] = 50 m / slow.sink
limit V / n <= 2.5 V`

// with is the rig with one line typed anew.
func with(name, value string) string {
	lines := strings.Split(rig, "\n")
	for i, l := range lines {
		if strings.HasPrefix(l, name+" ") {
			head, _, _ := strings.Cut(l, "=")
			lines[i] = head + "= " + value
		}
	}
	return strings.Join(lines, "\n")
}

// TestRowIsTyped holds each row of a sweep to a worksheet with that value typed
// in, numbers and broken limits.
func TestRowIsTyped(t *testing.T) {
	outputs := []string{"E", "t", "store.resistance", "store.mass", "slow.sink", "slow.speed", "glide_s"}
	for _, c := range []struct{ name, values, unit string }{
		{"n", "3 4 5 6 7 11", ""}, {"V", "6.25 8 9.1 12.5 13", ""}, {"I", "0.5 1.75 4", " A"},
	} {
		values := strings.Fields(c.values)
		list := strings.Join(values, c.unit+", ") + c.unit
		text := fmt.Sprintf("%s\ns = vary %s in [%s]: %s", rig, c.name, list, strings.Join(outputs, ", "))
		table := kit.Clean(t, work(kit.Block("notes.md", text), nil), text).Blocks[0].Tables[0]
		for i, v := range values {
			typed := kit.Clean(t, work(kit.Block("notes.md", with(c.name, v+c.unit)), nil), text)
			for k, name := range outputs {
				if got, want := table.Values[i][k+1], kit.Number(typed, name); got != want {
					t.Errorf("%s = %s: %s is %v in the row, %v typed in", c.name, v, name, got, want)
				}
			}
			broken := len(table.Values[i]) > len(outputs)+1 && table.Values[i][len(outputs)+1] != ""
			if broken == typed.Limits[0].Holds {
				t.Errorf("%s = %s: broken %v in the row, holds %v typed in", c.name, v, broken, typed.Limits[0].Holds)
			}
		}
	}
}

// TestAdjustPutBack types an adjust's answer in, and wants its target back. The
// targets come from values typed in before, so that there is an answer.
func TestAdjustPutBack(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		v := 6 + 7*random.Float64()
		for _, goal := range []string{"E", "t"} {
			target := kit.Number(work(kit.Block("notes.md", with("V", fmt.Sprint(v))), nil), goal)
			unit := map[string]string{"E": "J", "t": "s"}[goal]
			text := fmt.Sprintf("%s\nfound = adjust V in 5 to 20 until %s == %.17g %s", rig, goal, target, unit)
			found := kit.Number(kit.Clean(t, work(kit.Block("notes.md", text), nil), text), "found")
			back := kit.Number(work(kit.Block("notes.md", with("V", fmt.Sprintf("%.17g", found))), nil), goal)
			if math.Abs(back-target) > 1e-9*target {
				t.Errorf("V = %v gives %s = %v, asked for %v", found, goal, back, target)
			}
		}
	}
}

// TestFirstStep wants the first step at which the condition holds, and none
// before it.
func TestFirstStep(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 20 {
		bound := 300 + 2000*random.Float64()
		text := fmt.Sprintf("%s\nfound = adjust V in 2 to 60 by 0.5 until E >= %.17g J", rig, bound)
		found := kit.Number(kit.Clean(t, work(kit.Block("notes.md", text), nil), text), "found")
		at := func(v float64) float64 {
			return kit.Number(work(kit.Block("notes.md", with("V", fmt.Sprintf("%.17g", v))), nil), "E")
		}
		if at(found) < bound || at(found-0.5) >= bound {
			t.Errorf("E >= %v: %v", bound, found)
		}
	}
}

// TestTuneIsNotBeaten holds a tune against a sweep over the places that it tries
// at the least, 21 on each axis, or all that its steps allow: no row that keeps
// the limits is better. The functions have several valleys.
func TestTuneIsNotBeaten(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 15 {
		a, b, c := random.Float64(), 1+4*random.Float64(), 10*random.Float64()
		text := fmt.Sprintf(`x = 1
y = 2
f = (x - %g)^2 / 20 + sin(%g * x) + cos(%g * y) + 0.1 * y
limit x + y <= 13`, c, b, 1+a)
		for i, goal := range []string{"least", "most", "least", "most", "least", "most"} {
			steps := [][4]string{{"", " by 0.4", "0.5", "0.4"}, {"", "", "0.5", "0.4"}, {" by 0.25", " by 0.25", "0.25", "0.25"}}[i/2]
			tuned := fmt.Sprintf("%s\nbest = tune x in 0 to 10%s, y in 0 to 8%s for %s f\ngrid = vary x in 0 to 10 by %s, y in 0 to 8 by %s: f",
				text, steps[0], steps[1], goal, steps[2], steps[3])
			r := kit.Clean(t, work(kit.Block("notes.md", tuned), nil), tuned)
			x, y := kit.Number(r, "best.x"), kit.Number(r, "best.y")
			put := fmt.Sprintf("x = %.17g\ny = %.17g\n%s", x, y, strings.Join(strings.Split(text, "\n")[2:], "\n"))
			back := work(kit.Block("notes.md", put), nil)
			best := kit.Number(back, "f")
			if !back.Limits[0].Holds || math.IsNaN(best) {
				t.Errorf("%s: the best place x = %v, y = %v breaks the limit", text, x, y)
			}
			for _, row := range r.Blocks[0].Tables[0].Values {
				kept := len(row) < 4 || row[3] == ""
				if f := row[2].(float64); kept && (goal == "least" && f < best-1e-12 || goal == "most" && f > best+1e-12) {
					t.Errorf("%s, %s: %v at x = %v, y = %v beats %v at %v, %v", text, goal, f, row[0], row[1], best, x, y)
				}
			}
		}
	}
}

// TestStudiesInAnyOrder works the statements in other orders: what comes out is
// the same.
func TestStudiesInAnyOrder(t *testing.T) {
	lines := strings.Split(rig+`
s = vary n in 4 to 7: E, t, best
best = tune V in 6 to 20 for most E
needed = adjust I in 0.1 A to 5 A until t == 20 s
first = adjust n in 1 to 12 by 1 until slow.sink >= 0.5 m/s
limit needed >= 1 A
limit best <= 12 V
vary I in 1 A to 3 A by 1 A, V in [8, 14]: t`, "\n")
	random := rand.New(rand.NewPCG(7, 8))
	want := outcome(t, lines)
	for range 25 {
		shuffled := slices.Clone(lines)
		random.Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		if got := outcome(t, shuffled); got != want {
			t.Fatalf("in another order:\n%s\ngot\n%s\nwant\n%s", strings.Join(shuffled, "\n"), got, want)
		}
	}
}

// outcome is all that a sheet says, in alphabetical order.
func outcome(t *testing.T, lines []string) string {
	text := strings.Join(lines, "\n")
	r := kit.Clean(t, work(kit.Block("notes.md", text), nil), text)
	var all []string
	for _, q := range r.Quantities {
		all = append(all, fmt.Sprint(q.Name, q.Value, words(q.Note)))
	}
	for _, l := range r.Limits {
		all = append(all, fmt.Sprint(l.Text, l.Value, l.Holds))
	}
	for _, table := range r.Blocks[0].Tables {
		rows := ""
		for _, row := range table.Rows {
			rows += words(strings.Join(row, " | ")) + "\n"
		}
		all = append(all, fmt.Sprint(table.Columns, rows, table.Notes))
	}
	slices.Sort(all)
	return strings.Join(all, "\n")
}

// words puts the limits that a note names in alphabetical order: they come in
// that of the page.
func words(note string) string {
	parts := strings.FieldsFunc(note, func(r rune) bool { return r == '`' })
	slices.Sort(parts)
	return strings.Join(parts, "`")
}

// lapwing is the treadle, the drive and the flight of samples/lapwing.
const lapwing = `cell = capacitor(100 F, 2.7 V, resistance: 10 mΩ, mass: 20 g, leakage_resistance: 10 kΩ, tolerance: 3 %)
n_series = 5
V_full = 12.5 V
store = pack(cell, series: n_series)
disc = magnet_disc(diameter: 20 mm, thickness: 5 mm, remanence: 1.28 T, gap: 10 mm)
wire = awg(21, temperature: 40 °C)
coil = coil(turns: 87, wire: wire, opening: 10 mm, leg: 9 mm, height: 8 mm, temperature: 40 °C)
gen = generator(coil, coils: 9, poles: 12, magnet: disc, radius: 45 mm, gap: 10 mm, phases: 3, diode_drop: 0.40 V, lead_resistance: 8.2 mΩ)
treadle = 75 rpm
gearing = 12
ride = hand_charge(gen, store, to: V_full, cadence: treadle, gearing: gearing,
  gear_efficiency: 0.85, drag: 0.25 N·m, power_limit: 45 W, torque_limit: 8 N·m)
plane = airframe(mass: 390 g, span: 1.10 m, area: 0.165 m^2, CD0: 0.035, oswald: 0.78, CL_max: 1.10)
outrunner = motor(Kv: 1000 rpm/V, resistance: 0.20 Ω, idle_current: 0.35 A)
blades = propeller(diameter: 8 in, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75)
train = drive(outrunner, blades, speed_control(resistance: 20 mΩ, cut_off: 5.5 V), lead_resistance: 15 mΩ)
radio = bec(kind: "linear", voltage: 4.2 V, dropout: 0.3 V, current: 0.15 A)
V_launch = V_full - 0.1 V
calm = flight(plane, train, store, [flight_phase(climb_rate: 1 m/s, until_height: 50 m), flight_phase(climb_rate: 0 m/s)],
  start_voltage: V_launch, radio: radio, radio_minimum: 4.5 V)
`

// BenchmarkSweep works 200 rows through charging and flight; the whole of it is
// to stay under 400 ms on two cores.
func BenchmarkSweep(b *testing.B) {
	s := kit.Block("notes.md", lapwing+"vary V_full in 10.51 V to 12.5 V by 0.01 V: ride.time, calm.powered_time, calm.control_margin")
	if rows := len(work(s, nil).Blocks[0].Tables[0].Rows); rows != 200 {
		b.Fatalf("%d rows", rows)
	}
	b.ReportAllocs()
	for b.Loop() {
		if r := work(s, nil); len(r.Errors) > 0 {
			b.Fatal(r.Errors)
		}
	}
}

// BenchmarkFinding adjusts and tunes through charging and flight.
func BenchmarkFinding(b *testing.B) {
	for name, line := range map[string]string{
		"adjust": "V = adjust V_full in 8 V to 13 V until calm.powered_time == 100 s",
		"steps":  "n = adjust n_series in 4 to 12 by 1 until calm.powered_time >= 100 s",
		"tune":   "g = tune gearing in 8 to 20, treadle in 40 rpm to 90 rpm for least ride.time",
	} {
		b.Run(name, func(b *testing.B) {
			s := kit.Block("notes.md", lapwing+line)
			b.ReportAllocs()
			for b.Loop() {
				if r := work(s, nil); len(r.Errors) > 0 {
					b.Fatal(r.Errors)
				}
			}
		})
	}
}
