package generator

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestAwgPublished(t *testing.T) {
	const source = "ASTM B258 formula; IACS; NBS Handbook 100 / Circular 31 tables"
	for _, c := range []struct {
		gauge                     int
		mm, mm2, mohm, mil, per1k float64 // the last two as printed in wire tables
	}{
		{12, 2.052525, 3.308773, 5.21081, 80.8081, 1.5883},
		{16, 1.290846, 1.308696, 13.1745, 50.8207, 4.0156},
		{18, 1.023687, 0.8230468, 20.9482, 40.3027, 6.385},
		{20, 0.811821, 0.5176192, 33.309, 31.9615, 10.153},
		{24, 0.5105592, 0.2047303, 84.2151, 20.1008, 25.669},
		{26, 0.4048919, 0.1287562, 133.907, 15.9406, 40.815},
		{30, 0.254639, 0.05092602, 338.557, 10.0252, 103.19},
		{34, 0.160144, 0.02014241, 855.974, 6.30488, 260.9},
		{36, 0.127, 0.01266769, 1361.05, 5, 414.85},
		{-3, 11.684, 107.2193, 0.160805, 460, 0.049014}, // diameter: ASTM B258 definition; the rest from it with IACS copper
	} {
		w, err := Awg(AwgInput{Gauge: c.gauge, Temperature: roomKelvin})
		if err != nil {
			t.Fatal(err)
		}
		kit.Near(t, source+" d mm", w.Diameter*1e3, c.mm, 1e-6)
		kit.Near(t, source+" d mil", w.Diameter/25.4e-6, c.mil, 5e-6)
		kit.Near(t, source+" A", w.Section*1e6, c.mm2, 1e-6)
		kit.Near(t, source+" R", w.ResistancePerLength*1e3, c.mohm, 5e-6)
		kit.Near(t, source+" ohm/1000 ft", w.ResistancePerLength*304.8, c.per1k, 6e-5)
	}
}

func TestGaugeRatio(t *testing.T) {
	// NBS Circular 31: successive gauges differ by 92^(1/39).
	a, _ := Awg(AwgInput{Gauge: 20, Temperature: roomKelvin})
	b, _ := Awg(AwgInput{Gauge: 21, Temperature: roomKelvin})
	kit.Near(t, "ratio", a.Diameter/b.Diameter, 1.12293219653, 1e-11)
	c, _ := Awg(AwgInput{Gauge: 26, Temperature: roomKelvin})
	kit.Near(t, "six gauges", a.Diameter/c.Diameter, 2.0050315, 1e-7)
}

func TestCopper(t *testing.T) {
	hot := func(celsius float64) float64 { return copperResistance(1, zeroCelsius+celsius) }
	// 0.00393/K at 20 °C for 100 % IACS (IEC 60028).
	kit.Near(t, "20 -> 75 °C", hot(75)/hot(20), 1.21615, 1e-9)
	kit.Near(t, "20 -> 120 °C", hot(120)/hot(20), 1.393, 1e-9)
	kit.Near(t, "20 -> 60 °C", hot(60)/hot(20), 1.1572, 1e-9)
	kit.Near(t, "25 -> 90 °C", hot(90)/hot(25), 1.250527, 1e-6)
	// NBS Handbook 100: 10.3712 Ω·cmil/ft (printed 10.371).
	kit.Near(t, "Ω·cmil/ft", copperResistivity/(math.Pi/4*25.4e-6*25.4e-6)*0.3048, 10.3712, 4e-6)
	// NBS Circular 31: 0.15328 Ω·g/m².
	kit.Near(t, "mass resistivity", copperResistivity*copperDensity*1e3, 0.15328, 3e-5)
}

func TestCoilOfWire(t *testing.T) {
	// R = ρNl/A, density from IACS: 120 turns of AWG 24, mean turn 94 mm.
	length := 120 * 94e-3
	cold, _ := Awg(AwgInput{Gauge: 24, Temperature: roomKelvin})
	hot, _ := Awg(AwgInput{Gauge: 24, Temperature: zeroCelsius + 80})
	kit.Near(t, "R at 20 °C", cold.ResistancePerLength*length, 0.949946, 2e-6)
	kit.Near(t, "R at 80 °C", hot.ResistancePerLength*length, 1.17394, 4e-6)
	kit.Near(t, "copper mass", cold.MassPerLength*length*1e3, 20.5302, 3e-6)
}

func TestEnamel(t *testing.T) {
	// IEC 60317 largest overall diameters of grade 2, from memory: within 10 % of the enamel.
	for bare, overall := range map[float64]float64{0.2: 0.239, 0.5: 0.566, 1: 1.094} {
		kit.Near(t, "enamel", heavyEnamel(bare*1e-3)*1e3, overall-bare, 0.1)
	}
	none := 0.0
	w, _ := Wire(WireInput{Diameter: 1e-3, Temperature: roomKelvin, Insulation: &none})
	kit.Near(t, "bare", w.OverallDiameter, 1e-3, 0)
	if _, err := Wire(WireInput{Diameter: 0}); err == nil {
		t.Error("a wire of no diameter has no answer")
	}
}
