package glide

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestAirStandard(t *testing.T) {
	const source = "ICAO Doc 7488; U.S. Standard Atmosphere 1976 (identical below 32 km), by geopotential altitude"
	for _, row := range []struct {
		altitude, temperature, pressure, density, viscosity, kinematic, sound float64
	}{
		{0, 288.15, 101325, 1.225, 1.78938e-05, 1.46072e-05, 340.294},
		{500, 284.9, 95460.84, 1.16727, 1.77366e-05, 1.51949e-05, 338.37},
		{1000, 281.65, 89874.57, 1.11164, 1.75785e-05, 1.58131e-05, 336.434},
		{1500, 278.4, 84556, 1.05807, 1.74195e-05, 1.64635e-05, 334.487},
		{2000, 275.15, 79495.22, 1.00649, 1.72596e-05, 1.71483e-05, 332.529},
		{5000, 255.65, 54019.91, 0.736115, 1.62812e-05, 2.21177e-05, 320.53},
		{11000, 216.65, 22632.06, 0.363918, 1.42161e-05, 3.90641e-05, 295.07},
	} {
		got := kit.Must(Air(AirInput{Altitude: row.altitude}))(t)
		kit.Near(t, "temperature, "+source, got.Temperature, row.temperature, kit.Digits(7))
		kit.Near(t, "pressure, "+source, got.Pressure, row.pressure, kit.Digits(7))
		kit.Near(t, "density, "+source, got.Density, row.density, kit.Digits(6))
		kit.Near(t, "viscosity, "+source, got.Viscosity, row.viscosity, kit.Digits(6))
		kit.Near(t, "kinematic viscosity, "+source, got.KinematicViscosity, row.kinematic, kit.Digits(6))
		kit.Near(t, "speed of sound, "+source, got.SpeedOfSound, row.sound, kit.Digits(6))
	}
}

func TestAirGeometric(t *testing.T) {
	const source = "U.S. Standard Atmosphere 1976, Table I by geometric altitude, H = r0·Z/(r0 + Z), r0 = 6 356 766 m"
	for _, row := range []struct{ z, h, temperature, pressure, density float64 }{
		{1000, 999.8427, 281.651, 89876.3, 1.1117},
		{5000, 4996.07, 255.676, 54048.3, 0.73643},
		{11000, 10981, 216.774, 22700, 0.3648},
	} {
		h := 6356766 * row.z / (6356766 + row.z)
		kit.Near(t, "geopotential altitude, "+source, h, row.h, kit.Digits(5))
		got := kit.Must(Air(AirInput{Altitude: h}))(t)
		kit.Near(t, "temperature, "+source, got.Temperature, row.temperature, kit.Digits(5))
		kit.Near(t, "pressure, "+source, got.Pressure, row.pressure, kit.Digits(5))
		kit.Near(t, "density, "+source, got.Density, row.density, kit.Digits(4))
	}
}

func TestAirConstants(t *testing.T) {
	const source = "U.S. Standard Atmosphere 1976: R* = 8314.32 J/(kmol·K), M = 28.9644"
	kit.Near(t, "exponent, "+source, airExponent, 5.2558761, kit.Digits(8))
	kit.Near(t, "gas constant, "+source, airConstant, 8314.32/28.9644, kit.Digits(8))
	for _, row := range []struct{ temperature, viscosity float64 }{
		{288.15, 1.78938e-05}, {300, 1.846002e-05}, {273.15, 1.716079e-05}, {313.15, 1.907574e-05},
	} {
		kit.Near(t, "viscosity, U.S. Standard Atmosphere 1976, Sutherland", viscosity(row.temperature), row.viscosity, kit.Digits(6))
	}
}

// Dry air at 95 000 Pa and 30 °C weighs 1.0917 kg/m³, which the standard
// atmosphere has at 1183.9 m (density ratio = (T/T0)^4.25588).
func TestAirDensityAltitude(t *testing.T) {
	h := (1 - math.Pow(95000/seaPressure, 1/airExponent)) * seaTemperature / lapse
	warm := kit.Must(Air(AirInput{Altitude: h, TemperatureOffset: 303.15 - (seaTemperature - lapse*h)}))(t)
	kit.Near(t, "pressure", warm.Pressure, 95000, 1e-12)
	kit.Near(t, "temperature", warm.Temperature, 303.15, 1e-12)
	kit.Near(t, "density of a warm day", warm.Density, 1.0917, kit.Digits(5))
	standard := kit.Must(Air(AirInput{Altitude: 1183.9}))(t)
	kit.Near(t, "density at the density altitude", standard.Density, 1.0917, kit.Digits(5))
}

// The independent route: dp/dH = −ρ·g, stepped by Runge and Kutta's rule.
func TestAirHydrostatic(t *testing.T) {
	slope := func(h, p float64) float64 { return -p * gravity / (airConstant * (seaTemperature - lapse*h)) }
	for _, top := range []float64{-5000, 3000, 11000} {
		const steps = 2000
		p, h, d := seaPressure, 0.0, top/steps
		for range steps {
			a := slope(h, p)
			b := slope(h+d/2, p+d/2*a)
			c := slope(h+d/2, p+d/2*b)
			e := slope(h+d, p+d*c)
			p, h = p+d/6*(a+2*b+2*c+e), h+d
		}
		kit.Near(t, "pressure by integration", kit.Must(Air(AirInput{Altitude: top}))(t).Pressure, p, 1e-10)
	}
}

func TestAirRefuses(t *testing.T) {
	for _, h := range []float64{-5001, 11001, math.NaN(), math.Inf(1)} {
		_, err := Air(AirInput{Altitude: h})
		kit.Refuses(t, err, "altitude")
	}
	_, err := Air(AirInput{TemperatureOffset: -250})
	kit.Refuses(t, err, "temperature_offset")
}
