package interval_test

import (
	"fmt"
	"math"

	"inkwing/evaluate/numeric/interval"
)

// The energy of a 12.5 F pack at (10.0 ± 0.1) V, by first order and by draws.
func Example() {
	u := interval.Sum([]float64{12.5 * 10 * 0.05, 0.5 * 100 * 0.25 / math.Sqrt(3)})
	freedom := interval.DegreesOfFreedom([]float64{6.25, 7.217}, []float64{math.Inf(1), math.Inf(1)})
	fmt.Printf("625 J ± %.0f J\n", interval.Coverage(freedom)*u)

	result, err := interval.Simulate(interval.Plan{
		Sources: []interval.Source{interval.Student(10, 0.05, math.Inf(1)), interval.Rectangular(12.25, 12.75)},
		Outputs: 1, Draws: 100_000,
	}, func(_ int, in, out [][]float64) error {
		for k, volts := range in[0] {
			out[0][k] = in[1][k] * volts * volts / 2
		}
		return nil
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	low, high := result.Outputs[0].Shortest(interval.Level)
	fmt.Printf("%.0f J, %.0f J to %.0f J\n", result.Outputs[0].Estimate(), low, high)
	// Output:
	// 625 J ± 19 J
	// 625 J, 607 J to 643 J
}
