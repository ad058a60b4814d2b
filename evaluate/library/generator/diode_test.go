package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestDiodePublished(t *testing.T) {
	// Exact SI k and e (2019).
	kit.Near(t, "kT/q at 300 K", thermalVoltage(300), 25.852e-3, 5e-6)
	kit.Near(t, "kT/q at 298.15 K", thermalVoltage(298.15), 25.692579e-3, 2e-8)
	// I = Is·(exp(V/(n·VT)) − 1), Shockley: 1e-14 A, n 1, 300 K.
	drop := func(current float64) float64 {
		d, err := DiodeVoltage(DiodeVoltageInput{Current: current, Saturation: 1e-14, Emission: 1, Temperature: 300})
		if err != nil {
			t.Fatal(err)
		}
		return d.Drop
	}
	kit.Near(t, "at 1 mA", drop(1e-3), 0.65479072, 2e-8)
	kit.Near(t, "at 120.1037 µA", drop(120.1037e-6), 0.6, 1e-8)
	// 5 V through 1 kΩ (Lambert W, residual checked).
	kit.Near(t, "with a resistor", 4.30745637e-3, (5-drop(4.30745637e-3))/1e3, 1e-8)
	kit.Near(t, "with a resistor, drop", drop(4.30745637e-3), 0.692543627, 1e-8)
	// The independent route: the law itself.
	kit.Near(t, "the law", 1e-14*math.Expm1(drop(2)/thermalVoltage(300)), 2, 1e-9)
	if _, err := DiodeVoltage(DiodeVoltageInput{Current: 1}); err == nil {
		t.Error("a diode without a saturation current has no answer")
	}
}
