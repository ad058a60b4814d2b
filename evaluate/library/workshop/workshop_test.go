package workshop

import (
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"inkwing/evaluate/library/internal/kit"
	"inkwing/evaluate/library/model"
)

// TestPreferredValues: the lists of IEC 60063, from memory.
func TestPreferredValues(t *testing.T) {
	for name, want := range map[string][]float64{
		"E3":  {100, 220, 470},
		"E6":  {100, 150, 220, 330, 470, 680},
		"E12": {100, 120, 150, 180, 220, 270, 330, 390, 470, 560, 680, 820},
		"E24": {100, 110, 120, 130, 150, 160, 180, 200, 220, 240, 270, 300, 330, 360, 390, 430, 470, 510, 560, 620, 680, 750, 820, 910},
		"E48": {100, 105, 110, 115, 121, 127, 133, 140, 147, 154},
		"E96": {100, 102, 105, 107, 110, 113},
	} {
		next := 1e-9
		for i, w := range want {
			got := kit.Must(PreferredValue(PreferredValueInput{Value: 100 + next, Series: name, Direction: "up"}))(t).Value
			if i == 0 {
				got = kit.Must(PreferredValue(PreferredValueInput{Value: 100, Series: name, Direction: "nearest"}))(t).Value
			}
			kit.Near(t, name, got, w, 1e-12)
			next = w - 100 + 1e-3
		}
	}
	for _, c := range []struct {
		value             float64
		series, direction string
		want              float64
	}{
		{4200, "E12", "down", 3900}, {4200, "E12", "up", 4700}, {4300, "E12", "nearest", 4700}, {4200, "E12", "nearest", 3900},
		{0.95, "E6", "up", 1}, {0.95, "E6", "down", 0.68}, {99, "E24", "nearest", 100}, {9.19, "E192", "nearest", 9.2}, {9.2, "E192", "down", 9.2},
		{1e-12, "E24", "down", 1e-12}, {4.7e-6, "E24", "up", 4.7e-6}, {3.3e6, "E6", "down", 3.3e6}, {999, "E96", "up", 1000},
	} {
		kit.Near(t, c.series+" "+c.direction, kit.Must(PreferredValue(PreferredValueInput{c.value, c.series, c.direction}))(t).Value, c.want, 1e-15)
	}
}

// TestPreferredValueIsTheNearest: no other value of any decade is nearer by ratio, and up
// and down have it between them.
func TestPreferredValueIsTheNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 60063))
	for range 100 {
		v := math.Pow(10, 12*r.Float64()-6)
		for _, name := range []string{"E3", "E6", "E12", "E24", "E48", "E96", "E192"} {
			at := func(direction string) float64 {
				return kit.Must(PreferredValue(PreferredValueInput{v, name, direction}))(t).Value
			}
			got, best := at("nearest"), math.Inf(1)
			for x := v / 3.4; x < v*3.4; { // from value to value
				up, _ := PreferredValue(PreferredValueInput{x, name, "up"})
				best = min(best, math.Abs(math.Log(up.Value/v)))
				x = up.Value * (1 + 1e-6)
			}
			if off := math.Abs(math.Log(got / v)); off > best+1e-12 {
				t.Errorf("%s: %g for %g", name, got, v)
			}
			if down, up := at("down"), at("up"); !(down <= v*(1+1e-9) && v <= up*(1+1e-9) && (got == down || got == up)) {
				t.Errorf("%s: %g lies not from %g to %g", name, v, down, up)
			}
		}
	}
	_, err := PreferredValue(PreferredValueInput{Value: -1, Series: "E24"})
	kit.Refuses(t, err, "value")
	_, err = PreferredValue(PreferredValueInput{Value: 1, Series: "E25"})
	kit.Refuses(t, err, "series")
}

// TestBleedResistor: five time constants leave 0.67 % (textbook), so a store of 10 F that
// shall be there in 500 s takes 10 Ω.
func TestBleedResistor(t *testing.T) {
	got := kit.Must(BleedResistor(BleedResistorInput{Capacitance: 10, Voltage: 10, To: 0.0673795, Time: 500.001, Series: "E12"}))(t)
	kit.Near(t, "resistance", got.Resistance, 10, 1e-12)
	kit.Near(t, "power", got.PeakPower, 10, 1e-12)
	kit.Near(t, "rating", got.Rating, 20, 1e-12)
	if !kit.Raised(got.List, "bleed-resistor-hot") {
		t.Error("10 W are not called hot")
	}
	cool := kit.Must(BleedResistor(BleedResistorInput{Capacitance: 10, Voltage: 2.7, To: 0.1, Time: 3600, Series: "E12"}))(t)
	if kit.Raised(cool.List, "bleed-resistor-hot") || cool.PeakPower > 1 {
		t.Errorf("%g W are called hot", cool.PeakPower)
	}
	for field, in := range map[string]BleedResistorInput{
		"voltage": {Capacitance: 10, Voltage: 0.1, To: 0.1, Time: 1, Series: "E12"}, "time": {Capacitance: 10, Voltage: 1, To: 0.1, Series: "E12"},
		"series": {Capacitance: 10, Voltage: 1, To: 0.1, Time: 9, Series: "E13"}, "capacitance": {Voltage: 1, To: 0.1, Time: 9},
	} {
		_, err := BleedResistor(in)
		kit.Refuses(t, err, field)
	}
}

// TestBleedResistorStepped: the store is down at the time said, and the heat is what it
// held.
func TestBleedResistorStepped(t *testing.T) {
	got := kit.Must(BleedResistor(BleedResistorInput{Capacitance: 20, Voltage: 12.5, To: 0.1, Time: 600, Series: "E24"}))(t)
	end := kit.RungeKutta(func(v float64) float64 { return -v / (got.Resistance * 20) }, 12.5, got.Time/4000, 4000)
	kit.Near(t, "end", end, 0.1, 1e-8)
	kit.Near(t, "heat", got.Heat, 10*(12.5*12.5-0.01), 1e-12)
	if got.Time > 600 || got.Time < 500 {
		t.Errorf("it takes %g s", got.Time)
	}
}

func disc() PrintedPartInput {
	return PrintedPartInput{Height: 5e-3, Diameter: new(116e-3), Walls: 2, LineWidth: 0.45e-3, Layers: 4, LayerHeight: 0.2e-3,
		Infill: 0.2, Density: 1240, Filament: 1.75e-3, SpoolMass: 1, SpoolPrice: 22}
}

// TestPrintedPart: a disc of 116 mm by 5 mm, worked by hand: solid π/4·11.6²·0.5 cm³ at
// 1.24 g/cm³, 65.5 g; within two walls and four layers 20 %, 30.98 g. A metre of 1.75 mm
// weighs 2.98 g, so that a kilogramme is about 335 m (makers' sheets, from memory).
func TestPrintedPart(t *testing.T) {
	got := kit.Must(PrintedPart(disc()))(t)
	kit.Within(t, "mass", got.Mass, 30.98e-3, 5e-6)
	kit.Within(t, "solid", got.SolidMass, 65.5e-3, 5e-5)
	kit.Near(t, "metres of a kilogramme", got.Filament/got.Mass, 335, 2e-3)
	kit.Near(t, "price", got.Price, 22*got.Mass, 1e-12)
	kit.Near(t, "layers", got.LayerCount, 25, 0)
	if !kit.Raised(got.List, "printing-fumes") {
		t.Error("no word of fumes")
	}
}

// TestPrintedPartByLayers adds up thin layers and narrow rings or strips, each solid or
// filled by where it lies.
func TestPrintedPartByLayers(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	for range 60 {
		in := disc()
		in.Height, in.Walls, in.Layers, in.Infill = between(1e-3, 20e-3), r.IntN(5), r.IntN(8), r.Float64()
		in.Diameter, in.Bore = new(between(10e-3, 100e-3)), between(0, 9e-3)
		wall, cap := float64(in.Walls)*in.LineWidth, float64(in.Layers)*in.LayerHeight
		area := func(inside bool) float64 { // of all rings of a layer
			const n = 4000
			sum := 0.0
			for i := range n {
				from, to := in.Bore/2+(*in.Diameter-in.Bore)/2*float64(i)/n, in.Bore/2+(*in.Diameter-in.Bore)/2*float64(i+1)/n
				mid := (from + to) / 2
				part := 1.0
				if inside && mid < *in.Diameter/2-wall && (in.Bore == 0 || mid > in.Bore/2+wall) {
					part = in.Infill
				}
				sum += part * math.Pi * (to*to - from*from)
			}
			return sum
		}
		shell := min(2*cap, in.Height)
		want := in.Density * (area(false)*shell + area(true)*(in.Height-shell))
		kit.Near(t, "mass", kit.Must(PrintedPart(in))(t).Mass, want, 2e-3)
	}
	block := disc()
	block.Diameter, block.Length, block.Width, block.Infill = nil, new(30e-3), new(20e-3), 0
	kit.Near(t, "hollow block", kit.Must(PrintedPart(block))(t).Mass, 1240*(30*20*5-28.2*18.2*3.4)*1e-9, 1e-12)
}

func TestPrintedPartRefuses(t *testing.T) {
	for field, change := range map[string]func(*PrintedPartInput){
		"diameter": func(in *PrintedPartInput) { in.Length = new(1.0) }, "bore": func(in *PrintedPartInput) { in.Bore = 0.2 },
		"cut": func(in *PrintedPartInput) { in.Cut = 1 }, "height": func(in *PrintedPartInput) { in.Height = 0 },
		"width":      func(in *PrintedPartInput) { in.Diameter, in.Length, in.Width = nil, new(1.0), new(-1.0) },
		"spool_mass": func(in *PrintedPartInput) { in.SpoolMass = 0 }, "density": func(in *PrintedPartInput) { in.Density = math.NaN() },
	} {
		in := disc()
		change(&in)
		_, err := PrintedPart(in)
		kit.Refuses(t, err, field)
	}
	holed := disc()
	holed.Diameter, holed.Length, holed.Width, holed.Bore = nil, new(0.1), new(0.1), 1e-3
	_, err := PrintedPart(holed)
	kit.Refuses(t, err, "bore")
	_, err = PrintedPart(PrintedPartInput{Height: 1})
	kit.Refuses(t, err, "diameter")
}

// TestBedFit: a strip of next to no width lies along the diagonal of a square, 1.414 of
// its side, and one that is a tenth of that long wide no longer does (Carver).
func TestBedFit(t *testing.T) {
	in := BedFitInput{Length: 0.31, Width: 1e-6, Height: 0.01, BedLength: 0.22, BedWidth: 0.22, Room: 0.2}
	got := kit.Must(BedFit(in))(t)
	if !got.Fits || got.Upright != "height" {
		t.Errorf("%+v", got)
	}
	kit.Within(t, "turned", got.Turned, math.Pi/4, 0.06)
	in.Width = 0.031
	if got := kit.Must(BedFit(in))(t); got.Fits {
		t.Errorf("a wide strip fits: %+v", got)
	}
	flat := kit.Must(BedFit(BedFitInput{Length: 0.2, Width: 0.15, Height: 0.01, BedLength: 0.22, BedWidth: 0.22, Room: 0.25, Edge: 3e-3}))(t)
	if !flat.Fits || flat.Upright != "height" || flat.Turned != 0 || flat.Ways != 3 || kit.Raised(flat.List, "part-tips") {
		t.Errorf("%+v", flat)
	}
	tall := kit.Must(BedFit(BedFitInput{Length: 0.24, Width: 0.12, Height: 0.005, BedLength: 0.15, BedWidth: 0.15, Room: 0.25}))(t)
	if tall.Upright != "length" || !kit.Raised(tall.List, "part-tips") {
		t.Errorf("%+v", tall)
	}
	_, err := BedFit(BedFitInput{Length: 1, Width: 1, Height: 1, BedLength: 1, BedWidth: 1})
	kit.Refuses(t, err, "room")
}

// TestBedFitByTurning turns rectangles by small steps and looks at the box around them.
func TestBedFitByTurning(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	fits := 0
	for range 20_000 {
		p, P := 0.5+r.Float64(), 0.5+r.Float64()
		q, Q := p*r.Float64(), P*r.Float64()
		best := math.Inf(1)
		for i := range 901 {
			s, c := math.Sincos(float64(i) / 900 * math.Pi / 2)
			best = min(best, max((p*c+q*s)/P, (p*s+q*c)/Q))
		}
		angle, ok := lies(p, q, P, Q)
		if ok && best > 1+2e-3 || !ok && best < 1-1e-9 {
			t.Errorf("%g by %g in %g by %g: %v, and by turning %g", p, q, P, Q, ok, best)
		}
		if !ok {
			continue
		}
		fits++
		if s, c := math.Sincos(angle); p*c+q*s > P*(1+1e-9) || p*s+q*c > Q*(1+1e-9) {
			t.Errorf("%g by %g in %g by %g: not at %g rad", p, q, P, Q, angle)
		}
	}
	if fits < 1000 {
		t.Errorf("only %d fit", fits)
	}
}

// TestHoleAndPin: rows of ISO 286-2, from memory.
func TestHoleAndPin(t *testing.T) {
	for _, c := range []struct {
		size               float64
		hole, pin, fit     string
		tightest, loosest  float64
		holeMost, pinLeast float64
	}{
		{25, "H7", "g6", "clearance", 7, 41, 25.021, 24.980},
		{25, "H7", "h6", "clearance", 0, 34, 25.021, 24.987},
		{25, "H7", "k6", "transition", -15, 19, 25.021, 25.002},
		{25, "H7", "n6", "transition", -28, 6, 25.021, 25.015},
		{25, "H7", "p6", "interference", -35, -1, 25.021, 25.022},
		{25, "H8", "f7", "clearance", 20, 74, 25.033, 24.959},
		{25, "H9", "d9", "clearance", 65, 169, 25.052, 24.883},
		{8, "H7", "g6", "clearance", 5, 29, 8.015, 7.986},
		{3, "H7", "m6", "transition", -8, 8, 3.010, 3.002},
		{40, "F8", "h6", "clearance", 25, 80, 40.064, 39.984},
		{16, "G7", "h6", "clearance", 6, 35, 16.024, 15.989},
		{10, "JS9", "h9", "transition", -18, 54, 10.018, 9.964},
		{100, "H11", "e8", "clearance", 72, 346, 100.220, 99.874},
		{10, "H8", "k9", "transition", -36, 22, 10.022, 10.000},
	} {
		got := kit.Must(HoleAndPin(HoleAndPinInput{Size: c.size / 1e3, Hole: c.hole, Pin: c.pin}))(t)
		if got.Fit != c.fit {
			t.Errorf("%g %s/%s is %s", c.size, c.hole, c.pin, got.Fit)
		}
		kit.Within(t, c.hole+"/"+c.pin+" tightest", got.Tightest*1e6, c.tightest, 1e-6)
		kit.Within(t, c.hole+"/"+c.pin+" loosest", got.Loosest*1e6, c.loosest, 1e-6)
		kit.Within(t, c.hole+"/"+c.pin+" hole", got.HoleMost*1e3, c.holeMost, 1e-9)
		kit.Within(t, c.hole+"/"+c.pin+" pin", got.PinLeast*1e3, c.pinLeast, 1e-9)
	}
	drawn := kit.Must(HoleAndPin(HoleAndPinInput{Size: 8e-3, Hole: "H7", Pin: "h6", Shrinkage: 0.2e-3}))(t)
	kit.Within(t, "drawn", drawn.Draw*1e3, 8+0.0075+0.2, 1e-9)
	for _, c := range []struct {
		field string
		in    HoleAndPinInput
	}{
		{"hole", HoleAndPinInput{Size: 8e-3, Hole: "h7", Pin: "g6"}}, {"pin", HoleAndPinInput{Size: 8e-3, Hole: "H7", Pin: "G6"}},
		{"hole", HoleAndPinInput{Size: 8e-3, Hole: "K7", Pin: "g6"}}, {"pin", HoleAndPinInput{Size: 8e-3, Hole: "H7", Pin: "z6"}},
		{"hole", HoleAndPinInput{Size: 8e-3, Hole: "H4", Pin: "g6"}}, {"pin", HoleAndPinInput{Size: 8e-3, Hole: "H7", Pin: "g"}},
		{"hole", HoleAndPinInput{Size: 8e-3, Hole: "", Pin: "g6"}}, {"hole", HoleAndPinInput{Size: 8e-3, Hole: "DE7", Pin: "g6"}},
		{"pin", HoleAndPinInput{Size: 8e-3, Hole: "H7", Pin: "ef6"}}, {"hole", HoleAndPinInput{Size: 8e-3, Hole: "7", Pin: "g6"}},
		{"size", HoleAndPinInput{Size: 0.6, Hole: "H7", Pin: "g6"}}, {"size", HoleAndPinInput{Size: math.NaN(), Hole: "H7", Pin: "g6"}},
		{"shrinkage", HoleAndPinInput{Size: 8e-3, Hole: "H7", Pin: "g6", Shrinkage: -1}},
	} {
		_, err := HoleAndPin(c.in)
		kit.Refuses(t, err, c.field)
	}
}

// TestTablesByTheirFormulas: ISO 286-1 gives the tolerance unit i = 0.45·∛D + 0.001·D in
// µm, D the geometric mean of a range in mm, of which IT5 to IT13 are 7, 10, 16, 25, 40, 64,
// 100, 160 and 250, and the deviations 16·D^0.44, 11·D^0.41, 5.5·D^0.41, 2.5·D^0.34, 5·D^0.34
// for d to g and n, IT7 − IT6 for m (from memory). The tables round them, and up to 3 mm
// they leave them: the workshop of their day could do no better.
func TestTablesByTheirFormulas(t *testing.T) {
	low := 1.0
	for row, high := range sizes {
		d := math.Sqrt(low * high)
		low = high
		if row == 0 {
			continue
		}
		unit := 0.45*math.Cbrt(d) + 0.001*d
		for i, factor := range []float64{7, 10, 16, 25, 40, 64, 100, 160, 250} {
			kit.Within(t, "tolerance", grades[i][row], factor*unit, max(0.7, 0.045*factor*unit))
		}
		for letter, formula := range map[string]float64{"d": 16 * math.Pow(d, 0.44), "e": 11 * math.Pow(d, 0.41), "f": 5.5 * math.Pow(d, 0.41),
			"g": 2.5 * math.Pow(d, 0.34), "n": 5 * math.Pow(d, 0.34), "k": 0.6 * math.Cbrt(d)} {
			kit.Within(t, letter, deviations[letter][row], formula, max(1, 0.05*formula))
		}
		kit.Within(t, "m", deviations["m"][row], grades[2][row]-grades[1][row], 2)
		if p := deviations["p"][row] - grades[2][row]; p < -4 || p > 6 {
			t.Errorf("p lies %g µm past IT7 at row %d", p, row)
		}
	}
}

func TestEveryCautionIsWhole(t *testing.T) {
	kebab := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	for _, c := range []model.Caution{printing(), tips(0.2, 0.01), resistorHot(3)} {
		if words := len(strings.Fields(c.Summary + " " + c.Hint)); words > 30 || !kebab.MatchString(c.ID) || c.Hint == "" || c.Source == "" {
			t.Errorf("%s: %d words, or not whole", c.ID, words)
		}
	}
}
