package twobranch

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// Frost is what a data sheet says of the cold.
type Frost struct {
	ResistanceRatio  float64 `unit:"1" range:"[1,20]" default:"2" help:"resistance at cold, by that at 25 °C"`
	CapacitanceRatio float64 `unit:"1" range:"(0,1]" default:"0.95" help:"capacitance at cold, by that at 25 °C"`
	Cold             float64 `unit:"°C" range:"[-70,10]" default:"-40 °C" help:"the temperature for which the sheet has these"`
}

// SheetFrost is what sheets commonly say.
var SheetFrost = Frost{ResistanceRatio: 2, CapacitanceRatio: 0.95, Cold: zeroCelsius - 40}

const (
	zeroCelsius = 273.15
	sheetWarmth = zeroCelsius + 25 // at which sheets rate
	coldest     = zeroCelsius - 40
	warmest     = zeroCelsius + 65
)

// Chilled are the fields of a store with so much more resistance and less capacitance.
func (f Fields) Chilled(more, less float64) Fields {
	out := Fields{CapacitanceSlope: times(f.CapacitanceSlope, less)}
	if f.SlowCapacitance != nil && f.SlowResistance != nil {
		out.SlowCapacitance, out.SlowResistance = times(f.SlowCapacitance, less), times(f.SlowResistance, more)
	}
	return out
}

// At is by what resistance and capacitance are to be multiplied at a temperature.
func (f Frost) At(kelvin float64) (resistance, capacitance float64, err error) {
	if !(kelvin >= coldest && kelvin <= warmest) {
		return 0, 0, &model.Error{Field: "temperature", Summary: "is {0}, outside the −40 °C to 65 °C of common cells",
			Values: []model.Value{model.In(kelvin-zeroCelsius, "°C")}, Hint: "give the temperature of the cells, as in -5 °C"}
	}
	if err := require.All(require.Positive("resistance_ratio", f.ResistanceRatio, "1"), require.Efficiency("capacitance_ratio", f.CapacitanceRatio)); err != nil {
		return 0, 0, err
	}
	if !(f.Cold < sheetWarmth) {
		return 0, 0, &model.Error{Field: "cold", Summary: "is {0}, no colder than the 25 °C of a sheet", Values: []model.Value{model.In(f.Cold-zeroCelsius, "°C")}, Hint: "give the cold end of the sheet's range"}
	}
	x := max(0, (sheetWarmth-kelvin)/(sheetWarmth-f.Cold))
	resistance, capacitance = math.Pow(f.ResistanceRatio, x), 1-(1-f.CapacitanceRatio)*x
	return resistance, capacitance, require.Positive("capacitance_ratio", capacitance, "1")
}
