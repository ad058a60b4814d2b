package generator

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

func TestGeneratorFromFlux(t *testing.T) {
	g := lapwing(t, nil)
	kit.Near(t, "emf constant is N·p·λ", g.EmfConstant, 87*6*g.Flux, 1e-12)
	kit.Near(t, "three in series", g.PhaseConstant, 3*g.EmfConstant, 1e-12)
	delta := lapwing(t, func(in *GeneratorInput) { in.Connection = "delta" })
	kit.Near(t, "delta E/√3", delta.PhaseConstant, g.PhaseConstant/math.Sqrt(3), 1e-12)
	kit.Near(t, "delta R/3", delta.PhaseResistance, g.PhaseResistance/3, 1e-12)
	measured := lapwing(t, func(in *GeneratorInput) { in.Magnet, in.EmfConstant = nil, &g.EmfConstant })
	measured.EddyConstant = g.EddyConstant // a constant alone does not tell the field
	if measured.Machine != g.Machine {
		t.Errorf("a measured constant gives another machine: %v, %v", measured.Machine, g.Machine)
	}
	one := 1
	side := lapwing(t, func(in *GeneratorInput) { in.Series = &one })
	kit.Near(t, "three in parallel: E", side.PhaseConstant, g.PhaseConstant/3, 1e-12)
	kit.Near(t, "three in parallel: R", side.PhaseResistance, g.PhaseResistance/9, 1e-12)
}

func TestRegrouping(t *testing.T) {
	// Eight like coils from one string of one to 2 in series x 4 in parallel: twice
	// the voltage and half the resistance of one coil (common practice).
	two := 2
	g := lapwing(t, func(in *GeneratorInput) {
		in.Coils, in.Poles, in.Phases, in.Series = 8, 8, 1, &two
		in.Magnet, in.EmfConstant = nil, new(0.05)
	})
	kit.Near(t, "voltage", g.PhaseConstant, 2*0.05, 1e-12)
	kit.Near(t, "resistance", g.PhaseResistance, g.CoilResistance/2, 1e-12)
}

func TestGeneratorRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*GeneratorInput)
		field  string
		says   string
	}{
		"magnets touch":  {func(in *GeneratorInput) { in.Radius = new(35e-3) }, "radius", "magnets touch"},
		"coils touch":    {func(in *GeneratorInput) { in.CoilRadius = new(38e-3) }, "coils", "coils touch"},
		"coil too high":  {func(in *GeneratorInput) { in.Coil.Height = 10e-3 }, "gap", "does not fit"},
		"no split":       {func(in *GeneratorInput) { in.Coils, in.Magnet, in.EmfConstant = 8, nil, new(0.1) }, "coils", "like phases"},
		"nothing given":  {func(in *GeneratorInput) { in.Magnet = nil }, "emf_constant", "neither"},
		"odd poles":      {func(in *GeneratorInput) { in.Poles = 11 }, "poles", "pairs"},
		"unlike strings": {func(in *GeneratorInput) { s := 1; in.Coils, in.Phases, in.Series = 8, 1, &s }, "series", "round each other"},
		"not a divisor":  {func(in *GeneratorInput) { s := 2; in.Series = &s }, "series", "strings of 2"},
	} {
		in := GeneratorInput{Coils: 9, Poles: 12, Phases: 3, Connection: "star", Rotor: "facing", Rectifiers: "common",
			Coil:   RotorCoil{Turns: 87, Opening: 10e-3, Leg: 9e-3, Height: 8e-3, Resistance: 0.3, Shape: "round"},
			Magnet: &DiscMagnet{20e-3, 5e-3, 1.28}, Radius: new(45e-3), Gap: new(10e-3)}
		c.change(&in)
		_, err := Generator(t.Context(), in)
		var e *model.Error
		if !errors.As(err, &e) || e.Field != c.field || !strings.Contains(e.Summary, c.says) || e.Hint == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestEachItsOwnBridge(t *testing.T) {
	// 9 coils, 12 poles, one phase: three sets of three that peak at different times.
	g := lapwing(t, func(in *GeneratorInput) { in.Phases, in.Rectifiers, in.Coil.Inductance = 1, "each", 0 })
	if g.Bridges != 3 || g.SeriesCoils != 3 || g.ParallelStrings != 1 {
		t.Fatalf("%d bridges of %d in series, %d in parallel", g.Bridges, g.SeriesCoils, g.ParallelStrings)
	}
	d := g.at(5, 60, 0, new(track))
	one := singleFlow(g.PhaseConstant*60, g.PhaseResistance, 5)
	kit.Near(t, "I = ΣI", d.mean, 3*one.mean, 1e-12)
	kit.Near(t, "P = ΣP", d.power, 3*one.power, 1e-12)
	// With a shared resistance against the circuit solved instant by instant.
	const rd = 0.1
	d = g.at(5, 60, rd, new(track))
	kit.Near(t, "energy", d.power, 5*d.mean+d.direct+d.copper, 1e-12)
	mean, n := 0.0, 3000
	for k := range n {
		i := solve(0, 1000, func(i float64) float64 {
			sum := 0.0
			for j := range 3 {
				e := math.Abs(g.PhaseConstant * 60 * math.Sin(math.Pi*(float64(k)+0.5)/float64(n)+math.Pi*float64(j)/3))
				sum += max(0, e-5-rd*i) / g.PhaseResistance
			}
			return sum - i
		})
		mean += i / float64(n)
	}
	kit.Near(t, "shared resistance", d.mean, mean, 1e-4)
}

func TestGeneratorCautions(t *testing.T) {
	g := lapwing(t, func(in *GeneratorInput) { in.Phases = 1 })
	if len(g.List) == 0 || g.List[0].ID != "coil-count-unsuited" {
		t.Errorf("9 coils over 12 poles in one phase: %v", g.List)
	}
	kit.Near(t, "kd", g.DistributionFact, 2.0/3, 1e-9)
}

func TestGeneratorOfBlocks(t *testing.T) {
	side := 20e-3 * math.Sqrt(math.Pi) / 2
	g := lapwing(t, func(in *GeneratorInput) {
		in.Magnet, in.Block = nil, &BlockMagnet{side, side, 5e-3, 1.28}
	})
	// Square blocks of the discs' face: nearly the discs' flux.
	kit.Near(t, "blocks for discs", g.Flux, lapwing(t, nil).Flux, 0.03)
	slim := lapwing(t, func(in *GeneratorInput) {
		in.Magnet, in.Block = nil, &BlockMagnet{30e-3, 10e-3, 5e-3, 1.28}
		in.Coil.Shape, in.Coil.Opening, in.Coil.OpeningWidth, in.Coil.Leg = "trapezoid", 30e-3, new(10e-3), 7e-3
		in.Coil.OpeningTaper = 6e-3
		in.Backing, in.Rotor = new(1e-4), "backed"
	})
	if slim.Flux <= 0 || slim.List[1].ID != "iron-saturated" {
		t.Errorf("%g Wb, %v", slim.Flux, slim.List)
	}
}

// TestEddyByLoops integrates the loss of the current that a changing field
// drives up one side of a round wire and down the other.
func TestEddyByLoops(t *testing.T) {
	const d, b, w = 0.7e-3, 0.3, 500.0
	n, loss := 2000, 0.0
	for i := range n {
		x := d * ((float64(i)+0.5)/float64(n) - 0.5)
		chord := 2 * math.Sqrt(d*d/4-x*x)
		field := w * b * x // V/m, at its crest
		loss += field * field / (2 * copperResistivity) * chord * d / float64(n)
	}
	kit.Near(t, "loss of a metre", stirred(math.Pi*d*d/4, 1, copperResistivity)*w*w*b*b/2, loss, 3e-5)
}

// TestStrings joins coils in strings in parallel. Those of twelve coils over ten
// poles can: each phase has two directions, each twice (one turned over).
// Others are refused with I = |E1 − E2|/(R1 + R2) (Kirchhoff's laws) of the two
// that differ most, E = 0.05 V·s/rad at 1000 rpm: coils a quarter turn apart by
// √2·E, a third of one by √3·E.
func TestStrings(t *testing.T) {
	const e = 0.05 * 100 * math.Pi / 3
	for _, c := range []struct {
		coils, poles, phases, series int
		apart                        float64 // in E; 0 for strings that are alike
	}{
		{4, 2, 1, 2, 0}, {8, 4, 1, 2, 0}, {12, 10, 3, 2, 0}, {12, 10, 3, 4, 0}, {9, 12, 3, 1, 0}, {8, 8, 1, 1, 0},
		{4, 2, 1, 1, math.Sqrt2}, {3, 2, 1, 1, math.Sqrt(3)}, {12, 10, 3, 1, 2 * math.Sin(math.Pi/12)},
	} {
		in := GeneratorInput{Coil: RotorCoil{Turns: 87, Opening: 10e-3, Leg: 9e-3, Height: 8e-3, Resistance: 0.2, Shape: "round"},
			Coils: c.coils, Poles: c.poles, Phases: c.phases, Connection: "star", Rotor: "facing", Rectifiers: "common", DiodeDrop: 0.4,
			EmfConstant: new(0.05), Series: &c.series}
		g, err := Generator(t.Context(), in)
		if c.apart == 0 {
			if err != nil || g.ParallelStrings*c.series*c.phases != c.coils {
				t.Errorf("%+v: %d strings, %v", c, g.ParallelStrings, err)
			}
			continue
		}
		var m *model.Error
		if !errors.As(err, &m) || m.Field != "series" || len(m.Values) != 2 {
			t.Errorf("%+v: %v", c, err)
			continue
		}
		kit.Near(t, "circulating current", m.Values[0].Number, c.apart*e/(2*float64(c.series)*0.2), 1e-9)
	}
}

// TestDeltaWithBridgesOfItsOwn: what contradicts itself is refused, not dropped.
func TestDeltaWithBridgesOfItsOwn(t *testing.T) {
	_, err := Generator(t.Context(), GeneratorInput{Coils: 9, Poles: 12, Phases: 3, Connection: "delta", Rectifiers: "each", EmfConstant: new(0.05), Coil: RotorCoil{Turns: 87, Resistance: 0.3}})
	kit.Refuses(t, err, "rectifiers")
}

// TestTurnsWithoutBearing: with a measured constant turns do not act on the emf, which
// the tag of that input says.
func TestTurnsWithoutBearing(t *testing.T) {
	in := func(g *GeneratorInput) { g.Magnet, g.EmfConstant = nil, new(0.05) }
	a := lapwing(t, in)
	b := lapwing(t, func(g *GeneratorInput) { in(g); g.Coil.Turns *= 2 })
	kit.Near(t, "the emf", b.PhaseConstant, a.PhaseConstant, 0)
}

// A drawer keeps all parts of answers.
type drawer map[any]any

func (d drawer) Part(key any) (any, bool) { part, ok := d[key]; return part, ok }

func (d drawer) KeepPart(key, part any, _ int) { d[key] = part }

// TestSharedParts wants generators alike to the bit whether or not they share parts of their
// work with others: that differ in one thing at a time, some of which bear on the field.
func TestSharedParts(t *testing.T) {
	base := GeneratorInput{Coils: 9, Poles: 12, Phases: 3, Rotor: "facing", Connection: "star", Rectifiers: "common", Radius: new(0.045), Gap: new(0.010),
		Magnet: &DiscMagnet{Diameter: 0.020, Thickness: 0.005, Remanence: 1.28},
		Coil:   RotorCoil{Turns: 87, Opening: 0.010, Leg: 0.009, Height: 0.008, Resistance: 0.235, Section: new(0.41e-6), Shape: "round"}}
	all := []GeneratorInput{base, base, base, base, base, base, base, base}
	all[1].Gap = new(0.0103)
	all[2].Coil.Turns = 60
	all[3].Magnet = &DiscMagnet{Diameter: 0.020, Thickness: 0.005, Remanence: 1.1}
	all[4].Coil.Leg = 0.0085
	all[5].CoilRadius = new(0.046)
	all[6].Rotor = "single"
	all[7].Poles, all[7].Radius = 14, new(0.050)
	shared := model.Sharing(t.Context(), drawer{})
	seen := map[float64]bool{}
	for i, in := range all {
		own, together := kit.Must(Generator(t.Context(), in))(t), kit.Must(Generator(shared, in))(t)
		if !reflect.DeepEqual(own, together) {
			t.Errorf("%d: %+v by itself, %+v with the others", i, own, together)
		}
		seen[own.EmfConstant] = true
	}
	if len(seen) != len(all) {
		t.Errorf("%d of %d differ", len(seen), len(all))
	}
}
