package units

// A prefix of the SI: ten to a power. In prefixes they stand with those that
// builders use most first, which is the order in which they are suggested.
// Source: BIPM, SI Brochure, 9th ed. (2019, updated 2022), table 7.
type prefix struct {
	symbol, name string
	power        int
}

var prefixes = []prefix{
	{"m", "milli", -3}, {"k", "kilo", 3}, {"µ", "micro", -6}, {"M", "mega", 6}, {"n", "nano", -9}, {"p", "pico", -12},
	{"c", "centi", -2}, {"d", "deci", -1}, {"h", "hecto", 2}, {"G", "giga", 9}, {"da", "deca", 1}, {"T", "tera", 12},
	{"f", "femto", -15}, {"a", "atto", -18}, {"z", "zepto", -21}, {"y", "yocto", -24}, {"r", "ronto", -27}, {"q", "quecto", -30},
	{"P", "peta", 15}, {"E", "exa", 18}, {"Z", "zetta", 21}, {"Y", "yotta", 24}, {"R", "ronna", 27}, {"Q", "quetta", 30},
}

// cutPrefix tries every prefix that text begins with until one will do: d and
// da both begin "dam". Micro may be U+00B5, U+03BC or u.
func cutPrefix(text string, try func(p *prefix, rest string) bool) bool {
	for i := range prefixes {
		p := &prefixes[i]
		n := len(p.symbol)
		if len(text) > n && text[:n] == p.symbol && try(p, text[n:]) {
			return true
		}
	}
	const greek = "\u03bc"
	micro := &prefixes[2]
	switch {
	case len(text) > 1 && text[0] == 'u':
		return try(micro, text[1:])
	case len(text) > len(greek) && text[:len(greek)] == greek:
		return try(micro, text[len(greek):])
	}
	return false
}

// ten is the prefix as a ratio of whole numbers.
func (p *prefix) ten() (num, den float64) {
	if p == nil {
		return 1, 1
	}
	if p.power < 0 {
		return 1, powersOfTen[-p.power]
	}
	return powersOfTen[p.power], 1
}

var powersOfTen = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
	1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22, 1e23, 1e24, 1e25, 1e26, 1e27, 1e28, 1e29, 1e30}
