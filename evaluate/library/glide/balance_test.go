package glide

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func parts() []PartRow {
	return []PartRow{{0.120, 0.180}, {0.070, 0.060}, {0.025, 0.010}, {0.010, 0.120}}
}

// 120 g at 180 mm, 70 g at 60 mm, 25 g at 10 mm, 10 g at 120 mm: 121.111 mm, 225 g.
func TestBalance(t *testing.T) {
	got := kit.Must(Balance(BalanceInput{Parts: parts(), MeanChord: new(0.1263), LeadingEdge: new(0.07)}))(t)
	kit.Near(t, "mass, Σm", got.Mass, 0.225, kit.Digits(6))
	kit.Near(t, "centre, Σmx/Σm", got.Centre.Centre, 0.121111, kit.Digits(6))
	kit.Near(t, "share of the chord", *got.Share, (got.Centre.Centre-0.07)/0.1263, 1e-14)
	_, err := Balance(BalanceInput{})
	kit.Refuses(t, err, "parts")
	_, err = Balance(BalanceInput{Parts: []PartRow{{-1, 0}}})
	kit.Refuses(t, err, "parts.mass")
	_, err = Balance(BalanceInput{Parts: parts(), MeanChord: new(0.1)})
	kit.Refuses(t, err, "leading_edge")
	_, err = Balance(BalanceInput{Parts: parts(), MeanChord: new(-0.1)})
	kit.Refuses(t, err, "mean_chord")
}

// The independent route: balance again with the part moved or the ballast in.
func TestMovePart(t *testing.T) {
	before := kit.Must(Balance(BalanceInput{Parts: parts()}))(t)
	for _, wanted := range []float64{0.100, 0.121, 0.140} {
		moved := kit.Must(MovePart(MovePartInput{Balance: before.Centre, Wanted: wanted, PartMass: new(0.070)}))(t)
		list := parts()
		list[1].Position += moved.Shift
		kit.Near(t, "centre with the part moved", kit.Must(Balance(BalanceInput{Parts: list}))(t).Centre.Centre, wanted, 1e-12)
		place := 0.0
		if wanted > before.Centre.Centre {
			place = 0.6
		}
		added := kit.Must(MovePart(MovePartInput{Balance: before.Centre, Wanted: wanted, Ballast: &place}))(t)
		after := kit.Must(Balance(BalanceInput{Parts: append(parts(), PartRow{added.Ballast, place})}))(t)
		kit.Near(t, "centre with ballast", after.Centre.Centre, wanted, 1e-12)
		kit.Near(t, "mass with ballast", after.Mass, added.Mass, 1e-12)
	}
	same := kit.Must(MovePart(MovePartInput{Balance: before.Centre, Wanted: before.Centre.Centre, Ballast: &before.Centre.Centre}))(t)
	kit.Near(t, "ballast for nothing", same.Mass, before.Mass, 0)
	for _, c := range []struct {
		field string
		in    MovePartInput
	}{
		{"ballast", MovePartInput{Balance: before.Centre, Wanted: 0.1, Ballast: new(0.2)}},
		{"ballast", MovePartInput{Balance: before.Centre, Wanted: 0.1, Ballast: new(0.1)}},
		{"part_mass", MovePartInput{Balance: before.Centre, Wanted: 0.1, PartMass: new(0.0)}},
		{"part_mass", MovePartInput{Balance: before.Centre, Wanted: 0.1, PartMass: new(1.0)}},
		{"part_mass", MovePartInput{Balance: before.Centre, Wanted: 0.1}},
		{"balance.mass", MovePartInput{Wanted: 0.1, PartMass: new(1.0)}},
	} {
		_, err := MovePart(c.in)
		kit.Refuses(t, err, c.field)
	}
}

func TestMeanChordTrapezoid(t *testing.T) {
	const source = "MAC = ⅔·cr·(1 + λ + λ²)/(1 + λ), y = (b/6)·(1 + 2λ)/(1 + λ), textbooks (integrals agree)"
	got := kit.Must(MeanChord(MeanChordInput{[]PanelRow{{0.6, 0.2, 0.12, 0.6 * math.Tan(5*math.Pi/180)}}}))(t)
	kit.Near(t, "area, "+source, got.Area, 0.192, kit.Digits(7))
	kit.Near(t, "aspect ratio, "+source, got.AspectRatio, 7.5, kit.Digits(7))
	kit.Near(t, "MAC, "+source, got.Length, 0.1633333, kit.Digits(7))
	kit.Near(t, "station, "+source, got.Station, 0.275, kit.Digits(7))
	kit.Near(t, "leading edge, "+source, got.LeadingEdge, 0.02405938, kit.Digits(7))
	kit.Near(t, "quarter chord, "+source, got.QuarterChord, 0.06489272, kit.Digits(7))
}

// The independent route: the same wing cut into a thousand strips.
func TestMeanChordByStrips(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 20 {
		var panels []PanelRow
		for range 1 + r.IntN(4) {
			panels = append(panels, PanelRow{0.1 + r.Float64(), 0.1 + 0.2*r.Float64(), 0.3 * r.Float64(), 0.1 * (r.Float64() - 0.3)})
		}
		got := kit.Must(MeanChord(MeanChordInput{panels}))(t)
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
		kit.Near(t, "MAC by strips", got.Length, square/area, 1e-5)
		kit.Near(t, "station by strips", got.Station, station/area, 1e-5)
		if math.Abs(got.LeadingEdge-edge/area) > 1e-6 {
			t.Errorf("leading edge %g, by strips %g", got.LeadingEdge, edge/area)
		}
	}
	_, err := MeanChord(MeanChordInput{})
	kit.Refuses(t, err, "panels")
	_, err = MeanChord(MeanChordInput{[]PanelRow{{0.5, -0.1, 0.1, 0}}})
	kit.Refuses(t, err, "panels.root")
}

func TestTailVolume(t *testing.T) {
	const source = "definition; anderson, Introduction to Flight, chapter 7"
	for _, row := range []struct{ sh, arm, sv, s, c, b, vh, vv float64 }{
		{0.025, 0.40, 0.010, 0.12, 0.1263, 0.95, 0.659805, 0.0350877},
		{0.032, 0.50, 0.014, 0.18, 0.145, 1.30, 0.613027, 0.0299145},
	} {
		h := kit.Must(TailVolume(TailVolumeInput{Area: row.sh, Arm: row.arm, WingArea: row.s, Chord: &row.c}))(t)
		kit.Near(t, "tailplane, "+source, h.Volume, row.vh, kit.Digits(6))
		v := kit.Must(TailVolume(TailVolumeInput{Area: row.sv, Arm: row.arm, WingArea: row.s, Span: &row.b}))(t)
		kit.Near(t, "fin, "+source, v.Volume, row.vv, kit.Digits(6))
		if len(h.List)+len(v.List) > 0 {
			t.Error("a usual tail raises a caution")
		}
	}
	small := kit.Must(TailVolume(TailVolumeInput{Area: 0.001, Arm: 0.4, WingArea: 0.2, Span: new(1.0)}))(t)
	if !kit.Raised(small.List, "unusual-tail-volume") {
		t.Error("a tiny fin raises no caution")
	}
	_, err := TailVolume(TailVolumeInput{Area: 1, Arm: 1, WingArea: 1})
	kit.Refuses(t, err, "chord")
	_, err = TailVolume(TailVolumeInput{Area: 1, Arm: 1, WingArea: 1, Span: new(0.0)})
	kit.Refuses(t, err, "span")
}

// Examples 7.6 and 7.7: VH 0.34, at 0.1/°, a 0.08/°, dε/dα 0.35, hac 0.24, h
// 0.35: hn 0.51625 and a margin of 0.16625.
func TestNeutralPoint(t *testing.T) {
	const source = "J. D. anderson, Introduction to Flight, examples 7.6 and 7.7 (printed 0.516 and 0.166)"
	per := 180 / math.Pi
	hn := kit.Must(NeutralPoint(NeutralPointInput{TailVolume: 0.34, WingSlope: new(0.08 * per), TailSlope: new(0.1 * per),
		Downwash: new(0.35), TailEfficiency: 1, AerodynamicCentre: 0.24}))(t)
	kit.Near(t, "neutral point, "+source, hn.NeutralPoint, 0.51625, kit.Digits(5))
	margin := kit.Must(StaticMargin(StaticMarginInput{hn.NeutralPoint, 0.35}))(t)
	kit.Near(t, "margin, "+source, margin.Margin, 0.16625, kit.Digits(5))
	if len(margin.List) > 0 {
		t.Error("a stable model raises a caution")
	}

	// Example 7.4's moment: VH = 0.02·0.17/(0.1·0.1); CMcg −0.064954.
	vh := kit.Must(TailVolume(TailVolumeInput{Area: 0.02, Arm: 0.17, WingArea: 0.1, Chord: new(0.1)}))(t).Volume
	kit.Near(t, "VH, example 7.4", vh, 0.34, kit.Digits(5))
	cm := -0.032 + 0.08*9.38*(0.11-vh*0.1/0.08*(1-0.35)) + vh*0.1*2.7
	kit.Near(t, "CM at the centre, anderson example 7.4 (printed −0.065)", cm, -0.064954, kit.Digits(5))

	// The independent route: the moment's slope about the neutral point is nil.
	free := NeutralPointInput{TailVolume: 0.5, AspectRatio: new(7.0), TailAspectRatio: new(4.0), TailEfficiency: 0.9, AerodynamicCentre: 0.25}
	h := kit.Must(NeutralPoint(free))(t).NeutralPoint
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
	kit.Refuses(t, err, "aspect_ratio")
	in.WingSlope = new(5.0)
	_, err = NeutralPoint(in)
	kit.Refuses(t, err, "tail_aspect_ratio")
	in.TailSlope = new(4.0)
	_, err = NeutralPoint(in)
	kit.Refuses(t, err, "downwash")
	if tight := kit.Must(StaticMargin(StaticMarginInput{0.40, 0.38}))(t); !kit.Raised(tight.List, "static-margin-short") {
		t.Error("2 % raises no caution")
	}
	if loose := kit.Must(StaticMargin(StaticMarginInput{0.40, 0.48}))(t); !kit.Raised(loose.List, "unstable") {
		t.Error("an unstable model raises no caution")
	}
}

func TestLiftSlope(t *testing.T) {
	const source = "Prandtl's lifting line, a = a0/(1 + a0/(π·e·AR))"
	ideal := kit.Must(LiftSlope(LiftSlopeInput{6, 1, 2 * math.Pi}))(t)
	kit.Near(t, "elliptic wing of AR 6, "+source, ideal.Slope, 4.712389, kit.Digits(7))
	kit.Near(t, "a degree, "+source, ideal.Slope*math.Pi/180, 0.0822467, kit.Digits(6))
	real := kit.Must(LiftSlope(LiftSlopeInput{7.5, 0.9, 5.9}))(t)
	kit.Near(t, "AR 7.5, "+source, real.Slope, 4.615771, kit.Digits(7))
}

func TestReynolds(t *testing.T) {
	got := kit.Must(Reynolds(ReynoldsInput{8, 0.12, 1.225, 1.78938e-5}))(t)
	kit.Near(t, "8 m/s on 0.12 m at ISA sea level, U.S. Standard Atmosphere 1976", got.Number, 65721.1, 2e-5)
	_, err := Reynolds(ReynoldsInput{8, 0, 1.225, 1.8e-5})
	kit.Refuses(t, err, "chord")
}
