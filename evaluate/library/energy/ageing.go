package energy

import (
	"math"

	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// LifeFactorInput is how a cell is used, against how its life is rated.
type LifeFactorInput struct {
	Temperature      float64 `unit:"°C" help:"of the cell in use"`
	RatedTemperature float64 `unit:"°C" help:"for which the maker gives a life"`
	Voltage          float64 `unit:"V" range:"[0,)" help:"of the cell in use" symbol:"V"`
	RatedVoltage     float64 `unit:"V" range:"(0,)" help:"for which the maker gives a life" symbol:"V_rated"`
	VoltageStep      float64 `unit:"V" range:"(0,)" help:"that doubles the life: makers say 0.1 V or 0.2 V"`
	TemperatureStep  float64 `unit:"K" range:"(0,)" default:"10 K" help:"that doubles the life"`
}

// LifeFactorResult is how much longer it lasts.
type LifeFactorResult struct {
	Factor float64 `unit:"1" help:"on the life that the maker gives"`
	model.Cautions
}

// LifeFactor is how many times the maker's life a cell lasts when it is kept
// cooler and at a lower voltage than it is rated for.
//
// Formula: L = 2^((T0 − T)/ΔT)·2^((V0 − V)/ΔV).
//
// Letters: T0 rated_temperature; T temperature; V0 rated_voltage; V voltage; ΔT temperature_step; ΔV voltage_step; L = result.
//
// Validity: a rule of thumb within the ratings; end of life is commonly 20 % to 30 % less capacitance or twice the resistance.
//
// Source: makers' guides, from memory; they disagree on the voltage step, hence it is asked for.
//
// Example:
//
//	longer = life_factor(temperature: 35 °C, rated_temperature: 65 °C, voltage: 2.3 V, rated_voltage: 2.7 V, voltage_step: 0.2 V)
func LifeFactor(in LifeFactorInput) (LifeFactorResult, error) {
	if err := require.All(require.Positive("voltage_step", in.VoltageStep, "V"),
		require.Positive("temperature_step", in.TemperatureStep, "K")); err != nil {
		return LifeFactorResult{}, err
	}
	doublings := (in.RatedTemperature-in.Temperature)/in.TemperatureStep + (in.RatedVoltage-in.Voltage)/in.VoltageStep
	out := LifeFactorResult{Factor: math.Exp2(doublings)}
	if in.Temperature > in.RatedTemperature || in.Voltage > in.RatedVoltage {
		out.Raise(beyondRatedLife(in))
	}
	return out, nil
}

func beyondRatedLife(in LifeFactorInput) model.Caution {
	return model.Caution{
		ID: "life-beyond-rating", Level: model.Warning, Severity: max(in.Temperature/in.RatedTemperature, in.Voltage/in.RatedVoltage),
		Summary: "The life is rated at {2} and {3}, not at {0} and {1}.",
		Values: []model.Value{celsius(in.Temperature), model.In(in.Voltage, "V"),
			celsius(in.RatedTemperature), model.In(in.RatedVoltage, "V")},
		Why:    "The rule holds only below the ratings. Over them a cell does not only age faster: it makes gas and may vent.",
		Hint:   "Keep it cooler, or at a lower voltage.",
		Source: makerGuides,
	}
}
