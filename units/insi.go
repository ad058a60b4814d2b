package units

import (
	"fmt"
	"strings"
)

// inSIDigits is how far a unit's factor is written out.
const inSIDigits = 9

// InSI tells what one of the unit is, and where a scale's zero lies.
func (n Named) InSI() string {
	u := n.Unit
	if code, amount := u.Kind.Dim.Currency(); amount {
		return "1 " + n.Symbol + " = 1 " + code + ", counted in steps of " + Show(1, MustParse(code), certainDigits)
	}
	if u.Kind.Point {
		return fmt.Sprintf("0 %s is %s K; a difference of 1 %s is %s K", n.Symbol, Number(u.ToSI(0), inSIDigits),
			n.Symbol, Number(u.Difference().ToSI(1), inSIDigits))
	}
	return strings.TrimSuffix(fmt.Sprintf("1 %s = %s %s", n.Symbol, Number(u.ToSI(1), inSIDigits), u.Kind.Dim.SIUnit()), " 1")
}
