package flight

import (
	"math"

	"inkwing/evaluate/library/internal/line"
	"inkwing/evaluate/library/internal/require"
	"inkwing/evaluate/library/model"
)

// FlightLogInput is what [FlightLog] wants.
type FlightLogInput struct {
	Time        []float64 `unit:"s" range:"[0,)" same:"log" help:"since the launch, rising"`
	Voltage     []float64 `unit:"V" range:"(0,)" same:"log" help:"of the pack's terminals at those times"`
	Height      []float64 `unit:"m" same:"log" help:"at those times"`
	Capacitance float64   `unit:"F" range:"(0,)" help:"of the pack"`
	Mass        float64   `unit:"g" range:"(0,)" help:"all-up, as it flew"`
	Resistance  float64   `unit:"Ω" range:"[0,)" default:"0 Ω" help:"of the pack: the current's drop is added to the voltages"`
	Airspeed    *float64  `unit:"m/s" range:"(0,)" help:"flown, for the drag"`
}

// FlightLogResult is what [FlightLog] answers.
type FlightLogResult struct {
	LevelPower  float64  `unit:"W" estimated:"true" show:"1" help:"out of the pack, radio included, that holds the height"`
	Efficiency  float64  `unit:"%" estimated:"true" show:"2" help:"of what the pack gives for a climb, that becomes height"`
	Drag        *float64 `unit:"N" estimated:"true" show:"3" help:"level power times efficiency over airspeed"`
	ULevelPower float64  `unit:"W" name:"u_level_power" help:"standard uncertainty, from the scatter"`
	UEfficiency float64  `unit:"%" name:"u_efficiency" help:"standard uncertainty, from the scatter"`
	Climb       float64  `unit:"m/s" help:"fastest between two readings"`
	Freedom     int      `help:"degrees of freedom: stretches between readings less two"`
	model.Estimate
}

// FlightLog finds from a flight's log what level flight takes and what a climb costs, by least squares.
//
// Formula: between readings P = C·(V1² − V2²)/(2·Δt) at the rested voltages V + I·R, I = C·(V1 − V2)/Δt; the line P = P_level + (m·g/η)·v_z through all stretches, v_z the climb of each; drag D = η·P_level/V.
//
// Letters: V airspeed; η = efficiency; P_level = level_power; D = drag.
//
// Validity: motor running, one lift coefficient, still air; climbs that differ from stretch to stretch. Radio and idle losses count as level power.
//
// Source: energy of a capacitor; J. D. Anderson, Introduction to Flight, chapter 6: climb by excess power; JCGM 100:2008, H.3.
//
// Example:
//
//	t = [0 s, 20 s, 40 s, 60 s, 80 s]
//	V = [12.4 V, 11.4 V, 10.4 V, 9.7 V, 8.9 V]
//	h = [2 m, 22 m, 40 m, 40 m, 41 m]
//	flown = flight_log(t, V, h, capacitance: 20 F, mass: 390 g, airspeed: 7 m/s)
func FlightLog(in FlightLogInput) (FlightLogResult, error) {
	climbs, powers, err := in.stretches()
	if err != nil {
		return FlightLogResult{}, err
	}
	fit, ok := line.Through(climbs, powers, 0)
	if !ok {
		return FlightLogResult{}, &model.Error{Field: "height", Summary: "{0} stretches that climb alike do not tell level flight from climbing",
			Values: []model.Value{model.In(float64(len(climbs)), "1")}, Hint: "log four readings or more, some of them climbing and some level"}
	}
	if !(fit.Slope > 0 && fit.Intercept > 0) {
		return FlightLogResult{}, &model.Error{Field: "voltage", Summary: "by these readings a climb would cost {0} for each newton and metre in a second, and level flight {1}",
			Values: []model.Value{model.In(fit.Slope/(in.Mass*gravity), "W"), model.In(fit.Intercept, "W")}, Hint: "leave out what was flown with the motor off, and log longer stretches"}
	}
	out := FlightLogResult{LevelPower: fit.Intercept, Efficiency: in.Mass * gravity / fit.Slope, Freedom: fit.Freedom}
	by := -out.Efficiency / fit.Slope
	drag := [2]float64{}
	if in.Airspeed != nil {
		d := out.Efficiency * out.LevelPower / *in.Airspeed
		out.Drag, drag = &d, [2]float64{by * out.LevelPower / *in.Airspeed, out.Efficiency / *in.Airspeed}
	}
	out.Estimate = fit.Estimate([2]float64{0, 1}, [2]float64{by, 0}, drag)
	out.ULevelPower, out.UEfficiency = math.Sqrt(out.Covariance[0][0]), math.Sqrt(out.Covariance[1][1])
	for _, c := range climbs {
		out.Climb = max(out.Climb, c)
	}
	return out, nil
}

// gravity is the standard acceleration of free fall.
const gravity = 9.80665

// stretches are climb and power between each two readings.
func (in FlightLogInput) stretches() (climbs, powers []float64, err error) {
	n := len(in.Time)
	if n < 2 || len(in.Voltage) != n || len(in.Height) != n {
		return nil, nil, &model.Error{Field: "time", Summary: "{0} times, {1} voltages and {2} heights do not make a log",
			Values: []model.Value{model.In(float64(n), "1"), model.In(float64(len(in.Voltage)), "1"), model.In(float64(len(in.Height)), "1")},
			Hint:   "give time, voltage and height of each reading"}
	}
	bounds := []error{require.Positive("capacitance", in.Capacitance, "F"), require.Positive("mass", in.Mass, "kg"), require.NotNegative("resistance", in.Resistance, "Ω")}
	if in.Airspeed != nil {
		bounds = append(bounds, require.Positive("airspeed", *in.Airspeed, "m/s"))
	}
	if err := require.All(bounds...); err != nil {
		return nil, nil, err
	}
	for i := range n - 1 {
		lasts := in.Time[i+1] - in.Time[i]
		if !(lasts > 0) {
			return nil, nil, &model.Error{Field: "time", Summary: "goes from {0} to {1}, which is no later", Values: []model.Value{model.In(in.Time[i], "s"), model.In(in.Time[i+1], "s")}, Hint: "put the readings in their order, each time once"}
		}
		current := in.Capacitance * (in.Voltage[i] - in.Voltage[i+1]) / lasts
		mean := (in.Voltage[i]+in.Voltage[i+1])/2 + current*in.Resistance
		climbs, powers = append(climbs, (in.Height[i+1]-in.Height[i])/lasts), append(powers, current*mean)
	}
	return climbs, powers, nil
}
