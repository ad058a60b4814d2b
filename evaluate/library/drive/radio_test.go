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

// The independent route: between the curves' edge, 1.2·J0, and the held
// propeller the torque over V² is straight in n·D/V, which gives the speed by
// hand; what is held drags as stopped.
func TestWindmilling(t *testing.T) {
	m := lapwing()
	d := m.Propeller.Diameter
	drag := 0.8 * 0.1 * math.Pi / 4 * d * d
	edge, j0 := 0.048*(1-0.57*1.44)/(1.44*0.75*0.75), 0.75
	for _, v := range []float64{3, 7, 12, 18} {
		got := kit.Must(Windmilling(WindmillingInput{Motor: m.Motor, Propeller: m.Propeller, Airspeed: v, Density: 1.225}))(t)
		held := drag * 0.5 * 1.225 * v * v * j0 * d / (2 * math.Pi) // torque
		most := edge * 1.225 * v * v * d * d * d / (2 * math.Pi)
		part := (held - m.Motor.IdleCurrent/m.Motor.Kv) / (held + most)
		if got.Turns != (part > 0) {
			t.Errorf("at %g m/s it turns: %v, part %g", v, got.Turns, part)
		}
		if got.Turns {
			kit.Near(t, "speed", got.Speed, 2*math.Pi*part*v/(d*1.2*j0), 1e-9)
			continue
		}
		kit.Near(t, "drag as stopped", got.DragArea, drag, 1e-12)
	}
}

// Past zero thrust the published propeller still takes power: CT −0.0386, CP
// 0.0073 at J 0.782 and 4997 rpm (UIUC Propeller Database vol. 1), so that one
// without a torque turns slower than that, and drags no more than that row or
// the held one. Rows that end pulling say nothing of it. The row at J 1 is made up.
func TestWindmillingMeasured(t *testing.T) {
	free := MotorModel{Kv: 100, Resistance: 0.1}
	p := PropellerModel{Diameter: 0.254, Data: []MeasuredRow{{J: 0.487, CT: 0.0425, CP: 0.0334}, {J: 0.636, CT: 0.0040, CP: 0.022}}}
	_, err := Windmilling(WindmillingInput{Motor: free, Propeller: p, Airspeed: 10, Density: 1.225})
	kit.Refuses(t, err, "propeller.data")
	p.Data = append(p.Data, MeasuredRow{J: 0.782, CT: -0.0386, CP: 0.0073})
	got := kit.Must(Windmilling(WindmillingInput{Motor: free, Propeller: p, Airspeed: 10, Density: 1.225}))(t)
	row, held := 2*0.0386/(0.782*0.782)*0.254*0.254, 0.8*0.1*math.Pi/4*0.254*0.254
	if got.Speed >= 2*math.Pi*10/(0.782*0.254) || got.DragArea > row || got.DragArea < held {
		t.Errorf("%g rad/s and a drag area of %g m²: between %g and %g", got.Speed, got.DragArea, held, row)
	}
	p.Data = append(p.Data, MeasuredRow{J: 1.0, CT: -0.1, CP: -0.02})
	got = kit.Must(Windmilling(WindmillingInput{Motor: free, Propeller: p, Airspeed: 10, Density: 1.225}))(t)
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
