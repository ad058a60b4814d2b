package drive

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// Rows worked by hand into forces and back into coefficients: UIUC, 10 × 4.7
// in at 5147 rpm and rest, 4.64137 N and 40.8774 W, is CT 0.1237, CP 0.05.
func TestPropellerRowByForces(t *testing.T) {
	n, d := 5147.0/60, 0.254
	row := MeasuredRow{CT: 4.64137 / (1.225 * n * n * math.Pow(d, 4)), CP: 40.8774 / (1.225 * n * n * n * math.Pow(d, 5))}
	got := kit.Must(PropellerRow(PropellerRowInput{row}))(t)
	kit.Near(t, "CT, "+uiuc, got.CT, 0.1237, 2e-5)
	kit.Near(t, "CP, "+uiuc, got.CP, 0.05, 2e-5)
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

// Functions that only name what is given give it back.
func TestRecordsHoldWhatIsGiven(t *testing.T) {
	row := MeasuredRow{J: 0.487, CT: 0.0425, CP: 0.0334}
	if got := kit.Must(PropellerRow(PropellerRowInput{row}))(t); got.MeasuredRow != row {
		t.Errorf("propeller row %+v", got)
	}
	control := SpeedControlModel{Resistance: 0.02, MinimumVoltage: 4, CutOff: 5.5}
	if got := kit.Must(SpeedControl(SpeedControlInput{control}))(t); got.SpeedControlModel != control {
		t.Errorf("speed control %+v", got)
	}
	if got := kit.Must(Drive(DriveInput{lapwing()}))(t); got.Motor != lapwing().Motor || got.LeadResistance != 0.015 {
		t.Errorf("drive %+v", got)
	}
}
