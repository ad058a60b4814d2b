package energy

import (
	"errors"
	"math"
	"testing"

	"inkwing/evaluate/library/model"
)

// exact is for published values that are printed to nine digits or follow
// from a definition.
const exact = 1e-8

// near compares relatively, absolutely only around zero.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tolerance*max(math.Abs(want), 1e-12) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, tolerance)
	}
}

// must unwraps a result that has to be there.
func must[R any](r R, err error) func(t *testing.T) R {
	return func(t *testing.T) R {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
}

// refuses wants an error of the model at a field.
func refuses(t *testing.T, err error, field string) {
	t.Helper()
	var e *model.Error
	if !errors.As(err, &e) {
		t.Fatalf("got %v, want an error at %q", err, field)
	}
	if e.Field != field {
		t.Errorf("error at %q, want %q: %v", e.Field, field, e)
	}
	if e.Says == "" || e.Mend == "" {
		t.Errorf("error at %q says too little: %+v", field, e)
	}
}

// raised reports whether a caution is among them.
func raised(list []model.Caution, id string) bool {
	for _, c := range list {
		if c.ID == id {
			return true
		}
	}
	return false
}

func is(v float64) *float64 { return &v }

// rk4 steps y' = f(y) from y for n steps of h.
func rk4(f func(float64) float64, y, h float64, n int) float64 {
	for range n {
		k1 := f(y)
		k2 := f(y + h*k1/2)
		k3 := f(y + h*k2/2)
		k4 := f(y + h*k3)
		y += h * (k1 + 2*k2 + 2*k3 + k4) / 6
	}
	return y
}
