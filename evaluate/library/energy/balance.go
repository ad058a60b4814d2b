package energy

import (
	"math"
	"slices"

	"inkwing/evaluate/library/internal/eseries"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// BalancedVoltagesInput is a string with a like resistor across every cell.
type BalancedVoltagesInput struct {
	Voltage    float64   `unit:"V" range:"[0,)" help:"of the whole string" symbol:"V"`
	Resistance float64   `unit:"Ω" range:"(0,)" help:"of each balancing resistor" symbol:"R"`
	Leakage    []float64 `unit:"µA" range:"[0,)" help:"current of each cell, measured"`
}

// BalancedVoltagesResult is where the cells settle.
type BalancedVoltagesResult struct {
	Voltage []float64 `unit:"V" help:"of each cell, in their order"`
	model.Cautions
}

// BalancedVoltages is where the cells of a string settle in time when each has
// a like resistor across it.
//
// Formula: Vk = V/n + R·(Σ I/n − Ik), one k a cell.
//
// Letters: V voltage; n #leakage; R resistance; I leakage; Ik leakage; Vk = result.
//
// Validity: constant leakage currents; after several times R·C, which is hours.
//
// Source: the same current passes through every cell with its resistor.
//
// Example:
//
//	V_cells = balanced_voltages(5 V, 1 kΩ, [10 µA, 60 µA])
func BalancedVoltages(in BalancedVoltagesInput) (BalancedVoltagesResult, error) {
	n := float64(len(in.Leakage))
	if n == 0 {
		return BalancedVoltagesResult{}, noCells("leakage")
	}
	mean := 0.0
	for _, i := range in.Leakage {
		mean += i / n
	}
	out := BalancedVoltagesResult{}
	for _, i := range in.Leakage {
		out.Voltage = append(out.Voltage, in.Voltage/n+in.Resistance*(mean-i))
	}
	if least := slices.Min(out.Voltage); least < 0 {
		out.Raise(reversedAtRest(float64(1+slices.Index(out.Voltage, least)), least))
	}
	return out, nil
}

// BalanceResistorInput is what a balancing resistor shall achieve.
type BalanceResistorInput struct {
	Cell              Store   `help:"one cell of the string"`
	Series            int     `range:"[2,)" help:"cells in series"`
	Deviation         float64 `unit:"V" range:"(0,)" help:"of a cell from the mean, at most"`
	LeakageDifference float64 `unit:"µA" range:"(0,)" help:"between the leakiest cell and the others"`
	ChargeTime        float64 `unit:"s" range:"(0,)" default:"120 s" help:"how long a charge takes"`
	Resistors         string  `values:"E3 E6 E12 E24 E48 E96 E192" default:"E24" help:"the series of values that they are taken from"`
}

// BalanceResistorResult is the resistor, and what it costs.
type BalanceResistorResult struct {
	Resistance   float64 `unit:"Ω" show:"1" help:"of each resistor, at most" symbol:"R"`
	Preferred    float64 `unit:"Ω" show:"2" help:"to buy: the next value down"`
	Current      float64 `unit:"A" show:"3" help:"through the largest at the cell's rating" symbol:"I"`
	Loss         float64 `unit:"W" show:"4" help:"in each at the cell's rating"`
	TimeConstant float64 `unit:"s" show:"5" help:"in which a difference falls to 1/e"`
	HalfTime     float64 `unit:"s" help:"in which the resistor halves a cell's voltage"`
	model.Cautions
}

// BalanceResistor is the largest resistor across every cell that holds the
// leakiest cell near the mean in the long run. It does nothing for cells of
// unequal capacitance within a charge of minutes.
//
// Formula: R = n·ΔV/((n − 1)·ΔI); I = V/R; loss P = V²/R; τ = R·C; half-time t_half = τ·ln 2.
//
// Letters: n series; ΔV deviation; ΔI leakage_difference; V cell.rated_voltage; C cell.capacitance; R = resistance; I = current; P = loss; τ = time_constant; t_half = half_time.
//
// Validity: one cell leaks more by ΔI than all others, constant currents, steady state.
//
// Source: follows from Vk = V/n + R·(mean leakage − Ik); IEC 60063, from memory.
//
// Example:
//
//	cell = capacitor(capacitance: 10 F, rated_voltage: 2.7 V)
//	bleed = balance_resistor(cell, series: 2, deviation: 0.05 V, leakage_difference: 50 µA)
func BalanceResistor(in BalanceResistorInput) (BalanceResistorResult, error) {
	if err := in.check(); err != nil {
		return BalanceResistorResult{}, err
	}
	n := float64(in.Series)
	r := n * in.Deviation / ((n - 1) * in.LeakageDifference)
	v, tau := in.Cell.RatedVoltage, r*in.Cell.Capacitance
	down, _, _ := eseries.Around(in.Resistors, r)
	out := BalanceResistorResult{Resistance: r, Preferred: down, Current: v / r, Loss: v * v / r, TimeConstant: tau, HalfTime: tau * math.Ln2}
	if tau > in.ChargeTime/3 {
		out.Raise(slowBalance(tau, in.ChargeTime))
	}
	return out, nil
}

func (in BalanceResistorInput) check() error {
	if err := in.Cell.check("cell"); err != nil {
		return err
	}
	if in.Series < 2 {
		return &model.Error{Field: "series", Summary: "is {0}, and a single cell has nothing to balance with",
			Values: []model.Value{model.In(float64(in.Series), "1")}, Hint: "give 2 or more"}
	}
	if err := require.All(require.Positive("deviation", in.Deviation, "V"),
		require.Positive("leakage_difference", in.LeakageDifference, "A")); err != nil {
		return err
	}
	if _, _, ok := eseries.Around(in.Resistors, 1); !ok {
		return &model.Error{Field: "resistors", Summary: "is none of E3, E6, E12, E24, E48, E96 and E192", Hint: "write it as in resistors: \"E24\""}
	}
	return nil
}

func slowBalance(tau, charge float64) model.Caution {
	return model.Caution{
		ID: "balance-resistor-slow", Level: model.Warning, Severity: tau / charge,
		Summary: "The balancing resistor acts in {0}, the charge takes {1}.",
		Values:  []model.Value{model.In(tau/3600, "h"), model.In(charge, "s")},
		Why:     "It answers to leakage over hours. In a fast charge the cells split by capacitance, and the smallest may pass its rating unless there is headroom.",
		Hint:    "Match the cells, or clamp each.",
		Source:  practice,
	}
}

// ClampInput is a shunt or zener that holds a cell or pack at a voltage while
// the source goes on.
type ClampInput struct {
	Voltage           float64 `unit:"V" range:"(0,)" help:"that the clamp holds" symbol:"V"`
	Current           float64 `unit:"A" range:"[0,)" help:"of the source at that voltage" symbol:"I"`
	ThermalResistance float64 `unit:"K/W" range:"[0,)" help:"of the clamp to the air, with its heat sink"`
	Ambient           float64 `unit:"°C" default:"25 °C" help:"of the air"`
	Limit             float64 `unit:"°C" default:"125 °C" help:"highest temperature that the clamp's maker allows"`
}

// ClampResult is how hot it gets.
type ClampResult struct {
	Power       float64 `unit:"W" show:"1" help:"in the clamp" symbol:"P"`
	Rise        float64 `unit:"K" show:"2" help:"above the air, if the source goes on"`
	Temperature float64 `unit:"°C" show:"3" help:"then"`
	model.Cautions
}

// Clamp is what a shunt or zener bears that takes the whole current of a
// source which goes on cranking when the cell is full.
//
// Formula: P = V·I; ΔT = P·R_th; T = T_air + ΔT.
//
// Letters: V voltage; I current; R_th thermal_resistance; T_air ambient; P = power; ΔT = rise; T = temperature.
//
// Validity: steady state; all of the source's current goes through the clamp.
//
// Source: definitions.
//
// Example:
//
//	stop = clamp(voltage: 2.65 V, current: 1.5 A, thermal_resistance: 20 K/W)
func Clamp(in ClampInput) (ClampResult, error) {
	err := require.All(require.Positive("voltage", in.Voltage, "V"), require.NotNegative("current", in.Current, "A"),
		require.NotNegative("thermal_resistance", in.ThermalResistance, "K/W"))
	if err != nil {
		return ClampResult{}, err
	}
	p := in.Voltage * in.Current
	out := ClampResult{Power: p, Rise: p * in.ThermalResistance, Temperature: in.Ambient + p*in.ThermalResistance}
	switch {
	case out.Temperature > in.Limit:
		out.Raise(clampTooHot(out.Temperature, in.Limit))
	case out.Temperature > touchLimit:
		out.Raise(hotToTouch(out.Temperature))
	}
	return out, nil
}

const (
	zeroCelsius = 273.15
	touchLimit  = zeroCelsius + 60
)

func celsius(kelvin float64) model.Value { return model.In(kelvin-zeroCelsius, "°C") }

func clampTooHot(got, limit float64) model.Caution {
	return model.Caution{
		ID: "clamp-too-hot", Level: model.Danger,
		Summary: "The clamp would reach {0}, above its limit of {1}.",
		Values:  []model.Value{celsius(got), celsius(limit)},
		Why:     "A clamp that fails open leaves the cells to go over their rating; one that glows sets fire to what it touches. Several share the power.",
		Hint:    "Give it a heat sink, or stop earlier.",
		Source:  practice,
	}
}

func hotToTouch(got float64) model.Caution {
	return model.Caution{
		ID: "hot-to-touch", Level: model.Warning,
		Summary: "The part would reach {0}; metal burns skin from {1}.",
		Values:  []model.Value{celsius(got), celsius(touchLimit)},
		Why:     "Hot metal does so even in a brief touch.",
		Hint:    "Cover it, or give it more surface.",
		Source:  "ISO 13732-1, from memory",
	}
}
