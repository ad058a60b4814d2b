package units

// Fitting is the unit that a number is shown in when the builder gave none.
func Fitting(k Kind, si float64) Unit { return coherent(k) }

// coherent is the SI unit of a kind.
func coherent(k Kind) Unit {
	switch {
	case k.Point:
		return MustParse("°C")
	case k.Dim.IsNumber():
		return MustParse("1")
	case k.Mark == Rate && k.Dim == perTime:
		return MustParse("Hz")
	case k.Mark == Rotation && k.Dim == perTime:
		return MustParse("rpm")
	}
	return Unit{Kind: k, text: k.Dim.SIUnit(), num: 1, den: 1}
}
