package chart

import (
	"math"
	"os"
	"testing"

	"inkwing/evaluate"
)

func TestLook(t *testing.T) {
	var x, v, i, u, mx, my []float64
	for k := 0; k <= 200; k++ {
		tt := float64(k) / 2
		x = append(x, tt)
		v = append(v, 12.5*(1-math.Exp(-tt/40)))
		i = append(i, 3*math.Exp(-tt/40))
		u = append(u, 0.3+tt/200)
		if k%20 == 0 {
			mx = append(mx, tt)
			my = append(my, 12.3*(1-math.Exp(-tt/42)))
		}
	}
	c := evaluate.Chart{Title: "Charging the pack by treadle, worked & measured on the bench in the garage on two warm evenings of the year", Alt: "alt <x>", X: evaluate.Axis{Name: "t", Unit: "s"},
		Panels: []evaluate.Panel{
			{Name: "V, U", Unit: "V", Series: []evaluate.Series{{Name: "V of ride.history", X: x, Y: v, U: u}, {Name: "V of log", Points: true, X: mx, Y: my}, {Name: "U", X: x, Y: i}}, Rules: []evaluate.Rule{{Name: "store.rated_voltage", At: 13.5}, {Name: "3 V", At: 3}, {Name: "far", At: 300}}},
			{Name: "I", Unit: "A", Series: []evaluate.Series{{Name: "I", X: x, Y: i}}},
		}}
	os.WriteFile("/tmp/look.svg", Draw(c), 0o644)
}
