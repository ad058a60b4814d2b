package flight

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"inkwing/evaluate/library/drive"
	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

func TestFlightRefuses(t *testing.T) {
	for _, row := range []struct {
		field string
		spoil func(*FlightInput)
	}{
		{"plan", func(in *FlightInput) { in.Plan = []Phase{} }},
		{"plan", func(in *FlightInput) { in.Plan = []Phase{{}} }},
		{"plan", func(in *FlightInput) { in.Plan = []Phase{{Throttle: new(1.0), Power: new(5.0)}} }},
		{"plan", func(in *FlightInput) { in.Plan = []Phase{{Throttle: new(1.5)}} }},
		{"plan", func(in *FlightInput) { in.Plan = []Phase{{ClimbRate: new(-1.0)}} }},
		{"plan", func(in *FlightInput) { in.Plan = []Phase{{Power: new(0.0)}} }},
		{"plan", func(in *FlightInput) { in.Plan = []Phase{climbing(1, -5)} }},
		{"plan", func(in *FlightInput) { in.Plan = []Phase{{ClimbRate: new(1.0), ForTime: new(0.0)}} }},
		{"plan", func(in *FlightInput) { in.Plan = []Phase{climbing(9, 50)} }},
		{"plan", func(in *FlightInput) { in.Plan[0].CL = new(1.5) }},
		{"plan", func(in *FlightInput) { in.Plan = []Phase{{Throttle: new(1.0)}}; in.Airframe.Mass = 0.15 }},
		{"plan", func(in *FlightInput) { in.Plan = []Phase{{Throttle: new(0.01)}} }},
		{"start_voltage", func(in *FlightInput) { in.StartVoltage = 5.6 }},
		{"start_voltage", func(in *FlightInput) { in.StartVoltage = math.NaN() }},
		{"cut_off", func(in *FlightInput) { in.CutOff = nil }},
		{"airframe.mass", func(in *FlightInput) { in.Airframe.Mass = 0 }},
		{"drive.motor.Kv", func(in *FlightInput) { in.Drive.Motor.Kv = -1 }},
		{"store.capacitance", func(in *FlightInput) { in.Store.Capacitance = 0 }},
		{"radio.kind", func(in *FlightInput) { in.Radio.Kind = "crystal" }},
		{"radio_minimum", func(in *FlightInput) { in.RadioMinimum = new(-1.0) }},
		{"glide_CL", func(in *FlightInput) { in.GlideCL = new(3.0) }},
		{"propeller", func(in *FlightInput) { in.Propeller = "lost" }},
		{"launch_height", func(in *FlightInput) { in.LaunchHeight = -1 }},
		{"drive.propeller.data", func(in *FlightInput) {
			in.Drive.Propeller.Data = []drive.MeasuredRow{{J: 0.1, CT: 0.0001, CP: 0.05}, {J: 0.5, CT: 0.00001, CP: 0.04}}
		}},
	} {
		in := lapwingFlight()
		row.spoil(&in)
		_, err := Flight(t.Context(), in)
		kit.Refuses(t, err, row.field)
	}
	_, err := FlightPhase(FlightPhaseInput{Phase{UntilHeight: new(4.0)}})
	kit.Refuses(t, err, "throttle")
}

// Energy is never created: what the pack gives is at least what it takes to
// be where the model is, every loss is one, and the sum closes.
func TestFlightEnergyRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	flown := 0
	for range 300 {
		in := lapwingFlight(anyPhase(r), anyPhase(r), Phase{Throttle: new(0.3 + 0.7*r.Float64())})
		in.Airframe.Mass, in.Airframe.CD0 = 0.25+0.3*r.Float64(), 0.02+0.03*r.Float64()
		in.Store.Capacitance, in.Store.Resistance = 5+20*r.Float64(), 0.15*r.Float64()
		in.StartVoltage, in.LaunchHeight = 8+5*r.Float64(), 5*r.Float64()
		in.Radio.Kind = []string{"linear", "switching"}[r.IntN(2)]
		got, err := Flight(t.Context(), in)
		var e *model.Error
		if errors.As(err, &e) && (e.Field == "plan" || e.Field == "start_voltage") {
			continue
		}
		if err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		flown++
		kit.Near(t, "sum of energies", sum(got.FlightSum), got.Given, 1e-6)
		s := got.FlightSum
		for _, x := range []float64{s.Radio, s.StoreLoss, s.Leads, s.SpeedControl, s.Copper, s.Idle, s.PropellerLoss, s.Drag, s.Leakage} {
			if x < 0 {
				t.Errorf("a loss below nothing in %+v", s)
			}
		}
		if got.TopHeight > in.LaunchHeight+s.Given/in.Airframe.Weight() {
			t.Errorf("%g m out of %g J", got.TopHeight, s.Given)
		}
		if got.PoweredTime < 0 || got.GlideTime < 0 || got.StopVoltage > in.StartVoltage || !(got.LandingVoltage >= 0) {
			t.Errorf("%+v", got)
		}
	}
	if flown < 150 {
		t.Errorf("only %d of 300 were flown", flown)
	}
}

// The bound on the pack's current: ½·1 F·13.5 V/(0.05 Ω·1 F + 1 s) = 6.43 A of
// one farad (makers' data sheets, from memory).
func TestFlightPackCurrent(t *testing.T) {
	for power, want := range map[float64]bool{30: false, 75: true} {
		in := lapwingFlight(Phase{Power: &power, ForTime: new(0.5)})
		in.Store = FlightStore{Capacitance: 1, Resistance: 0.05, RatedVoltage: new(13.5)}
		in.Airframe.Mass = 0.8
		got := kit.Must(Flight(t.Context(), in))(t)
		if (got.PeakCurrent > 6.4286) != want || kit.Raised(got.List, "pack-over-current") != want {
			t.Errorf("%g A: raised %v", got.PeakCurrent, !want)
		}
	}
}

func anyPhase(r *rand.Rand) Phase {
	ph := Phase{ForTime: new(1 + 30*r.Float64())}
	if r.IntN(2) == 0 {
		ph.UntilHeight = new(60 * r.Float64())
	}
	switch r.IntN(4) {
	case 0:
		ph.Throttle = new(0.3 + 0.6*r.Float64())
	case 1:
		ph.ClimbRate = new(2 * r.Float64())
	case 2:
		ph.Power = new(5 + 25*r.Float64())
	default:
		ph.Throttle = new(0.0)
	}
	return ph
}

// Measured rows drawn from the curves fly as the curves do; rows that end too
// soon are refused, not extrapolated.
func TestFlightMeasured(t *testing.T) {
	for _, ph := range []Phase{{ClimbRate: new(1.0)}, {Throttle: new(0.6)}, {Power: new(25.0)}} {
		in := lapwingFlight(ph)
		want := kit.Must(Flight(t.Context(), in))(t)
		curve, err := in.Drive.Propeller.Disc("")
		if err != nil {
			t.Fatal(err)
		}
		for j := 0.0; j < 0.95; j += 0.005 {
			ct, cp, _ := curve.Coefficients(1, j*curve.Diameter)
			in.Drive.Propeller.Data = append(in.Drive.Propeller.Data, drive.MeasuredRow{J: j, CT: ct, CP: cp})
		}
		got := kit.Must(Flight(t.Context(), in))(t)
		kit.Near(t, "powered time by table", got.PoweredTime, want.PoweredTime, 1e-3)
		kit.Near(t, "top height by table", got.TopHeight, want.TopHeight, 1e-3)
		kit.Near(t, "sum of energies", sum(got.FlightSum), got.Given, 1e-6)
		in.Drive.Propeller.Data = in.Drive.Propeller.Data[:40]
		_, err = Flight(t.Context(), in)
		kit.Refuses(t, err, "drive.propeller.data")
	}
}

func BenchmarkFlight(b *testing.B) {
	for _, name := range []string{"climb and level", "throttle", "power", "throttle, switching", "all on", "steps, all on"} {
		in := kinds()[strings.Replace(strings.Replace(name, "steps, all on", "steps, chopped and geared, switching", 1), "all on", "climb and level, chopped and geared, switching", 1)]
		if strings.Contains(name, "all on") {
			in.Propeller = "windmilling"
			in.Airframe.FrictionShare, in.Airframe.FrictionSpeed = new(0.7), new(10.0)
		}
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			var c *course
			for b.Loop() {
				var err error
				if _, c, err = in.fly(b.Context(), flightTolerance); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(c.steps), "steps/op")
			b.ReportMetric(float64(c.calls), "rhs/op")
		})
	}
}
