package glide

import (
	"math"
	"math/rand/v2"
	"testing"
)

func parts() []PartRow {
	return []PartRow{{0.120, 0.180}, {0.070, 0.060}, {0.025, 0.010}, {0.010, 0.120}}
}

// 120 g at 180 mm, 70 g at 60 mm, 25 g at 10 mm, 10 g at 120 mm: 121.111 mm, 225 g.
func TestBalance(t *testing.T) {
	got := must[BalanceResult](t)(Balance(BalanceInput{Parts: parts(), MeanChord: pointer(0.1263), LeadingEdge: pointer(0.07)}))
	near(t, "mass, Σm", got.Mass, 0.225, digits(6))
	near(t, "centre, Σmx/Σm", got.Centre.Centre, 0.121111, digits(6))
	near(t, "share of the chord", *got.Share, (got.Centre.Centre-0.07)/0.1263, 1e-14)
	_, err := Balance(BalanceInput{})
	wrongField(t, err, "parts")
	_, err = Balance(BalanceInput{Parts: []PartRow{{-1, 0}}})
	wrongField(t, err, "parts.mass")
	_, err = Balance(BalanceInput{Parts: parts(), MeanChord: pointer(0.1)})
	wrongField(t, err, "leading_edge")
	_, err = Balance(BalanceInput{Parts: parts(), MeanChord: pointer(-0.1)})
	wrongField(t, err, "mean_chord")
}

// The independent route: balance again with the part moved or the ballast in.
func TestMovePart(t *testing.T) {
	before := must[BalanceResult](t)(Balance(BalanceInput{Parts: parts()}))
	for _, wanted := range []float64{0.100, 0.121, 0.140} {
		moved := must[MovePartResult](t)(MovePart(MovePartInput{Balance: before.Centre, Wanted: wanted, PartMass: pointer(0.070)}))
		list := parts()
		list[1].Position += moved.Shift
		near(t, "centre with the part moved", must[BalanceResult](t)(Balance(BalanceInput{Parts: list})).Centre.Centre, wanted, 1e-12)
		place := 0.0
		if wanted > before.Centre.Centre {
			place = 0.6
		}
		added := must[MovePartResult](t)(MovePart(MovePartInput{Balance: before.Centre, Wanted: wanted, Ballast: &place}))
		after := must[BalanceResult](t)(Balance(BalanceInput{Parts: append(parts(), PartRow{added.Ballast, place})}))
		near(t, "centre with ballast", after.Centre.Centre, wanted, 1e-12)
		near(t, "mass with ballast", after.Mass, added.Mass, 1e-12)
	}
	same := must[MovePartResult](t)(MovePart(MovePartInput{Balance: before.Centre, Wanted: before.Centre.Centre, Ballast: &before.Centre.Centre}))
	near(t, "ballast for nothing", same.Mass, before.Mass, 0)
	for _, c := range []struct {
		field string
		in    MovePartInput
	}{
		{"ballast", MovePartInput{Balance: before.Centre, Wanted: 0.1, Ballast: pointer(0.2)}},
		{"ballast", MovePartInput{Balance: before.Centre, Wanted: 0.1, Ballast: pointer(0.1)}},
		{"part_mass", MovePartInput{Balance: before.Centre, Wanted: 0.1, PartMass: pointer(0)}},
		{"part_mass", MovePartInput{Balance: before.Centre, Wanted: 0.1, PartMass: pointer(1)}},
		{"part_mass", MovePartInput{Balance: before.Centre, Wanted: 0.1}},
		{"balance.mass", MovePartInput{Wanted: 0.1, PartMass: pointer(1)}},
	} {
		_, err := MovePart(c.in)
		wrongField(t, err, c.field)
	}
}

func TestMeanChordTrapezoid(t *testing.T) {
	const source = "MAC = ⅔·cr·(1 + λ + λ²)/(1 + λ), y = (b/6)·(1 + 2λ)/(1 + λ), textbooks (integrals agree)"
	got := must[MeanChordResult](t)(MeanChord(MeanChordInput{[]PanelRow{{0.6, 0.2, 0.12, 0.6 * math.Tan(5*math.Pi/180)}}}))
	near(t, "area, "+source, got.Area, 0.192, digits(7))
	near(t, "aspect ratio, "+source, got.AspectRatio, 7.5, digits(7))
	near(t, "MAC, "+source, got.Length, 0.1633333, digits(7))
	near(t, "station, "+source, got.Station, 0.275, digits(7))
	near(t, "leading edge, "+source, got.LeadingEdge, 0.02405938, digits(7))
	near(t, "quarter chord, "+source, got.QuarterChord, 0.06489272, digits(7))
}

// The independent route: the same wing cut into a thousand strips.
func TestMeanChordByStrips(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 20 {
		var panels []PanelRow
		for range 1 + r.IntN(4) {
			panels = append(panels, PanelRow{0.1 + r.Float64(), 0.1 + 0.2*r.Float64(), 0.3 * r.Float64(), 0.1 * (r.Float64() - 0.3)})
		}
		got := must[MeanChordResult](t)(MeanChord(MeanChordInput{panels}))
		var area, square, station, edge, inner, back float64
		for _, p := range panels {
			const strips = 1000
			for i := range strips {
				at := (float64(i) + 0.5) / strips
				c, w := p.Root+(p.Tip-p.Root)*at, p.Span/strips
				area, square = area+c*w, square+c*c*w
				station, edge = station+c*w*(inner+at*p.Span), edge+c*w*(back+at*p.Sweep)
			}
			inner, back = inner+p.Span, back+p.Sweep
		}
		near(t, "MAC by strips", got.Length, square/area, 1e-5)
		near(t, "station by strips", got.Station, station/area, 1e-5)
		if math.Abs(got.LeadingEdge-edge/area) > 1e-6 {
			t.Errorf("leading edge %g, by strips %g", got.LeadingEdge, edge/area)
		}
	}
	_, err := MeanChord(MeanChordInput{})
	wrongField(t, err, "panels")
	_, err = MeanChord(MeanChordInput{[]PanelRow{{0.5, -0.1, 0.1, 0}}})
	wrongField(t, err, "panels.root")
}

func TestTailVolume(t *testing.T) {
	const source = "definition; Anderson, Introduction to Flight, chapter 7"
	for _, row := range []struct{ sh, arm, sv, s, c, b, vh, vv float64 }{
		{0.025, 0.40, 0.010, 0.12, 0.1263, 0.95, 0.659805, 0.0350877},
		{0.032, 0.50, 0.014, 0.18, 0.145, 1.30, 0.613027, 0.0299145},
	} {
		h := must[TailVolumeResult](t)(TailVolume(TailVolumeInput{Area: row.sh, Arm: row.arm, WingArea: row.s, Chord: &row.c}))
		near(t, "tailplane, "+source, h.Volume, row.vh, digits(6))
		v := must[TailVolumeResult](t)(TailVolume(TailVolumeInput{Area: row.sv, Arm: row.arm, WingArea: row.s, Span: &row.b}))
		near(t, "fin, "+source, v.Volume, row.vv, digits(6))
		if len(h.List)+len(v.List) > 0 {
			t.Error("a usual tail raises a caution")
		}
	}
	small := must[TailVolumeResult](t)(TailVolume(TailVolumeInput{Area: 0.001, Arm: 0.4, WingArea: 0.2, Span: pointer(1)}))
	if !raised(small.Cautions, "unusual-tail-volume") {
		t.Error("a tiny fin raises no caution")
	}
	_, err := TailVolume(TailVolumeInput{Area: 1, Arm: 1, WingArea: 1})
	wrongField(t, err, "chord")
	_, err = TailVolume(TailVolumeInput{Area: 1, Arm: 1, WingArea: 1, Span: pointer(0)})
	wrongField(t, err, "span")
}

// Examples 7.6 and 7.7: VH 0.34, at 0.1/°, a 0.08/°, dε/dα 0.35, hac 0.24, h
// 0.35: hn 0.51625 and a margin of 0.16625.
func TestNeutralPoint(t *testing.T) {
	const source = "J. D. Anderson, Introduction to Flight, examples 7.6 and 7.7 (printed 0.516 and 0.166)"
	per := 180 / math.Pi
	hn := must[NeutralPointResult](t)(NeutralPoint(NeutralPointInput{TailVolume: 0.34, WingSlope: pointer(0.08 * per), TailSlope: pointer(0.1 * per),
		Downwash: pointer(0.35), TailEfficiency: 1, AerodynamicCentre: 0.24}))
	near(t, "neutral point, "+source, hn.NeutralPoint, 0.51625, digits(5))
	margin := must[StaticMarginResult](t)(StaticMargin(StaticMarginInput{hn.NeutralPoint, 0.35}))
	near(t, "margin, "+source, margin.Margin, 0.16625, digits(5))
	if len(margin.List) > 0 {
		t.Error("a stable model raises a caution")
	}

	// Example 7.4's moment: VH = 0.02·0.17/(0.1·0.1); CMcg −0.064954.
	vh := must[TailVolumeResult](t)(TailVolume(TailVolumeInput{Area: 0.02, Arm: 0.17, WingArea: 0.1, Chord: pointer(0.1)})).Volume
	near(t, "VH, example 7.4", vh, 0.34, digits(5))
	cm := -0.032 + 0.08*9.38*(0.11-vh*0.1/0.08*(1-0.35)) + vh*0.1*2.7
	near(t, "CM at the centre, Anderson example 7.4 (printed −0.065)", cm, -0.064954, digits(5))

	// The independent route: the moment's slope about the neutral point is nil.
	free := NeutralPointInput{TailVolume: 0.5, AspectRatio: pointer(7), TailAspectRatio: pointer(4), TailEfficiency: 0.9, AerodynamicCentre: 0.25}
	h := must[NeutralPointResult](t)(NeutralPoint(free)).NeutralPoint
	a, at := 2*math.Pi/(1+2.0/7), 2*math.Pi/(1+2.0/4)
	moment := func(alpha float64) float64 {
		down := 2 * a * alpha / (math.Pi * 7)
		return a*alpha*(h-0.25) - 0.9*0.5*at*(alpha-down)
	}
	if s := moment(0.1) - moment(0); math.Abs(s) > 1e-14 {
		t.Errorf("the moment about the neutral point changes by %g", s)
	}
}

func TestStabilityRefusesAndCautions(t *testing.T) {
	in := NeutralPointInput{TailVolume: 0.5, TailEfficiency: 0.9}
	_, err := NeutralPoint(in)
	wrongField(t, err, "aspect_ratio")
	in.WingSlope = pointer(5)
	_, err = NeutralPoint(in)
	wrongField(t, err, "tail_aspect_ratio")
	in.TailSlope = pointer(4)
	_, err = NeutralPoint(in)
	wrongField(t, err, "downwash")
	if tight := must[StaticMarginResult](t)(StaticMargin(StaticMarginInput{0.40, 0.38})); !raised(tight.Cautions, "static-margin-short") {
		t.Error("2 % raises no caution")
	}
	if loose := must[StaticMarginResult](t)(StaticMargin(StaticMarginInput{0.40, 0.48})); !raised(loose.Cautions, "unstable") {
		t.Error("an unstable model raises no caution")
	}
}

func TestLiftSlope(t *testing.T) {
	const source = "Prandtl's lifting line, a = a0/(1 + a0/(π·e·AR))"
	ideal := must[LiftSlopeResult](t)(LiftSlope(LiftSlopeInput{6, 1, 2 * math.Pi}))
	near(t, "elliptic wing of AR 6, "+source, ideal.Slope, 4.712389, digits(7))
	near(t, "a degree, "+source, ideal.Slope*math.Pi/180, 0.0822467, digits(6))
	real := must[LiftSlopeResult](t)(LiftSlope(LiftSlopeInput{7.5, 0.9, 5.9}))
	near(t, "AR 7.5, "+source, real.Slope, 4.615771, digits(7))
}

func TestReynolds(t *testing.T) {
	got := must[ReynoldsResult](t)(Reynolds(ReynoldsInput{8, 0.12, 1.225, 1.78938e-5}))
	near(t, "8 m/s on 0.12 m at ISA sea level, U.S. Standard Atmosphere 1976", got.Number, 65721.1, 2e-5)
	_, err := Reynolds(ReynoldsInput{8, 0, 1.225, 1.8e-5})
	wrongField(t, err, "chord")
}
