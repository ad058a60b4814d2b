package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// schottky is an invented diode through 0.28 V at 0.3 A and 0.36 V at 3 A.
func schottky(t testing.TB) *DiodeLaw {
	d, err := Diode(DiodeInput{LowCurrent: 0.3, LowDrop: 0.28, HighCurrent: 3, HighDrop: 0.36, Resistance: 5e-3})
	if err != nil {
		t.Fatal(err)
	}
	return &d.DiodeLaw
}

func TestDiodeThroughReadings(t *testing.T) {
	for _, c := range []DiodeInput{{0.3, 0.28, 3, 0.36, 0}, {0.3, 0.28, 3, 0.36, 5e-3}, {1e-3, 0.65479072, 120.1037e-6, 0.6, 0}, {0.1, 0.02, 1, 0.09, 0}} {
		if c.LowCurrent > c.HighCurrent {
			c.LowCurrent, c.LowDrop, c.HighCurrent, c.HighDrop = c.HighCurrent, c.HighDrop, c.LowCurrent, c.LowDrop
		}
		d := kit.Must(Diode(c))(t)
		m := Machine{DiodeSaturation: d.Saturation, DiodeScale: d.Scale, DiodeResistance: d.Resistance}
		kit.Near(t, "first reading", m.forward(c.LowCurrent), c.LowDrop, 1e-10)
		kit.Near(t, "second reading", m.forward(c.HighCurrent), c.HighDrop, 1e-10)
	}
	// Shockley's law, 1e-14 A and kT/q at 300 K, from two of its published points.
	d := kit.Must(Diode(DiodeInput{LowCurrent: 120.1037e-6, LowDrop: 0.6, HighCurrent: 1e-3, HighDrop: 0.65479072}))(t)
	kit.Near(t, "kT/q", d.Scale, 25.852e-3, 1e-5)
	kit.Near(t, "Is", d.Saturation, 1e-14, 3e-4)
	for _, bad := range []DiodeInput{{3, 0.28, 0.3, 0.36, 0}, {0.3, 0.36, 3, 0.28, 0}, {0.3, 0.03, 3, 0.4, 0}, {0.3, 0.28, 3, 0.36, 1}} {
		if _, err := Diode(bad); err == nil {
			t.Errorf("%v is no diode", bad)
		}
	}
}

// carried is what flows through r and a diode of the law under a voltage.
func (m *Machine) carried(r, volts float64) float64 {
	if volts <= 0 {
		return 0
	}
	w := m.DiodeScale * math.Log1p(volts/(r*m.DiodeSaturation))
	for range 40 {
		i := m.DiodeSaturation * math.Expm1(w/m.DiodeScale)
		path := r + m.DiodeResistance
		step := (volts - w - i*path) / (1 + path*(i+m.DiodeSaturation)/m.DiodeScale)
		if w += step; math.Abs(step) < 1e-13*w {
			break
		}
	}
	return m.DiodeSaturation * math.Expm1(w/m.DiodeScale)
}

// instant is current and power of a star at an instant, the star's point found
// by bisection so that what goes out by the upper diodes comes in by the lower.
func (m *Machine) instant(e [3]float64, v float64) (current, power float64) {
	legs := func(minus float64) (up, down, p float64) {
		for _, x := range e {
			a, b := m.carried(m.PhaseResistance, x-minus-v), m.carried(m.PhaseResistance, minus-x)
			up, down, p = up+a, down+b, p+x*(a-b)
		}
		return up, down, p
	}
	lo, hi := -60.0, 60.0
	for range 50 {
		mid := (lo + hi) / 2
		if up, down, _ := legs(mid); up > down {
			lo = mid
		} else {
			hi = mid
		}
	}
	current, _, power = legs(lo)
	return current, power
}

// turned is the mean over a turn, stepped through at so many instants of a
// sixth of it, of a star or of one phase with its two diodes.
func (m *Machine) turned(v, rotation float64, n int) (mean, power float64) {
	e := m.PhaseConstant * rotation
	for k := range n {
		a := (float64(k) + 0.5) / float64(n)
		var i, p float64
		if m.star() {
			a *= math.Pi / 3
			i, p = m.instant([3]float64{e * math.Cos(a), e * math.Cos(a-2*math.Pi/3), e * math.Cos(a+2*math.Pi/3)}, v)
		} else {
			x := e * math.Sin(a*math.Pi)
			i = m.carried(m.PhaseResistance/2, (x-v)/2) // half the circuit has one of the two diodes
			p = i * x
		}
		mean, power = mean+i/float64(n), power+p/float64(n)
	}
	return mean, power
}

// TestDiodeLawInTime steps the circuit through a turn with the law itself.
func TestDiodeLawInTime(t *testing.T) {
	for _, phases := range []int{1, 3} {
		g := lapwing(t, func(in *GeneratorInput) {
			in.Diode, in.Phases, in.LeadResistance, in.Coil.Inductance = schottky(t), phases, 0, 0
		}).Machine
		for _, share := range []float64{0.05, 0.3, 0.6, 0.8, 0.95} {
			const rotation = 90
			v := share * g.ceiling(rotation)
			d := g.into(v, rotation, 0, new(track))
			mean, power := g.turned(v, rotation, 120)
			t.Logf("%d phases at %.2f of the ceiling: %.4f A by the straight law, %.4f A in time; %.4f W, %.4f W", phases, share, d.mean, mean, d.power, power)
			tolerance := 1e-3
			if share > 0.9 {
				tolerance = 7e-3
			}
			kit.Near(t, "mean", d.mean, mean, tolerance)
			kit.Near(t, "power", d.power, power, tolerance)
			kit.Near(t, "sum", d.power, v*d.mean+d.copper+d.diodes+d.direct, 1e-9)
		}
	}
}

// TestDiodeLawCharge charges a store in time with the law itself.
func TestDiodeLawCharge(t *testing.T) {
	in := lapwingCharge(t)
	in.Generator = lapwing(t, func(g *GeneratorInput) { g.Diode, g.LeadResistance, g.Coil.Inductance = schottky(t), 0, 0 }).Machine
	in.Store.Resistance, in.Store.LeakageResistance, in.PowerLimit, in.TorqueLimit = 0, nil, nil, nil
	h := kit.Must(HandCharge(t.Context(), in))(t)
	kit.Near(t, "energy sum", h.Work, h.Stored+h.Copper+h.Leads+h.StoreR+h.Diodes+h.Gears+h.Drag+h.Eddy+h.Leakage, 1e-8)
	clock, n := 0.0, 60
	for i := range n {
		v := in.To * (float64(i) + 0.5) / float64(n)
		mean, _ := in.Generator.turned(v, in.Cadence*in.Gearing, 30)
		clock += in.To / float64(n) * in.Store.Capacitance / mean
	}
	kit.Near(t, "time", h.Time, clock, 3e-3)
	kit.Near(t, "the ceiling is the emf's", h.Ceiling, in.Generator.CeilingConstant*in.Cadence*in.Gearing, 1e-12)
}

// TestDiodeLawLimits: a law that hardly bends is a fixed drop, and the arm's
// limits hold with any law.
func TestDiodeLawLimits(t *testing.T) {
	in := lapwingCharge(t)
	fixed := kit.Must(HandCharge(t.Context(), in))(t)
	in.Generator.DiodeSaturation = 1e-290
	in.Generator.DiodeScale = 0.4 / (math.Log(2) - math.Log(1e-290))
	stiff := kit.Must(HandCharge(t.Context(), in))(t)
	kit.Near(t, "time", stiff.Time, fixed.Time, 5e-3)
	law := schottky(t)
	in.Generator.DiodeSaturation, in.Generator.DiodeScale, in.Generator.DiodeResistance = law.Saturation, law.Scale, law.Resistance
	h := kit.Must(HandCharge(t.Context(), in))(t)
	kit.Near(t, "energy sum", h.Work, h.Stored+h.Copper+h.Leads+h.StoreR+h.Diodes+h.Gears+h.Drag+h.Eddy+h.Leakage, 1e-8)
	if h.PeakTorque > 8*(1+1e-9) || h.PeakPower > 45*(1+1e-9) {
		t.Errorf("a limit is passed: %.12g N·m, %.12g W", h.PeakTorque, h.PeakPower)
	}
	in.Generator = lapwing(t, func(g *GeneratorInput) { g.Diode, g.Phases, g.Rectifiers = law, 1, "each" }).Machine
	in.To = 8
	each := kit.Must(HandCharge(t.Context(), in))(t)
	kit.Near(t, "energy sum, each", each.Work, each.Stored+each.Copper+each.Leads+each.StoreR+each.Diodes+each.Gears+each.Drag+each.Eddy+each.Leakage, 1e-8)
}

func BenchmarkHandChargeDiodeLaw(b *testing.B) {
	in := lapwingCharge(b)
	law := schottky(b)
	in.Generator.DiodeSaturation, in.Generator.DiodeScale, in.Generator.DiodeResistance = law.Saturation, law.Scale, law.Resistance
	b.ReportAllocs()
	for b.Loop() {
		if _, err := HandCharge(b.Context(), in); err != nil {
			b.Fatal(err)
		}
	}
}
