package glide

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

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
	row := MeasuredRow{0.487, 0.0425, 0.0334}
	if got := kit.Must(PropellerRow(PropellerRowInput{row}))(t); got.MeasuredRow != row {
		t.Errorf("propeller row %+v", got)
	}
	control := SpeedControlModel{0.02, 4, 5.5}
	if got := kit.Must(SpeedControl(SpeedControlInput{control}))(t); got.SpeedControlModel != control {
		t.Errorf("speed control %+v", got)
	}
	phase := climbing(1, 50)
	if got := kit.Must(FlightPhase(FlightPhaseInput{phase}))(t); got.Phase != phase {
		t.Errorf("phase %+v", got)
	}
	if got := kit.Must(Drive(DriveInput{lapwing()}))(t); got.Motor != lapwing().Motor || got.LeadResistance != 0.015 {
		t.Errorf("drive %+v", got)
	}
}

// Rows worked by hand into forces and back into coefficients: UIUC, 10 × 4.7
// in at 5147 rpm and rest, 4.64137 N and 40.8774 W, is CT 0.1237, CP 0.05.
func TestPropellerRowByForces(t *testing.T) {
	n, d := 5147.0/60, 0.254
	row := MeasuredRow{0, 4.64137 / (1.225 * n * n * math.Pow(d, 4)), 40.8774 / (1.225 * n * n * n * math.Pow(d, 5))}
	got := kit.Must(PropellerRow(PropellerRowInput{row}))(t)
	kit.Near(t, "CT, "+uiuc, got.CT, 0.1237, 2e-5)
	kit.Near(t, "CP, "+uiuc, got.CP, 0.05, 2e-5)
}

// What a drive climbs by is its power beyond what the drag takes, over the
// weight (J. D. Anderson, Introduction to Flight, chapter 6).
func TestClimbByExcessPower(t *testing.T) {
	in := Powered{Airframe: glider(), Drive: lapwing(), Throttle: 1, SourceResistance: 0.05}
	p := in.Airframe
	for v := 5.0; v < 9; v += 0.5 {
		got := kit.Must(Climb(ClimbInput{in, v}))(t)
		drag := 0.5 * p.Density * got.Airspeed * got.Airspeed * p.Area * p.drag(p.bestGlideCL())
		kit.Near(t, "excess power, "+anderson, got.ClimbRate, got.Airspeed*(got.Thrust-drag)/p.weight(), 1e-8)
	}
}

// No row of a table is better than the ideal disc.
func TestDriveTableBelowIdealDisc(t *testing.T) {
	c := Conditions{Throttle: 1, Airspeed: 7, SourceResistance: 0.05, Density: 1.225}
	last := math.Inf(1)
	for _, row := range kit.Must(DriveTable(DriveTableInput{lapwing(), 12.4, 7, 10, c}))(t).Rows {
		ideal := kit.Must(ActuatorDisc(ActuatorDiscInput{Diameter: 8 * 0.0254, Thrust: &row.Thrust, Airspeed: 7, Density: 1.225}))(t)
		if row.ShaftPower < ideal.Power || row.Thrust >= last {
			t.Errorf("at %g V %g N on %g W, the ideal disc needs %g W", row.Voltage, row.Thrust, row.ShaftPower, ideal.Power)
		}
		last = row.Thrust
	}
}

// The pack cannot give less than the height takes.
func TestGoVoltageAboveTheLift(t *testing.T) {
	for _, h := range []float64{20, 50, 100} {
		in := lapwingGo()
		in.Height = h
		got := kit.Must(GoVoltage(in))(t)
		given := in.Store.Capacitance / 2 * (got.Voltage*got.Voltage - got.TopVoltage*got.TopVoltage)
		share := in.Airframe.weight() * (h - in.LaunchHeight) / given
		// Half of it at most arrives as height (common practice, no source).
		if share <= 0.1 || share >= 0.5 {
			t.Errorf("to %g m: %g of the energy given is height", h, share)
		}
	}
}

// At its least input a supply without a resistance before it still holds its
// voltage, and below it sinks by what is missing.
func TestBecAtItsLeastInput(t *testing.T) {
	radio := RadioModel{Kind: "linear", Voltage: 5, Dropout: 0.3, Current: 0.15, Efficiency: 0.85}
	least := kit.Must(Bec(BecInput{radio}))(t).LeastInput
	kit.Near(t, "held", kit.Must(BecPoint(BecPointInput{Bec: radio, Input: least}))(t).Output, 5, 1e-14)
	kit.Near(t, "sinks", kit.Must(BecPoint(BecPointInput{Bec: radio, Input: least - 0.2}))(t).Output, 4.8, 1e-12)
}

// The power that the emf takes is the power that the shaft gives.
func TestMotorTorqueConstantByPower(t *testing.T) {
	m := MotorModel{Kv: 1000 * rpm, Resistance: 0.2}
	constant := kit.Must(Motor(MotorInput{m}))(t).TorqueConstant
	for _, current := range []float64{1, 6, 20} {
		emf := 11 - current*0.2
		point := kit.Must(MotorPoint(MotorPointInput{m, 11, current}))(t)
		kit.Near(t, "E·I = T·ω", constant*current*point.Speed, emf*current, 1e-12)
	}
}

// By the lever: a quarter of the mass moved by 40 mm moves the centre by 10 mm.
func TestMovePartByLever(t *testing.T) {
	in := MovePartInput{Balance: Centre{Mass: 0.4, Centre: 0.1}, Wanted: 0.11, PartMass: new(0.1)}
	kit.Near(t, "lever", kit.Must(MovePart(in))(t).Shift, 0.04, 1e-12)
	in.PartMass, in.Ballast = nil, new(0.31) // 200 mm behind, 10 mm ahead: one to twenty
	kit.Near(t, "lever", kit.Must(MovePart(in))(t).Ballast, 0.02, 1e-12)
}

// The figure of merit is the ideal disc's power over the propeller's, and its
// torque, power and efficiency belong together.
func TestPropellerByIdealDisc(t *testing.T) {
	model := lapwing().Propeller
	merit := *kit.Must(Propeller(PropellerInput{model}))(t).FigureOfMerit
	still := kit.Must(PropellerPoint(PropellerPointInput{model, 6000 * rpm, 0, 1.225}))(t)
	ideal := kit.Must(ActuatorDisc(ActuatorDiscInput{Diameter: model.Diameter, Thrust: &still.Thrust, Density: 1.225}))(t)
	kit.Near(t, "ideal power over power", merit, ideal.Power/still.Power, 1e-12)
	flown := kit.Must(PropellerPoint(PropellerPointInput{model, 6000 * rpm, 7, 1.225}))(t)
	kit.Near(t, "torque times rotation", flown.Torque*6000*rpm, flown.Power, 1e-12)
	kit.Near(t, "thrust power over power", flown.Efficiency, flown.Thrust*7/flown.Power, 1e-12)
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

// Level flight on the least power is at CL = √(3·CD0/k) (Anderson, chapter 6),
// and on the least thrust at that of the best glide, both by a minimiser.
func TestLevelFlightByMinimiser(t *testing.T) {
	p := modelGlider(6)
	level := func(v float64) LevelFlightResult {
		return kit.Must(LevelFlight(LevelFlightInput{Airframe: p, Speed: v}))(t)
	}
	least := kit.GoldenSection(func(v float64) float64 { return level(v).PowerNeeded }, 3, 15)
	kit.Near(t, "least power, "+anderson, least, p.reference()/math.Sqrt(math.Sqrt(3*p.CD0/p.induced())), 1e-6)
	far := kit.GoldenSection(func(v float64) float64 { return level(v).Drag }, 3, 15)
	kit.Near(t, "least drag, "+anderson, far, p.reference()/math.Sqrt(p.bestGlideCL()), 1e-6)
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
