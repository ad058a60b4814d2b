package plain

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

// The calibration of a thermometer in JCGM 100:2008, table H.6: readings, and
// the corrections observed at each.
var (
	thermometerReads       = []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}
	thermometerCorrections = []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}
)

func fitLine(t *testing.T, xs, ys []float64, at *float64) FitLineResult {
	t.Helper()
	return kit.Must(FitLine(FitLineInput{xs, ys, at}))(t)
}

// TestFitLinePublished has the line of JCGM 100:2008, H.3.3, about 20 °C, and
// its correction at 30 °C with u of H.3.4: −0.1494 °C and 0.0041 °C.
func TestFitLinePublished(t *testing.T) {
	at := 20.0
	f := fitLine(t, thermometerReads, thermometerCorrections, &at)
	kit.Within(t, "intercept", f.Intercept, -0.1712, 1e-4/2)
	kit.Within(t, "slope", f.Slope, 0.00218, 1e-5/2)
	kit.Within(t, "u(intercept)", math.Sqrt(f.Covariance[1][1]), 0.0029, 1e-4/2)
	kit.Within(t, "u(slope)", math.Sqrt(f.Covariance[0][0]), 0.00067, 1e-5/2)
	kit.Within(t, "r", f.Correlation, -0.930, 1e-3/2)
	kit.Within(t, "s", f.Scatter, 0.0035, 1e-4/2)
	there := 30.0
	far := fitLine(t, thermometerReads, thermometerCorrections, &there)
	kit.Within(t, "b(30 °C)", far.Intercept, -0.1494, 1e-4/2)
	kit.Within(t, "u(b(30 °C))", math.Sqrt(far.Covariance[1][1]), 0.0041, 1e-4/2)
	if f.Freedom != 9 || f.Estimate.DegreesOfFreedom != 9 || len(f.List) != 0 {
		t.Errorf("freedom %d and %v, cautions %v", f.Freedom, f.Estimate.DegreesOfFreedom, f.List)
	}
}

// TestSlopePublished has the slope of JCGM 100:2008, H.3.3.
func TestSlopePublished(t *testing.T) {
	f := kit.Must(Slope(SlopeInput{Xs: thermometerReads, Ys: thermometerCorrections}))(t)
	kit.Within(t, "slope", f.Value, 0.00218, 1e-5/2)
	kit.Within(t, "u(slope)", math.Sqrt(f.Covariance[0][0]), 0.00067, 1e-5/2)
}

// TestFitLineByNormalEquations solves XᵀX·b = Xᵀy, and takes the covariance
// from the inverse.
func TestFitLineByNormalEquations(t *testing.T) {
	at := 24.0
	f := fitLine(t, thermometerReads, thermometerCorrections, &at)
	slope := kit.Must(Slope(SlopeInput{Xs: thermometerReads, Ys: thermometerCorrections}))(t)
	design := mat.NewDense(len(thermometerReads), 2, nil)
	for i, x := range thermometerReads {
		design.SetRow(i, []float64{x - at, 1})
	}
	var gram, inverse, right, found mat.Dense
	gram.Mul(design.T(), design)
	if err := inverse.Inverse(&gram); err != nil {
		t.Fatal(err)
	}
	right.Mul(design.T(), mat.NewVecDense(len(thermometerCorrections), thermometerCorrections))
	found.Mul(&inverse, &right)
	kit.Near(t, "slope", f.Slope, found.At(0, 0), 1e-13)
	kit.Near(t, "slope alone", slope.Value, found.At(0, 0), 1e-13)
	kit.Near(t, "intercept", f.Intercept, found.At(1, 0), 1e-13)
	for i := range 2 {
		for j := range 2 {
			kit.Within(t, "covariance", f.Covariance[i][j]/(f.Scatter*f.Scatter), inverse.At(i, j), 1e-13)
		}
	}
	kit.Near(t, "variance of the slope alone", slope.Covariance[0][0], f.Covariance[0][0], 1e-13)
}

// TestFitLineExact: readings on a line give it back, and no scatter; the
// correlation is −Σx/√(n·Σx²), whatever the scatter.
func TestFitLineExact(t *testing.T) {
	f := fitLine(t, []float64{1, 2, 4}, []float64{5, 3, -1}, nil)
	kit.Near(t, "slope", f.Slope, -2, 1e-13)
	kit.Near(t, "intercept", f.Intercept, 7, 1e-13)
	kit.Within(t, "scatter", f.Scatter, 0, 1e-13)
	kit.Near(t, "correlation", f.Correlation, -7/math.Sqrt(3*21), 1e-13)
}

// TestFitLineFarOut: five widths of the readings away are borne, more is told.
func TestFitLineFarOut(t *testing.T) {
	xs, ys := []float64{10, 11, 12}, []float64{1, 2, 4}
	for at, want := range map[float64]int{0: 0, 22: 0, -0.1: 1, 22.1: 1} {
		if f := fitLine(t, xs, ys, &at); len(f.List) != want || want == 1 && f.List[0].ID != "intercept-far-out" {
			t.Errorf("at %v: %v", at, f.List)
		}
	}
}

func TestNoLine(t *testing.T) {
	for _, c := range []struct {
		xs, ys      []float64
		field, says string
	}{
		{[]float64{1, 2, 3}, []float64{1, 2}, "ys", "there are 2 1 values for 3 1 in xs"},
		{[]float64{1, 2}, []float64{1, 2}, "xs", "there are 2 1 readings"},
		{[]float64{4, 4, 4}, []float64{1, 2, 3}, "xs", "all readings are at one value"},
	} {
		for _, err := range []error{failing(FitLine(FitLineInput{c.xs, c.ys, nil})), failing(Slope(SlopeInput{c.xs, c.ys}))} {
			var fault *model.Error
			if !errors.As(err, &fault) || fault.Field != c.field || !strings.Contains(err.Error(), c.says) || fault.Hint == "" {
				t.Errorf("%v, want %q for %q", err, c.says, c.field)
			}
		}
	}
}
