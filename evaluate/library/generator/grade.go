package generator

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// MagnetSphereInput is what [MagnetSphere] reads.
type MagnetSphereInput struct {
	Diameter  float64 `unit:"mm" range:"(0,)"`
	Remanence float64 `unit:"T" range:"(0,2)" help:"at 20 °C, from the maker's sheet"`
	Distance  float64 `unit:"mm" default:"0 mm" range:"[0,)" help:"from the surface, on the axis"`
	Warmth
}

// MagnetSphereResult is a ball magnet.
type MagnetSphereResult struct {
	Diameter  float64 `unit:"mm"`
	Remanence float64 `unit:"T" help:"at the temperature given"`
	Field     float64 `unit:"T" show:"1" help:"on its axis at the distance"`
	Moment    float64 `unit:"A·m^2" help:"magnetic dipole moment: from outside a ball is a dipole in its centre"`
	model.Cautions
}

// MagnetSphere is a ball magnet: its field on the axis of its magnetisation.
//
// Formula: B = (2/3)·Br·(R/(R + z))³, R = d/2 the radius, z from the surface; moment M = Br·(4/3)·π·R³/µ0, µ0 = 1.25663706127e-6 N/A²; Br = Br20·(1 + α·(T − 20 °C))
//
// Letters: d diameter; z distance; T temperature; α coefficient; Br20 remanence; Br = remanence; B = field; M = moment.
//
// Validity: outside the magnet, permeability 1, no iron near it; the reversible
// part of the loss with temperature only.
//
// Source: closed form of a uniformly magnetised sphere, textbook
//
// Example:
//
//	ball = magnet_sphere(10 mm, 1.2 T, distance: 10 mm)
//	B [mT] = ball.field
func MagnetSphere(in MagnetSphereInput) (MagnetSphereResult, error) {
	if err := require.All(require.Positive("diameter", in.Diameter, "m"),
		require.Positive("remanence", in.Remanence, "T")); err != nil {
		return MagnetSphereResult{}, err
	}
	br, err := in.remanence(in.Remanence)
	if err != nil {
		return MagnetSphereResult{}, err
	}
	r := in.Diameter / 2
	share := r / (r + in.Distance)
	out := MagnetSphereResult{Diameter: in.Diameter, Remanence: br, Field: 2 * br * share * share * share / 3,
		Moment: br * 4 * math.Pi * r * r * r / (3 * mu0)}
	heatCaution(&out.Cautions, in.Temperature, in.Limit)
	strongMagnets(&out.Cautions)
	return out, nil
}

// MagnetGradeInput is what [MagnetGrade] reads.
type MagnetGradeInput struct {
	Remanence     *float64 `unit:"T" range:"(0,2)" choose:"known" help:"from the maker's sheet"`
	EnergyProduct *float64 `unit:"kJ/m^3" range:"(0,)" choose:"known" help:"(BH)max from the maker's sheet; the number in a grade's name is its MGOe"`
	Recoil        float64  `unit:"1" default:"1.05" range:"[1,)" help:"recoil permeability"`
}

// MagnetGradeResult is remanence and energy product together.
type MagnetGradeResult struct {
	Remanence     float64 `unit:"T" show:"1"`
	EnergyProduct float64 `unit:"kJ/m^3" show:"2" help:"(BH)max"`
}

// MagnetGrade is the remanence that belongs to an energy product, or the other
// way round: what to put in for a magnet of which only the grade is known.
//
// Formula: (BH)max: w = Br²/(4·µ0·µ_rec), µ0 = 1.25663706127e-6 N/A²
//
// Letters: µ_rec recoil; Br = remanence; w = energy_product.
//
// Validity: a demagnetisation curve that is straight beyond its middle, as that
// of NdFeB and SmCo near room temperature. Makers print bands: a grade of 42 is
// 40 MGOe to 43 MGOe.
//
// Source: straight demagnetisation curve, textbook
//
// Example:
//
//	grade = magnet_grade(energy_product: 42 MGOe)
//	Br [T] = grade.remanence
func MagnetGrade(in MagnetGradeInput) (MagnetGradeResult, error) {
	if err := require.Positive("recoil", in.Recoil, "1"); err != nil {
		return MagnetGradeResult{}, err
	}
	slope := 4 * mu0 * in.Recoil
	switch {
	case in.Remanence != nil:
		return MagnetGradeResult{*in.Remanence, *in.Remanence * *in.Remanence / slope}, require.Positive("remanence", *in.Remanence, "T")
	case in.EnergyProduct != nil:
		if err := require.Positive("energy_product", *in.EnergyProduct, "J/m^3"); err != nil {
			return MagnetGradeResult{}, err
		}
		return MagnetGradeResult{math.Sqrt(*in.EnergyProduct * slope), *in.EnergyProduct}, nil
	}
	return MagnetGradeResult{}, &model.Error{Summary: "neither remanence nor energy product is given", Hint: "give one of the two"}
}
