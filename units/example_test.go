package units_test

import (
	"fmt"

	"inkwing/units"
)

func Example() {
	cell := units.MustParse("mAh")
	charge := cell.ToSI(2200)
	fmt.Println(cell.Kind, units.Show(charge, units.Fitting(cell.Kind, charge), 4))
	_, err := units.Parse("W/Kohm")
	fmt.Println(err)
	// Output:
	// a charge (C) 7920 C
	// Kohm is no unit; capitals matter: write kΩ
}
