package glide

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

const cipm = "A. Picard, R. S. Davis, M. Gläser and K. Fujii (CIPM-2007), Metrologia 45 (2008) 149"

// moist is the air at a pressure and temperature, by height and offset.
func moist(t *testing.T, pressure, celsius float64, humidity *float64) AirResult {
	t.Helper()
	h := (1 - math.Pow(pressure/seaPressure, 1/airExponent)) * seaTemperature / lapse
	got := kit.Must(Air(AirInput{Altitude: h, Humidity: humidity, TemperatureOffset: celsius + 273.15 - (seaTemperature - lapse*h)}))(t)
	kit.Near(t, "pressure", got.Pressure, pressure, 1e-12)
	kit.Near(t, "temperature", got.Temperature, celsius+273.15, 1e-12)
	return got
}

func TestMoistAirPublished(t *testing.T) {
	for _, row := range []struct{ pressure, celsius, humidity, density, saturation, share, z, short float64 }{
		{101325, 20, 0.5, 1.199314, 2339.16, 0.0115893, 0.9996148, 1.19929},
		{101325, 20, 0, 1.204557, 2339.16, 0, 0.9996431, 1.20449},
		{95000, 30, 0.7, 1.07912, 4246.8, 0.0314207, 0.9996605, 1.0791},
	} {
		got := moist(t, row.pressure, row.celsius, &row.humidity)
		kit.Near(t, "density, "+cipm, got.Density, row.density, kit.Digits(6))
		kit.Near(t, "kinematic viscosity", got.KinematicViscosity, got.Viscosity/row.density, kit.Digits(6))
		kelvin := row.celsius + 273.15
		kit.Near(t, "vapour pressure, "+cipm, saturation(kelvin), row.saturation, kit.Digits(5))
		kit.Near(t, "vapour share, "+cipm, vapourShare(row.pressure, kelvin, row.humidity), row.share, kit.Digits(6))
		kit.Near(t, "compressibility, "+cipm, compressibility(row.pressure, kelvin, row.share), row.z, kit.Digits(7))
		// OIML R 111-1 (2004), E.3, in hPa, % and °C: good to 2e-4.
		short := (0.34848*row.pressure/100 - 0.009*100*row.humidity*math.Exp(0.061*row.celsius)) / kelvin
		kit.Near(t, "OIML R 111-1, as printed", short, row.short, kit.Digits(5))
		kit.Near(t, "OIML R 111-1", got.Density, short, 2e-4)
	}
}

// The independent route: an ideal mixture of dry air and vapour by their
// partial pressures, 1.19887 kg/m³ at 20 °C and 50 %.
func TestMoistAirByPartialPressures(t *testing.T) {
	ideal := func(p, kelvin, humidity float64) float64 {
		e := humidity * saturation(kelvin)
		return ((p-e)*molarAir + e*molarWater) / (molarGas * kelvin)
	}
	kit.Near(t, "ideal mixture", ideal(101325, 293.15, 0.5), 1.19887, kit.Digits(5))
	for _, celsius := range []float64{5, 15, 20, 27, 35} {
		for _, humidity := range []float64{0, 0.3, 1} {
			got := moist(t, 98000, celsius, &humidity)
			kit.Near(t, "ideal mixture", got.Density, ideal(98000, celsius+273.15, humidity), 6e-4)
			if out := celsius < 15 || celsius > 27; out != kit.Raised(got.List, "moist-air-outside-its-formula") {
				t.Errorf("at %g °C: %v", celsius, got.List)
			}
		}
	}
}

// Without a humidity the air is that of the standard, 0.04 % lighter than the
// dry air of today; with one it is lighter, the more so the warmer.
func TestMoistAirIsLighter(t *testing.T) {
	standard := moist(t, 101325, 20, nil)
	dry := moist(t, 101325, 20, new(0.0))
	kit.Near(t, "standard against CIPM-2007", dry.Density/standard.Density, 1.0004, 1e-4)
	last := math.Inf(1)
	for _, h := range []float64{0, 0.25, 0.5, 0.75, 1} {
		got := moist(t, 101325, 25, &h).Density
		if got >= last {
			t.Errorf("%g%% does not make the air lighter", 100*h)
		}
		last = got
	}
	_, err := Air(AirInput{TemperatureOffset: 70, Humidity: new(1.0)})
	kit.Refuses(t, err, "humidity")
	_, err = Air(AirInput{Humidity: new(1.1)})
	kit.Refuses(t, err, "humidity")
}
