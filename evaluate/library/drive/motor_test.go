package drive

import (
	"math"
	"testing"

	"inkwing/evaluate/library/internal/kit"
)

const rpm = math.Pi / 30

const firstOrder = "first-order d.c. motor model, textbooks (a minimiser agrees)"

func TestMotorPoint(t *testing.T) {
	for _, row := range []struct {
		kv, r, i0, v, i                                                          float64
		constant, speed, torque, shaft, input, efficiency, best, at, idle, stall float64
	}{
		{1000, 0.09, 0.7, 11.1, 12, 0.009549297, 10020, 0.1079071, 113.226, 133.2, 0.850045, 0.8550015, 9.29157, 11037, 123.333},
		{3200, 0.35, 0.25, 5, 3, 0.002984155, 12640, 8.206427e-3, 10.8625, 15, 0.7241667, 0.7529249, 1.88982, 15720, 14.2857},
	} {
		m := kit.Must(Motor(MotorInput{MotorModel{Kv: row.kv * rpm, Resistance: row.r, IdleCurrent: row.i0}}))(t)
		kit.Near(t, "torque constant, "+firstOrder, m.TorqueConstant, row.constant, kit.Digits(7))
		got := kit.Must(MotorPoint(MotorPointInput{Motor: m.MotorModel, Voltage: row.v, Current: row.i}))(t)
		kit.Near(t, "speed, "+firstOrder, got.Speed/rpm, row.speed, kit.Digits(7))
		kit.Near(t, "torque, "+firstOrder, got.Torque, row.torque, kit.Digits(7))
		kit.Near(t, "shaft power, "+firstOrder, got.ShaftPower, row.shaft, kit.Digits(6))
		kit.Near(t, "input, "+firstOrder, got.ShaftPower/got.Efficiency, row.input, kit.Digits(6))
		kit.Near(t, "efficiency, "+firstOrder, got.Efficiency, row.efficiency, kit.Digits(6))
		kit.Near(t, "best efficiency, "+firstOrder, got.BestEfficiency, row.best, kit.Digits(7))
		kit.Near(t, "best current, "+firstOrder, got.BestCurrent, row.at, kit.Digits(6))
		kit.Near(t, "idle speed, "+firstOrder, got.IdleSpeed/rpm, row.idle, kit.Digits(7))
		kit.Near(t, "stall current, "+firstOrder, got.StallCurrent, row.stall, kit.Digits(6))

		found := kit.GoldenSection(func(i float64) float64 {
			return -kit.Must(MotorPoint(MotorPointInput{m.MotorModel, row.v, i}))(t).Efficiency
		}, row.i0, row.v/row.r)
		kit.Near(t, "best current by minimiser", got.BestCurrent, found, 1e-6)
	}
}

// ke 0.12 V·s/rad, 48 V, 2 V of drops, 2 × 0.15 Ω: 3819.72 rpm without load,
// 153.333 A and 18.4 N·m at the start.
func TestMotorPublished(t *testing.T) {
	const source = "open textbook companion, brushless motor, example 4.4"
	m := MotorModel{Kv: 1 / 0.12, Resistance: 0.30}
	idle := kit.Must(MotorPoint(MotorPointInput{m, 46, 0}))(t)
	kit.Near(t, "start current, "+source, idle.StallCurrent, 153.333, kit.Digits(6))
	start := kit.Must(MotorPoint(MotorPointInput{m, 46, idle.StallCurrent}))(t)
	kit.Near(t, "start torque, "+source, start.Torque, 18.4, kit.Digits(6))
	still := kit.Must(MotorPoint(MotorPointInput{m, 48, 0}))(t)
	kit.Near(t, "no-load speed without the drops, "+source, still.Speed/rpm, 3819.72, kit.Digits(6))
}

func TestMotorRefusesAndCautions(t *testing.T) {
	good := MotorModel{Kv: 100, Resistance: 0.2, IdleCurrent: 0.3, CurrentLimit: new(5.0)}
	hot := kit.Must(MotorPoint(MotorPointInput{good, 10, 6}))(t)
	if !kit.Raised(hot.List, "motor-over-current") || !kit.Raised(hot.List, "spinning-propeller") {
		t.Errorf("cautions %v", hot.List)
	}
	_, err := MotorPoint(MotorPointInput{good, 1, 6})
	kit.Refuses(t, err, "current")
	for field, spoil := range map[string]func(*MotorModel){
		"Kv": func(m *MotorModel) { m.Kv = 0 }, "resistance": func(m *MotorModel) { m.Resistance = 0 },
		"idle_current": func(m *MotorModel) { m.IdleCurrent = -1 }, "current_limit": func(m *MotorModel) { m.CurrentLimit = new(0.0) },
	} {
		m := good
		spoil(&m)
		_, err := Motor(MotorInput{m})
		kit.Refuses(t, err, field)
		_, err = MotorPoint(MotorPointInput{m, 10, 1})
		kit.Refuses(t, err, "motor."+field)
	}
}
