package glide

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// By the lever: a quarter of the mass moved by 40 mm moves the centre by 10 mm.
func TestMovePartByLever(t *testing.T) {
	in := MovePartInput{Balance: Centre{Mass: 0.4, Centre: 0.1}, Wanted: 0.11, PartMass: new(0.1)}
	kit.Near(t, "lever", kit.Must(MovePart(in))(t).Shift, 0.04, 1e-12)
	in.PartMass, in.Ballast = nil, new(0.31) // 200 mm behind, 10 mm ahead: one to twenty
	kit.Near(t, "lever", kit.Must(MovePart(in))(t).Ballast, 0.02, 1e-12)
}

// Two blades of a chord add up to the area that stands in the wind.
func TestPropellerDragByBlades(t *testing.T) {
	const strips, radius = 1000, 0.1
	chord := 0.1 * math.Pi * radius / 2 // a solidity of a tenth
	area := 0.0
	for range 2 * strips {
		area += chord * radius / strips
	}
	kit.Near(t, "sum of strips", kit.Must(PropellerDrag(PropellerDragInput{Diameter: 2 * radius, Solidity: 0.1}))(t).DragArea, 0.8*area, 1e-9)
}

// The lifting line iterated: the lift that there is tilts the stream that
// makes it.
func TestLiftSlopeIterated(t *testing.T) {
	for _, ratio := range []float64{2, 6, 12} {
		lift := 0.0
		for range 400 {
			lift += 0.3 * (5.9*(1-lift/(math.Pi*0.9*ratio)) - lift)
		}
		kit.Near(t, "iterated", kit.Must(LiftSlope(LiftSlopeInput{ratio, 0.9, 5.9}))(t).Slope, lift, 1e-12)
	}
}

// The number by way of the kinematic viscosity of the standard atmosphere.
func TestReynoldsByKinematicViscosity(t *testing.T) {
	for _, h := range []float64{0, 1000, 5000} {
		here := kit.Must(Air(AirInput{Altitude: h}))(t)
		got := kit.Must(Reynolds(ReynoldsInput{8, 0.12, here.Density, here.Viscosity}))(t)
		kit.Near(t, "V·c/ν", got.Number, 8*0.12/here.KinematicViscosity, 1e-12)
	}
}

// The margin is how the moment of wing and tail about the centre of gravity
// falls as the wing's lift rises.
func TestStaticMarginByMoment(t *testing.T) {
	a, at, down := 4.9, 4.1, 0.42
	hn := kit.Must(NeutralPoint(NeutralPointInput{TailVolume: 0.5, WingSlope: &a, TailSlope: &at,
		Downwash: &down, TailEfficiency: 0.9, AerodynamicCentre: 0.25}))(t).NeutralPoint
	for _, h := range []float64{0.25, 0.33, 0.40, 0.55} {
		moment := func(alpha float64) float64 {
			return -0.05 + a*alpha*(h-0.25) - 0.9*0.5*at*(alpha*(1-down)-0.03)
		}
		slope := (moment(0.1) - moment(0)) / (a * 0.1)
		kit.Near(t, "slope", kit.Must(StaticMargin(StaticMarginInput{hn, h}))(t).Margin, -slope, 1e-10)
	}
}

// A tail's volume is the moment of its area about the wing, strip by strip.
func TestTailVolumeByStrips(t *testing.T) {
	const strips = 1000
	moment := 0.0
	for i := range strips {
		// A rectangle of 50 mm by 500 mm about a point 400 mm ahead of its middle.
		moment += 0.05 / strips * 0.5 * (0.4 + 0.05*((float64(i)+0.5)/strips-0.5))
	}
	got := kit.Must(TailVolume(TailVolumeInput{Area: 0.025, Arm: 0.4, WingArea: 0.12, Chord: new(0.1263)}))(t)
	kit.Near(t, "strips", got.Volume, moment/(0.12*0.1263), 1e-9)
}

// Functions that only name what is given give it back.
func TestRecordsHoldWhatIsGiven(t *testing.T) {
	panel := PanelRow{0.2, 0.15, 0.1, 0.025}
	if got := kit.Must(Panel(PanelInput{panel}))(t); got.PanelRow != panel {
		t.Errorf("panel %+v", got)
	}
	part := PartRow{0.038, 0.012}
	if got := kit.Must(Part(PartInput{part}))(t); got.PartRow != part {
		t.Errorf("part %+v", got)
	}
}
