package drive

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/numeric"
)

// MotorFromRunsInput is what [MotorFromRuns] wants.
type MotorFromRunsInput struct {
	Voltage       []float64 `unit:"V" range:"(0,)" same:"runs" help:"at the motor, of each run without a load"`
	Current       []float64 `unit:"A" range:"(0,)" same:"runs" help:"of each run without a load"`
	Speed         []float64 `unit:"rpm" range:"(0,)" same:"runs" help:"of each run without a load"`
	Resistance    *float64  `unit:"Ω" range:"(0,)" choose:"resistance" help:"of the winding, if it was measured" symbol:"R"`
	LoadedVoltage *float64  `unit:"V" range:"(0,)" choose:"resistance" help:"at the motor, with its propeller on"`
	LoadedCurrent *float64  `unit:"A" range:"(0,)" help:"then"`
	LoadedSpeed   *float64  `unit:"rpm" range:"(0,)" help:"then"`
}

// MotorFromRunsResult is what [MotorFromRuns] answers: the motor, with what the scatter of the runs says of it.
type MotorFromRunsResult struct {
	Kv          float64 `unit:"rpm/V" name:"Kv" show:"1" help:"speed per volt, without load"`
	Resistance  float64 `unit:"Ω" show:"2" help:"of the winding" symbol:"R"`
	IdleCurrent float64 `unit:"A" show:"3" help:"mean of the runs without a load"`
	Scatter     float64 `unit:"%" help:"largest difference of a run's speed from what these say"`
}

// MotorFromRuns finds a motor's constants from runs without a load, and its resistance from one with its propeller.
//
// The answer serves wherever a motor is wanted.
//
// Formula: ω = Kv·(V − I·R); Kv by least squares of all runs without a load, Kv = Σ ω·(V − I·R)/Σ (V − I·R)²; R so that the loaded point lies on it too, R = (V_l − ω_l/Kv)/I_l.
//
// Letters: V voltage; I current; ω speed; V_l loaded_voltage; I_l loaded_current; ω_l loaded_speed; Kv = Kv; R = resistance.
//
// Validity: constant resistance: measure while the winding is as warm as in flight. The loaded current should be several times the idle current.
//
// Source: the first-order model of a d.c. motor, textbooks.
//
// Example:
//
//	bench = motor_from_runs([8 V, 10 V], [0.40 A, 0.44 A], [7900 rpm, 9890 rpm], resistance: 0.25 Ω)
//	mot = motor(Kv: bench.Kv, resistance: bench.resistance, idle_current: bench.idle_current)
func MotorFromRuns(in MotorFromRunsInput) (MotorFromRunsResult, error) {
	if err := in.check(); err != nil {
		return MotorFromRunsResult{}, err
	}
	r, err := in.resistance()
	if err != nil {
		return MotorFromRunsResult{}, err
	}
	out := MotorFromRunsResult{Kv: in.kv(r), Resistance: r}
	for i, speed := range in.Speed {
		out.IdleCurrent += in.Current[i] / float64(len(in.Current))
		out.Scatter = max(out.Scatter, math.Abs(out.Kv*(in.Voltage[i]-in.Current[i]*r)/speed-1))
	}
	return out, nil
}

func (in MotorFromRunsInput) check() error {
	n := len(in.Voltage)
	if n == 0 || len(in.Current) != n || len(in.Speed) != n {
		return &model.Error{Field: "voltage", Summary: "{0} voltages, {1} currents and {2} speeds do not make runs",
			Values: []model.Value{model.In(float64(n), "1"), model.In(float64(len(in.Current)), "1"), model.In(float64(len(in.Speed)), "1")},
			Hint:   "give voltage, current and speed of each run without a load"}
	}
	var bounds []error
	for i := range n {
		bounds = append(bounds, require.Positive("voltage", in.Voltage[i], "V"), require.Positive("current", in.Current[i], "A"), require.Positive("speed", in.Speed[i], "rad/s"))
	}
	return require.All(bounds...)
}

// kv is the least-squares speed by the volt of the runs, for a resistance.
func (in MotorFromRunsInput) kv(r float64) float64 {
	var sum, square float64
	for i, speed := range in.Speed {
		emf := in.Voltage[i] - in.Current[i]*r
		sum, square = sum+speed*emf, square+emf*emf
	}
	return sum / square
}

// resistance is the one given, or that at which the loaded point has the speed
// by the volt of the runs.
func (in MotorFromRunsInput) resistance() (float64, error) {
	most := math.Inf(1) // where a run without a load has no back voltage left
	for i, v := range in.Voltage {
		most = min(most, v/in.Current[i])
	}
	if in.Resistance != nil {
		if r := *in.Resistance; !(r < most) {
			return 0, &model.Error{Field: "resistance", Summary: "is {0}, at which a run without a load would not turn", Values: []model.Value{model.In(r, "Ω")}, Hint: "check its unit: windings have some hundredths to some tenths of an ohm"}
		}
		return *in.Resistance, require.Positive("resistance", *in.Resistance, "Ω")
	}
	if in.LoadedVoltage == nil || in.LoadedCurrent == nil || in.LoadedSpeed == nil {
		return 0, &model.Error{Field: "loaded_voltage", Summary: "nothing says what the winding's resistance is", Hint: "give resistance, or loaded_voltage, loaded_current and loaded_speed of a run with the propeller on"}
	}
	v, i, n := *in.LoadedVoltage, *in.LoadedCurrent, *in.LoadedSpeed
	if err := require.All(require.Positive("loaded_voltage", v, "V"), require.Positive("loaded_current", i, "A"), require.Positive("loaded_speed", n, "rad/s")); err != nil {
		return 0, err
	}
	faster := func(r float64) float64 { return in.kv(r)*(v-i*r) - n }
	high := min(most*(1-1e-9), v/i)
	slow, fast := faster(high), faster(0)
	if !(slow < 0 && fast > 0) {
		return 0, &model.Error{Field: "loaded_speed", Summary: "is {0}, where a winding without resistance would give {1}: no resistance fits",
			Values: []model.Value{model.In(n*30/math.Pi, "rpm"), model.In(in.kv(0)*v*30/math.Pi, "rpm")},
			Hint:   "give the loaded run's own voltage, current and speed; under a load it turns slower by the volt"}
	}
	return numeric.Crossing(faster, 0, high, fast, slow), nil
}
