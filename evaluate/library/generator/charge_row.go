package generator

import (
	"context"
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// ChargesInARowInput is what [ChargesInARow] reads.
type ChargesInARowInput struct {
	HandChargeInput
	Charges int     `range:"[1,50]" help:"one after another"`
	Pause   float64 `unit:"s" default:"0 s" range:"[0,)" help:"between two, in which the coils cool"`
}

// RepeatedCharge is one of several charges in a row.
type RepeatedCharge struct {
	Charge int
	Begins float64 `unit:"°C" help:"temperature of the coils at its start"`
	Ends   float64 `unit:"°C" help:"and at its end"`
	Time   float64 `unit:"s" symbol:"t"`
	Work   float64 `unit:"J" help:"at the crank"`
}

// ChargesInARowResult is how the last of them goes.
type ChargesInARowResult struct {
	Time            float64 `unit:"s" show:"1" help:"of the last" symbol:"t"`
	CoilTemperature float64 `unit:"°C" show:"2" help:"at its end"`
	Charges         []RepeatedCharge
	model.Cautions
}

// alike is how much two charges begin alike, by the temperature, that are one: far less than
// the error of either.
const alike = 1e-12

// ChargesInARow charges again and again, the coils as warm as the last charge and
// the pause left them.
//
// Formula: those of hand_charge; in the pause T_2 = T_s + (T_1 − T_s)·e^(−h·t/(m_cu·c)) from the end of the first charge to the next, c = 385 J/(kg·K), h the heat_loss or h = 10 W/(m²·K)·S by the windings' surface
//
// Letters: t pause; T_s surroundings; m_cu generator.copper_mass; S generator.coil_surface; h heat_loss; T_1 = at 1 charges.ends; T_2 = at 2 charges.begins.
//
// Validity: as there; the store is empty again, or at from, before each.
//
// Source: Newton's law of cooling, textbook
//
// Example:
//
//	c = coil(87, awg(21), 10 mm, 9 mm, 8 mm)
//	gen = generator(c, 9, 12, emf_constant: 0.05 V·s/rad, phases: 3)
//	store = pack(capacitor(100 F, 2.7 V, resistance: 10 mΩ), series: 5)
//	day = charges_in_a_row(gen, store, 12.5 V, 75 rpm, 12, charges: 4, pause: 10 min, power_limit: 45 W)
//	T [°C] = day.coil_temperature
func ChargesInARow(ctx context.Context, in ChargesInARowInput) (ChargesInARowResult, error) {
	g, one := in.Generator, in.HandChargeInput
	err := require.All(one.check(), require.Count("charges", in.Charges), require.NotNegative("pause", in.Pause, "s"),
		require.Positive("generator.copper_mass", g.CopperMass, "kg"))
	one.Looks = model.BoundedLooks(manyLooks)
	if err == nil {
		err = one.reaches()
	}
	if err != nil {
		return ChargesInARowResult{}, one.followed(err)
	}
	var out ChargesInARowResult
	fade := math.Exp(-one.shed() * in.Pause / (g.CopperMass * copperHeat))
	kelvin, began := one.start(), math.NaN()
	var c course
	for n := 1; n <= min(in.Charges, 50); n++ {
		if math.Abs(kelvin-began) > alike*kelvin || n == 1 {
			c, err = one.follow(ctx, one.From, one.To, kelvin)
			began = kelvin
		}
		if ctx.Err() != nil {
			return ChargesInARowResult{}, ctx.Err()
		}
		if err != nil {
			return ChargesInARowResult{}, one.followed(one.stall(c.at))
		}
		ends := c.y[iKelvin]
		out.Charges = append(out.Charges, RepeatedCharge{n, kelvin, ends, c.y[iTime], c.y[iWork]})
		out.Time, out.CoilTemperature = c.y[iTime], ends
		kelvin = in.Surroundings + (ends-in.Surroundings)*fade
	}
	hotCoils(&out.Cautions, out.CoilTemperature)
	return out, nil
}
