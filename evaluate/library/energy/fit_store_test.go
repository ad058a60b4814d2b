package energy

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/internal/twobranch"
)

// go test ./evaluate/library/energy -run Plausible -sets 5000
var sets = flag.Int("sets", 250, "how many plausible stores the property tests look at")

// TestCapacitanceSlope: 270 F + 190 F/V, read in the middle of two falls (L. Zubieta, R.
// Bonert, from memory).
func TestCapacitanceSlope(t *testing.T) {
	in := CapacitanceSlopeInput{High: 270 + 190*2, HighVoltage: 2, Low: 270 + 190*0.5, LowVoltage: 0.5, Rated: new(2.3)}
	got := kit.Must(CapacitanceSlope(in))(t)
	kit.Near(t, "slope", got.Slope, 190, 1e-12)
	kit.Near(t, "capacitance", *got.Capacitance, 270+190*0.6*2.3, 1e-12)
	in.High = 300
	_, err := CapacitanceSlope(in)
	kit.Refuses(t, err, "high")
	in.HighVoltage = 0.5
	_, err = CapacitanceSlope(in)
	kit.Refuses(t, err, "high_voltage")
}

// TestCapacitanceSlopeOfFalls: two falls of which each is worked by the charge that it
// takes give the slope back, whatever their width.
func TestCapacitanceSlopeOfFalls(t *testing.T) {
	l := twobranch.Law{C0: 45, Slope: 11}
	over := func(from, to float64) float64 {
		charge := 0.0
		for i := range 10_000 {
			charge += l.At(from+(to-from)*(float64(i)+0.5)/10_000) * (from - to) / 10_000
		}
		return kit.Must(CapacitanceByDischarge(CapacitanceByDischargeInput{Current: 0.5, From: from, To: to, Time: charge / 0.5}))(t).Capacitance
	}
	got := kit.Must(CapacitanceSlope(CapacitanceSlopeInput{High: over(2.6, 1.8), HighVoltage: 2.2, Low: over(1.2, 0.4), LowVoltage: 0.8}))(t)
	kit.Near(t, "slope", got.Slope, 11, 1e-9)
}

// logOf is a discharge by constant current of 45 F + 11 F/V from 2.6 V, with an error of
// each reading.
func logOf(errors func() float64) FitCapacitanceInput {
	in := FitCapacitanceInput{Current: 1, RatedVoltage: 2.7, Resistance: 0.02}
	const c0, k = 45.0, 11.0
	q0 := c0*2.6 + k*2.6*2.6/2
	for i := range 12 {
		time := 10 * float64(i)
		q := q0 - time
		v := (math.Sqrt(c0*c0+2*k*q) - c0) / k
		in.Time, in.Voltage = append(in.Time, time), append(in.Voltage, v-0.02+errors())
	}
	return in
}

// TestFitCapacitance: a log made up gives its store back, from the charge that C0 and
// k take, and 270 F + 190 F/V (Zubieta and Bonert, from memory) likewise.
func TestFitCapacitance(t *testing.T) {
	got := kit.Must(FitCapacitance(logOf(func() float64 { return 0 })))(t)
	kit.Near(t, "slope", got.Slope, 11, 1e-7)
	kit.Near(t, "capacitance", got.Capacitance, 45+11*0.6*2.7, 1e-7)
	in := FitCapacitanceInput{Current: 50, RatedVoltage: 2.3}
	for _, v := range []float64{2.3, 1.9, 1.5, 1, 0.6} {
		in.Voltage = append(in.Voltage, v)
		in.Time = append(in.Time, (270*(2.3-v)+95*(2.3*2.3-v*v))/50)
	}
	cell := kit.Must(FitCapacitance(in))(t)
	kit.Near(t, "slope", cell.Slope, 190, 1e-7)
	kit.Near(t, "capacitance", cell.Capacitance, 270+190*0.6*2.3, 1e-7)
}

// TestFitCapacitanceSpread: over many logs with a known error of the meter the results
// scatter as the fit says, and its own scatter is the meter's.
func TestFitCapacitanceSpread(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	var c, k, uc, uk, s, both, said float64
	const n = 3000
	for range n {
		f := kit.Must(FitCapacitance(logOf(func() float64 { return 2e-3 * r.NormFloat64() })))(t)
		dc, dk := f.Capacitance-(45+11*0.6*2.7), f.Slope-11
		c, k, both = c+dc*dc/n, k+dk*dk/n, both+dc*dk/n
		uc, uk, s, said = uc+f.Covariance[0][0]/n, uk+f.Covariance[1][1]/n, s+f.Scatter*f.Scatter/n, said+f.Covariance[0][1]/n
	}
	kit.Near(t, "of the capacitance", uc, c, 0.1)
	kit.Near(t, "of the slope", uk, k, 0.1)
	kit.Near(t, "correlation", said/math.Sqrt(uc*uk), both/math.Sqrt(c*k), 0.15)
	kit.Near(t, "scatter", math.Sqrt(s), 2e-3, 0.03)
}

func TestFitCapacitanceRefuses(t *testing.T) {
	good := logOf(func() float64 { return 0 })
	for field, change := range map[string]func(*FitCapacitanceInput){
		"time":          func(in *FitCapacitanceInput) { in.Time, in.Voltage = in.Time[:3], in.Voltage[:3] },
		"voltage":       func(in *FitCapacitanceInput) { in.Voltage = []float64{1, 1, 1, 1}; in.Time = in.Time[:4] },
		"current":       func(in *FitCapacitanceInput) { in.Current = 0 },
		"rated_voltage": func(in *FitCapacitanceInput) { in.RatedVoltage = math.NaN() },
		"resistance":    func(in *FitCapacitanceInput) { in.Resistance = -1 },
	} {
		in := good
		change(&in)
		_, err := FitCapacitance(in)
		kit.Refuses(t, err, field)
	}
	late := good
	late.Time = append([]float64{}, good.Time...)
	late.Time[3] = late.Time[2]
	_, err := FitCapacitance(late)
	kit.Refuses(t, err, "time")
}

// restOf is the rest of 15 F beside 1.8 F behind 30 Ω, from 12.5 V.
func restOf(errors func() float64) FitRestInput {
	in := FitRestInput{Store: Store{Capacitance: 15, RatedVoltage: 13.5, Series: 5}}
	tau := 30 * 15 * 1.8 / 16.8
	for i := range 15 {
		time := 15 * float64(i)
		in.Time = append(in.Time, time)
		in.Voltage = append(in.Voltage, 12.5*15/16.8+12.5*1.8/16.8*math.Exp(-time/tau)+errors())
	}
	return in
}

// TestFitRest: 12.5 V that settle at 11.1607 V beside 15 F are a slow branch of 1.8 F
// (conservation of charge).
func TestFitRest(t *testing.T) {
	got := kit.Must(FitRest(restOf(func() float64 { return 0 })))(t)
	kit.Within(t, "settled", got.Settled, 11.1607, 5e-5)
	kit.Near(t, "capacitance", got.SlowCapacitance, 1.8, 1e-7)
	kit.Near(t, "resistance", got.SlowResistance, 30, 1e-7)
}

// TestFitRestSpread: the results of many logs scatter as the fit says.
func TestFitRestSpread(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	var c, k, uc, uk float64
	const n = 3000
	for range n {
		f := kit.Must(FitRest(restOf(func() float64 { return 5e-3 * r.NormFloat64() })))(t)
		c, k = c+math.Pow(f.SlowCapacitance-1.8, 2)/n, k+math.Pow(f.SlowResistance-30, 2)/n
		uc, uk = uc+f.USlowCapacitance*f.USlowCapacitance/n, uk+f.USlowResistance*f.USlowResistance/n
	}
	kit.Near(t, "of the capacitance", uc, c, 0.1)
	kit.Near(t, "of the resistance", uk, k, 0.1)
}

// TestFitRestOfARisingCapacitance: a rest worked with the branch that the fit finds goes
// as the log does, to what one exponential can say.
func TestFitRestOfARisingCapacitance(t *testing.T) {
	s := branched()
	in := FitRestInput{Store: s}
	in.Store.SlowCapacitance, in.Store.SlowResistance = nil, nil
	for i := range 20 {
		time := 15 * float64(i)
		v := kit.Must(SettledVoltage(SettledVoltageInput{Store: s, Voltage: 2.2, Time: &time}))(t).Voltage
		in.Time, in.Voltage = append(in.Time, time), append(in.Voltage, v)
	}
	got := kit.Must(FitRest(in))(t)
	kit.Near(t, "capacitance", got.SlowCapacitance, 100, 0.01)
	kit.Near(t, "resistance", got.SlowResistance, 0.9, 0.04)
}

func TestFitRestRefuses(t *testing.T) {
	good := restOf(func() float64 { return 0 })
	for field, change := range map[string]func(*FitRestInput){
		"time":                   func(in *FitRestInput) { in.Time, in.Voltage = in.Time[:3], in.Voltage[:3] },
		"voltage":                func(in *FitRestInput) { in.Voltage = []float64{1, 1, 1, 1}; in.Time = in.Time[:4] },
		"store.capacitance":      func(in *FitRestInput) { in.Store.Capacitance = 0 },
		"slow_voltage":           func(in *FitRestInput) { in.SlowVoltage = 12 },
		"store.slow_capacitance": func(in *FitRestInput) { in.Store.SlowCapacitance, in.Store.SlowResistance = new(1.0), new(50.0) },
	} {
		in := good
		change(&in)
		_, err := FitRest(in)
		kit.Refuses(t, err, field)
	}
}
