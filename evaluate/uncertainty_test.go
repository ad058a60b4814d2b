package evaluate

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// spreads are the standard uncertainties of a text's quantities, by name.
func spreads(t testing.TB, text string) map[string]report.Uncertainty {
	t.Helper()
	r := work(kit.Block("notes.md", text), nil)
	for _, e := range r.Errors {
		t.Fatalf("%s: %s\n%s", e.Summary, e.Hint, text)
	}
	all := map[string]report.Uncertainty{}
	for _, q := range r.Quantities {
		all[q.Name] = q.Uncertainty
	}
	return all
}

// linear is a random sheet y = Σ cᵢ·xᵢ, and what its uncertainty is by
// JCGM 100:2008, 5.1.2: √Σ(cᵢ·uᵢ)².
func linear(random *rand.Rand) (lines []string, u float64) {
	sum := "y = 3 V"
	for i := range 2 + random.IntN(5) {
		c, x, spread := random.NormFloat64(), 10*random.NormFloat64(), random.Float64()
		form, part := "±", 0.5
		if random.IntN(3) == 0 {
			form, part = "within", 1/math.Sqrt(3)
		}
		lines = append(lines, fmt.Sprintf("x%d = %.6f V %s %.6f V", i, x, form, spread))
		sum += fmt.Sprintf(" + %.6f * x%d", c, i)
		u = math.Hypot(u, c*spread*part)
	}
	return append(lines, sum), u
}

// TestLinear holds first order and drawing against the formula, whatever the
// order of the lines.
func TestLinear(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 40 {
		lines, want := linear(random)
		text := strings.Join(lines, "\n")
		if got := spreads(t, text)["y"].U; !kit.Within(got, want, 1e-5) {
			t.Errorf("first order %g, want %g\n%s", got, want, text)
		}
		random.Shuffle(len(lines), func(i, j int) { lines[i], lines[j] = lines[j], lines[i] })
		if got := spreads(t, strings.Join(lines, "\n"))["y"].U; !kit.Within(got, want, 1e-5) {
			t.Errorf("shuffled %g, want %g\n%s", got, want, text)
		}
		// 20,000 draws know a standard deviation to 0.5 %.
		if got := spreads(t, text+"\ndraws 20_000")["y"].U; !kit.Within(got, want, 0.03) {
			t.Errorf("drawn %g, want %g\n%s", got, want, text)
		}
	}
}

// TestSpreadsInvariant works the same problems in two systems of units: every
// uncertainty is the same, and so are degrees of freedom.
func TestSpreadsInvariant(t *testing.T) {
	for _, text := range []string{
		`m = {0.39689332375 kg ± 0.0141747615625 kg|14 oz ± 0.5 oz}
h = {45.72 m within 1.524 m|150 ft within 5 ft}
E = m * g_n * h
v = sqrt(2 * E / m)`,
		`T = {20 °C ± 0.5 °C|68 °F ± 0.9 °F}
w = awg(21, temperature: T)
R = w.resistance_per_length * {3.048 m ± 0.01524 m|10 ft ± 0.6 in}`,
		`d = observed({25.4 mm, 25.654 mm, 25.273 mm|1 in, 1.01 in, 0.995 in})
a = pi / 4 * d^2
b = slope([{0 s, 60 s, 120 s|0 min, 1 min, 2 min}], [1 V, 2.1 V, 2.9 V])`,
	} {
		one, other := spreads(t, oneSide(text, false)), spreads(t, oneSide(text, true))
		for name, s := range one {
			if o := other[name]; !kit.Within(s.U, o.U, 1e-8) || s.DegreesOfFreedom != o.DegreesOfFreedom && !kit.Within(s.DegreesOfFreedom, o.DegreesOfFreedom, 1e-8) {
				t.Errorf("%s: %v in SI, %v otherwise", name, s, o)
			}
		}
	}
}

// TestOneInput works one input by several ways: it stays one.
func TestOneInput(t *testing.T) {
	all := spreads(t, `C = 50 F ± 2 F
half = C / 2
other = C - half
whole = half + other
square = C^2
again = square / C
cube = if C > 40 F then C * C * C else 0 F^3
back = cube^(1/3)
f(x) = 2 * x
four = f(f(C))
picked = max([C, 10 F])`)
	for name, want := range map[string]float64{
		"half": 0.5, "other": 0.5, "whole": 1, "again": 1, "square": 100, "cube": 7500, "back": 1, "four": 4, "picked": 1,
	} {
		if got := all[name].U; !kit.Within(got, want, 1e-5) {
			t.Errorf("u(%s) is %g, want %g", name, got, want)
		}
	}
}

// charging and flying are the two simulations that a journal calls, with inputs
// left open.
const charging = `c = coil(87, awg(21), 10 mm, 9 mm, 8 mm)
gen = generator(c, 9, 12, magnet: magnet_disc(20 mm, 6 mm, %s), radius: 45 mm, gap: 10 mm, phases: 3, diode_drop: 0.4 V)
store = pack(capacitor(%s, 2.7 V, resistance: %s), series: 5)
ride = hand_charge(gen, store, 12 V, 75 rpm, 12, power_limit: %s, torque_limit: 8 N·m)
`

const flying = `plane = airframe(mass: %s, span: 1.10 m, area: 0.165 m^2, CD0: %s, oswald: 0.78, CL_max: 1.1)
train = drive(motor(Kv: 1000 rpm/V, resistance: 0.2 Ω, idle_current: 0.35 A), propeller(diameter: 0.2 m, CT0: 0.105, CP0: 0.048, zero_thrust_J: 0.75), speed_control(resistance: 20 mΩ, cut_off: 5.5 V), lead_resistance: 15 mΩ)
cells = pack(capacitor(%s, 2.7 V, resistance: 10 mΩ), series: 5)
hop = flight(plane, train, cells, [flight_phase(climb_rate: 1 m/s, until_height: 40 m), flight_phase(climb_rate: 0 m/s)], start_voltage: %s, radio: bec(voltage: 4.2 V, current: 0.15 A, dropout: 0.3 V))
`

// TestThroughSimulations holds the effect of every input of a simulation
// against a wide difference quotient: its steps and tolerances do not show.
func TestThroughSimulations(t *testing.T) {
	for _, c := range []struct {
		text, of string
		values   []float64
		unit     []string
	}{
		{charging, "ride.time", []float64{1.28, 100, 10, 20}, []string{"T", "F", "mΩ", "W"}},
		{flying, "hop.total_time", []float64{0.39, 0.035, 100, 12.4}, []string{"kg", "", "F", "V"}},
	} {
		for i := range c.values {
			const part = 0.01
			plain := func(k int, factor float64) any {
				return strings.TrimSpace(fmt.Sprintf("%.9g %s", c.values[k]*factor, c.unit[k]))
			}
			at := func(factor float64) float64 {
				args := make([]any, len(c.values))
				for k := range args {
					args[k] = plain(k, 1)
				}
				args[i] = plain(i, factor)
				return numbers(t, "notes", fmt.Sprintf(c.text, args...))[c.of]
			}
			args := make([]any, len(c.values))
			for k := range args {
				args[k] = plain(k, 1)
			}
			args[i] = "open"
			open := strings.TrimSpace(fmt.Sprintf("%.9g %s ± %.9g %s", c.values[i], c.unit[i], 2*part*c.values[i], c.unit[i]))
			got := spreads(t, "open = "+open+"\n"+fmt.Sprintf(c.text, args...))[c.of].U
			want := math.Abs(at(1+part)-at(1-part)) / 2 // as far as one u to either side
			// A thousandth of the effect, or what no clock shows.
			if math.Abs(got-want) > 0.001*want+1e-6*at(1) {
				t.Errorf("%s: input %d (%s) moves it by %g, a wide quotient by %g", c.of, i, open, got, want)
			}
		}
	}
}

// TestBudgetShares wants the shares of a budget to be one together, and the parts to
// be the whole.
func TestBudgetShares(t *testing.T) {
	text := "a = 10 V ± 0.1 V\nb = 3 V within 0.2 V\nlog = [1 V, 1.2 V, 1.1 V]\nc = observed(log)\nd = observed(log * 2 + [0 V, 0.1 V, 0 V])\ny = a * b / c + d\nbudget y"
	r := work(kit.Block("notes.md", text), nil)
	table := r.Blocks[0].Tables[0]
	sum, percent := 0.0, 0.0
	last := len(table.Columns) - 1
	for i, row := range table.Rows {
		if row[last] == "" {
			continue
		}
		u := table.Values[i][last-1].(float64)
		sum += u * u
		var p float64
		if _, err := fmt.Sscanf(row[last], "%g", &p); err != nil {
			t.Fatal(row)
		}
		percent += p
	}
	y := kit.Quantity(r, "y")
	if !kit.Within(math.Sqrt(sum), y.Uncertainty.U, 1e-9) || math.Abs(percent-100) > 1 {
		t.Errorf("parts %g of %g, %g %%\n%v", math.Sqrt(sum), y.Uncertainty.U, percent, table.Rows)
	}
}

// closed is a page of that many closed-form statements, with an uncertain input
// in every third.
func closed(statements int) string {
	var b strings.Builder
	b.WriteString("y0 = 1 V ± 0.01 V\n")
	for i := 1; i < statements; i++ {
		switch i % 3 {
		case 0:
			fmt.Fprintf(&b, "y%d = %d V ± 0.1 V\n", i, i)
		case 1:
			fmt.Fprintf(&b, "y%d = sqrt(y%d^2 + (0.3 V)^2)\n", i, i-1)
		default:
			fmt.Fprintf(&b, "y%d = y%d * 1.01 + y%d / 3\n", i, i-1, i/3)
		}
	}
	return b.String()
}

// TestSameOnAnyCores works a drawn page on one core and on several.
func TestSameOnAnyCores(t *testing.T) {
	s := kit.Block("notes.md", closed(12)+"budget y11\nlimit y11 <= 20 V\ndraws 50_000")
	before := runtime.GOMAXPROCS(1)
	one := work(s, nil)
	runtime.GOMAXPROCS(3)
	three := work(s, nil)
	runtime.GOMAXPROCS(before)
	if !reflect.DeepEqual(one, three) {
		t.Error("one core and three come to different pages")
	}
}

// TestCancelled stops in the middle of drawing, soon, and says so; no number is
// left that was not worked.
func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	timer := time.AfterFunc(50*time.Millisecond, cancel)
	defer timer.Stop()
	began := time.Now()
	r := Work(ctx, kit.Block("notes.md", closed(60)+"draws 10_000_000"), nil)
	if took := time.Since(began); took > 5*time.Second {
		t.Errorf("stopped after %v", took)
	}
	said := strings.Join(r.Blocks[0].Notes, "\n")
	if !strings.Contains(said, "could not be made") {
		t.Errorf("says %q", said)
	}
	for _, q := range r.Quantities {
		if q.Uncertainty.Drawn {
			t.Errorf("%s is %s, from draws that were cut short", q.Name, q.Shown)
		}
	}
}

// BenchmarkDraws draws 100,000 times over 30 closed-form statements. What a
// draw allocates must not grow with their number.
func BenchmarkDraws(b *testing.B) {
	for _, n := range []int{10_000, 100_000, 1_000_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := kit.Block("notes.md", closed(30)+fmt.Sprintf("draws %d", n))
			b.ReportAllocs()
			for b.Loop() {
				if r := work(s, nil); len(r.Errors) > 0 {
					b.Fatal(r.Errors)
				}
			}
		})
	}
}

// BenchmarkBudget carries 20 uncertain inputs through a charge and a flight.
func BenchmarkBudget(b *testing.B) {
	var open strings.Builder
	for i := range 12 {
		fmt.Fprintf(&open, "k%d = 1 ± 0.01\n", i)
	}
	text := open.String() + fmt.Sprintf(charging, "1.28 T ± 2 %", "100 F ± 2 %", "10 mΩ ± 10 %", "54 W ± 3 %")
	text += fmt.Sprintf(flying, "0.39 kg ± 1 %", "0.035 ± 5 %", "100 F ± 2 %", "12.4 V ± 0.5 %")
	text += "charge_time = ride.time * k0 * k1 * k2 * k3 * k4 * k5\nair_time = hop.total_time * k6 * k7 * k8 * k9 * k10 * k11\nbudget charge_time\nbudget air_time"
	s := kit.Block("notes.md", text)
	b.ReportAllocs()
	for b.Loop() {
		if r := work(s, nil); len(r.Errors) > 0 {
			b.Fatal(r.Errors)
		}
	}
}

// TestTruthHasNoInterval wants no word of a truth whose input may turn it.
func TestTruthHasNoInterval(t *testing.T) {
	r := work(kit.Block("notes.md", "V = 5 V ± 0.1 V\nhigh = V > 5.05 V\nroot = sqrt(V - 4.95 V)"), nil)
	said := strings.Join(r.Blocks[0].Notes, "\n")
	if strings.Contains(said, "`high`") || !strings.Contains(said, "`root`") {
		t.Error(said)
	}
}
