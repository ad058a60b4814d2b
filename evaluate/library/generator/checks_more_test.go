package generator

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"inkwing/evaluate/library/internal/kit"
)

// NIST Statistical Reference Datasets, NoInt1: a line through the origin
// (certified values from memory). The readings are no machine's.
func TestEmfConstantNoIntercept(t *testing.T) {
	const source = "NIST StRD, NoInt1, from memory"
	in := EmfConstantFromReadingsInput{Meter: "peak"}
	for i := range 11 {
		in.Rotation, in.Voltage = append(in.Rotation, float64(60+i)), append(in.Voltage, float64(130+i))
	}
	got, err := EmfConstantFromReadings(in)
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, source, got.EmfConstant, 2.07438016528926, 1e-13)
	kit.Near(t, source, got.Uncertainty, 0.0165289256198347, 1e-11)
	kit.Near(t, source, math.Sqrt(got.Covariance[0][0]), 0.0165289256198347, 1e-11)
	kit.Near(t, source, got.DegreesOfFreedom, 10, 0)
}

// A store that empties through an idle winding warms it by all that it held.
func TestBlockingDiodeStepped(t *testing.T) {
	v, heat, h := 5.0, 0.0, 0.002
	for range 60_000 {
		b, err := BlockingDiode(BlockingDiodeInput{Machine: "brushed", Voltage: v, Resistance: 1.25})
		if err != nil {
			t.Fatal(err)
		}
		heat += b.BackPower * h
		v -= b.BackCurrent * h / 5
	}
	kit.Near(t, "½·C·V²", heat, 5*25.0/2, 1e-3)
}

// The hand's force summed round a turn is the power.
func TestCrankLoadRoundATurn(t *testing.T) {
	c, err := CrankLoad(CrankLoadInput{Power: 60, Cadence: 75 * rpm, Length: 0.15, Pulse: 1})
	if err != nil {
		t.Fatal(err)
	}
	work, x, y := 0.0, 0.15, 0.0
	const n = 20_000
	for k := 1; k <= n; k++ {
		a := 2 * math.Pi * float64(k) / n
		nx, ny := 0.15*math.Cos(a), 0.15*math.Sin(a)
		work, x, y = work+c.Force*math.Hypot(nx-x, ny-y), nx, ny
	}
	kit.Near(t, "work of a turn over its time", work*75/60, 60, 1e-7)
}

// Wheels that roll without slip: the planet stands still where it meets the
// ring and carries its pin at half the speed at which it meets the sun.
func TestPlanetaryByRolling(t *testing.T) {
	for _, c := range []struct{ sun, ring float64 }{{18, 54}, {12, 60}, {31, 83}} {
		planet := (c.ring - c.sun) / 2
		pin := c.sun / 2 // speed of the pin when the sun turns at 1 rad/s
		got, err := PlanetaryGear(PlanetaryGearInput{Sun: c.sun, Ring: c.ring})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, "rolling", got.Ratio, (c.sun+planet)/pin, 1e-14)
	}
}

// The load line is what a row of images gives for faces far wider than the gap.
func TestIronGapFieldByImages(t *testing.T) {
	line, _ := IronGapField(IronGapFieldInput{Remanence: 1.3, Thickness: 20e-3, Gap: 13e-3, Recoil: 1})
	wide, _ := MagnetBlock(MagnetBlockInput{Length: 1, Width: 1, Magnetised: Magnetised{Thickness: 10e-3, Remanence: 1.3, Gap: new(13e-3), Warmth: Warmth{Temperature: roomKelvin}, Backing: new(10e-3)}})
	kit.Near(t, "images", wide.MidGapField, line.Field, 1e-4)
}

// Coulomb's law over the charged rings of both faces.
func TestRingBySurfaceCharge(t *testing.T) {
	face := func(z float64) float64 {
		return quad.Fixed(func(s float64) float64 { return s * z / math.Pow(s*s+z*z, 1.5) / 2 }, 5e-3, 15e-3, 60, nil, 0)
	}
	for _, z := range []float64{3e-3, 8e-3, 20e-3} {
		m, err := MagnetRing(MagnetRingInput{OuterDiameter: 30e-3, InnerDiameter: 10e-3, Magnetised: Magnetised{Thickness: 6e-3, Remanence: 1.3, Distance: z, Warmth: Warmth{Temperature: roomKelvin}}})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, "ring", m.Field, 1.3*(face(z)-face(z+6e-3)), 1e-9)
	}
}

// TestWindingFactorByPhasors tries every third of the teeth, and either sense
// of each coil, and keeps the longest sum of their phasors.
func TestWindingFactorByPhasors(t *testing.T) {
	for _, c := range []struct{ slots, poles int }{{9, 6}, {9, 8}, {9, 12}, {6, 8}, {12, 10}, {12, 14}} {
		best := 0.0
		for teeth := range 1 << c.slots {
			if bits.OnesCount(uint(teeth)) != c.slots/3 {
				continue
			}
			best = max(best, longest(teeth, c.slots, c.poles))
		}
		got, err := WindingFactor(WindingFactorInput{Slots: c.slots, Poles: c.poles})
		if err != nil {
			t.Fatal(err)
		}
		want := best / float64(c.slots/3) * math.Abs(math.Sin(math.Pi*float64(c.poles)/2/float64(c.slots)))
		kit.Near(t, "phasors", got.Factor, want, 1e-9)
	}
}

// longest is the longest sum of the phasors of some teeth, each coil in the
// better of its two senses.
func longest(teeth, slots, poles int) float64 {
	best := 0.0
	for k := range 720 {
		along, x, y := math.Pi*float64(k)/720, 0.0, 0.0
		for i := range slots {
			if teeth>>i&1 == 0 {
				continue
			}
			a := math.Pi * float64(poles*i) / float64(slots)
			s := math.Copysign(1, math.Cos(a-along))
			x, y = x+s*math.Cos(a), y+s*math.Sin(a)
		}
		best = max(best, math.Hypot(x, y))
	}
	return best
}

// NBS Circular 31: a copper wire of one metre and one gram has 0.15328 Ω.
func TestWireByMass(t *testing.T) {
	for _, d := range []float64{0.2e-3, 0.5e-3, 1.6e-3} {
		w, err := Wire(WireInput{Diameter: d, Temperature: roomKelvin})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, "NBS Circular 31, Ω·g/m²", w.ResistancePerLength*w.MassPerLength*1e3, 0.15328, 3e-5)
	}
}

// Eight like coils in 2 series × 4 parallel have twice the voltage of one and
// half its resistance (common practice, no source).
func TestGroupingsOfEight(t *testing.T) {
	one := 1
	in := GroupingsInput{HandChargeInput{To: 0.5, Cadence: 75 * rpm, Gearing: 12, GearEfficiency: 1, Store: ChargedStore{Capacitance: 20}}}
	in.Generator = lapwing(t, func(g *GeneratorInput) {
		g.Coils, g.Poles, g.Phases, g.Series = 8, 8, 1, &one
		g.Magnet, g.EmfConstant, g.DiodeDrop, g.LeadResistance = nil, new(0.05), 0, 0
	}).Machine
	got, err := Groupings(t.Context(), in)
	if err != nil {
		t.Fatal(err)
	}
	emf := 0.05 * 75 * rpm * 12
	coil := 8 * in.Generator.PhaseResistance // all eight side by side
	for _, row := range got.Groups {
		if row.Series == 2 && row.Parallel == 4 && row.Phases == 1 {
			kit.Near(t, "ceiling", row.Ceiling, 2*emf, 1e-9)
			kit.Near(t, "resistance", row.Resistance, coil/2, 1e-9)
			return
		}
	}
	t.Errorf("no 2 × 4 among %v", got.Groups)
}

// More turns, more volts; a wider gap or a thinner magnet, fewer.
func TestOpenVoltageMonotone(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	for range 100 {
		in := OpenCircuitVoltageInput{Coils: float64(1 + r.IntN(9)), Turns: 20 + 200*r.Float64(), PolePairs: float64(1 + r.IntN(8)),
			Rotation: 10 + 100*r.Float64(), Flux: new(1e-5 + 1e-4*r.Float64()), WindingFactor: 0.5 + 0.5*r.Float64()}
		base, err := OpenCircuitVoltage(in)
		if err != nil {
			t.Fatal(err)
		}
		more := in
		more.Turns *= 1.01 + r.Float64()
		if got, _ := OpenCircuitVoltage(more); got.Peak <= base.Peak {
			t.Errorf("more turns, %g V after %g V", got.Peak, base.Peak)
		}
		more = in
		more.Rotation *= 1.01 + r.Float64()
		if got, _ := OpenCircuitVoltage(more); got.Peak <= base.Peak {
			t.Errorf("more rotation, %g V after %g V", got.Peak, base.Peak)
		}
	}
}

// As a bridge's resistance goes, no voltage is lost under the same current.
func TestBridgeWithoutResistanceIsTheLimit(t *testing.T) {
	for _, r := range []float64{1, 0.1, 1e-3, 1e-6} {
		x := 10 - 5*r // a store near the crest takes little
		b, err := BridgeSinglePhase(BridgeSinglePhaseInput{Emf: 10, Resistance: r, Voltage: x})
		if err != nil {
			t.Fatal(err)
		}
		if got := b.ResistanceLoss / b.Power; got > r {
			t.Errorf("%g of the power is lost in %g Ω", got, r)
		}
	}
}

// One coil alone is the machine: its constant, its resistance, a factor of one.
func TestGeneratorOfOneCoil(t *testing.T) {
	g := lapwing(t, func(in *GeneratorInput) {
		in.Coils, in.Poles, in.Phases = 1, 2, 1
		in.Magnet, in.EmfConstant = nil, new(0.05)
	})
	kit.Near(t, "constant", g.PhaseConstant, 0.05, 1e-12)
	kit.Near(t, "resistance", g.PhaseResistance, g.CoilResistance, 1e-12)
	kit.Near(t, "distribution factor", g.DistributionFact, 1, 1e-12)
}

// More turns under the same magnets give more volts, in proportion, and never
// a longer wait for a cadence that was raised.
func TestMoreTurnsMoreVolts(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 34))
	for range 40 {
		turns, more := 40+60*r.Float64(), 1+r.Float64()
		with := func(n float64) GeneratorResult {
			return lapwing(t, func(in *GeneratorInput) { in.Coil.Turns = n })
		}
		a, b := with(turns), with(turns*more)
		kit.Near(t, "volts by turns", b.EmfConstant/a.EmfConstant, more, 1e-9)
		in := lapwingCharge(t)
		in.Generator, in.To = a.Machine, 3+2*r.Float64()
		slow, err := HandCharge(t.Context(), in)
		if err != nil {
			t.Fatal(err)
		}
		in.Cadence *= 1 + 0.3*r.Float64()
		if fast, err := HandCharge(t.Context(), in); err != nil || fast.Time > slow.Time*(1+1e-9) {
			t.Errorf("more cadence, longer: %g s after %g s, %v", fast.Time, slow.Time, err)
		}
	}
}

// TestBackCurrentPublished: at rest a brushed machine takes what it would draw
// as a motor at its start, 46 V over 0.3 Ω: 153.333 A (open textbook companion
// 1892, example 4.4).
func TestBackCurrentPublished(t *testing.T) {
	b, err := BlockingDiode(BlockingDiodeInput{Machine: "brushed", Voltage: 48 - 2, Resistance: 2 * 0.15})
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "open textbook companion 1892, example 4.4", b.BackCurrent, 153.333, 3e-6)
}

// TestCrankLoadHorsepower: horsepower is torque in lbf·ft times rpm over 5252
// (engineering handbooks, from memory): 100 hp at 5252 rpm is 100 lbf·ft.
func TestCrankLoadHorsepower(t *testing.T) {
	const poundForceFoot = 4.4482216152605 * 0.3048 // N·m, NIST SP 811
	got, err := CrankLoad(CrankLoadInput{Power: 100 * 745.6999, Cadence: 5252 * math.Pi / 30, Length: 0.3048, Pulse: 1})
	if err != nil {
		t.Fatal(err)
	}
	kit.Near(t, "T = 5252·P/n", got.Torque, 100*poundForceFoot, 3e-5)
	kit.Near(t, "force on an arm of a foot", got.Force, 100*4.4482216152605, 3e-5)
}
