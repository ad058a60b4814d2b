package glide

import (
	"math"
	"testing"
)

const cipm = "A. Picard, R. S. Davis, M. Gläser and K. Fujii (CIPM-2007), Metrologia 45 (2008) 149"

// moist is the air at a pressure and temperature, by height and offset.
func moist(t *testing.T, pressure, celsius float64, humidity *float64) AirResult {
	t.Helper()
	h := (1 - math.Pow(pressure/seaPressure, 1/airExponent)) * seaTemperature / lapse
	got := must[AirResult](t)(Air(AirInput{Altitude: h, Humidity: humidity, TemperatureOffset: celsius + 273.15 - (seaTemperature - lapse*h)}))
	near(t, "pressure", got.Pressure, pressure, 1e-12)
	near(t, "temperature", got.Temperature, celsius+273.15, 1e-12)
	return got
}

func TestMoistAirPublished(t *testing.T) {
	for _, row := range []struct{ pressure, celsius, humidity, density, saturation, share, z, short float64 }{
		{101325, 20, 0.5, 1.199314, 2339.16, 0.0115893, 0.9996148, 1.19929},
		{101325, 20, 0, 1.204557, 2339.16, 0, 0.9996431, 1.20449},
		{95000, 30, 0.7, 1.07912, 4246.8, 0.0314207, 0.9996605, 1.0791},
	} {
		got := moist(t, row.pressure, row.celsius, &row.humidity)
		near(t, "density, "+cipm, got.Density, row.density, digits(6))
		near(t, "kinematic viscosity", got.KinematicViscosity, got.Viscosity/row.density, digits(6))
		kelvin := row.celsius + 273.15
		near(t, "vapour pressure, "+cipm, saturation(kelvin), row.saturation, digits(5))
		near(t, "vapour share, "+cipm, vapourShare(row.pressure, kelvin, row.humidity), row.share, digits(6))
		near(t, "compressibility, "+cipm, compressibility(row.pressure, kelvin, row.share), row.z, digits(7))
		// OIML R 111-1 (2004), E.3, in hPa, % and °C: good to 2e-4.
		short := (0.34848*row.pressure/100 - 0.009*100*row.humidity*math.Exp(0.061*row.celsius)) / kelvin
		near(t, "OIML R 111-1, as printed", short, row.short, digits(5))
		near(t, "OIML R 111-1", got.Density, short, 2e-4)
	}
}

// The independent route: an ideal mixture of dry air and vapour by their
// partial pressures, 1.19887 kg/m³ at 20 °C and 50 %.
func TestMoistAirByPartialPressures(t *testing.T) {
	ideal := func(p, kelvin, humidity float64) float64 {
		e := humidity * saturation(kelvin)
		return ((p-e)*molarAir + e*molarWater) / (molarGas * kelvin)
	}
	near(t, "ideal mixture", ideal(101325, 293.15, 0.5), 1.19887, digits(5))
	for _, celsius := range []float64{5, 15, 20, 27, 35} {
		for _, humidity := range []float64{0, 0.3, 1} {
			got := moist(t, 98000, celsius, &humidity)
			near(t, "ideal mixture", got.Density, ideal(98000, celsius+273.15, humidity), 6e-4)
			if out := celsius < 15 || celsius > 27; out != raised(got.Cautions, "moist-air-outside-its-formula") {
				t.Errorf("at %g °C: %v", celsius, got.List)
			}
		}
	}
}

// Without a humidity the air is that of the standard, 0.04 % lighter than the
// dry air of today; with one it is lighter, the more so the warmer.
func TestMoistAirIsLighter(t *testing.T) {
	standard := moist(t, 101325, 20, nil)
	dry := moist(t, 101325, 20, pointer(0))
	near(t, "standard against CIPM-2007", dry.Density/standard.Density, 1.0004, 1e-4)
	last := math.Inf(1)
	for _, h := range []float64{0, 0.25, 0.5, 0.75, 1} {
		got := moist(t, 101325, 25, &h).Density
		if got >= last {
			t.Errorf("%g%% does not make the air lighter", 100*h)
		}
		last = got
	}
	_, err := Air(AirInput{TemperatureOffset: 70, Humidity: pointer(1)})
	wrongField(t, err, "humidity")
	_, err = Air(AirInput{Humidity: pointer(1.1)})
	wrongField(t, err, "humidity")
}

// 4.7 in at 6500 rpm and 6 in at 9000 rpm: 12.9328 m/s and 22.86 m/s (definition).
func TestPitchSpeed(t *testing.T) {
	const inch = 25.4e-3
	for _, row := range []struct{ pitch, speed, want float64 }{{4.7, 6500, 12.9328}, {6, 9000, 22.86}} {
		got := must[PitchSpeedResult](t)(PitchSpeed(PitchSpeedInput{row.pitch * inch, row.speed * rpm}))
		near(t, "pitch speed", got.Speed, row.want, digits(6))
	}
	_, err := PitchSpeed(PitchSpeedInput{Speed: 1})
	wrongField(t, err, "pitch")
}

// At its pitch speed the advance ratio is pitch over diameter, whatever the speed.
func TestPitchSpeedByAdvanceRatio(t *testing.T) {
	p := PropellerModel{Diameter: 0.254, CT0: pointer(0.12), CP0: pointer(0.05), Pitch: pointer(0.11938)}
	for _, n := range []float64{2000, 5000, 9000} {
		v := must[PitchSpeedResult](t)(PitchSpeed(PitchSpeedInput{0.11938, n * rpm})).Speed
		got := must[PropellerPointResult](t)(PropellerPoint(PropellerPointInput{p, n * rpm, v, 1.225}))
		near(t, "J", got.J, 0.47, 1e-12)
		if got.Thrust <= 0 {
			t.Errorf("no pull left at the pitch speed: %g N", got.Thrust)
		}
	}
}

// TestPropellerMeanRow: the mean of the published static rows from 2377 to 6528 rpm,
// CT 0.11846 and CP 0.047956 (a summary has 0.1185 and 0.0480), serves as the two
// coefficients: the curves hold within 8 % of the static value at 5000 rpm.
func TestPropellerMeanRow(t *testing.T) {
	p := PropellerModel{Diameter: 0.254, CT0: pointer(0.11846), CP0: pointer(0.047956), ZeroThrustJ: pointer(0.649889)}
	for _, row := range []MeasuredRow{{0, 0.1237, 0.05}, {0.487, 0.0425, 0.0334}, {0.325, 0.0719, 0.0407}} {
		n := 5000.0 / 60
		got := must[PropellerPointResult](t)(PropellerPoint(PropellerPointInput{p, 5000 * rpm, row.J * n * 0.254, 1.225}))
		ct, cp := got.Thrust/(1.225*n*n*math.Pow(0.254, 4)), got.Power/(1.225*n*n*n*math.Pow(0.254, 5))
		if math.Abs(ct-row.CT) > 0.08*0.1237 || math.Abs(cp-row.CP) > 0.08*0.05 {
			t.Errorf("J %g: CT %g, CP %g; published %g, %g (%s)", row.J, ct, cp, row.CT, row.CP, uiuc)
		}
	}
	merit := *must[PropellerResult](t)(Propeller(PropellerInput{p})).FigureOfMerit
	if merit < 0.4 || merit > 0.7 {
		t.Errorf("figure of merit %g, small propellers have 0.4 to 0.7 (%s)", merit, uiuc)
	}
}

// TestBecPublished: a series regulator that makes 50 V at 10 A of 100 V takes
// 1000 W and turns 500 W into heat (R. W. Erickson, Fundamentals of Power
// Electronics, chapter 1, from memory).
func TestBecPublished(t *testing.T) {
	const source = "Erickson, Fundamentals of Power Electronics, chapter 1"
	made := must[BecResult](t)(Bec(BecInput{RadioModel{Kind: "linear", Voltage: 50, Current: 10, Efficiency: 1}}))
	got := must[BecPointResult](t)(BecPoint(BecPointInput{Bec: made.RadioModel, Input: 100}))
	near(t, source, got.Terminal*got.InputCurrent, 1000, 1e-12)
	near(t, source, got.Heat, 500, 1e-12)
}

// TestCutOffPublished: a store that stops at half of its voltage has given three
// quarters of its energy (makers' application guides, from memory). The motor
// stops at the pack's terminals; what counts is where the pack rebounds to.
func TestCutOffPublished(t *testing.T) {
	f := lapwingFlight()
	in := CutOffChoiceInput{Aloft: f.Aloft, Plan: f.Plan, StartVoltage: 12.4, From: 5.9, To: 6.2, Steps: 60, Margin: 30, Home: f.Home}
	rows := must[CutOffChoiceResult](t)(CutOffChoice(in)).Rows
	low, high := rows[0].StrandedShare, rows[len(rows)-1].StrandedShare
	if !(low < 0.25 && high > 0.25) {
		t.Fatalf("shares from %g to %g", low, high)
	}
	for _, row := range rows {
		if rebound := math.Sqrt(2 * row.Stranded / in.Store.Capacitance); rebound >= 6.2 != (row.StrandedShare >= 0.25) {
			t.Errorf("rested at %g V of 12.4 V it has %g of its energy left", rebound, row.StrandedShare)
		}
	}
}
