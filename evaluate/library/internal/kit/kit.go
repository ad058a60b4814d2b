// Package kit is what the tests of the physics share: comparing, unwrapping an
// answer, and second routes that need no package of ours.
package kit

import (
	"errors"
	"math"
	"testing"

	"inkwing/evaluate/library/model"
)

// Exact is the tolerance of a published value that is printed to nine digits or
// follows from a definition.
const Exact = 1e-8

// Digits is the tolerance of a value printed to n significant digits.
func Digits(n int) float64 { return 5 * math.Pow(10, -float64(n)) }

// Near wants got within a relative tolerance of want.
func Near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	Within(t, what, got, want, tolerance*math.Abs(want))
}

// Within wants got no farther from want than it is told, in their own unit.
func Within(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.17g, want %.17g within %.3g", what, got, want, tolerance)
	}
}

// Must unwraps an answer that has to be there: Must(Lead(in))(t).
func Must[R any](answer R, err error) func(testing.TB) R {
	return func(t testing.TB) R {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return answer
	}
}

// Refuses wants an error of the model about a field, with a hint.
func Refuses(t testing.TB, err error, field string) {
	t.Helper()
	var e *model.Error
	if !errors.As(err, &e) {
		t.Fatalf("error %v, want one about %q", err, field)
	}
	if e.Field != field {
		t.Errorf("error about %q, want %q: %v", e.Field, field, e)
	}
	if e.Summary == "" || e.Hint == "" {
		t.Errorf("error about %q without summary or hint: %+v", field, e)
	}
}

// Raised reports whether a caution is among them.
func Raised(list []model.Caution, id string) bool {
	for _, c := range list {
		if c.ID == id {
			return true
		}
	}
	return false
}

// RungeKutta steps y' = f(y) from y for n steps of h, by the classical method
// of fourth order.
func RungeKutta(f func(float64) float64, y, h float64, n int) float64 {
	for range n {
		k1 := f(y)
		k2 := f(y + h*k1/2)
		k3 := f(y + h*k2/2)
		k4 := f(y + h*k3)
		y += h * (k1 + 2*k2 + 2*k3 + k4) / 6
	}
	return y
}

// GoldenSection finds the minimum of f between a and b.
func GoldenSection(f func(float64) float64, a, b float64) float64 {
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
