package glide

import (
	"math"

	"inkwing/evaluate/library/model"
)

// Constants of moist air, CIPM-2007, with 400 µmol/mol of carbon dioxide.
const (
	molarGas   = 8.314472    // J/(mol·K)
	molarAir   = 28.96546e-3 // kg/mol, dry
	molarWater = 18.01528e-3 // kg/mol
	iceKelvin  = 273.15
)

// saturation is the vapour pressure over water, Pa, with t in kelvin.
func saturation(t float64) float64 {
	return math.Exp(1.2378847e-5*t*t - 1.9121316e-2*t + 33.93711047 - 6.3431645e3/t)
}

// vapourShare is the mole fraction of water vapour at a pressure, a temperature
// in kelvin, and a relative humidity from 0 to 1.
func vapourShare(p, t, humidity float64) float64 {
	c := t - iceKelvin
	enhancement := 1.00062 + 3.14e-8*p + 5.6e-7*c*c
	return humidity * enhancement * saturation(t) / p
}

// compressibility is Z of moist air, xv the mole fraction of water vapour.
func compressibility(p, t, xv float64) float64 {
	c := t - iceKelvin
	first := 1.58123e-6 - 2.9331e-8*c + 1.1043e-10*c*c + (5.707e-6-2.051e-8*c)*xv + (1.9898e-4-2.376e-6*c)*xv*xv
	return 1 - p/t*first + p/t*p/t*(1.83e-11-0.765e-8*xv*xv)
}

// moistDensity is the density of moist air by CIPM-2007, kg/m³.
func moistDensity(p, t, humidity float64) (float64, error) {
	xv := vapourShare(p, t, humidity)
	if !(xv < 0.2) {
		return 0, &model.Error{Field: "humidity", Summary: "air of {0} would be vapour for the most part",
			Values: []model.Value{model.In(t-iceKelvin, "°C")}, Hint: "check the temperature offset, or leave the humidity out"}
	}
	return p * molarAir / (compressibility(p, t, xv) * molarGas * t) * (1 - xv*(1-molarWater/molarAir)), nil
}

// beyondMoist says where the formula of moist air was not fitted.
func beyondMoist(list *model.Cautions, p, t float64) {
	if p >= 60000 && p <= 110000 && t >= iceKelvin+15 && t <= iceKelvin+27 {
		return
	}
	list.Raise(model.Caution{ID: "moist-air-outside-its-formula", Level: model.Advice, Severity: math.Abs(t - iceKelvin - 21),
		Summary: "Air of {0} and {1} is outside its formula.",
		Values:  []model.Value{model.In(p/100, "hPa"), model.In(t-iceKelvin, "°C")},
		Why:     "That is of 600 hPa to 1100 hPa and 15 °C to 27 °C. At temperatures that people fly in it still holds to about a part in a thousand, which no flight shows.",
		Hint:    "Trust three digits.", Source: "CIPM-2007, Metrologia 45 (2008) 149; the part in a thousand: OIML R 111-1 agrees to that from 10 °C to 30 °C"})
}
