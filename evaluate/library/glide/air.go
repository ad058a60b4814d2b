package glide

import (
	"math"

	"inkwing/evaluate/library/model"
)

// Constants of the ICAO standard atmosphere (Doc 7488; the U.S. Standard
// Atmosphere 1976 has the same below 32 km).
const (
	seaTemperature = 288.15   // K
	seaPressure    = 101325.0 // Pa
	lapse          = 0.0065   // K/m
	airConstant    = 287.05307
	airExponent    = gravity / (lapse * airConstant)
	heatRatio      = 1.4
)

// AirInput is what [Air] wants.
type AirInput struct {
	Altitude          float64  `unit:"m" range:"[-5000,11000]" help:"geopotential height above sea level, not above the field"`
	TemperatureOffset float64  `unit:"K" default:"0 K" help:"how much warmer the day is than the standard atmosphere at this height"`
	Humidity          *float64 `unit:"%" range:"[0,100]" help:"relative; the dry air of the standard if left out"`
}

// AirResult is what [Air] answers.
type AirResult struct {
	Density            float64 `unit:"kg/m^3" show:"1" help:"mass of a cubic metre"`
	Pressure           float64 `unit:"hPa" show:"3" help:"static pressure"`
	Temperature        float64 `unit:"°C" show:"2" help:"with the offset"`
	Viscosity          float64 `unit:"Pa·s" help:"dynamic viscosity"`
	KinematicViscosity float64 `unit:"m^2/s" help:"viscosity over density"`
	SpeedOfSound       float64 `unit:"m/s" help:"of dry air"`
	model.Cautions
}

// Air says what the air is like at a height in the standard atmosphere, or on a day that is warmer or colder than it.
//
// The offset changes the temperature and leaves the pressure: a hot day makes
// thin air. Left out, the humidity makes the density read up to 1 % high at
// 25 °C. Given, the density is that of moist air as metrologists work it, which
// even at 0 % is 0.04 % above the standard's.
//
// Formula: T = 288.15 K − 0.0065 K/m·H + ΔT; p = 101325 Pa·(1 − 0.0065 K/m·H/(288.15 K))^(9.80665/(287.05307·0.0065)); dry ρ = p/(287.05307 J/(kg·K)·T); μ = 1.458e-6 Pa·s·(T/(1 K))^1.5/(T/(1 K) + 110.4), ν = μ/ρ; a = √(1.4·287.05307 J/(kg·K)·T). Moist: ρ = p·Ma/(Z·R·T)·(1 − xv·(1 − Mv/Ma)), xv the mole fraction of vapour.
//
// Letters: H altitude; ΔT temperature_offset; ρ = density; p = pressure; T = temperature; μ = viscosity; ν = kinematic_viscosity; a = speed_of_sound.
//
// Validity: geopotential altitude −5 km to 11 km; dry air; viscosity 100 K to 1500 K. Moist air 600 hPa to 1100 hPa, 15 °C to 27 °C; its viscosity and speed of sound are given as dry.
//
// Source: ICAO Doc 7488; U.S. Standard Atmosphere 1976 (Sutherland's viscosity); A. Picard, R. S. Davis, M. Gläser and K. Fujii, Metrologia 45 (2008) 149 (CIPM-2007).
//
// Example:
//
//	here = air(300 m, temperature_offset: 10 K, humidity: 60 %)
//	rho [kg/m^3] = here.density
func Air(in AirInput) (AirResult, error) {
	if !(in.Altitude >= -5000 && in.Altitude <= 11000) {
		return AirResult{}, &model.Error{Field: "altitude",
			Summary: "{0} is outside the layer that this atmosphere describes, {1} to {2}",
			Values:  []model.Value{model.In(in.Altitude, "m"), model.In(-5000, "m"), model.In(11000, "m")},
			Hint:    "give the height above sea level, between those"}
	}
	standard := seaTemperature - lapse*in.Altitude
	t := standard + in.TemperatureOffset
	if !(t >= 100 && t <= 1500) {
		return AirResult{}, &model.Error{Field: "temperature_offset",
			Summary: "the air would be at {0}, where the viscosity's formula ends",
			Values:  []model.Value{model.In(t, "K")},
			Hint:    "give the difference from the standard atmosphere in K, not a temperature"}
	}
	p := seaPressure * math.Pow(standard/seaTemperature, airExponent)
	mu := viscosity(t)
	out := AirResult{Density: p / (airConstant * t), Pressure: p, Temperature: t, Viscosity: mu,
		SpeedOfSound: math.Sqrt(heatRatio * airConstant * t)}
	if err := out.moisten(in.Humidity); err != nil {
		return AirResult{}, err
	}
	out.KinematicViscosity = mu / out.Density
	return out, nil
}

// moisten gives the air its vapour, if any is known.
func (r *AirResult) moisten(humidity *float64) error {
	if humidity == nil {
		return nil
	}
	if h := *humidity; !(h >= 0 && h <= 1) {
		return &model.Error{Field: "humidity", Summary: "is {0}", Values: []model.Value{model.In(100*h, "%")}, Hint: "give a relative humidity from 0 % to 100 %"}
	}
	rho, err := moistDensity(r.Pressure, r.Temperature, *humidity)
	r.Density = rho
	beyondMoist(&r.Cautions, r.Pressure, r.Temperature)
	return err
}

// viscosity is Sutherland's, Pa·s, with t in kelvin.
func viscosity(t float64) float64 { return 1.458e-6 * t * math.Sqrt(t) / (t + 110.4) }
