package drive

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

func TestBecPoint(t *testing.T) {
	linear := RadioModel{Kind: "linear", Voltage: 5, Dropout: 0.3, Current: 0.15, Efficiency: 0.85}
	kit.Near(t, "least input", kit.Must(Bec(BecInput{linear}))(t).LeastInput, 5.3, 1e-15)
	got := kit.Must(BecPoint(BecPointInput{Bec: linear, Input: 8, SourceResistance: 0.1}))(t)
	kit.Near(t, "heat of a linear one", got.Heat, (8-0.015-5)*0.15, 1e-12)
	sinks := kit.Must(BecPoint(BecPointInput{Bec: linear, Input: 5.35, SourceResistance: 0.1, Current: new(1.2)}))(t)
	kit.Near(t, "output at a servo's stall", sinks.Output, 5.35-0.12-0.3, 1e-12)
	if !kit.Raised(sinks.List, "radio-voltage-sinks") {
		t.Error("a sinking output raises no caution")
	}
	switching := linear
	switching.Kind = "switching"
	for _, v := range []float64{5.4, 7, 12} {
		p := kit.Must(BecPoint(BecPointInput{Bec: switching, Input: v, SourceResistance: 0.2}))(t)
		kit.Near(t, "power through a switching one", p.Terminal*p.InputCurrent*0.85, 5*0.15, 1e-12)
		kit.Near(t, "its heat", p.Heat, p.Terminal*p.InputCurrent*0.15, 1e-12)
		kit.Near(t, "terminal", p.Terminal, v-0.2*p.InputCurrent, 1e-12)
	}
	for field, in := range map[string]BecPointInput{
		"bec.kind": {Input: 5}, "bec.efficiency": {Bec: RadioModel{Kind: "linear", Voltage: 5, Efficiency: 1.1}, Input: 5},
		"input": {Bec: linear, Input: 0.2}, "current": {Bec: linear, Input: 8, Current: new(-1.0)},
	} {
		_, err := BecPoint(in)
		kit.Refuses(t, err, field)
	}
	_, err := BecPoint(BecPointInput{Bec: switching, Input: 1, SourceResistance: 10, Current: new(1.0)})
	kit.Refuses(t, err, "input")
}

// The independent route: with the curves n² = 0.57·(V/(J0·D))² − 2π·I0/(Kv·ρ·D⁵·CP0).
func TestWindmilling(t *testing.T) {
	m := lapwing()
	for _, v := range []float64{3, 7, 12, 18} {
		got := kit.Must(Windmilling(WindmillingInput{m.Motor, m.Propeller, v, 0.1, 1.225}))(t)
		d := m.Propeller.Diameter
		zero := v / (0.75 * d)
		square := 0.57*zero*zero - 2*math.Pi*m.Motor.IdleCurrent/(m.Motor.Kv*1.225*math.Pow(d, 5)*0.048)
		if got.Turns != (square > 0) {
			t.Errorf("at %g m/s it turns: %v, n² = %g", v, got.Turns, square)
		}
		if got.Turns {
			kit.Near(t, "speed", got.Speed, 2*math.Pi*math.Sqrt(square), 1e-10)
			continue
		}
		kit.Near(t, "drag as stopped", got.DragArea, 0.8*0.1*math.Pi/4*d*d, 1e-12)
		if !kit.Raised(got.List, "propeller-held") {
			t.Error("a held propeller is not said to be held")
		}
	}
}

// Past zero thrust the published propeller still takes power: CT −0.0386, CP
// 0.0073 at J 0.782 and 4997 rpm (UIUC Propeller Database vol. 1), so that no
// row of it is a windmill, and nothing is extrapolated. The row at J 1 is made up.
func TestWindmillingMeasured(t *testing.T) {
	p := PropellerModel{Diameter: 0.254, Data: []MeasuredRow{{0.636, 0.0040, 0.022}, {0.782, -0.0386, 0.0073}}}
	_, err := Windmilling(WindmillingInput{MotorModel{Kv: 100, Resistance: 0.1}, p, 10, 0.1, 1.225})
	kit.Refuses(t, err, "propeller.data")
	p.Data = append(p.Data, MeasuredRow{1.0, -0.1, -0.02})
	got := kit.Must(Windmilling(WindmillingInput{MotorModel{Kv: 100, Resistance: 0.1}, p, 10, 0.1, 1.225}))(t)
	j := 0.782 + 0.218*0.0073/0.0273
	kit.Near(t, "advance ratio without torque", 2*math.Pi*10/(got.Speed*0.254), j, 1e-9)
}

// TestBecPublished: a series regulator that makes 50 V at 10 A of 100 V takes
// 1000 W and turns 500 W into heat (R. W. Erickson, Fundamentals of Power
// Electronics, chapter 1, from memory).
func TestBecPublished(t *testing.T) {
	const source = "Erickson, Fundamentals of Power Electronics, chapter 1"
	made := kit.Must(Bec(BecInput{RadioModel{Kind: "linear", Voltage: 50, Current: 10, Efficiency: 1}}))(t)
	got := kit.Must(BecPoint(BecPointInput{Bec: made.RadioModel, Input: 100}))(t)
	kit.Near(t, source, got.Terminal*got.InputCurrent, 1000, 1e-12)
	kit.Near(t, source, got.Heat, 500, 1e-12)
}
