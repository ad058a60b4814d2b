package glide

import (
	"math"
	"testing"
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
		m := must[MotorResult](t)(Motor(MotorInput{MotorModel{Kv: row.kv * rpm, Resistance: row.r, IdleCurrent: row.i0}}))
		near(t, "torque constant, "+firstOrder, m.TorqueConstant, row.constant, digits(7))
		got := must[MotorPointResult](t)(MotorPoint(MotorPointInput{Motor: m.MotorModel, Voltage: row.v, Current: row.i}))
		near(t, "speed, "+firstOrder, got.Speed/rpm, row.speed, digits(7))
		near(t, "torque, "+firstOrder, got.Torque, row.torque, digits(7))
		near(t, "shaft power, "+firstOrder, got.ShaftPower, row.shaft, digits(6))
		near(t, "input, "+firstOrder, got.ShaftPower/got.Efficiency, row.input, digits(6))
		near(t, "efficiency, "+firstOrder, got.Efficiency, row.efficiency, digits(6))
		near(t, "best efficiency, "+firstOrder, got.BestEfficiency, row.best, digits(7))
		near(t, "best current, "+firstOrder, got.BestCurrent, row.at, digits(6))
		near(t, "idle speed, "+firstOrder, got.IdleSpeed/rpm, row.idle, digits(7))
		near(t, "stall current, "+firstOrder, got.StallCurrent, row.stall, digits(6))

		found := golden(func(i float64) float64 {
			return -must[MotorPointResult](t)(MotorPoint(MotorPointInput{m.MotorModel, row.v, i})).Efficiency
		}, row.i0, row.v/row.r)
		near(t, "best current by minimiser", got.BestCurrent, found, 1e-6)
	}
}

// ke 0.12 V·s/rad, 48 V, 2 V of drops, 2 × 0.15 Ω: 3819.72 rpm without load,
// 153.333 A and 18.4 N·m at the start.
func TestMotorPublished(t *testing.T) {
	const source = "open textbook companion, brushless motor, example 4.4"
	m := MotorModel{Kv: 1 / 0.12, Resistance: 0.30}
	idle := must[MotorPointResult](t)(MotorPoint(MotorPointInput{m, 46, 0}))
	near(t, "start current, "+source, idle.StallCurrent, 153.333, digits(6))
	start := must[MotorPointResult](t)(MotorPoint(MotorPointInput{m, 46, idle.StallCurrent}))
	near(t, "start torque, "+source, start.Torque, 18.4, digits(6))
	still := must[MotorPointResult](t)(MotorPoint(MotorPointInput{m, 48, 0}))
	near(t, "no-load speed without the drops, "+source, still.Speed/rpm, 3819.72, digits(6))
}

func TestMotorRefusesAndCautions(t *testing.T) {
	good := MotorModel{Kv: 100, Resistance: 0.2, IdleCurrent: 0.3, CurrentLimit: pointer(5)}
	hot := must[MotorPointResult](t)(MotorPoint(MotorPointInput{good, 10, 6}))
	if !raised(hot.Cautions, "motor-over-current") || !raised(hot.Cautions, "spinning-propeller") {
		t.Errorf("cautions %v", hot.List)
	}
	_, err := MotorPoint(MotorPointInput{good, 1, 6})
	wrongField(t, err, "current")
	for field, spoil := range map[string]func(*MotorModel){
		"Kv": func(m *MotorModel) { m.Kv = 0 }, "resistance": func(m *MotorModel) { m.Resistance = 0 },
		"idle_current": func(m *MotorModel) { m.IdleCurrent = -1 }, "current_limit": func(m *MotorModel) { m.CurrentLimit = pointer(0) },
	} {
		m := good
		spoil(&m)
		_, err := Motor(MotorInput{m})
		wrongField(t, err, field)
		_, err = MotorPoint(MotorPointInput{m, 10, 1})
		wrongField(t, err, "motor."+field)
	}
}
