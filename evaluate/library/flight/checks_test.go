package flight

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

// What a drive climbs by is its power beyond what the drag takes, over the
// weight (J. D. anderson, Introduction to Flight, chapter 6).
func TestClimbByExcessPower(t *testing.T) {
	in := Powered{Airframe: glider(), Drive: lapwing(), Throttle: 1, SourceResistance: 0.05}
	p := in.Airframe
	for v := 5.0; v < 9; v += 0.5 {
		got := kit.Must(Climb(ClimbInput{in, v}))(t)
		drag := 0.5 * p.Density * got.Airspeed * got.Airspeed * p.Area * p.Drag(p.BestGlideCL())
		kit.Near(t, "excess power, "+anderson, got.ClimbRate, got.Airspeed*(got.Thrust-drag)/p.Weight(), 1e-8)
	}
}

// The pack cannot give less than the height takes.
func TestGoVoltageAboveTheLift(t *testing.T) {
	for _, h := range []float64{20, 50, 100} {
		in := lapwingGo()
		in.Height = h
		got := kit.Must(GoVoltage(t.Context(), in))(t)
		given := in.Store.Capacitance / 2 * (got.Voltage*got.Voltage - got.TopVoltage*got.TopVoltage)
		share := in.Airframe.Weight() * (h - in.LaunchHeight) / given
		// Half of it at most arrives as height (common practice, no source).
		if share <= 0.1 || share >= 0.5 {
			t.Errorf("to %g m: %g of the energy given is height", h, share)
		}
	}
}

// Level flight on the least power is at CL = √(3·CD0/k) (anderson, chapter 6),
// and on the least thrust at that of the best glide, both by a minimiser.
func TestLevelFlightByMinimiser(t *testing.T) {
	p := modelGlider(6)
	level := func(v float64) LevelFlightResult {
		return kit.Must(LevelFlight(LevelFlightInput{Airframe: p, Speed: v}))(t)
	}
	least := kit.GoldenSection(func(v float64) float64 { return level(v).PowerNeeded }, 3, 15)
	kit.Near(t, "least power, "+anderson, least, p.Reference()/math.Sqrt(math.Sqrt(3*p.CD0/p.Induced())), 1e-6)
	far := kit.GoldenSection(func(v float64) float64 { return level(v).Drag }, 3, 15)
	kit.Near(t, "least drag, "+anderson, far, p.Reference()/math.Sqrt(p.BestGlideCL()), 1e-6)
}

// Functions that only name what is given give it back.
func TestRecordsHoldWhatIsGiven(t *testing.T) {
	phase := climbing(1, 50)
	if got := kit.Must(FlightPhase(FlightPhaseInput{phase}))(t); got.Phase != phase {
		t.Errorf("phase %+v", got)
	}
}
