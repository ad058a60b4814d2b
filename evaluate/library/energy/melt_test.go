package energy

import (
	"math"
	"testing"
)

// TestLeadMeltingPublished has the worked example of Onderdonk's equation: 2581
// circular mils for 5 s from 25 °C, 168.86 A. A stored example has 178 A, with
// 234 − T for 234 + T.
func TestLeadMeltingPublished(t *testing.T) {
	wire := Conductor{math.Sqrt(2581) * 25.4e-6}
	got := must(LeadMelting(LeadMeltingInput{Wire: wire, Strands: 1, Time: is(5), Ambient: 298.15}))(t)
	near(t, "Onderdonk", got.Current, 168.86, 3e-5)
	back := must(LeadMelting(LeadMeltingInput{Wire: wire, Strands: 1, Current: &got.Current, Ambient: 298.15}))(t)
	near(t, "there and back", back.Time, 5, 1e-12)
	if len(got.List) != 0 {
		t.Errorf("5 s raises %v", got.List)
	}
	slow := must(LeadMelting(LeadMeltingInput{Wire: wire, Strands: 1, Time: is(10.1), Ambient: 298.15}))(t)
	if !raised(slow.List, "melting-past-short-time") {
		t.Error("10.1 s raises no caution")
	}
}

// TestLeadMeltingStepped warms a wire that keeps all its heat: copper's
// resistance by IEC 60028, 385 J/(kg·K) and 8890 kg/m³ (textbook). Its specific
// heat rises on the way to 1083 °C, which the constant 33 has within 5 %.
func TestLeadMeltingStepped(t *testing.T) {
	const d, current = 0.8e-3, 300.0
	area := math.Pi / 4 * d * d
	warm := func(celsius float64) float64 {
		return copperResistivity * (1 + copperSlope*(celsius-20)) * current * current / (area * area * 385 * 8890)
	}
	celsius, time := 25.0, 0.0
	for ; celsius < copperMelts; time += 1e-4 {
		celsius = rk4(warm, celsius, 1e-4, 1)
	}
	got := must(LeadMelting(LeadMeltingInput{Wire: Conductor{d}, Strands: 1, Current: is(current), Ambient: 298.15}))(t)
	near(t, "stepped", got.Time, time, 0.05)
	four := must(LeadMelting(LeadMeltingInput{Wire: Conductor{d / 2}, Strands: 4, Current: is(current), Ambient: 298.15}))(t)
	near(t, "four strands of half the diameter", four.Time, got.Time, 1e-12)
}

func TestLeadMeltingRefuses(t *testing.T) {
	for field, in := range map[string]LeadMeltingInput{
		"wire.diameter": {Strands: 1, Current: is(5), Ambient: 298},
		"strands":       {Wire: Conductor{1e-3}, Current: is(5), Ambient: 298},
		"current":       {Wire: Conductor{1e-3}, Strands: 1, Current: is(0), Ambient: 298},
		"time":          {Wire: Conductor{1e-3}, Strands: 1, Time: is(-1), Ambient: 298},
		"ambient":       {Wire: Conductor{1e-3}, Strands: 1, Time: is(1), Ambient: 20},
		"":              {Wire: Conductor{1e-3}, Strands: 1, Ambient: 298},
	} {
		_, err := LeadMelting(in)
		refuses(t, err, field)
	}
}

// TestChargeTimePublished: 50 F from 0 to 5 V at 20 W, 60 % from the crank: 625 J,
// 31.25 s, 33.33 W and 1041.67 J (energy balance).
func TestChargeTimePublished(t *testing.T) {
	const source = "energy balance, textbook"
	store := Store{Capacitance: 50, RatedVoltage: 5.4, Series: 2}
	got := must(ChargeTime(ChargeTimeInput{Store: store, To: 5, Power: 20, Efficiency: 0.6}))(t)
	near(t, source, got.Stored, 625, exact)
	near(t, source, got.Time, 31.25, exact)
	near(t, source, got.CrankPower, 33.33, 2e-4)
	near(t, source, got.Work, 1041.67, 5e-6)
	near(t, source, got.Loss, 0, exact)
}

// TestChargeTimeStepped steps the voltage, with the current that the power
// drives into store and resistance.
func TestChargeTimeStepped(t *testing.T) {
	for _, r := range []float64{1e-9, 0.05, 2} {
		store := Store{Capacitance: 20, RatedVoltage: 13.5, Resistance: r, Series: 5}
		got := must(ChargeTime(ChargeTimeInput{Store: store, From: 1, To: 12, Power: 25, Efficiency: 1}))(t)
		rise := func(v float64) float64 { return 2 * 25 / (v + math.Sqrt(v*v+100*r)) / 20 }
		near(t, "stepped", rk4(rise, 1, got.Time/4000, 4000), 12, 1e-9)
		near(t, "energy", got.Work, got.Stored+got.Loss, exact)
	}
	over := must(ChargeTime(ChargeTimeInput{Store: Store{Capacitance: 20, RatedVoltage: 2.7, Series: 1}, To: 3, Power: 5, Efficiency: 1}))(t)
	if !raised(over.List, "store-over-rating") {
		t.Errorf("3 V in a cell of 2.7 V raises %v", over.List)
	}
}

func TestChargeTimeRefuses(t *testing.T) {
	store := Store{Capacitance: 20, RatedVoltage: 2.7, Series: 1}
	for field, in := range map[string]ChargeTimeInput{
		"to":         {Store: store, From: 2, To: 2, Power: 5, Efficiency: 1},
		"from":       {Store: store, From: -1, To: 2, Power: 5, Efficiency: 1},
		"power":      {Store: store, To: 2, Efficiency: 1},
		"efficiency": {Store: store, To: 2, Power: 5, Efficiency: 1.1},
	} {
		_, err := ChargeTime(in)
		refuses(t, err, field)
	}
}

// TestHalfTheVoltage: between its rating and half of it a store gives three
// quarters of its energy (makers' application guides, from memory).
func TestHalfTheVoltage(t *testing.T) {
	got := must(UsableEnergy(UsableEnergyInput{Capacitance: 10, From: 2.7, To: 1.35}))(t)
	near(t, "three quarters", got.Energy/(10*2.7*2.7/2), 0.75, exact)
}

// TestClampPublished: the 1 W zener series that JEDEC registers bears 1 W in air
// of 50 °C, where its junction is at its highest, 200 °C: it is derated by
// 6.67 mW for each kelvin above (data sheets, from memory).
func TestClampPublished(t *testing.T) {
	for ambient, watts := range map[float64]float64{50: 1, 100: 1 - 50*6.67e-3, 125: 1 - 75*6.67e-3} {
		in := ClampInput{Voltage: 10, Current: watts / 10, ThermalResistance: 1 / 6.67e-3, Ambient: zeroCelsius + ambient, Limit: zeroCelsius + 200}
		got := must(Clamp(in))(t)
		near(t, "junction, 1 W zener series", ambient+got.Rise, 200, 1e-3)
		if raised(got.List, "clamp-too-hot") {
			t.Errorf("%g W at %g °C is what the maker allows", watts, ambient)
		}
		in.Current *= 1.01
		if got := must(Clamp(in))(t); !raised(got.List, "clamp-too-hot") {
			t.Errorf("more than %g W at %g °C raises nothing", watts, ambient)
		}
	}
}

// TestHeightOfAStore: half of 100 J lifts 250 g by 20.3943 m (h = η·E/(m·g), upper bound).
func TestHeightOfAStore(t *testing.T) {
	got := must(RaisedWeight(RaisedWeightInput{Mass: 0.25, Height: 20.3943}))(t)
	near(t, "η·E = m·g·h", got.Energy, 0.5*100, 3e-6)
}

// TestHorsepower: a horsepower raises 550 lb by a foot in a second, 745.6999 W
// (NIST SP 811, B.9).
func TestHorsepower(t *testing.T) {
	got := must(RaisedWeight(RaisedWeightInput{Mass: 550 * 0.45359237, Height: 0.3048}))(t)
	near(t, "NIST SP 811, B.9", got.Energy, 745.6999, 1e-7)
}

// TestTimeConstants: after one time constant 36.8 % of the voltage is left,
// after five 0.67 % (textbook).
func TestTimeConstants(t *testing.T) {
	for share, constants := range map[float64]float64{0.3679: 1, 0.1353: 2, 0.0498: 3, 0.0183: 4, 0.00674: 5} {
		got := must(SafeDischarge(SafeDischargeInput{Capacitance: 10, Voltage: 5, Resistance: 4, To: 5 * share}))(t)
		near(t, "time constants, textbook", got.Time/40, constants, 5e-4)
	}
}
