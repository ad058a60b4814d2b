package plain

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

// The simultaneous readings of JCGM 100:2008, table H.2: volts, amperes, radians.
var (
	impedanceVolts   = []float64{5.007, 4.994, 5.005, 4.990, 4.999}
	impedanceAmperes = []float64{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}
	impedancePhase   = []float64{1.0456, 1.0438, 1.0468, 1.0428, 1.0433}
)

// TestObservedPublished has the means, their uncertainties and their
// correlations of JCGM 100:2008, table H.2.
func TestObservedPublished(t *testing.T) {
	v := kit.Must(Observed(ObservedInput{Values: impedanceVolts}))(t)
	i := kit.Must(Observed(ObservedInput{Values: impedanceAmperes}))(t)
	p := kit.Must(Observed(ObservedInput{Values: impedancePhase}))(t)
	kit.Within(t, "V", v.Value, 4.9990, 1e-4/2)
	kit.Within(t, "I", i.Value, 19.6610e-3, 1e-7/2)
	kit.Within(t, "phase", p.Value, 1.04446, 1e-5/2)
	kit.Within(t, "u(V)", math.Sqrt(v.Covariance[0][0]), 0.0032, 1e-4/2)
	kit.Within(t, "u(I)", math.Sqrt(i.Covariance[0][0]), 0.0095e-3, 1e-7/2)
	kit.Within(t, "u(phase)", math.Sqrt(p.Covariance[0][0]), 0.00075, 1e-5/2)
	kit.Within(t, "r(V, I)", correlated(v, i), -0.36, 0.01/2)
	kit.Within(t, "r(V, phase)", correlated(v, p), 0.86, 0.01/2)
	kit.Within(t, "r(I, phase)", correlated(i, p), -0.65, 0.01/2)
	if v.DegreesOfFreedom != 4 {
		t.Errorf("%v degrees of freedom, want 4", v.DegreesOfFreedom)
	}
}

// TestMeanPublished has the same means without their scatter (JCGM 100:2008,
// table H.2).
func TestMeanPublished(t *testing.T) {
	kit.Within(t, "V", kit.Must(Mean(MeanInput{impedanceVolts}))(t).Value, 4.9990, 1e-4/2)
	kit.Within(t, "I", kit.Must(Mean(MeanInput{impedanceAmperes}))(t).Value, 19.6610e-3, 1e-7/2)
	kit.Within(t, "phase", kit.Must(Mean(MeanInput{impedancePhase}))(t).Value, 1.04446, 1e-5/2)
}

// correlated is the correlation of two means by their readings.
func correlated(a, b ObservedResult) float64 {
	sum := 0.0
	for i := range a.Readings {
		sum += a.Readings[i] * b.Readings[i]
	}
	return sum / math.Sqrt(a.Covariance[0][0]*b.Covariance[0][0])
}

// TestObservedImpedance carries the three means on to R = V·cos φ/I, with the
// sensitivities worked by hand (JCGM 100:2008, table H.3: 127.732 Ω, 0.071 Ω).
func TestObservedImpedance(t *testing.T) {
	v := kit.Must(Observed(ObservedInput{Values: impedanceVolts}))(t)
	i := kit.Must(Observed(ObservedInput{Values: impedanceAmperes}))(t)
	p := kit.Must(Observed(ObservedInput{Values: impedancePhase}))(t)
	r := v.Value * math.Cos(p.Value) / i.Value
	kit.Within(t, "R", r, 127.732, 1e-3/2)
	variance := 0.0
	for k := range v.Readings {
		part := r * (v.Readings[k]/v.Value - i.Readings[k]/i.Value - math.Tan(p.Value)*p.Readings[k])
		variance += part * part
	}
	kit.Within(t, "u(R)", math.Sqrt(variance), 0.071, 1e-3/2)
}

// TestObservedBySum works mean and scatter by the running sums of another
// library, and holds the readings' parts to their promises.
func TestObservedBySum(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	for n := 2; n < 40; n++ {
		values := make([]float64, n)
		for i := range values {
			values[i] = 12 + 0.1*r.NormFloat64()
		}
		got := kit.Must(Observed(ObservedInput{Values: values}))(t)
		mean, deviation := stat.MeanStdDev(values, nil)
		kit.Near(t, "mean", got.Value, mean, 1e-13)
		kit.Near(t, "u", math.Sqrt(got.Covariance[0][0]), stat.StdErr(deviation, float64(n)), 1e-13)
		kit.Within(t, "parts", sum(got.Readings), 0, 1e-13)
		if got.DegreesOfFreedom != float64(n-1) || len(got.Readings) != n {
			t.Errorf("%d readings: freedom %v, %d parts", n, got.DegreesOfFreedom, len(got.Readings))
		}
	}
}

func TestObservedRefuses(t *testing.T) {
	for _, values := range [][]float64{nil, {3}} {
		_, err := Observed(ObservedInput{Values: values})
		var fault *model.Error
		if !errors.As(err, &fault) || fault.Field != "values" || fault.Hint == "" {
			t.Errorf("%v: %v", values, err)
		}
	}
	alike := kit.Must(Observed(ObservedInput{Values: []float64{3, 3}}))(t)
	if alike.Value != 3 || alike.Covariance[0][0] != 0 {
		t.Errorf("two like readings: %+v", alike)
	}
}
