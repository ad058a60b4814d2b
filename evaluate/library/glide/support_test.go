package glide

import (
	"errors"
	"math"
	"testing"

	"inkwing/evaluate/library/model"
)

// near holds got to want within a relative tolerance.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Max(math.Abs(want), 1e-300)) {
		t.Errorf("%s = %.9g, want %.9g within %.1g", what, got, want, tolerance)
	}
}

// digits is the tolerance of a value printed to n significant digits.
func digits(n int) float64 { return 5 * math.Pow(10, -float64(n)) }

// wrongField wants err to be about one input.
func wrongField(t *testing.T, err error, field string) {
	t.Helper()
	var e *model.Error
	if !errors.As(err, &e) {
		t.Fatalf("error %v, want one about %s", err, field)
	}
	if e.Field != field {
		t.Errorf("error about %q, want %q: %v", e.Field, field, e)
	}
	if e.Mend == "" {
		t.Errorf("error about %q gives no hint: %v", e.Field, e)
	}
}

// raised reports whether a caution is on the list.
func raised(list model.Cautions, id string) bool {
	for _, c := range list.List {
		if c.ID == id {
			return true
		}
	}
	return false
}

// must unwraps an answer that has to be there.
func must[T any](t *testing.T) func(T, error) T {
	return func(x T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

func pointer(x float64) *float64 { return &x }

// golden finds the minimum of f between a and b by golden sections.
func golden(f func(float64) float64, a, b float64) float64 {
	const part = 0.6180339887498949
	c, d := b-part*(b-a), a+part*(b-a)
	for range 90 {
		if f(c) < f(d) {
			b, d = d, c
			c = b - part*(b-a)
		} else {
			a, c = c, d
			d = a + part*(b-a)
		}
	}
	return (a + b) / 2
}

// modelGlider is the airframe of the rows "Model glider set": an invented one,
// whose closed forms are those of J. D. Anderson, Introduction to Flight,
// chapter 6, checked there by a numerical minimiser. CL_max is lifted out of
// the way where the rows ignore it.
func modelGlider(clMax float64) Plane {
	return Plane{Mass: 0.250, Span: 0.95, Area: 0.12, CD0: 0.035, Oswald: 0.80, CLMax: clMax, Density: 1.225}
}
