package units

import (
	"math"
	"strings"
	"sync"
)

// Each currency is a dimension of its own, since nothing but a rate of the day
// makes euros of dollars. A number of money is kept in the currency's minor unit,
// so that sums and whole multiples of prices are whole numbers, which a float64
// adds without a rounding: ten times 0.10 EUR is 1.00 EUR, and no limit breaks for
// a billionth of a cent.

// mostCurrencies bounds how many currencies one product may hold: a rate has two.
const mostCurrencies = 3

// A share is one currency's power in a dimension. The zero share is none.
type share struct {
	currency uint8 // its place in the list of currencies, from 1
	power    exponent
}

// A currency is one of ISO 4217.
type currency struct {
	code   string
	digits int // decimals of its minor unit
	name   string
	sign   string // by which it is commonly written, "" for none that is its own
}

// iso4217 names the source of codes and minor units; XCG, which came later, is from
// memory.
const iso4217 = "ISO 4217, list one of 2024-06-25"

// signed are the currencies with a name or a sign that builders write. A sign that
// several share stands for the one that most people mean by it alone; the others
// have their codes.
var signed = []currency{
	{"EUR", 2, "euro", "€"}, {"USD", 2, "US dollar", "$"}, {"GBP", 2, "pound sterling", "£"}, {"JPY", 0, "yen", "¥"},
	{"CHF", 2, "Swiss franc", ""}, {"CAD", 2, "Canadian dollar", ""}, {"AUD", 2, "Australian dollar", ""},
	{"NZD", 2, "New Zealand dollar", ""}, {"SEK", 2, "Swedish krona", ""}, {"NOK", 2, "Norwegian krone", ""},
	{"DKK", 2, "Danish krone", ""}, {"PLN", 2, "zloty", ""}, {"CZK", 2, "Czech koruna", ""}, {"HUF", 2, "forint", ""},
	{"CNY", 2, "yuan renminbi", ""}, {"INR", 2, "Indian rupee", "₹"}, {"KRW", 0, "won", "₩"}, {"TRY", 2, "Turkish lira", "₺"},
	{"UAH", 2, "hryvnia", "₴"}, {"ILS", 2, "new shekel", "₪"}, {"VND", 0, "dong", "₫"}, {"PHP", 2, "Philippine peso", "₱"},
	{"NGN", 2, "naira", "₦"}, {"BRL", 2, "Brazilian real", ""}, {"MXN", 2, "Mexican peso", ""}, {"ZAR", 2, "rand", ""},
}

// coded are the other codes by the decimals of their minor unit. AWG is left out:
// behind a number it is a wire's gauge on this bench, and no florin.
var coded = map[int]string{
	0: "BIF CLP DJF GNF ISK KMF PYG RWF UGX VUV XAF XOF XPF",
	2: "AED AFN ALL AMD AOA ARS AZN BAM BBD BDT BGN BMD BND BOB BSD BTN BWP BYN BZD CDF COP CRC CUP CVE DOP DZD EGP ERN " +
		"ETB FJD FKP GEL GHS GIP GMD GTQ GYD HKD HNL HTG IDR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL " +
		"MGA MKD MMK MNT MOP MRU MUR MVR MWK MYR MZN NAD NIO NPR PAB PEN PGK PKR QAR RON RSD RUB SAR SBD SCR SDG SGD SHP " +
		"SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TTD TWD TZS UYU UZS VED VES WST XCD XCG YER ZMW ZWG",
	3: "BHD IQD JOD KWD LYD OMR TND",
}

// currencies is the whole list; a share counts it from 1.
var currencies = sync.OnceValue(func() []currency {
	list := append([]currency(nil), signed...)
	for _, digits := range []int{0, 2, 3} {
		for code := range strings.FieldsSeq(coded[digits]) {
			list = append(list, currency{code: code, digits: digits})
		}
	}
	return list
})

// money makes the entries of the table: each code, and each sign.
func money() []entry {
	var list []entry
	for i, c := range currencies() {
		d := Dimension{money: [mostCurrencies]share{{uint8(i + 1), exponent{1, 1}}}}
		e := entry{symbol: c.code, name: c.code, dim: d, num: math.Pow10(c.digits), den: 1, coin: true,
			meaning: "money, a currency by its code", source: iso4217}
		if c.name != "" {
			e.name, e.meaning = c.name, "money"
		}
		list = append(list, e)
		if c.sign != "" {
			e.symbol = c.sign
			e.meaning = "money, " + c.code
			list = append(list, e)
		}
	}
	return list
}

// withMoney adds the shares of a product, in the order of the list.
func withMoney(a, b [mostCurrencies]share, sign int) (sum [mostCurrencies]share, ok bool) {
	n := 0
	add := func(s share) bool {
		if s.power.num == 0 {
			return true
		}
		if n == len(sum) {
			return false
		}
		sum[n] = s
		n++
		return true
	}
	for i, j := 0, 0; i < len(a) || j < len(b); {
		var x, y share
		if i < len(a) {
			x = a[i]
		}
		if j < len(b) {
			y = b[j]
		}
		switch {
		case x.currency == 0 && y.currency == 0:
			return sum, true
		case y.currency == 0 || x.currency != 0 && x.currency < y.currency:
			i++
		case x.currency == y.currency:
			x.power, ok = x.power.plus(y.power, sign)
			if !ok {
				return sum, false
			}
			i, j = i+1, j+1
		default:
			x = share{y.currency, exponent{int8(sign * int(y.power.num)), y.power.den}}
			j++
		}
		if !add(x) {
			return sum, false
		}
	}
	return sum, true
}

// Currency is the code of the one currency that d is an amount of: "EUR"; false for
// a price per metre, a rate, and whatever else is no plain amount.
func (d Dimension) Currency() (code string, ok bool) {
	s := d.money[0]
	if s.currency == 0 || s.power != (exponent{1, 1}) || d != (Dimension{money: [mostCurrencies]share{s}}) {
		return "", false
	}
	return currencies()[s.currency-1].code, true
}

// HasMoney reports whether a currency is among the factors.
func (d Dimension) HasMoney() bool { return d.money != [mostCurrencies]share{} && d.InRange() }

// minor is a currency's unit as numbers are kept in it: "0.01 EUR".
func (s share) minor() string {
	c := currencies()[s.currency-1]
	if c.digits == 0 {
		return c.code
	}
	return Number(math.Pow10(-c.digits), 1) + " " + c.code
}

// Unit is the unit in which a dimension is told of: the coherent one of the SI, and
// whole units of money.
func (d Dimension) Unit() string {
	if !d.HasMoney() {
		return d.SIUnit()
	}
	list := Dimension{powers: d.powers}.factors()
	for _, s := range d.money {
		if s.currency != 0 {
			list = append([]factor{{currencies()[s.currency-1].code, s.power}}, list...)
		}
	}
	return inFactors(list)
}

// cents makes of a number of minor units the whole one that it stands for: 1.1 EUR
// are 110 cents, although 1.1 times 100 is a little more as a float64.
func cents(x float64) float64 {
	if whole := math.Round(x); math.Abs(x-whole) <= 4*0x1p-52*math.Abs(x) {
		return whole
	}
	return x
}

// Leading is the unit with its sign of money before the number: "€12.50". What is a
// price per metre has it behind all the same.
func (u Unit) Leading() Unit {
	u.leading = true
	return u
}

// Coin is the plain unit of money in which a price is written, such as € of €/m; false
// where there is no money in it.
func (u Unit) Coin() (Unit, bool) {
	if u.coin == "" {
		return Unit{}, false
	}
	coin := MustParse(u.coin)
	coin.leading = u.leading
	return coin, true
}

// showMoney writes an amount with its minor unit's decimals, however large.
func showMoney(si float64, u Unit) string {
	x := u.FromSI(si)
	if !isFinite(x) || math.Abs(x) >= 1e15 {
		return withUnit(Number(x, certainDigits), u)
	}
	return withUnit(string(at(x, -u.decimals()).append(nil, 0, -u.decimals())), u)
}

// decimals are those that an amount of money is shown with, and -1 for all else.
func (u Unit) decimals() int { return int(u.places) - 1 }
