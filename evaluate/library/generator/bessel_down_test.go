package generator

import (
	"math"
	"testing"
)

// TestDownwards holds Miller's recurrence against the functions of the standard library,
// each order by itself.
func TestDownwards(t *testing.T) {
	for _, p := range []int{1, 2, 6, 9, 20} {
		for _, n := range []int{1, 3, 5} {
			for x := 0.01; x < float64((2*n+1)*p); x *= 1.07 {
				out, under := make([]float64, n), make([]float64, n)
				oddAndBelow(out, under, p, x)
				for i := range out {
					order := (2*i + 1) * p
					if !(math.Abs(out[i]-math.Jn(order, x)) < 1e-13) || !(math.Abs(under[i]-math.Jn(order-1, x)) < 1e-13) {
						t.Fatalf("J%d(%g) is %g, below it %g", order, x, out[i], under[i])
					}
				}
			}
		}
	}
}
