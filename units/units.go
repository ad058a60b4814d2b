// Package units is dimensions, units and prefixes: reading and writing them.
//
// [Parse] reads a unit as a builder types it, [Unit.String] writes it as the SI
// Brochure does, [Show] writes a value with its unit and [Fitting] chooses the
// unit when the builder named none. [All] lists what is known.
//
// What is left out: logarithmic units (dB), units of information, and thousands
// separators.
package units

import "strings"

// Mark tells a rotation (rad/s, rpm) from a rate (Hz, 1/s) on dimension 1/time.
type Mark uint8

// The marks. Neutral is every dimension but 1/time, and 1/time of unknown origin.
const (
	Neutral Mark = iota
	Rotation
	Rate
)

// Kind is what the checker tracks of a number.
type Kind struct {
	Dim   Dimension
	Mark  Mark
	Point bool // a temperature on a scale, not a difference
}

// String names the kind with its unit, as part of a sentence: "a voltage (V)",
// "a pure number", "a rotation (rad/s)", "a temperature (°C)", "a temperature
// difference (K)", "a quantity in kg·m³".
func (k Kind) String() string {
	switch {
	case k.Point:
		return "a temperature (°C)"
	case k.Dim == temperature:
		return "a temperature difference (K)"
	case k.Dim.IsNumber():
		return "a pure number"
	case k.Dim == perTime:
		return [...]string{"a number per time (1/s)", "a rotation (rad/s)", "a rate (Hz)"}[min(k.Mark, Rate)]
	case !k.Dim.InRange():
		return "a quantity whose exponents are out of range"
	}
	name := k.Dim.Name()
	if name == "" {
		return "a quantity in " + k.Dim.Unit()
	}
	article := "a "
	if strings.ContainsRune("aeiou", rune(name[0])) {
		article = "an "
	}
	return article + name + " (" + k.Dim.Unit() + ")"
}

// A Unit scales a number to coherent SI. The zero Unit is no unit at all; it
// scales by 1.
type Unit struct {
	Kind Kind
	text string
	// si = (number + shift) * num / den. Two factors, since most units are
	// exact ratios of whole numbers, which one float64 cannot hold: 33 µF is
	// then the float64 nearest to 33e-6 and not its neighbour.
	num, den, shift float64
	coin            string // the unit of money in it, "" for none
	places          uint8  // of an amount of money: its decimals and one; else 0
	leading         bool   // the unit of money stands before the number
}

// ToSI converts a number in this unit to coherent SI.
func (u Unit) ToSI(x float64) float64 {
	if u.IsZero() {
		return x
	}
	if u.shift != 0 {
		x += u.shift
	}
	if u.places != 0 {
		return cents(x * u.num / u.den)
	}
	return x * u.num / u.den
}

// FromSI converts a coherent SI value to a number in this unit.
func (u Unit) FromSI(si float64) float64 {
	if u.IsZero() {
		return si
	}
	x := si * u.den / u.num
	if u.shift != 0 {
		x -= u.shift
	}
	return x
}

// String writes the unit as the SI Brochure does, in the builder's choice and
// order: "m/s²", "W/(m²·K)"; it is "" for the pure number 1.
func (u Unit) String() string { return u.text }

// Difference is the unit of differences on a temperature scale: °C as a
// difference. Other units are their own difference.
func (u Unit) Difference() Unit {
	u.Kind.Point, u.shift = false, 0
	return u
}

// IsZero reports whether u is no unit at all, which the pure number 1 is not.
func (u Unit) IsZero() bool { return u.den == 0 }

// An Error is why a text is no unit.
type Error struct {
	Text       string
	Start, End int    // of the part at fault, in bytes of Text
	Summary    string // "Kohm is no unit"
	Hint       string // "write kΩ", "" if nothing sensible can be said
	Suggest    string // the unit to put in its place, "" if none is near
}

// Error is the sentence and, behind a semicolon, its hint.
func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Summary
	}
	return e.Summary + "; " + e.Hint
}

// Named is a unit that Parse knows, for help.
type Named struct {
	Symbol, Name, Meaning, Source string
	Aliases                       []string
	Prefixes                      bool // takes the SI prefixes
	Unit                          Unit
}
