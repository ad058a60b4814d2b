package units

import (
	"strings"
	"sync"
)

// A saying is what is answered to a name that is known and yet no unit.
type saying struct {
	suggest, hint string
	summary       string // instead of "is no unit"
}

// word finds a saying, or the unit that the name itself stands for.
func word(text string) (saying, bool) {
	if s, ok := sayings[text]; ok {
		return s, true
	}
	if s, ok := sayings[strings.ToLower(text)]; ok && len(text) > 1 {
		return s, true
	}
	if symbol, ok := names()[strings.ToLower(text)]; ok {
		return saying{suggest: symbol, hint: "write " + symbol}, true
	}
	if symbol, ok := spelledOut(strings.ToLower(text)); ok {
		return saying{suggest: symbol, hint: "write " + symbol}, true
	}
	return saying{}, false
}

// spelledOut finds the symbol of a unit that is written out with its prefix: milliohm.
func spelledOut(text string) (string, bool) {
	for _, p := range prefixes {
		if rest, ok := strings.CutPrefix(text, p.name); ok {
			if symbol, ok := names()[rest]; ok {
				if _, err := Parse(p.symbol + symbol); err == nil {
					return p.symbol + symbol, true
				}
			}
		}
	}
	return "", false
}

// names finds symbols by words: "volts", "hrs".
var names = sync.OnceValue(func() map[string]string {
	m := make(map[string]string)
	for _, e := range entries() {
		if e.hidden() {
			continue
		}
		name := strings.ToLower(e.name)
		m[name], m[name+"s"] = e.symbol, e.symbol
	}
	for symbol, list := range map[string]string{
		"m": "meter meters", "L": "liter liters ltr", "s": "sec secs", "h": "hr hrs", "min": "mins", "A": "amp amps",
		"ft": "feet", "in": "inches ins", "lb": "lbs", "oz": "ozs", "kn": "kt kts knts", "Ω": "ohms", "Hz": "cps",
		"km/h": "kph kmh kmph", "ft/s": "fps", "ft/min": "fpm", "rev/s": "rps", "rpm/V": "rpmv", "cm³": "cc ccm",
		"µm": "micron microns", "°C": "celsius centigrade c°", "°F": "fahrenheit f°", "day": "d days", "%": "percent pct",
		"ozf·in": "ozin inoz", "lbf·ft": "ftlb lbft ftlbs", "kgf·cm": "kgcm", "S": "mho mhos", "g": "gm gms gr",
		"rad": "radians rads", "USD": "dollar dollars", "mol": "moles", "m²": "sqm", "ft²": "sqft", "in²": "sqin", "K": "degk °k",
	} {
		for _, w := range strings.Fields(list) {
			m[w] = symbol
		}
	}
	return m
})

// sayings are the names that are refused with the choices, since they mean
// several things, and those whose mend needs a sentence.
var sayings = map[string]saying{
	"hp":     {"", "write hpmech (550 ft·lbf/s, 745.7 W), hpmetric (735.5 W) or hpelectric (746 W)", "may be three units"},
	"bhp":    {"", "write hpmech (745.7 W) or hpmetric (735.5 W)", "may be two units"},
	"turns":  turns,
	"cycle":  {"", "write rev (2π rad), or a pure number: 1 for a count, Hz for cycles a second", "may be an angle or a count"},
	"t":      tonne,
	"ton":    tonne,
	"tonne":  tonne,
	"tons":   tonne,
	"gal":    gallon,
	"gallon": gallon,
	"btu":    {"", "write J or Wh: 1 Btu is 1054.35 J or 1055.06 J by its kind (NIST SP 811)", "may be two units"},
	"u":      {"", "a micro stands before its unit, as in uF", ""},
	"r":      {},
	"'":      {"", "write ft, or ′ for a minute of angle", "may be two units"},
	"\"":     {"", "write in, or ″ for a second of angle", "may be two units"},
	"kv":     {"kV", "capitals matter: write kV, or rpm/V for a motor's speed constant", ""},
	"db":     {"", "write the ratio as a pure number", "is a logarithm and no unit that can be multiplied"},
	"√hz":    {"Hz^(1/2)", "write Hz^(1/2)", ""},
	"mmhg":   {"kPa", "write kPa, or inHg", ""},
	"rms":    {"V", "write V, and say RMS in the name", ""},
	"vdc":    {"V", "write V, and say DC in the name", ""},
	"vac":    {"V", "write V, and say AC in the name", ""},
	"ct":     cent,
	"cent":   cent,
	"cents":  cent,
	"year":   {"day", "write day", ""},
	"week":   {"day", "write day", ""},
	"month":  {"day", "write day", ""},
}

var (
	turns  = saying{"", "write rev or turn for a rotation (2π rad); the turns of a winding are a pure number, 1", "may be an angle or a count"}
	tonne  = saying{"Mg", "write Mg or kg: 1 t is 1 Mg, other tons differ; T is tesla", ""}
	cent   = saying{"", "write a part of the whole unit: 0.05 EUR or 0.05 €", ""}
	gallon = saying{"L", "write L: gallons differ by country", "may be several units"}
)
