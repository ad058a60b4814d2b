package energy

import (
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestCapacitanceByDischarge(t *testing.T) {
	got := kit.Must(CapacitanceByDischarge(CapacitanceByDischargeInput{Current: 0.5, From: 2.16, To: 1.08, Time: 26.4 - 3.2}))(t)
	kit.Near(t, "IEC 62391-1 constant-current method, from memory", got.Capacitance, 10.7407407, kit.Exact)

	// The discharge of a known store gives its capacitance back.
	run := kit.Must(Discharge(DischargeInput{Store: bench(10, 30e-3), From: 5, To: 2.5, Current: new(2.0)}))(t)
	back := kit.Must(CapacitanceByDischarge(CapacitanceByDischargeInput{Current: 2, From: 5 - 0.06, To: 2.5, Time: run.Time}))(t)
	kit.Near(t, "there and back", back.Capacitance, 10, 1e-12)

	_, err := CapacitanceByDischarge(CapacitanceByDischargeInput{Current: 1, From: 1, To: 1, Time: 1})
	kit.Refuses(t, err, "from")
}

func TestResistanceByStep(t *testing.T) {
	got := kit.Must(ResistanceByStep(ResistanceByStepInput{Step: 0.081, Current: 2.7}))(t)
	kit.Near(t, "IEC 62391-1 direct-current method, from memory", got.Resistance, 0.03, kit.Exact)
	_, err := ResistanceByStep(ResistanceByStepInput{Step: 0.081})
	kit.Refuses(t, err, "current")
}

func TestCurrentFromSlope(t *testing.T) {
	const source = "common practice, no source: such a pack falling 0.01 V/s feeds a radio about 0.17 A and leaves about 150 s from 6.5 V to 5 V"
	i := kit.Must(CurrentFromSlope(CurrentFromSlopeInput{Capacitance: 16.7, Slope: 0.01}))(t).Current
	kit.Near(t, source, i, 0.17, 0.02)
	left := kit.Must(HoldUpTime(HoldUpTimeInput{Store: Store{Capacitance: 16.7, RatedVoltage: 18}, From: 6.5, To: 5, Current: &i}))(t)
	kit.Near(t, source, left.Time, 150, 1e-9)
}

func TestLeakageFromRest(t *testing.T) {
	in := LeakageFromRestInput{Capacitance: 10, From: 2.5, To: 2.2408, Time: 24 * 3600}
	kit.Near(t, "constant leakage: V0 − I t/C", kit.Must(LeakageFromRest(in))(t).Current, 30e-6, kit.Exact)
	in.To = 1.62302344
	got := kit.Must(LeakageFromRest(in))(t)
	kit.Near(t, "V0 exp(−t/RC), textbook", *got.Resistance, 20e3, kit.Exact)
	if kit.Raised(got.List, "rest-too-short") {
		t.Error("a caution after 24 h")
	}
	in.Time = 3600
	if got := kit.Must(LeakageFromRest(in))(t); !kit.Raised(got.List, "rest-too-short") {
		t.Error("no caution after 1 h")
	}
	in.To = 2.5
	if got := kit.Must(LeakageFromRest(in))(t); got.Resistance != nil || got.Current != 0 {
		t.Errorf("a leak without a fall: %+v", got)
	}
	in.To = 2.6
	_, err := LeakageFromRest(in)
	kit.Refuses(t, err, "from")
}

func TestMeasuringCurrents(t *testing.T) {
	const source = "IEC 62576, 4.3.3"
	got := kit.Must(MeasuringCurrents(MeasuringCurrentsInput{RatedVoltage: 2.7, Resistance: 29e-3}))(t)
	kit.Near(t, source, got.Charge, 2.450091, 1e-6)
	kit.Near(t, source, got.Discharge, 2.327586, 1e-6)

	// The standard's notes 2 and 3: 95 % of the energy passes either way.
	store := Store{Capacitance: 100, RatedVoltage: 2.7, Resistance: 29e-3}
	in := kit.Must(SteadyChargeEfficiency(SteadyChargeEfficiencyInput{Store: store, Time: 100 * 2.7 / got.Charge}))(t)
	kit.Near(t, source+", note 2", in.Efficiency, 0.95, 1e-12)
	t1 := 100 * 2.7 / got.Discharge
	lost := got.Discharge * got.Discharge * 29e-3 * t1
	kit.Near(t, source+", note 3", 1-lost/store.EnergyAt(2.7), 0.95, 1e-12)
}

// Table H.2 of JCGM 100:2008: corrections of a thermometer against its reading.
var (
	thermometer = []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}
	correction  = []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}
)

func TestFitLine(t *testing.T) {
	const source = "JCGM 100:2008, H.3, printed digits"
	got := kit.Must(fitLine(thermometer, correction, 20))(t)
	kit.Near(t, source, got.Intercept, -0.1712, 3e-4)
	kit.Near(t, source, math.Sqrt(got.InterceptVariance), 0.0029, 2e-2)
	kit.Near(t, source, got.Slope, 0.00218, 3e-3)
	kit.Near(t, source, math.Sqrt(got.SlopeVariance), 0.00067, 5e-3)
	kit.Near(t, source, got.Scatter, 0.0035, 2e-2)
	if got.Freedom != 9 {
		t.Errorf("%d degrees of freedom, want 9", got.Freedom)
	}
}

// rundown is the log of a known store: 10 F, 30 mΩ, 2.6 V, 0.5 A from 2 s on.
func rundown(scatter float64, r *rand.Rand) (in FitRundownInput) {
	in = FitRundownInput{Current: 0.5, Rested: 2.6, Start: 2}
	for t := 3.0; t < 33; t++ {
		in.Time = append(in.Time, t)
		in.Voltage = append(in.Voltage, 2.6-0.5*30e-3-0.5*(t-2)/10+scatter*r.NormFloat64())
	}
	return in
}

func TestFitRundown(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	got := kit.Must(FitRundown(rundown(0, r)))(t)
	kit.Near(t, "a log without scatter gives its store back", got.Capacitance, 10, 1e-9)
	kit.Near(t, "a log without scatter gives its store back", got.Resistance, 30e-3, 1e-9)

	// With scatter: the spread of many fits is the uncertainty that each states.
	const runs = 2000
	var c2, r2, cr, uc2, ur2, ucr float64
	for range runs {
		got := kit.Must(FitRundown(rundown(0.003, r)))(t)
		c2 += (got.Capacitance - 10) * (got.Capacitance - 10) / runs
		r2 += (got.Resistance - 30e-3) * (got.Resistance - 30e-3) / runs
		cr += (got.Capacitance - 10) * (got.Resistance - 30e-3) / runs
		ucr += got.Covariance[0][1] / runs
		uc2 += got.UCapacitance * got.UCapacitance / runs
		ur2 += got.UResistance * got.UResistance / runs
	}
	kit.Near(t, "spread of capacitance, simulated", uc2, c2, 0.15)
	kit.Near(t, "spread of resistance, simulated", ur2, r2, 0.15)
	kit.Near(t, "covariance of the two, simulated", ucr, cr, 0.15)
	kit.Near(t, "degrees of freedom", kit.Must(FitRundown(rundown(0.003, r)))(t).Estimate.DegreesOfFreedom, 28, 0)
}

func TestFitRundownRefuses(t *testing.T) {
	in := FitRundownInput{Current: 1, Rested: 2.6, Time: []float64{0, 1}, Voltage: []float64{2, 1}}
	_, err := FitRundown(in)
	kit.Refuses(t, err, "time")
	in.Time, in.Voltage = []float64{1, 1, 1}, []float64{2, 1.9, 1.8}
	_, err = FitRundown(in)
	kit.Refuses(t, err, "time")
	in.Time, in.Voltage = []float64{1, 2, 3}, []float64{2, 2.1, 2.2}
	_, err = FitRundown(in)
	kit.Refuses(t, err, "voltage")
	in.Voltage, in.Rested = []float64{2.9, 2.8, 2.7}, 2.8
	if got := kit.Must(FitRundown(in))(t); !kit.Raised(got.List, "step-upwards") {
		t.Error("a negative resistance without a caution")
	}
}

func TestFitLeakage(t *testing.T) {
	in := FitLeakageInput{Capacitance: 10}
	for h := 0.0; h <= 24; h += 6 {
		v := kit.Must(SelfDischarge(SelfDischargeInput{Capacitance: 10, Voltage: 2.5, Time: h * 3600, Resistance: new(20e3)}))(t)
		in.Time, in.Voltage = append(in.Time, h*3600), append(in.Voltage, v.Voltage)
	}
	got := kit.Must(FitLeakage(in))(t)
	kit.Near(t, "there and back", got.Resistance, 20e3, 1e-9)
	kit.Near(t, "τ = R·C", got.TimeConstant, 2e5, 1e-9)
	in.Voltage[2] *= 1.01
	got = kit.Must(FitLeakage(in))(t)
	kit.Near(t, "u(R)² and its covariance with τ = R·C", got.Covariance[0][1], got.UResistance*got.UResistance*10, 1e-12)
	kit.Near(t, "u(τ)²", got.Covariance[1][1], got.UResistance*got.UResistance*100, 1e-12)
	kit.Near(t, "degrees of freedom", got.Estimate.DegreesOfFreedom, 3, 0)
	in.Voltage[2] = 0
	_, err := FitLeakage(in)
	kit.Refuses(t, err, "voltage")
}
