package drive

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// Lapwing is the drive of our own invented glider.
func lapwing() DriveModel {
	return DriveModel{Motor: MotorModel{Kv: 1000 * rpm, Resistance: 0.20, IdleCurrent: 0.35},
		Propeller:    PropellerModel{Diameter: 8 * 0.0254, CT0: new(0.105), CP0: new(0.048), ZeroThrustJ: new(0.75)},
		SpeedControl: SpeedControlModel{Resistance: 0.020}, LeadResistance: 0.015}
}

func anyConditions(r *rand.Rand) Conditions {
	return Conditions{Throttle: 0.3 + 0.7*r.Float64(), Airspeed: 14 * r.Float64(), SourceResistance: 0.1 * r.Float64(),
		RadioCurrent: 0.3 * r.Float64(), Density: 0.9 + 0.4*r.Float64()}
}

// The independent route: with the coefficients' curves the balance of torques
// is a quadratic in the speed.
func TestOperatingPointByQuadratic(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	m := lapwing()
	for range 500 {
		c, v := anyConditions(r), 5+10*r.Float64()
		got := kit.Must(OperatingPoint(OperatingPointInput{m, v, c}))(t)
		total := 0.220 + c.Throttle*c.Throttle*(c.SourceResistance+0.015)
		d := m.Propeller.Diameter
		zero := c.Airspeed / (0.75 * d)
		if got.Speed < 1.01*2*math.Pi*zero/curveEdge {
			continue // past the curves
		}
		a := 0.048 * c.Density * math.Pow(d, 5) / (2 * math.Pi) * m.Motor.Kv // amperes for n²
		b := 2 * math.Pi / (m.Motor.Kv * total)
		k := c.Throttle*(v-c.RadioCurrent*c.SourceResistance)/total - 0.35 + 0.57*a*zero*zero
		n := 2 * k / (b + math.Sqrt(b*b+4*a*k))
		kit.Near(t, "speed", got.Speed, 2*math.Pi*n, 1e-11)
	}
}

// Energy closes, and no propeller betters the ideal disc.
func TestOperatingPointEnergy(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	m := lapwing()
	for range 500 {
		c, v := anyConditions(r), 5+10*r.Float64()
		got := kit.Must(OperatingPoint(OperatingPointInput{m, v, c}))(t)
		sum := got.ShaftPower + got.IdleLoss + got.GearLoss + got.MotorLoss + got.ControlLoss + got.LeadLoss + got.SourceLoss + c.RadioCurrent*got.TerminalVoltage
		kit.Near(t, "power out of the pack", sum, v*got.Current, 1e-10)
		if got.Thrust <= 0 {
			continue
		}
		ideal := kit.Must(ActuatorDisc(ActuatorDiscInput{Diameter: m.Propeller.Diameter, Thrust: &got.Thrust, Airspeed: c.Airspeed, Density: c.Density}))(t)
		if got.ShaftPower < ideal.Power {
			t.Errorf("%g N at %g m/s on %g W, the ideal disc needs %g W", got.Thrust, c.Airspeed, got.ShaftPower, ideal.Power)
		}
	}
}

func TestOperatingPointMonotone(t *testing.T) {
	m, c := lapwing(), Conditions{Throttle: 1, Airspeed: 7, Density: 1.225}
	last := -1.0
	for v := 3.0; v < 15; v += 0.5 {
		got := kit.Must(OperatingPoint(OperatingPointInput{m, v, c}))(t)
		if got.Thrust <= last {
			t.Errorf("%g V pulls no more than less", v)
		}
		last = got.Thrust
	}
}

// A table drawn from the curves gives the curves' answer.
func TestOperatingPointMeasured(t *testing.T) {
	m := lapwing()
	measured := m
	curve, err := m.Propeller.Disc("")
	if err != nil {
		t.Fatal(err)
	}
	for j := 0.0; j < 0.9; j += 0.001 {
		ct, cp, _ := curve.Coefficients(1, j*m.Propeller.Diameter)
		measured.Propeller.Data = append(measured.Propeller.Data, MeasuredRow{J: j, CT: ct, CP: cp})
	}
	for _, speed := range []float64{0, 4, 9} {
		c := Conditions{Throttle: 0.8, Airspeed: speed, Density: 1.2}
		a := kit.Must(OperatingPoint(OperatingPointInput{m, 10, c}))(t)
		b := kit.Must(OperatingPoint(OperatingPointInput{measured, 10, c}))(t)
		kit.Near(t, "speed by table", b.Speed, a.Speed, 1e-5)
		kit.Near(t, "thrust by table", b.Thrust, a.Thrust, 1e-5)
	}
	measured.Propeller.Data = measured.Propeller.Data[100:300]
	for _, speed := range []float64{0, 1, 30} {
		_, err := OperatingPoint(OperatingPointInput{measured, 10, Conditions{Throttle: 1, Airspeed: speed, Density: 1.2}})
		kit.Refuses(t, err, "drive.propeller.data")
	}
}

func TestDriveTable(t *testing.T) {
	c := Conditions{Throttle: 1, Airspeed: 7, SourceResistance: 0.05, Density: 1.225}
	got := kit.Must(DriveTable(DriveTableInput{lapwing(), 12.4, 5.5, 10, c}))(t)
	if len(got.Rows) != 11 || got.Rows[0].Voltage != 12.4 || math.Abs(got.Rows[10].Voltage-5.5) > 1e-12 {
		t.Fatalf("rows %v", got.Rows)
	}
	for _, row := range got.Rows {
		one := kit.Must(OperatingPoint(OperatingPointInput{lapwing(), row.Voltage, c}))(t)
		kit.Near(t, "a row", row.Thrust, one.Thrust, 0)
	}
}

func TestDriveRefusesAndCautions(t *testing.T) {
	c := Conditions{Throttle: 0.5, Density: 1.225, SourceResistance: 0.5}
	m := lapwing()
	m.SpeedControl.MinimumVoltage, m.Motor.CurrentLimit = 11.9, new(1.0)
	got := kit.Must(OperatingPoint(OperatingPointInput{m, 12, c}))(t)
	for _, id := range []string{"speed-control-starved", "motor-over-current", "part-throttle-ripple", "spinning-propeller"} {
		if !kit.Raised(got.List, id) {
			t.Errorf("no caution %s", id)
		}
	}
	_, err := OperatingPoint(OperatingPointInput{m, 0.01, c})
	kit.Refuses(t, err, "voltage")
	_, err = OperatingPoint(OperatingPointInput{m, 10, Conditions{Throttle: 1.5, Density: 1}})
	kit.Refuses(t, err, "throttle")
	m.Propeller.CT0 = nil
	_, err = Drive(DriveInput{m})
	kit.Refuses(t, err, "propeller.CT0")
	for field, in := range map[string]DriveTableInput{"to": {m, 12, 0.01, 5, c}, "from": {m, 0.01, 12, 5, c}} {
		in.Drive = lapwing()
		_, err = DriveTable(in)
		kit.Refuses(t, err, field)
	}
	m = lapwing()
	m.Motor.Kv = 0
	_, err = DriveTable(DriveTableInput{m, 12, 5, 5, c})
	kit.Refuses(t, err, "drive.motor.Kv")
	m = lapwing()
	m.SpeedControl.Resistance = -1
	_, err = Drive(DriveInput{m})
	kit.Refuses(t, err, "speed_control.resistance")
}

func BenchmarkOperatingPoint(b *testing.B) {
	b.ReportAllocs()
	in := OperatingPointInput{lapwing(), 12.4, Conditions{Throttle: 1, Airspeed: 7, SourceResistance: 0.05, Density: 1.225}}
	for b.Loop() {
		if _, err := OperatingPoint(in); err != nil {
			b.Fatal(err)
		}
	}
}

// TestPluggingIn: a drive meets a charged pack, a motor by itself does not.
func TestPluggingIn(t *testing.T) {
	if train := kit.Must(Drive(DriveInput{lapwing()}))(t); !kit.Raised(train.List, "plugging-in") {
		t.Error("no word of plugging in")
	}
	if point := kit.Must(MotorPoint(MotorPointInput{Motor: lapwing().Motor, Voltage: 8, Current: 4}))(t); kit.Raised(point.List, "plugging-in") {
		t.Error("a motor on a bench supply is plugged into a pack")
	}
}
